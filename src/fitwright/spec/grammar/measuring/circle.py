"""`measure: circle`: one round port, pipe or hose, by diameters, a tape, points on its rim, or a part of its arc."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, gather, under
from fitwright.spec.grammar.measured import DIAMETER, LEAST_MM, MOST_MM
from fitwright.spec.grammar.measuring.base import MeasureKeys
from fitwright.spec.grammar.measuring.several import Several
from fitwright.spec.grammar.places import PlaceKeys, PlaceValue
from fitwright.spec.grammar.values import Angle, Context, Length, Words, YesNo
from fitwright.spec.joints import Place
from fitwright.spec.size import slip_in
from fitwright.units import format_length

MOST_POINTS = 200
FLATTEST = 2.0
_POINTS = "a list of at least 3 points, such as [{right: 50}, {up: 50}, {left: 50}]"


def _points(value: object, context: Context) -> tuple[Place, ...]:
    if not isinstance(value, list):
        hint = "points stand in a file: fitwright measure FILE.yaml" if isinstance(value, str) else ""
        raise FaultError([Fault((), shown(value), _POINTS, hint)])
    if not 3 <= len(value) <= MOST_POINTS:
        raise FaultError([Fault((), shown(value), f"3 to {MOST_POINTS} points on the rim")])

    def one(entry: object) -> Place:
        return PlaceKeys.read(entry, context).place()

    return tuple(gather([under((i,), partial(one, entry)) for i, entry in enumerate(value)]))


class CircleKeys(MeasureKeys):
    """One round thing: diameters read across it, a tape round it, points on its rim, or a part of its arc."""

    example: ClassVar[str] = "{measure: circle, readings: [110.2, 110.5, 109.9], outside: yes}"
    plain_words: ClassVar[str] = "readings"
    measure: Annotated[Literal["circle"], Words(("circle",))] = Field(description="The kind: circle; no unit.")
    readings: Annotated[tuple[float, ...] | None, Several(DIAMETER)] = Field(
        None, description="Diameters read round it, in the file's units."
    )
    angles: Annotated[tuple[float, ...] | None, Several(Angle(-360.0, 360.0, signed=True), "angle")] = Field(
        None, description="Where each of the readings was taken, in degrees round it; as many as readings."
    )
    circumference: Annotated[
        tuple[float, ...] | None, Several(Length(LEAST_MM * math.pi, MOST_MM * math.pi), "circumference")
    ] = Field(None, description="The length of a tape or strip once round it, in the file's units; once or several.")
    points: Annotated[tuple[Place, ...] | None, Forms(_points, list[PlaceValue])] = Field(
        None, description="Three or more points on its rim, from a tracing; places in the file's units."
    )
    chord: Annotated[tuple[float, ...] | None, Several(Length(5.0, 400.0), "chord")] = Field(
        None, description="Straight across a part of the rim that cannot be spanned, in the file's units."
    )
    height: Annotated[tuple[float, ...] | None, Several(Length(0.2, 200.0), "height")] = Field(
        None, description="How high the arc stands over the middle of each chord, in the file's units."
    )
    outside: Annotated[bool, YesNo()] = Field(
        False, description="Yes where its outside was measured and the print goes over it; no unit."
    )
    inside: Annotated[bool, YesNo()] = Field(
        False, description="Yes where its inside was measured and the print goes into it; no unit."
    )
    soft: Annotated[bool, YesNo()] = Field(
        False, description="Yes for hose, or thin pipe, that is pressed round when it goes on; no unit."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self._one_way()
        yield from self._angles()
        yield from self._arc(context)
        yield from _squashed(self.readings, context) if self.soft else _slip("readings", self.readings, context)
        yield from _slip("circumference", self.circumference, context)
        if self.inside and self.outside:
            yield Fault(("inside",), "inside and outside together", "inside: yes or outside: yes", "delete one")

    def _one_way(self) -> Iterator[Fault]:
        if self.chord is None and self.height is None and not (self.readings or self.circumference or self.points):
            allowed = "readings, circumference, points, or chord and height"
            yield Fault(("readings",), "nothing", allowed, "add `readings:`", at="key")
        across = "readings" if self.readings else "circumference" if self.circumference else ""
        ways = [across, "points" if self.points else "", "chord" if self.chord or self.height else ""]
        told = [way for way in ways if way]
        if len(told) > 1:
            allowed = "one way to measure; only readings and circumference go together"
            yield Fault((told[1],), " and ".join(told), allowed, "one measuring file for each")
        if self.soft and not across:
            yield Fault(("soft",), f"soft with {told[0]}" if told else "soft", "soft with readings or circumference")

    def _angles(self) -> Iterator[Fault]:
        if self.angles is None:
            return
        if self.readings is None:
            yield Fault(("angles",), "angles without readings", "angles beside readings", at="key")
        elif len(self.angles) != len(self.readings):
            found = f"{len(self.angles)} for {len(self.readings)} readings"
            yield Fault(("angles",), found, "one angle for each reading")

    def _arc(self, context: Context) -> Iterator[Fault]:
        if (self.chord is None) != (self.height is None):
            there, missing = ("chord", "height") if self.height is None else ("height", "chord")
            yield Fault((missing,), "nothing", f"a {missing} for each {there}", f"add `{missing}:`", at="key")
        if self.chord is None or self.height is None:
            return
        if len(self.chord) != len(self.height):
            found = f"{len(self.height)} for {len(self.chord)} chords"
            yield Fault(("height",), found, "one height for each chord")
            return
        for i, (chord, height) in enumerate(zip(self.chord, self.height, strict=True)):
            if height > chord / 2.0:
                found = f"{format_length(height, context.units)} over a chord of {format_length(chord, context.units)}"
                where: tuple[str | int, ...] = ("height", i) if len(self.height) > 1 else ("height",)
                allowed = f"at most half the chord, {format_length(chord / 2.0, context.units)}"
                yield Fault(where, found, allowed, "an arc of more than half a circle can be read across: readings:")


def _squashed(readings: tuple[float, ...] | None, context: Context) -> Iterator[Fault]:
    """Hose lies as oval as it likes, but no flatter than two to one, or it is kinked."""
    if readings and max(readings) > FLATTEST * min(readings):
        at = readings.index(min(readings))
        say = [format_length(mm, context.units, fraction=False) for mm in (readings[at], max(readings))]
        allowed = "readings of one hose, no flatter than two to one"
        yield Fault(("readings", at), f"{say[0]} beside {say[1]}", allowed, "lay a tape round it: circumference:")


def _slip(key: str, readings: tuple[float, ...] | None, context: Context) -> Iterator[Fault]:
    at = slip_in(readings) if readings else None
    if readings and at is not None:
        others = ", ".join(format_length(r, context.units, fraction=False) for i, r in enumerate(readings) if i != at)
        found = f"{format_length(readings[at], context.units, fraction=False)} beside {others[:60]}"
        yield Fault((key, at), found, "readings within 10 % of their mean", "read it again: one size at a time")
