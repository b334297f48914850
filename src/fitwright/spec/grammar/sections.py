"""Sections other than round, as the YAML says them: rectangle, slot-ended (oval), or an outline of points and arcs."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from typing import Annotated, Any, ClassVar

from pydantic import Field

from fitwright import section as s
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, best_form
from fitwright.spec.grammar.measured import Catalogue, Measured, read_measured
from fitwright.spec.grammar.outline import OutlineValue
from fitwright.spec.grammar.values import Context, Length
from fitwright.spec.outline import Outline
from fitwright.spec.size import Size, Status, from_readings, slip_in
from fitwright.units import format_length

LEAST_MM, MOST_MM = 10.0, 800.0
"""Sides of a duct."""
SIDE = Length(LEAST_MM, MOST_MM)
SHARPEST_DEG = 80.0
"""A corner of a section sharper than this makes tips too thin to print."""
SPREAD_MM = 0.5
"""Places of an outline are good to this each way (common practice, no source)."""


def read_side(value: object, context: Context) -> Size:
    """One side: a reading, several, or a catalogue's."""
    if isinstance(value, dict):
        said = Catalogue.read(value, context)
        low, high = said.tolerance
        return Size(said.catalogue, said.catalogue + low, said.catalogue + high, "catalogue", "catalogue")
    texts = value if isinstance(value, list) else [value]
    if not texts:
        raise FaultError([Fault((), "an empty list", "a reading such as 150.2, or a list of readings")])
    readings = tuple(SIDE.read(text, context) or 0.0 for text in texts)
    slip = slip_in(readings)
    if slip is not None:
        raise FaultError([Fault((slip,), shown(texts[slip]), "readings of one side, within 10 % of their mean")])
    return from_readings(readings)


SideValue = Annotated[Size, Forms(read_side, Annotated[float, SIDE] | list[Annotated[float, SIDE]] | Catalogue)]


class _TwoSides(Grammar):
    """Width and height, each measured."""

    width: SideValue = Field(description="Left to right, in the file's units; measured in any way.")
    height: SideValue = Field(description="Bottom to top, in the file's units; measured in any way.")

    def spread(self, section: s.Section, words: str) -> Size:
        """The size of both sides: its least and greatest are those of the side that is known less well."""
        sides = (self.width, self.height)
        below, above = _spread(sides)
        shorter = section.shorter_mm
        status: Status = "reading" if any(x.status == "reading" for x in sides) else "catalogue"
        source = sides[0].source if sides[0].source == sides[1].source else f"{sides[0].source} and {sides[1].source}"
        return Size(
            shorter,
            shorter - below,
            shorter + above,
            f"{words}, {source}",
            status,
            outline=section,
        )


def _spread(sides: tuple[Size, Size]) -> tuple[float, float]:
    below = max(x.nominal_mm - x.least_mm for x in sides)
    return below, max(x.greatest_mm - x.nominal_mm for x in sides)


class RectangleSection(_TwoSides):
    """A rectangular duct or port."""

    example: ClassVar[str] = "{width: 150, height: 60, corner: 6}"
    filled: ClassVar[tuple[str, ...]] = ("corner",)
    meant: ClassVar[Mapping[str, str]] = {"length": "write height, the side that stands up", "radius": "write corner"}
    corner: Annotated[float, Length(0.0, 400.0)] = Field(
        0.0, description="Radius of its corners, in the file's units; 0 (sharp) if absent."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        most = min(self.width.nominal_mm, self.height.nominal_mm) / 2
        if self.corner > most:
            allowed = f"at most {format_length(most, context.units)}, half the shorter side"
            yield Fault(("corner",), format_length(self.corner, context.units), allowed)

    def size(self) -> Size:
        """The section as a size."""
        return self.spread(s.rectangle(self.width.nominal_mm, self.height.nominal_mm, self.corner), "rectangle")


class OvalSection(_TwoSides):
    """A slot-ended duct (flat oval): two half circles and straights between them."""

    example: ClassVar[str] = "{width: 200, height: 80}"

    def sense(self, context: Context) -> Iterator[Fault]:
        if abs(self.width.nominal_mm - self.height.nominal_mm) < 0.05:
            yield Fault(("height",), "an oval as high as it is wide", "two different sides", "a circle is one number")

    def size(self) -> Size:
        """The section as a size."""
        return self.spread(s.oval(self.width.nominal_mm, self.height.nominal_mm), "oval")


class RectangleForm(Grammar):
    """`rectangle:` and what it says."""

    example: ClassVar[str] = f"{{rectangle: {RectangleSection.example}}}"
    rectangle: RectangleSection = Field(description="A rectangle; lengths in the file's units.")

    def size(self) -> Size:
        """The section as a size."""
        return self.rectangle.size()


class OvalForm(Grammar):
    """`oval:` and what it says."""

    example: ClassVar[str] = f"{{oval: {OvalSection.example}}}"
    oval: OvalSection = Field(description="Slot-ended: two half circles and straights; lengths in the file's units.")

    def size(self) -> Size:
        """The section as a size."""
        return self.oval.size()


class PointsForm(Grammar):
    """`points:` and what it says."""

    example: ClassVar[str] = "{points: [{right: 50, up: -20}, {right: 50, up: 20}, {left: 40, up: 0}]}"
    points: OutlineValue = Field(
        description="An outline as places round the mouth's centre, in the file's units; closed by itself."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        try:
            section = _section_of(self.points)
        except s.SectionError as error:
            hint = "a hollow section cannot be led over to another; cover such a hole with a flange (covers:)"
            yield Fault(("points",), str(error), "an outline that bulges outwards all round the centre", hint)
            return
        for arc in section.arcs:
            if arc.radius_mm < 1.0 and math.degrees(arc.turn) > 180.0 - SHARPEST_DEG:
                found = f"a corner of {180.0 - math.degrees(arc.turn):.0f} deg at {arc.x:.1f} right, {arc.y:.1f} up"
                yield Fault(
                    ("points",), found, f"corners of {SHARPEST_DEG:g} deg or more", "lead an arc (via) round it"
                )
                return
        if section.shorter_mm < LEAST_MM or section.longer_mm > MOST_MM:
            found = f"an outline of {section.width_mm:.1f} x {section.height_mm:.1f} mm"
            yield Fault(("points",), found, f"sides of {LEAST_MM:g} to {MOST_MM:g} mm")

    def size(self) -> Size:
        """The section as a size."""
        section = _section_of(self.points)
        d = section.shorter_mm
        return Size(d, d - SPREAD_MM, d + SPREAD_MM, "outline from readings", "reading", outline=section)


_FORMS: dict[str, type[Grammar]] = {"rectangle": RectangleForm, "oval": OvalForm, "points": PointsForm}


def _section_of(outline: Outline) -> s.Section:
    from fitwright.spec.section_of import section_of  # brings in numpy: only where an outline is given

    return section_of(outline)


def or_section(read: Callable[[object, Context], Size]) -> Callable[[object, Context], Size]:
    """A reader that also knows sections other than round."""

    def both(value: object, context: Context) -> Size:
        form = best_form(value, _FORMS) if isinstance(value, dict) else None
        if form is not None:
            made = form.read(value, context)
            assert isinstance(made, RectangleForm | OvalForm | PointsForm)
            return made.size()
        try:
            return read(value, context)
        except FaultError as error:
            raise FaultError(_with_sections(fault, value) for fault in error.faults) from None

    return both


def _with_sections(fault: Fault, value: object) -> Fault:
    """A map that is no measured diameter may have been meant as a section."""
    if fault.path or not isinstance(value, dict):
        return fault
    return replace(fault, allowed=f"{fault.allowed}, {RectangleForm.example}, {OvalForm.example} or {{points: [...]}}")


SectionForms: Any = RectangleForm | OvalForm | PointsForm
MeasuredSection = Annotated[Size, Forms(or_section(read_measured), Measured | SectionForms)]
"""A diameter in any of its forms, or a section."""


OPENING = Length(20.0, 800.0, auto=True)


def read_opening(value: object, context: Context) -> Size | None:
    """A flange's opening: a diameter, a section, or None for `auto`."""
    if isinstance(value, dict):
        form = best_form(value, _FORMS)
        if form is None:
            raise FaultError([Fault((), shown(value), f"a diameter, {RectangleForm.example} or {OvalForm.example}")])
        made = form.read(value, context)
        assert isinstance(made, RectangleForm | OvalForm | PointsForm)
        return made.size()
    d = OPENING.read(value, context)
    return None if d is None else Size(d, d, d, "chosen", "catalogue")


OpeningValue = Annotated[Size | None, Forms(read_opening, Annotated[float | None, OPENING] | SectionForms)]
