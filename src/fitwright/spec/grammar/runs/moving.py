"""A hose to a head that moves, as the YAML says it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import partial
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Forms, Grammar, gather, under
from fitwright.spec.grammar.gate_values import Force
from fitwright.spec.grammar.runs.apart import Told, too_near, too_small
from fitwright.spec.grammar.runs.base import ROOM, Face, FaceWords, PlacedKeys, RoomPoint, RoomPointKeys, RunKeys
from fitwright.spec.grammar.runs.droop import DroopKeys
from fitwright.spec.grammar.values import Context, Length, Words

MOST_HANGERS = 8
_FACE = "right, left, away, toward, up, down, or turns (a swivel); no unit"


class PortKeys(PlacedKeys):
    """The fixed port that the hose begins at."""

    example: ClassVar[str] = "{at: {right: -300, up: 1400}, faces: right}"
    meant: ClassVar[Mapping[str, str]] = {
        **PlacedKeys.meant,
        **dict.fromkeys(("direction", "points", "looks", "opens"), "write faces"),
    }
    faces: Annotated[Face, FaceWords] = Field(description=f"Where its mouth looks, and the hose leaves it: {_FACE}.")


class RunHangerKeys(PlacedKeys):
    """A hanger between port and head."""

    example: ClassVar[str] = "{at: {right: 600, up: 2300}, runs: turns}"
    meant: ClassVar[Mapping[str, str]] = {
        **PlacedKeys.meant,
        **dict.fromkeys(("swivel", "turns", "faces", "direction"), "write runs: turns"),
        **dict.fromkeys(("rail", "trolley", "track"), "write rail_to: the other end of its rail"),
        **dict.fromkeys(("hose", "slack"), "write length: hose from the one before to it"),
    }
    runs: Annotated[Face | None, FaceWords] = Field(
        None,
        description=f"In which direction the hose goes through it: {_FACE}; level, as it comes to it, if absent.",
    )
    rail_to: RoomPoint | None = Field(
        None,
        description="Of a trolley: the other end of its rail, height of the hose's axis, as a place in the room, in "
        "the file's units; it stands still if absent.",
    )
    length: Annotated[float | None, Length(50.0, 20_000.0)] = Field(
        None, description="Hose from the one before to it, in the file's units; worked out if absent."
    )


class MovingPortKeys(PortKeys):
    """The head's port, where it moves."""

    example: ClassVar[str] = "{at: {up: 1150}, travel: {right: 1200, away: 800, up: 120}, faces: up}"
    meant: ClassVar[Mapping[str, str]] = {
        **PortKeys.meant,
        **dict.fromkeys(("moves", "stroke", "range"), "write travel: {right: 1200}"),
        **dict.fromkeys(("magnet", "holding", "force", "pull"), "write holds: at what pull it comes off"),
    }
    travel: RoomPoint = Field(
        description="How far it goes from there, as a map of directions, in the file's units: {right: 1200, up: 120}."
    )
    holds: Annotated[float | None, Force(1.0, 5000.0)] = Field(
        None,
        description="At what pull along the hose it comes off (a magnetic shoe), with its unit (30 N); half of that "
        "may hang on it. A firm pull by hand, 50 N, if absent.",
    )


class WithinKeys(Grammar):
    """A box that the hose stays inside of; sides that neither corner names are open."""

    example: ClassVar[str] = "{from: {right: -200, away: -100}, to: {right: 1400, away: 900}}"
    from_: RoomPointKeys = Field(
        alias="from", description="One corner, as a place in the room, in the file's units; only what it names counts."
    )
    to: RoomPointKeys = Field(description="The corner across, naming the same directions, in the file's units.")

    def sense(self, context: Context) -> Iterator[Fault]:
        one, other = (_axes(keys) for keys in (self.from_, self.to))
        if one != other:
            found = f"from names {', '.join(one)}, to names {', '.join(other)}"
            yield Fault((), found, "both corners by the same directions", "right or left, away or toward, up or down")


def _axes(keys: RoomPointKeys) -> list[str]:
    """The axes that it names, by their positive direction."""
    pairs = (("right", "left"), ("away", "toward"), ("up", "down"))
    return [pair[0] for pair in pairs if set(pair) & keys.model_fields_set]


def read_hangers(value: object, context: Context) -> list[RunHangerKeys]:
    """A list of 0 to 8 hangers; faults of all of them."""
    if not isinstance(value, list) or len(value) > MOST_HANGERS:
        raise FaultError([Fault((), shown(value), f"a list of up to {MOST_HANGERS} such as - {RunHangerKeys.example}")])
    return gather([under((k,), partial(RunHangerKeys.read, one, context)) for k, one in enumerate(value)])


RunHangers = Annotated[list[RunHangerKeys], Forms(read_hangers, list[RunHangerKeys])]


class MovingHeadKeys(RunKeys):
    """A hose from a fixed port, over hangers, to a head that moves."""

    example: ClassVar[str] = "{hose_run: moving_head, hose: {...}, port: {...}, hangers: [...], head: {...}}"
    filled: ClassVar[tuple[str, ...]] = (*RunKeys.filled, "droop")
    meant: ClassVar[Mapping[str, str]] = {
        **RunKeys.meant,
        **dict.fromkeys(("hanger", "hook", "trolley"), "write hangers, a list"),
        **dict.fromkeys(("from", "start", "inlet"), "write port"),
        **dict.fromkeys(("shoe", "to", "spindle", "gantry", "machine"), "write head"),
        **dict.fromkeys(("travel", "faces", "holds"), "this key stands under head"),
        **dict.fromkeys(("envelope", "inside_of", "stay_inside", "sweep"), "write stay_within"),
        **dict.fromkeys(("hose_length", "cut"), "write length: of the whole hose"),
        **dict.fromkeys(("roof", "highest"), "write ceiling"),
        **dict.fromkeys(("stiffness", "stiff", "droops"), "write droop: how far it hangs over a bench's edge"),
    }
    hose_run: Annotated[Literal["moving_head"], Words(("moving_head",))] = Field(
        description="The kind: moving_head; no unit."
    )
    port: PortKeys = Field(description="The fixed port; a map, lengths in the file's units.")
    hangers: RunHangers = Field(
        [],
        description="Hangers on the way, in their order, each of which grips the hose; a list, in the file's units. "
        "None if absent: the hose goes straight to the head.",
    )
    head: MovingPortKeys = Field(description="The head's port and its travel; a map, lengths in the file's units.")
    length: Annotated[float | None, Length(100.0, 60_000.0)] = Field(
        None,
        description="All of the hose from port to head, where it is there already, in the file's units; worked out if "
        "absent.",
    )
    droop: DroopKeys | None = Field(
        None,
        description="How far the empty hose droops over a bench's edge, for its stiffness; a map, in the file's units. "
        "From a soft to a stiff one if absent.",
    )
    ceiling: Annotated[float | None, ROOM] = Field(
        None,
        description="Height that the axis at a hanger cannot be raised above, where another place has to be found, in "
        "the file's units; 1.5 m more than now if absent.",
    )
    stay_within: WithinKeys | None = Field(
        None, description="What the whole hose stays inside of; a map of two corners, in the file's units."
    )

    def sense(self, context: Context) -> Iterator[Fault]:
        yield from self.too_sharp(context)
        over_mm = self.hose.carried().size.greatest_mm
        widest = max(abs(x) for x in self.head.travel)
        if widest < 1.0:
            yield Fault(("head", "travel"), "a travel of 0", "1 mm or more in some direction", "or hose_run: row")
        else:
            yield from too_small(("head", "travel"), "a travel", widest, over_mm, context)
        for k, one in enumerate(self.hangers):
            if one.rail_to is None:
                continue
            if k < len(self.hangers) - 1:
                hint = "hangers before it may be fixed ones"
                yield Fault(("hangers", k, "rail_to"), "a trolley that is not the last", "the last hanger", hint)
            elif (long := max(abs(a - b) for a, b in zip(one.at, one.rail_to, strict=True))) < 10.0:
                yield Fault(("hangers", k, "rail_to"), "a rail without length", "10 mm or more from `at`")
            else:
                yield from too_small(("hangers", k, "rail_to"), "a rail", long, over_mm, context)
        yield from too_near(self._told(over_mm), over_mm, context)

    def _told(self, over_mm: float) -> list[Told]:
        """The port, all hangers, a rail's far end, and all places of the head."""
        found = [Told.point(("port", "at"), self.port.label or "the port", self.port.at)]
        for k, one in enumerate(self.hangers):
            words = one.label or f"hanger {k + 1}"
            found.append(Told.point(("hangers", k, "at"), words, one.at))
        last = self.hangers[-1] if self.hangers else None
        rail = last.rail_to if last else None
        if last and rail:
            far = Told.point(("hangers", len(self.hangers) - 1, "rail_to"), "the end of the rail", rail)
            found += [far] if far.apart_mm(found[-1]) >= over_mm else []  # else the rail is too short
        (x, y, z), (right, away, up) = self.head.at, self.head.travel
        low = min(x, x + right), min(y, y + away), min(z, z + up)
        high = max(x, x + right), max(y, y + away), max(z, z + up)
        return [*found, Told(("head", "at"), "the head", low, high)]
