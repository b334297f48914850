"""The openings of a flange plate: round, rectangular, slot-ended or of any outline, each at its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.outline import Outline, circle, rectangle
from fitwright.outline_forms import oval
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, gather, under
from fitwright.spec.grammar.outline import OutlineValue
from fitwright.spec.grammar.places import PlaceValue
from fitwright.spec.grammar.sections import OvalSection, RectangleSection
from fitwright.spec.grammar.values import Context, Length
from fitwright.spec.joints import Place
from fitwright.spec.plate import Opening
from fitwright.units import format_length

FORMS = ("round", "rectangle", "oval", "points")
MOST = 24
ROUND = Length(3.0, 1200.0)


class PlateOpeningKeys(Grammar):
    """One opening of a plate, at the middle if no place is given."""

    example: ClassVar[str] = "{round: 102, at: {up: 20}}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("diameter", "d", "circle"), "write round: its diameter"),
        **dict.fromkeys(("slot", "slot_ended"), "write oval: {width: , height: }"),
        **dict.fromkeys(("square", "rect"), "write rectangle: {width: , height: }"),
        **dict.fromkeys(("width", "height"), "write rectangle: {width: , height: }, or oval: {...} with round ends"),
        **dict.fromkeys(("right", "up", "left", "down"), "write at: {right: , up: }"),
        **dict.fromkeys(("place", "centre", "center"), "write at"),
    }
    round: Annotated[float | None, ROUND] = Field(None, description="Its diameter, in the file's units.")
    rectangle: RectangleSection | None = Field(None, description="A rectangle; lengths in the file's units.")
    oval: OvalSection | None = Field(
        None, description="Slot-ended: two half circles and straights; lengths in the file's units."
    )
    points: OutlineValue | None = Field(
        None, description="Any shape: its corners as places from `at`, in order, in the file's units; arcs by `via`."
    )
    at: PlaceValue = Field(
        Place(0.0, 0.0),
        description="Its middle from the plate's middle, as a place, in the file's units; there if absent.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        given = [key for key in FORMS if getattr(self, key) is not None]
        if not given:
            yield Fault((), "an opening without a shape", f"one of {', '.join(FORMS)}", f"such as {self.example}")
        elif len(given) > 1:
            yield Fault((given[1],), f"{given[0]} and {given[1]} together", "one of them", "delete one", at="key")

    def shape(self) -> Outline:
        """Its outline about its own middle."""
        if self.round is not None:
            return circle(self.round)
        if self.rectangle is not None:
            box = self.rectangle
            return rectangle(box.width.nominal_mm, box.height.nominal_mm, box.corner)
        if self.oval is not None:
            return oval(self.oval.width.nominal_mm, self.oval.height.nominal_mm)
        assert self.points is not None
        return self.points

    def words(self, context: Context) -> str:
        """What messages call it."""
        say = partial(format_length, units=context.units, unit=False, fraction=False)
        if self.round is not None:
            return f"the round opening of {format_length(self.round, context.units, fraction=False)}"
        sides = self.rectangle or self.oval
        if sides is not None:
            kind = "rectangular" if self.rectangle else "slot-ended"
            unit = context.units
            return f"the {kind} opening of {say(sides.width.nominal_mm)} x {say(sides.height.nominal_mm)} {unit}"
        return "the opening of points"

    def meant_as(self, key: str, context: Context) -> Opening:
        """The opening at its place."""
        shift = self.at.right_mm, self.at.up_mm
        return Opening(outline=self.shape().mapped(1.0, shift), at=self.at, words=self.words(context), key=key)


def _one(value: object, key: str, context: Context) -> Opening:
    if isinstance(value, str):
        ROUND.read(value, context)  # its faults then point at the value itself
        value = {"round": value}
    return PlateOpeningKeys.read(value, context).meant_as(key, context)


def read_openings(value: object, context: Context) -> tuple[Opening, ...]:
    """A diameter, one map, or a list of maps."""
    if not isinstance(value, list):
        return (_one(value, "openings", context),)
    if not 1 <= len(value) <= MOST:
        allowed = f"1 to {MOST} openings, such as [{PlateOpeningKeys.example}]"
        raise FaultError([Fault((), shown(value), allowed)])
    one = [under((k,), partial(_one, each, f"openings[{k + 1}]", context)) for k, each in enumerate(value)]
    return tuple(gather(list(one)))


OpeningsValue = Annotated[
    tuple[Opening, ...],
    Forms(read_openings, Annotated[float, ROUND] | PlateOpeningKeys | list[PlateOpeningKeys]),
]
