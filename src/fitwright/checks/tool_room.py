"""Room for hand tools: can a spanner swing somewhere round its nut, is the line to a screw's head free?

A tool needs its room once, when the part is put together: it passes if there is a position of what moves, and for a
spanner a side to come from, in which nothing stands in it. Where there is none it warns: another tool, or another order
of work, may do.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import manifold3d
import numpy as np

from fitwright.checks.things import Thing, finding, in_words
from fitwright.finding import Finding
from fitwright.frame import Frame
from fitwright.mesh_distance import box_gap_mm, common
from fitwright.part import Motion
from fitwright.place import words

TURNS = 24
"""A spanner is tried from so many sides."""
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
        found = _taken(there, things)
        if found is None:
            return None
        least = found if least is None or found.common_mm3 < least.common_mm3 else least
    return least


def _taken(room: Thing, things: list[Thing]) -> _Blocked | None:
    """What stands in the room when it is turned to where that is least; None where nothing is."""
    sides = list(_sides(room))
    reach = sides[0].solid if len(sides) == 1 else _all_round(room)
    near = [thing for thing in things if thing.name != room.name and box_gap_mm(reach, thing.solid) == 0.0]
    near = [thing for thing in near if common(reach, thing.solid)]
    least: _Blocked | None = None
    for side in sides:
        found = _most(side, near)
        if found is None:
            return None
        least = found if least is None or found.common_mm3 < least.common_mm3 else least
    return least


def _most(side: Thing, near: list[Thing]) -> _Blocked | None:
    most: _Blocked | None = None
    for thing in near:
        clash = common(side.solid, thing.solid)
        if clash is None or clash.clash is None:
            continue
        if most is None or clash.common_mm3 > most.common_mm3:
            middle = [(a + b) / 2 for a, b in zip(*clash.clash, strict=True)]
            most = _Blocked(thing, clash.common_mm3, middle)
    return most


def _about(room: Thing) -> Frame | None:
    frame = room.source.turns_about if room.source else None
    if frame is None or room.moved_by is None:
        return frame
    x, y, z = (a + b for a, b in zip(frame.origin, room.moved_by, strict=True))
    return Frame((x, y, z), frame.inward, frame.right)


def _sides(room: Thing) -> Iterator[Thing]:
    """The room as it is, or turned about its axis to every side."""
    frame = _about(room)
    if frame is None:
        yield room
        return
    for number in range(TURNS):
        yield replace(room, solid=room.solid.transform(_turn(frame, 2 * math.pi * number / TURNS)))


def _all_round(room: Thing) -> manifold3d.Manifold:
    """A box round all sides: the room's reach about its axis, as long as the room."""
    frame = _about(room)
    assert frame is not None
    points = room.points - np.array(frame.origin)
    along = points @ np.array(frame.inward)
    reach = float(np.linalg.norm(points - np.outer(along, frame.inward), axis=1).max())
    low, high = float(along.min()), float(along.max())
    disc = manifold3d.Manifold.cylinder(high - low, reach, reach, 96).translate([0.0, 0.0, low])
    axes = np.stack([frame.right, frame.up, frame.inward], axis=1)
    if np.linalg.det(axes) < 0:
        axes[:, 1] *= -1.0
    return disc.transform(np.hstack([axes, np.array(frame.origin)[:, None]]))


def _turn(frame: Frame, angle: float) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """The turn about the frame's axis as a 3 x 4 matrix (Rodrigues)."""
    x, y, z = frame.inward
    cross = np.array([[0.0, -z, y], [z, 0.0, -x], [-y, x, 0.0]])
    turn = np.eye(3) + math.sin(angle) * cross + (1.0 - math.cos(angle)) * cross @ cross
    origin = np.array(frame.origin)
    return np.hstack([turn, (origin - turn @ origin)[:, None]])


def _told(room: Thing, blocked: _Blocked) -> Finding:
    by = blocked.by.called.split(" (")[0]
    if "spanner" in room.name:
        nut = room.name.removesuffix(" spanner")
        message = f"no spanner swings 30 deg on the {nut} from any side: {by} is in the way"
        advice = "Hold the nut with a shortened or box spanner and turn what it sits on, or choose another frame."
    else:
        message = f"{by} stands in the {room.name}: {in_words(blocked.common_mm3)} in common"
        advice = "Use a bent key, or fit the screw before what is in the way."
    body = blocked.by.name if blocked.by.source is None else ""
    return finding("warn", body, blocked.common_mm3, 0.0, f"at {words(blocked.at)}", message, advice, "mm3")
