"""Places in words: right or left, up or down, away or toward, from the centre of end_a's mouth face."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, ClassVar

from pydantic import Field

from fitwright.frame import Vec
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.values import Context, Length
from fitwright.spec.joints import Place

REACH = Length(-5000.0, 5000.0, signed=True)
_OPPOSITE = (("right", "left"), ("up", "down"), ("away", "toward"))


class PlaceKeys(Grammar):
    """A place in the plane of a mouth face."""

    example: ClassVar[str] = "{right: 20, up: 60}"
    right: Annotated[float | None, REACH] = Field(None, description="How far to the right, in the file's units.")
    left: Annotated[float | None, REACH] = Field(None, description="How far to the left, in the file's units.")
    up: Annotated[float | None, REACH] = Field(None, description="How far up, in the file's units.")
    down: Annotated[float | None, REACH] = Field(None, description="How far down, in the file's units.")

    def sense(self, context: Context) -> Iterator[Fault]:
        given = self.model_fields_set
        for one, other in _OPPOSITE:
            if one in given and other in given:
                yield Fault(
                    (other,), f"{one} and {other} together", f"{one} or {other}", f"delete one: {other} is -{one}"
                )
        if not given:
            yield Fault((), "an empty map", f"a map such as {self.example}")

    def along(self, one: str, other: str) -> float:
        """The coordinate [mm] along a direction, from whichever of the two opposite words was used."""
        positive, negative = getattr(self, one), getattr(self, other)
        if positive is not None:
            return float(positive)
        return 0.0 if negative is None else 0.0 - float(negative)

    def place(self) -> Place:
        """The place, right and up."""
        return Place(self.along("right", "left"), self.along("up", "down"))


class PointKeys(PlaceKeys):
    """A point in space."""

    example: ClassVar[str] = "{right: 20, up: 60, away: 100}"
    away: Annotated[float | None, REACH] = Field(None, description="How far away from you, in the file's units.")
    toward: Annotated[float | None, REACH] = Field(None, description="How far towards you, in the file's units.")

    def point(self) -> Vec:
        """(right, away, up) in mm."""
        return self.along("right", "left"), self.along("away", "toward"), self.along("up", "down")


PlaceValue = Annotated[Place, Forms(lambda value, context: PlaceKeys.read(value, context).place(), PlaceKeys)]
PointValue = Annotated[Vec, Forms(lambda value, context: PointKeys.read(value, context).point(), PointKeys)]
