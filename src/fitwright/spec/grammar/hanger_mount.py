"""What the mounts of a hanger share: which side the surface lies on, how far the hose's axis is from it."""

from __future__ import annotations

from abc import abstractmethod
from collections.abc import Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Length, Words
from fitwright.spec.hanger import HangerMount, Side

TO_AXIS = Length(10.0, 1000.0, auto=True)
TO_AXIS_SAYS = "From that surface to the hose's axis, in the file's units; as near as it fits if absent."
SIDES = ("up", "left", "right", "down")
_SIDE_SLIPS = (("above", "up"), ("top", "up"), ("ceiling", "up"), ("below", "down"), ("bottom", "down"))
_RUN_SLIPS = (("with", "along"), ("parallel", "along"), ("square", "across"), ("crosswise", "across"))
SideWord = Annotated[Side, Words(SIDES, _SIDE_SLIPS)]
LeftRight = Annotated[Literal["left", "right"], Words(("left", "right"))]
Runs = Annotated[Literal["along", "across"], Words(("along", "across"), _RUN_SLIPS)]
SIDE_SAYS = "On which side of the hose it lies, seen along the hose: {}; no unit. {} if absent."
RUNS_SAYS = "Whether it runs along the hose or across it: along or across; no unit. {} if absent."
SCREWS_SAYS = "The wood screws: a map of size, length, head and count, in the file's units; two of 5.0 mm if absent."
MOUNT_MEANT: Mapping[str, str] = {
    **dict.fromkeys(("axis", "distance", "offset", "off", "standoff"), "write to_axis"),
    **dict.fromkeys(("direction", "along", "across"), "write runs: along, or runs: across"),
    **dict.fromkeys(("where", "position", "on"), "write side"),
    **dict.fromkeys(("screw", "bolts"), "write screws"),
}


class MountGrammar(Grammar):
    """What all mounts share."""

    meant: ClassVar[Mapping[str, str]] = MOUNT_MEANT
    filled: ClassVar[tuple[str, ...]] = ("to_axis",)
    to_axis: Annotated[float | None, TO_AXIS] = Field(None, description=TO_AXIS_SAYS)

    @abstractmethod
    def mount(self) -> HangerMount:
        """As meant."""
