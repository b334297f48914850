"""Clearance of a part of which something moves: at both ends and all the way between.

What moves is taken as all the room that it passes through (checks/swept.py), so that nothing slips between two
positions. A seat is cut off a stand-in only against the bodies that stand or move with it: what passes each other
nowhere touches.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace

import manifold3d
import numpy as np

from fitwright.checks.clearance_words import BRACKET, SCREW_IN_BLADE
from fitwright.checks.positions import worst_share
from fitwright.checks.running_gap import running_gaps
from fitwright.checks.swept import swept
from fitwright.checks.things import Thing, finding, finer, in_words, never_together, on_its_way, position, unseated
from fitwright.checks.tool_room import tool_rooms
from fitwright.errors import BuildError
from fitwright.finding import Finding, Severity
from fitwright.mesh_distance import Gap, common
from fitwright.part import Motion, Part
from fitwright.place import words

FIRST_STEPS = 40
"""Where two things first meet is looked for in so many steps."""


@dataclass(frozen=True)
class Mechanism:
    """What stands still and what moves, both where the motion begins; `ways` is each moving thing's whole way."""

    motion: Motion
    fixed: tuple[Thing, ...]
    movers: tuple[Thing, ...]
    ways: tuple[Thing, ...]
    unsound: tuple[Finding, ...] = ()

    @classmethod
    def of(cls, part: Part, motion: Motion, bodies: list[Thing], stand_ins: list[Thing]) -> Mechanism:
        """Of a part's sound bodies and stand-ins; whose way gives no solid is a finding that blocks."""
        moving = {body.name for body in part.bodies if body.moving}
        things = [*bodies, *stand_ins]
        moves = [thing.source.moving if thing.source else thing.name in moving for thing in things]
        fixed = tuple(thing for thing, yes in zip(things, moves, strict=True) if not yes)
        movers, ways, unsound = [], [], []
        for thing in (thing for thing, yes in zip(things, moves, strict=True) if yes):
            try:
                ways.append(_way(thing, motion))
                movers.append(thing)
            except BuildError as error:
                unsound.append(finding("fail", _body(thing), None, None, thing.name, str(error)))
        return cls(motion, fixed, tuple(movers), tuple(ways), tuple(unsound))

    def in_all_positions(self) -> tuple[list[Thing], list[Thing]]:
        """Bodies and stand-ins for the envelope: what moves as its whole way; room for tools where it is at rest."""
        things = [*self.fixed, *self.ways]
        return [t for t in things if t.source is None], [t for t in things if t.source is not None]


def _way(thing: Thing, motion: Motion) -> Thing:
    """The whole way; only its one end of what is there only then, or needs to be free once only."""
    at = thing.source.only_at if thing.source else ""
    if at or thing.tool_room:
        return replace(thing, motion=motion).at(1.0 if at == "end" else 0.0)
    return on_its_way(thing, motion)


def clashes(mechanism: Mechanism) -> list[Finding]:
    """Every clash, the least running gap, and room for tools; one pass for all that is clear."""
    solid = [thing for thing in mechanism.fixed if not thing.tool_room]
    found = [*mechanism.unsound]
    for group in (solid, [thing for thing in mechanism.movers if not thing.tool_room]):
        found += [f for one, other in itertools.combinations(group, 2) if (f := _at_rest(one, other))]
    for way, still in itertools.product(mechanism.ways, solid):
        if not way.tool_room and (clash := _passing(way, still, mechanism.motion)):
            found.append(clash)
    found += tool_rooms(mechanism.fixed, mechanism.movers, mechanism.motion)
    if not found:
        found.append(_all_clear(mechanism))
    return found + running_gaps(mechanism.fixed, mechanism.movers, mechanism.motion)


def _all_clear(mechanism: Mechanism) -> Finding:
    count = sum(thing.source is not None for thing in (*mechanism.fixed, *mechanism.movers))
    motion = mechanism.motion
    message = f"no clash between bodies and {count} things that are bought, or rooms for tools"
    message += f", {motion.begin}, {motion.end} and on the {motion.travel_mm:.0f} mm between"
    return finding("pass", "", None, None, "whole part", message)


def _body(*things: Thing) -> str:
    """The printed body that a finding is about; empty: the whole part."""
    return next((thing.name for thing in things if thing.source is None), "")


def _ever_together(one: Thing, other: Thing) -> bool:
    ends = {thing.source.only_at for thing in (one, other) if thing.source and thing.source.only_at}
    return len(ends) < 2


def _same_joint(one: Thing, other: Thing) -> bool:
    same = bool(one.source and other.source and one.source.seats_in == other.source.seats_in)
    return same or never_together(one, other)


def _at_rest(one: Thing, other: Thing) -> Finding | None:
    """Two things that do not move past each other."""
    if _same_joint(one, other) or not _ever_together(one, other):
        return None
    if common(_free(one, other), _free(other, one)) is None:
        return None
    one, other = finer(one), finer(other)
    clash = common(_free(one, other), _free(other, one))
    return None if clash is None else _told(one, other, clash, "")


def _free(thing: Thing, against: Thing) -> manifold3d.Manifold:
    """Without its seat, against a body."""
    return unseated(thing) if against.source is None else thing.solid


def _passing(way: Thing, still: Thing, motion: Motion) -> Finding | None:
    """What moves against what stands still, all the way or at the one end at which either is there."""
    if "room for" in still.name and _same_joint(way, still):
        return None  # what goes there makes the room itself
    end = still.source.only_at if still.source else ""
    if end and way.motion is not None:
        way = way.at(1.0 if end == "end" else 0.0)
    elif end and not _ever_together(way, still):
        return None
    if common(way.solid, still.solid) is None:
        return None
    way, still = finer(way), finer(still)
    clash = common(way.solid, still.solid)
    if clash is None:
        return None
    if way.motion is None:
        return _told(way, still, clash, way.when)
    return _worst(way, still, clash, motion)


def _worst(way: Thing, still: Thing, clash: Gap, motion: Motion) -> Finding:
    """Told of the position with most in common, and from where on the two meet."""

    def shared(share: float) -> float:
        gap = common(way.at(share).solid, still.solid)
        return gap.common_mm3 if gap else 0.0

    low, high = _meeting(way, still, motion)
    share = worst_share(shared, low, high)
    there = common(way.at(share).solid, still.solid)
    if there is None:
        return _told(way, still, clash, "somewhere on its way")
    when = position(motion, share)
    steps = (low + (share - low) * k / FIRST_STEPS for k in range(FIRST_STEPS))
    first = next((step for step in steps if shared(step) > 0.0), share)
    if first > 0.0 and (share - first) * motion.travel_mm > 1.0:
        when += f" (they meet from {first * motion.travel_mm:.0f} mm on)"
    return _told(way, still, there, when)


def _meeting(way: Thing, still: Thing, motion: Motion) -> tuple[float, float]:
    """Shares of the way between which the two can share room at all.

    What of the moving thing comes into the common room lies behind it: from how far behind, and how near.
    """
    common_room, back = way.solid ^ still.solid, motion.shift(-1.0)
    comes = way.at(0.0).solid ^ swept(common_room, back)
    if comes.is_empty():
        return 0.0, 1.0
    (a0, a1), (c0, c1) = _along(comes, motion), _along(common_room, motion)
    travel = motion.travel_mm
    return min(max((c0 - a1) / travel, 0.0), 1.0), max(min((c1 - a0) / travel, 1.0), 0.0)


def _along(solid: manifold3d.Manifold, motion: Motion) -> tuple[float, float]:
    heights = np.asarray(solid.to_mesh64().vert_properties)[:, :3] @ np.array(motion.direction)
    return float(heights.min()), float(heights.max())


def _told(one: Thing, other: Thing, clash: Gap, when: str) -> Finding:
    room = next((thing for thing in (one, other) if "room for" in thing.name or thing.room_only), None)
    soft = room is not None and room.room_only
    severity: Severity = "warn" if soft else "fail"
    one_called, other_called = (thing.called.split(" (")[0] for thing in (one, other))
    at = f" when {when}" if when and "way" not in when else (f" {when}" if when else "")
    message = f"{one_called} and {other_called} take the same room{at}: {in_words(clash.common_mm3)} in common"
    low, high = clash.clash or ((0.0,) * 3, (0.0,) * 3)
    place = f"at {words([(a + b) / 2 for a, b in zip(low, high, strict=True)])}"
    return finding(severity, _body(one, other), clash.common_mm3, 0.0, place, message, _advice(one, other), "mm3")


def _advice(one: Thing, other: Thing) -> str:
    names = f"{one.name} {other.name}"
    if "hose bend" in names or "fitting" in names:
        return "Turn the fitting, or let the ports look to another side (cylinder.ports)."
    if "gate screw" in names and "gate blade" in names:
        return SCREW_IN_BLADE
    if "room for dust" in names:
        return "Leave the far end of the slot free: dust that cannot fall out there packs, and the gate does not shut."
    return BRACKET.clash.format(thing=one.called.split(" (")[0], joint="")
