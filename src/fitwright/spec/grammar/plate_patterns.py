"""The bolt patterns of a flange plate: as those of a flange, each about its own middle, and how it was read."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, gather, under
from fitwright.spec.grammar.places import PlaceValue
from fitwright.spec.grammar.screws import HolesKeys
from fitwright.spec.grammar.values import Context, Length, Words
from fitwright.spec.joints import Holes, Place
from fitwright.spec.plate import PlatePattern
from fitwright.units import format_length

ReadWith = Literal["caliper", "tape", "tracing"]
READ_WITH: tuple[ReadWith, ...] = ("caliper", "tape", "tracing")
SLOTS_FROM_MM = 0.5
"""A pattern whose readings disagree by more gets slots (common practice, no source)."""
SLOT_IN_RESIDUALS = 4.0
"""A slot lets its bolt stand two residuals further in or out: readings miss by more than twice their residual one time
in twenty."""
MOST = 12


class PlateHolesKeys(HolesKeys):
    """A bolt pattern of a plate: so many on a circle, or single places, about its own middle."""

    example: ClassVar[str] = "{count: 4, circle: 130, size: M6, read_with: tape}"
    filled: ClassVar[tuple[str, ...]] = ("clearance",)
    meant: ClassVar[Mapping[str, str]] = {
        **HolesKeys.meant,
        **dict.fromkeys(("slot", "slots", "slot_length"), "write read_with: tape and residual: slots follow from them"),
        **dict.fromkeys(("measured_with", "tool", "read_by"), "write read_with"),
        **dict.fromkeys(("error", "rms", "scatter"), "write residual"),
        **dict.fromkeys(("centre", "center", "middle"), "write at"),
    }
    at: PlaceValue = Field(
        Place(0.0, 0.0),
        description="The middle of the pattern from the plate's middle, as a place, in the file's units; there if "
        "absent.",
    )
    read_with: Annotated[
        ReadWith, Words(READ_WITH, (("ruler", "tape"), ("rule", "tape"), ("paper", "tracing"), ("rubbing", "tracing")))
    ] = Field("caliper", description="How the pattern was read: caliper, tape or tracing; no unit; caliper if absent.")
    residual: Annotated[float | None, Length(0.0, 3.0)] = Field(
        None,
        description="How far the readings of tape or tracing miss the pattern (`fitwright measure` says it), in the "
        "file's units; above 0.5 mm the holes become slots.",
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.residual is not None and self.read_with == "caliper":
            found = "a residual beside read_with: caliper"
            hint = "a caliper's pattern that does not close by so much has a wrong reading in it: read it again"
            if "read_with" not in self.model_fields_set:
                found, hint = "a residual without read_with", "add `read_with: tape`"
            yield Fault(("residual",), found, "a residual beside read_with: tape or tracing", hint, at="key")
        yield from super().sense(context)
        if self.slot_mm and self.points is None and self.circle and self.count:
            apart = self.circle * math.sin(math.pi / self.count)
            if apart < 2 * self.hole_d_mm:
                say = partial(format_length, units=context.units)
                found, allowed = say(apart), f"hole centres {say(2 * self.hole_d_mm)} apart or more"
                yield Fault(("circle",), f"coarse holes {found} apart", allowed)

    @property
    def made_clearance(self) -> Literal["fine", "medium", "coarse"]:
        """As said; coarse for what no caliper read."""
        if "clearance" in self.model_fields_set or self.read_with == "caliper":
            return self.clearance
        return "coarse"

    @property
    def hole_d_mm(self) -> float:
        """Diameter of the holes [mm]."""
        return self.row.hole_mm(self.made_clearance)

    @property
    def slot_mm(self) -> float:
        """How much longer than wide the holes are [mm]; 0 where they are round."""
        if self.residual is None or self.residual <= SLOTS_FROM_MM:
            return 0.0
        return math.ceil(10.0 * SLOT_IN_RESIDUALS * self.residual - 1e-6) / 10.0

    def pattern(self, key: str) -> PlatePattern:
        """The pattern at its place."""
        shift = self.at.right_mm, self.at.up_mm
        made = super().meant_as()
        points = tuple(Place(p.right_mm + shift[0], p.up_mm + shift[1]) for p in made.points)
        changed = {"points": points, "hole_d_mm": self.hole_d_mm, "clearance": self.made_clearance}
        holes: Holes = made.model_copy(update=changed)
        return PlatePattern(holes=holes, at=self.at, slot_mm=self.slot_mm, key=key, read_with=self.read_with)


def _one(value: object, key: str, context: Context) -> PlatePattern:
    return PlateHolesKeys.read(value, context).pattern(key)


def read_patterns(value: object, context: Context) -> tuple[PlatePattern, ...]:
    """One map, or a list of maps."""
    if not isinstance(value, list):
        return (_one(value, "holes", context),)
    if not 1 <= len(value) <= MOST:
        raise FaultError([Fault((), shown(value), f"1 to {MOST} patterns, such as [{PlateHolesKeys.example}]")])
    one = [under((k,), partial(_one, each, f"holes[{k + 1}]", context)) for k, each in enumerate(value)]
    return tuple(gather(list(one)))


PatternsValue = Annotated[tuple[PlatePattern, ...], Forms(read_patterns, PlateHolesKeys | list[PlateHolesKeys])]
