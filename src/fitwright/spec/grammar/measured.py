"""The ways to say a diameter: a reading, several, a circumference, a catalogue, two ends of a taper, a name."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial
from typing import Annotated, Any, ClassVar

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from fitwright import units as u
from fitwright.data import sizes
from fitwright.data.size_words import understand
from fitwright.data.sizes import AmbiguousSizeError, Face, SizeRow
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, best_form, gather, under
from fitwright.spec.grammar.values import Context, Length
from fitwright.spec.size import Size, from_catalogue, from_circumference, from_readings, slip_in

LEAST_MM, MOST_MM = 19.5, 316.5
"""Nominals of 20 to 315 mm, and what such a part may measure."""
DIAMETER = Length(LEAST_MM, MOST_MM)
STEEPEST_DEG = 15.0
"""A port's own taper beyond this half angle holds nothing; it is a slip of the keys."""
MAX_READINGS = 50


@dataclass(frozen=True)
class Tolerance:
    """`0.3`, `+0.3/0`, `0/-0.5`: lower and upper deviation [mm]."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": ["number", "string"]}

    def _validate(self, value: object, info: core_schema.ValidationInfo) -> tuple[float, float]:
        context = info.context or Context()
        try:
            low, high = u.parse_tolerance(value if isinstance(value, str) else "", context.units)
        except u.UnitError as error:
            raise FaultError([Fault((), shown(value), error.allowed, error.hint)]) from None
        if high - low > 20.0:
            raise FaultError([Fault((), shown(value), "a spread of at most 20 mm")])
        return low, high


class Circumference(Grammar):
    """A tape or strip of paper laid round it, or round its inside."""

    example: ClassVar[str] = "{circumference: 347}"
    circumference: Annotated[float, Length(LEAST_MM * math.pi, MOST_MM * math.pi)] = Field(
        description="The length once round it, in the file's units; the diameter is this divided by pi."
    )


class Catalogue(Grammar):
    """What a catalogue or standard says."""

    example: ClassVar[str] = "{catalogue: 110, tolerance: 0.3}"
    catalogue: Annotated[float, DIAMETER] = Field(description="The diameter from a catalogue, in the file's units.")
    tolerance: Annotated[tuple[float, float], Tolerance()] = Field(
        description="How much it may differ, in the file's units: `0.3` either way, or `+0.3/0`."
    )


def read_straight(value: object, context: Context) -> Size:
    """The size of one diameter, however it was measured."""
    if isinstance(value, str):
        return from_readings((_reading(value, context),))
    if isinstance(value, list):
        return _readings(value, context)
    form = (
        best_form(value, {"circumference": Circumference, "catalogue": Catalogue}) if isinstance(value, dict) else None
    )
    if form is Circumference:
        return from_circumference(Circumference.read(value, context).circumference)
    if form is Catalogue:
        said = Catalogue.read(value, context)
        return from_catalogue(said.catalogue, said.tolerance)
    raise FaultError([Fault((), shown(value), _ALLOWED)])


_Straight = Annotated[float, DIAMETER] | list[Annotated[float, DIAMETER]] | Circumference | Catalogue


class Tapered(Grammar):
    """A port that tapers: measured at its end face and again further along."""

    example: ClassVar[str] = "{end: 58.4, further: 60.2, apart: 30}"
    end: Annotated[Size, Forms(read_straight, _Straight)] = Field(
        description="The diameter at its very end, in the file's units; measured in any way."
    )
    further: Annotated[Size, Forms(read_straight, _Straight)] = Field(
        description="The same diameter further along, in the file's units; measured in any way."
    )
    apart: Annotated[float, Length(5.0, 300.0)] = Field(
        description="How far apart the two were measured, along the axis, in the file's units."
    )

    def size(self) -> Size:
        """The size at the end face, which knows its taper."""
        end, further = self.end, self.further
        below = max(end.nominal_mm - end.least_mm, further.nominal_mm - further.least_mm)
        above = max(end.greatest_mm - end.nominal_mm, further.greatest_mm - further.nominal_mm)
        return replace(
            end,
            least_mm=end.nominal_mm - below,
            greatest_mm=end.nominal_mm + above,
            source=end.source if end.source == further.source else f"{end.source} and {further.source}",
            ovality_mm=max(end.ovality_mm, further.ovality_mm),
            further_mm=further.nominal_mm,
            apart_mm=self.apart,
        )

    def sense(self, context: Context) -> Iterator[Fault]:
        half = abs(self.size().half_angle_deg)
        if half > STEEPEST_DEG:
            found = f"a taper of {half:.1f} deg to the axis"
            yield Fault(("further",), found, f"at most {STEEPEST_DEG:g} deg", "check end, further and apart")


def read_measured(value: object, context: Context) -> Size:
    """As `read_straight`, or a tapered port."""
    if isinstance(value, dict) and best_form(value, _TELLING) is Tapered:
        return Tapered.read(value, context).size()
    return read_straight(value, context)


_TELLING: dict[str, type[Grammar]] = {
    "circumference": Circumference,
    "catalogue": Catalogue,
    **dict.fromkeys(("end", "further", "apart"), Tapered),
}
_ALLOWED = (
    "one reading (107.1), a list of readings ([110.2, 110.5, 109.9]), {circumference: 347}, "
    "{catalogue: 110, tolerance: 0.3} or {end: 58.4, further: 60.2, apart: 30}"
)
Measured = Annotated[Size, Forms(read_measured, _Straight | Tapered)]
"""A diameter in any of its forms."""


def _reading(text: str, context: Context) -> float:
    try:
        number = DIAMETER.read(text, context)
    except FaultError as error:
        if any(character.isalpha() for character in text) and _names_a_size(text):
            raise FaultError(
                replace(f, hint="a size from the tables goes under `pipe:` or `hose:`") for f in error.faults
            ) from None
        raise
    assert number is not None  # DIAMETER has no `auto`
    return number


def _names_a_size(text: str) -> bool:
    return len(text) <= 60 and bool(understand(text).meanings)


def _readings(value: list[object], context: Context) -> Size:
    if not 1 <= len(value) <= MAX_READINGS:
        raise FaultError([Fault((), shown(value), f"1 to {MAX_READINGS} readings of one diameter")])
    calls = [under((i,), partial(_one_of_several, one, context)) for i, one in enumerate(value)]
    readings = tuple(gather(calls))
    slip = slip_in(readings)
    if slip is not None:
        found = f"{shown(value[slip])} beside {', '.join(str(v) for i, v in enumerate(value) if i != slip)[:60]}"
        hint = "read it again; a list is readings of one diameter, and only that"
        raise FaultError([Fault((slip,), found, "readings within 10 % of their mean", hint)])
    return from_readings(readings)


def _one_of_several(value: object, context: Context) -> float:
    if not isinstance(value, str):
        raise FaultError([Fault((), shown(value), "a reading such as 110.2")])
    return _reading(value, context)


@dataclass(frozen=True)
class TableSize:
    """A size by its name in the tables: a pipe's outside or inside, or a hose's inside."""

    what: str
    face: Face

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self._validate)

    def __get_pydantic_json_schema__(self, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": ["string", "number"]}

    def _validate(self, value: object) -> Size:
        allowed = f"a {self.what} of the tables, such as {_NAMES[self.what]}"
        if not isinstance(value, str) or not value.strip() or len(value) > 80:
            raise FaultError([Fault((), shown(value), allowed)])
        try:
            row = sizes.hose(value) if self.what == "hose" else sizes.pipe(value, face=self.face)
        except AmbiguousSizeError as error:
            raise FaultError([self._ambiguous(error)]) from None
        except DataError as error:
            raise FaultError([Fault((), shown(value), allowed, f"{error}"[:300])]) from None
        return self._size(row)

    def _ambiguous(self, error: AmbiguousSizeError) -> Fault:
        listed = "; ".join(f"{row.words} ({sizes.describe_face(row, self.face)})" for row in error.candidates)
        key = "over" if self.face == "outside" else "hose_inside" if self.what == "hose" else "into"
        hint = f"say which, or measure its {self.face} and write it under `{key}:`"
        return Fault((), f"{error.words!r}, which names {len(error.candidates)} different things", listed, hint)

    def _size(self, row: SizeRow) -> Size:
        nominal, least, greatest = row.face(self.face) or (0.0, 0.0, 0.0)
        if not LEAST_MM <= nominal <= MOST_MM:
            found = f"{row.words}, {self.face} {nominal:g} mm"
            raise FaultError([Fault((), found, f"{LEAST_MM:g} to {MOST_MM:g} mm")])
        return Size(
            nominal,
            least,
            greatest,
            f"table {row.words}" + (", tolerance assumed" if row.tolerance_status == "assumed" else ""),
            row.status,  # type: ignore[arg-type]  # the tables' own words are among ours
            further_mm=row.further_mm if self.face == "inside" else None,
            apart_mm=row.apart_mm if self.face == "inside" else None,
            wall_mm=row.wall_mm,
            inside_mm=row.inside_mm,
        )


_NAMES = {"pipe": "`EN 1401 DN 110`, `4 in sewer-and-drain`, `EN 1506 duct 100`", "hose": "`4 in`, `metric hose 100`"}
PipeOutside = Annotated[Size, TableSize("pipe", "outside")]
PipeInside = Annotated[Size, TableSize("pipe", "inside")]
HoseName = Annotated[Size, TableSize("hose", "inside")]
