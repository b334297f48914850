"""Room for a driver: is the line to a screw's head free? (Spanners are swung by `hardware`.)

A tool needs its room once, when the part is put together: it passes if there is a position of what moves in which
nothing stands in it. Where there is none it warns: another tool, or another order of work, may do.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from fitwright.checks.things import Thing, finding, in_words, never_together
from fitwright.finding import Finding
from fitwright.mesh_distance import common
from fitwright.part import Motion
from fitwright.place import words

SHARES = (0.0, 1.0, 0.5)
"""Positions of what moves that are tried."""


@dataclass(frozen=True)
class _Blocked:
    """What takes the room where it is least taken, and how much of it."""

    by: Thing
    common_mm3: float
    at: list[float]


def tool_rooms(fixed: Sequence[Thing], movers: Sequence[Thing], motion: Motion) -> list[Finding]:
    """A warning for each room that is taken in every position."""
    rooms = [(thing, False) for thing in fixed if thing.tool_room]
    rooms += [(thing, True) for thing in movers if thing.tool_room]
    found = []
    for room, moves in rooms:
        blocked = _blocked(room, moves, fixed, movers, motion)
        if blocked is not None:
            found.append(_told(room, blocked))
    return found


def _blocked(
    room: Thing, moves: bool, fixed: Sequence[Thing], movers: Sequence[Thing], motion: Motion
) -> _Blocked | None:
    """None where it is free once."""
    least: _Blocked | None = None
    for share in SHARES:
        there = replace(room, motion=motion).at(share) if moves else room
        moved = [replace(thing, motion=motion).at(share) for thing in movers if not thing.room_only]
        things = [*(thing for thing in fixed if not thing.room_only), *moved]
        found = _most(there, [one for one in things if one.name != room.name and not never_together(room, one)])
        if found is None:
            return None
        least = found if least is None or found.common_mm3 < least.common_mm3 else least
    return least


def _most(room: Thing, near: list[Thing]) -> _Blocked | None:
    most: _Blocked | None = None
    for thing in near:
        clash = common(room.solid, thing.solid)
        if clash is None or clash.clash is None:
            continue
        if most is None or clash.common_mm3 > most.common_mm3:
            middle = [(a + b) / 2 for a, b in zip(*clash.clash, strict=True)]
            most = _Blocked(thing, clash.common_mm3, middle)
    return most


def _told(room: Thing, blocked: _Blocked) -> Finding:
    by = blocked.by.called.split(" (")[0]
    message = f"{by} stands in the {room.name}: {in_words(blocked.common_mm3)} in common"
    advice = "Use a bent key, or fit the screw before what is in the way."
    body = blocked.by.name if blocked.by.source is None else ""
    return finding("warn", body, blocked.common_mm3, 0.0, f"at {words(blocked.at)}", message, advice, "mm3")
