"""What a hanger carries, as the YAML says it: a hose over its ribs, or a pipe."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.data import sizes
from fitwright.data.carried import HEAVIEST, OTHER_NAMES, hose_kinds
from fitwright.data.size_words import understand
from fitwright.errors import DataError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.gate_values import Mass
from fitwright.spec.grammar.measured import Measured, PipeOutside, TableSize
from fitwright.spec.grammar.values import Context, Length, Text, Words
from fitwright.spec.hanger import Carried
from fitwright.spec.size import Size
from fitwright.units import format_length

THICKEST_HOSE = 0.35
"""Inside and over the ribs differ by less than this share of the outside; more is a slip (common practice)."""
PIPE_MADE_OF = ("PVC", "ABS", "PP", "PE", "steel", "aluminium")
_OUTSIDES = dict.fromkeys(("over", "outside", "od", "diameter", "d", "ribs"), "write over_ribs: what is held")
_WEIGHTS = dict.fromkeys(("mass", "kg", "metre_weighs", "heavy"), "write weight: what one metre weighs")
_TO_MEASURE = "lay a strip of paper round it, over the ribs: hose: {over_ribs: {circumference: ...}}"


def hose_kind(text: str) -> str:
    """The kind as the table calls it; FaultError lists the kinds."""
    plain = OTHER_NAMES.get(text.casefold(), text)
    known = {kind.casefold(): kind for kind in (*hose_kinds(), HEAVIEST)}
    if plain.casefold() not in known:
        hint = nearest(text, [*hose_kinds(), *OTHER_NAMES])
        raise FaultError([Fault((), shown(text), " | ".join(hose_kinds()), hint)])
    return known[plain.casefold()]


class HangerHoseKeys(Grammar):
    """The hose that it carries."""

    example: ClassVar[str] = "{over_ribs: 108.4}"
    filled: ClassVar[tuple[str, ...]] = ("kind",)
    meant: ClassVar[Mapping[str, str]] = {
        **_OUTSIDES,
        **_WEIGHTS,
        **dict.fromkeys(("id", "bore", "into", "hose_inside", "name", "named"), "write inside"),
        **dict.fromkeys(("squeeze", "squashed", "squashes_to", "flat"), "write squeezes_to"),
        **dict.fromkeys(("material", "type"), "write kind"),
    }
    over_ribs: Measured | None = Field(
        None,
        description="Outside over the ribs (of a smooth hose, its outside), in the file's units: a diameter, measured "
        "in any way.",
    )
    inside: Annotated[float | None, Length(10.0, 300.0)] = Field(
        None,
        description="Its inside, in the file's units; for the weight of hose and dust. Taken from over_ribs if absent.",
    )
    squeezes_to: Annotated[float | None, Length(3.0, 300.0)] = Field(
        None,
        description="How narrow it goes when you press it flat by hand, in the file's units; that it goes through a "
        "hook's throat is reckoned with a common figure if absent.",
    )
    kind: Annotated[str, Text("a kind of hose", 40, hose_kind)] = Field(
        HEAVIEST,
        description="What hose it is, for its weight: ribbed PVC, light polyurethane, heavy polyurethane, vacuum "
        "cleaner hose; no unit. The heaviest of the usual ones if absent.",
    )
    weight: Annotated[float | None, Mass(0.02, 20.0)] = Field(
        None, description="What one metre of it weighs, empty, with its unit (0.6 kg); from a table by kind if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.over_ribs is None:
            yield self._no_outside(context)
            return
        if self.over_ribs.further_mm is not None:
            yield Fault(("over_ribs",), "a hose that tapers", "one diameter", "measure where the hanger sits")
            return
        over, say = self.over_ribs.nominal_mm, partial(format_length, units=context.units)
        if self.inside is not None and not (1 - THICKEST_HOSE) * over <= self.inside < over:
            found = f"{say(self.inside)} inside and {say(over)} over the ribs"
            allowed = f"an inside from {say((1 - THICKEST_HOSE) * over)} to less than {say(over)}"
            hint = "swapped?" if self.inside >= over else "one of the two is a slip"
            yield Fault(("inside",), found, allowed, hint)
        if self.squeezes_to is not None and self.squeezes_to >= over:
            found = f"{say(self.squeezes_to)}, and {say(over)} round"
            yield Fault(("squeezes_to",), found, f"less than {say(over)}", "its narrow side, pressed flat by hand")

    def _no_outside(self, context: Context) -> Fault:
        """From the inside alone nothing is made: hoses of one inside differ by 8 mm and more outside."""
        if self.inside is None:
            return Fault(("over_ribs",), "nothing", self._says("over_ribs"), _TO_MEASURE, at="key")
        found = f"only its inside, {format_length(self.inside, context.units)}"
        allowed = "over_ribs beside it: hoses of one inside differ by 8 mm and more outside, and the outside is held"
        return Fault(("inside",), found, allowed, _TO_MEASURE, at="key")

    def carried(self) -> Carried:
        """As meant."""
        assert self.over_ribs is not None  # sense
        return Carried(
            kind="hose",
            size=self.over_ribs,
            inside_mm=self.inside,
            squeezed_mm=self.squeezes_to,
            kg_per_m=self.weight,
            hose_kind=self.kind,
            key="hose.over_ribs",
        )


class HangerPipeKeys(Grammar):
    """The pipe that it carries."""

    example: ClassVar[str] = "{over: 110.2}"
    filled: ClassVar[tuple[str, ...]] = ("material",)
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("outside", "od", "diameter", "d", "over_ribs"), "write over: its outside"),
        **dict.fromkeys(("id", "bore", "into", "inside"), "write wall, and over for its outside"),
        **dict.fromkeys(("thickness",), "write wall"),
        **dict.fromkeys(("name", "named"), "write pipe: EN 1401 DN 110"),
        **_WEIGHTS,
    }
    over: Measured = Field(
        description="Outside of the pipe where it is held, in the file's units: a diameter, measured in any way."
    )
    wall: Annotated[float | None, Length(0.4, 30.0)] = Field(
        None, description="Its wall, in the file's units; for its weight and that of the dust. A usual one if absent."
    )
    material: Annotated[
        Literal["PVC", "ABS", "PP", "PE", "steel", "aluminium"],
        Words(PIPE_MADE_OF, (("pvc", "PVC"), ("abs", "ABS"), ("pp", "PP"), ("pe", "PE"), ("aluminum", "aluminium"))),
    ] = Field("PVC", description="What it is made of, for its weight; no unit. PVC if absent.")
    weight: Annotated[float | None, Mass(0.02, 60.0)] = Field(
        None, description="What one metre of it weighs, empty, with its unit (1.5 kg); from its wall if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.over.further_mm is not None:
            yield Fault(("over",), "a pipe that tapers", "one diameter", "measure where the hanger sits")
        elif self.wall is not None and self.wall >= self.over.nominal_mm / 2:
            most = format_length(self.over.nominal_mm / 2, context.units)
            yield Fault(("wall",), format_length(self.wall, context.units), f"less than {most}, half the outside")

    def carried(self) -> Carried:
        """As meant."""
        size = self.over if self.wall is None else replace(self.over, wall_mm=self.wall)
        return _pipe(size, "pipe.over", self.material, self.weight)


def _pipe(size: Size, key: str, material: str, weight: float | None) -> Carried:
    wall = size.wall_mm
    inside = size.inside_mm or (size.nominal_mm - 2 * wall if wall else None)
    return Carried(kind="pipe", size=size, inside_mm=inside, kg_per_m=weight, pipe_of=material, key=key)


def read_hose(value: object, context: Context) -> HangerHoseKeys:
    """A map; a bare number or a hose's name does not say the outside."""
    if isinstance(value, str):
        raise FaultError([_bare(value)])
    return HangerHoseKeys.read(value, context)


def _bare(value: str) -> Fault:
    """A number alone, or a hose by its name, which is its inside."""
    allowed = f"a map such as {HangerHoseKeys.example}"
    if not any(letter.isalpha() or letter in "\"'" for letter in value):
        return Fault((), f"{shown(value)}, which does not say where it was measured", allowed, _TO_MEASURE)
    try:
        row = sizes.hose(value)
        inside = row.face("inside")
        found = f"{row.words}, which names its inside" + (f", {inside[0]:g} mm" if inside else "")
        return Fault((), found, f"its outside over the ribs: {allowed}", _TO_MEASURE)
    except DataError:
        return Fault((), shown(value), allowed, _TO_MEASURE)


def read_pipe(value: object, context: Context) -> Carried:
    """A name of the tables, or a map."""
    if isinstance(value, dict):
        return HangerPipeKeys.read(value, context).carried()
    if isinstance(value, str) and not understand(value).meanings and _plain(value):
        found = f"{shown(value)}, which is no pipe's name"
        raise FaultError(
            [
                Fault(
                    (),
                    found,
                    f"a pipe's name, or a map such as {HangerPipeKeys.example}",
                    f"did you mean {{over: {value.strip()}}}?",
                )
            ]
        )
    size = TableSize("pipe", "outside")._validate(value)
    return _pipe(size, "pipe", _material(size.source), None)


def _plain(value: str) -> bool:
    return not any(letter.isalpha() for letter in value)


def _material(source: str) -> str:
    """What a pipe of that table is made of; most are PVC."""
    if "1451" in source:
        return "PP"
    return "steel" if "1506" in source or "duct" in source else "ABS" if "D2661" in source else "PVC"


HoseValue = Annotated[HangerHoseKeys, Forms(read_hose, HangerHoseKeys)]
PipeValue = Annotated[Carried, Forms(read_pipe, PipeOutside | HangerPipeKeys, "a pipe's name, or a map")]
