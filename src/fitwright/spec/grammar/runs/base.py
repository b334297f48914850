"""What all hose runs share, and places in the room."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.frame import Vec
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar
from fitwright.spec.grammar.hanger_carried import HoseValue
from fitwright.spec.grammar.parts import slug
from fitwright.spec.grammar.places import PointKeys
from fitwright.spec.grammar.values import Context, Length, Text, Words
from fitwright.units import format_length

ROOM = Length(-20_000.0, 20_000.0, signed=True)
_FAR = Annotated[float | None, ROOM]
_DUST = (("sawdust", "fine"), ("sanding", "fine"), ("planer", "shavings"))
FACES: dict[str, Vec] = {
    "right": (1.0, 0.0, 0.0),
    "left": (-1.0, 0.0, 0.0),
    "away": (0.0, 1.0, 0.0),
    "toward": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}
_TOWARDS = (("towards", "toward"), ("forward", "toward"), ("back", "away"), ("front", "toward"), ("top", "up"))
FaceWords = Words((*FACES, "turns"), (*_TOWARDS, ("swivel", "turns"), ("any", "turns"), ("swivels", "turns")))
Face = Literal["right", "left", "away", "toward", "up", "down", "turns"]


def _name(text: str) -> str:
    """A name that is safe for files."""
    made = slug(text)
    if not made:
        raise FaultError([Fault((), shown(text), "a name with at least one plain letter or digit")])
    return made


class RoomPointKeys(PointKeys):
    """A place in the room, from any point of yours, the same for the whole file."""

    example: ClassVar[str] = "{right: 1200, up: 2100}"
    right: _FAR = Field(None, description="How far to the right, in the file's units; 0 if absent.")
    left: _FAR = Field(None, description="How far to the left, in the file's units; 0 if absent.")
    up: _FAR = Field(None, description="How far up, in the file's units; 0 if absent.")
    down: _FAR = Field(None, description="How far down, in the file's units; 0 if absent.")
    away: _FAR = Field(None, description="How far away from you, in the file's units; 0 if absent.")
    toward: _FAR = Field(None, description="How far towards you, in the file's units; 0 if absent.")

    def sense(self, context: Context) -> Iterator[Fault]:
        if self.model_fields_set:
            yield from super().sense(context)
            if {"away", "toward"} <= self.model_fields_set:
                yield Fault(("toward",), "away and toward together", "away or toward", "delete one")
        else:
            yield Fault((), "an empty map", f"a map such as {self.example}")


RoomPoint = Annotated[Vec, Forms(lambda value, context: RoomPointKeys.read(value, context).point(), RoomPointKeys)]
Label = Annotated[str | None, Text("a few words", 40)]


class PlacedKeys(Grammar):
    """Something at a place in the room."""

    example: ClassVar[str] = "{at: {right: 1200, up: 2100}}"
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys((*FACES,), "write at: {right: ..., up: ...}"),
        **dict.fromkeys(("place", "position", "where"), "write at"),
        **dict.fromkeys(("name", "called"), "write label"),
        **dict.fromkeys(("height", "z"), "write at: {up: ...}"),
    }
    at: RoomPoint = Field(description="Where the hose's axis is there, as a place in the room, in the file's units.")
    label: Label = Field(None, description="What it is, in your words, for pictures and messages; no unit.")


class RunKeys(Grammar):
    """What every hose run may say."""

    filled: ClassVar[tuple[str, ...]] = ("bend_radius", "dust")
    meant: ClassVar[Mapping[str, str]] = {
        **dict.fromkeys(("over_ribs", "inside"), "this key stands under hose: hose: {over_ribs: ...}"),
        **dict.fromkeys(("run", "kind", "type"), "write hose_run: row or hose_run: moving_head"),
        **dict.fromkeys(("radius", "least_radius", "min_radius"), "write bend_radius"),
        **dict.fromkeys(("floor", "table", "bed", "above", "clear"), "write keep_above: no part of the hose lower"),
        **dict.fromkeys(("unit",), "write units"),
    }
    hose_run: str
    name: Annotated[str | None, Text("a short name", 60, _name, number=True)] = Field(
        None, description="Name of the run and of its files; the YAML file's name if absent; no unit."
    )
    units: Annotated[Literal["mm", "in"], Words(("mm", "in"), (("inch", "in"), ("inches", "in"), ("metric", "mm")))] = (
        Field("mm", description="Unit of plain numbers in this file and of the answers: mm or in; mm if absent.")
    )
    hose: HoseValue = Field(description="The hose, as a hanger carries it; a map, lengths in the file's units.")
    dust: Annotated[Literal["chips", "shavings", "fine"], Words(("chips", "shavings", "fine"), _DUST)] = Field(
        "shavings", description="What settles in it: chips, shavings or fine; no unit. Shavings if absent."
    )
    bend_radius: Annotated[float | None, Length(10.0, 2000.0, auto=True)] = Field(
        None,
        description="The least radius of the hose's axis, in the file's units; by its kind, 1.5 to 3 times its inside, "
        "if absent.",
    )
    keep_above: Annotated[float | None, ROOM] = Field(
        None,
        description="Height that no part of the hose hangs below (a bench, a bed, a door), from the place where up "
        "is 0, in the file's units; not judged if absent.",
    )

    def too_sharp(self, context: Context) -> Iterator[Fault]:
        """A hose bent about less than half of its outside would run into itself."""
        half = self.hose.carried().size.greatest_mm / 2
        if self.bend_radius is not None and self.bend_radius < half:
            found, least = (format_length(mm, context.units, fraction=False) for mm in (self.bend_radius, half))
            allowed = f"{least} or more, half of the hose's outside"
            hint = "it counts at the hose's axis; a maker may tell it at the inner side: add half of the outside"
            yield Fault(("bend_radius",), found, allowed, hint)
