"""Where a part may be parted: clear of holes, screws, seals, slits, ribs and of what is joined at its ends."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from cadquery import Shape
from numpy.typing import NDArray

from fitwright.errors import RefusalError
from fitwright.frame import Frame, Vec
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.halves_along import depth_mm, plane_along
from fitwright.parts.parting import Whole
from fitwright.spec.models import Flange, HalvesLap, Socket

Points = NDArray[np.float64]

ON_AXIS_MM = 0.05
"""A tool whose centre lies this near to its end's axis runs all round it: every plane through the axis cuts it."""
SCREW_HEAD_MM = 5.0
"""Half of the room that a radial screw's head takes."""
SPARE_MM = 0.5
AMPLE_MM = 40.0
"""More room than this is no better."""


@dataclass(frozen=True)
class Obstacle:
    """Something at one end that must stay whole, as points of its surface, and the room that it wants."""

    name: str
    end: PlacedEnd
    points: Points
    room_mm: float
    is_hole: bool = False

    def clear_mm(self, normal: Vec) -> float:
        """What is left between it, with its room, and the plane through end_a's axis; negative where it is met."""
        return self.gap_mm(normal) - self.room_mm

    def gap_mm(self, normal: Vec) -> float:
        """Its distance from that plane; negative where it is met."""
        apart = self.points @ np.array(normal)
        return float(max(apart.min(), -apart.max()))


def clear_from(end: PlacedEnd, whole: Whole) -> float:
    """How far from an end's mouth [mm] a seam across must stay."""
    shape = end.shape
    tools = [t.solid for t in (*shape.ring_cuts, *shape.ring_bosses, *shape.cuts, *shape.bosses)]
    tools += [hole.tool().solid for hole in shape.holes]
    deep = max([shape.root_mm, shape.engaged_mm, *(depth_mm(end, tool)[1] for tool in tools)])
    own = max(whole.wall_mm, _beside(whole))
    if isinstance(end.plan.end.joint, Socket) and not isinstance(whole.joint, HalvesLap):
        own = max(whole.wall_mm, whole.lip_mm)  # nuts may stand over the socket's own skin
    return deep + own + SPARE_MM


def _beside(whole: Whole) -> float:
    """What the joint takes on either side of the seam."""
    if isinstance(whole.joint, HalvesLap):
        return max(whole.joint.length_mm + 1.0, 4.0 * whole.wall_mm + 1.0)
    return whole.stack_mm


def free_across(whole: Whole) -> tuple[float, float]:
    """From where to where along the centreline the part may be parted across; RefusalError where nowhere."""
    a, b = whole.ends
    low, high = clear_from(a, whole), whole.line.length_mm - clear_from(b, whole)
    if low > high:
        more = low - high
        raise RefusalError(
            "halves.across",
            f"{whole.line.length_mm:.1f} mm of centreline, all taken by the joints",
            f"a part {more:.1f} mm longer (length), or halves: {{along: auto}}",
            "between the joints there is no room for a seam and its lips",
        )
    return low, high


def across_at(whole: Whole) -> float:
    """Where the part is parted across: as asked, where that is free, else the middle of what is."""
    low, high = free_across(whole)
    asked = whole.halves.across_mm
    if asked is None:
        return (low + high) / 2
    if low - 1e-9 <= asked <= high + 1e-9:
        return asked
    nearest = math.ceil(low * 10) / 10 if asked < low else math.floor(high * 10) / 10
    raise RefusalError(
        "halves.across",
        f"{asked:.1f} mm, {_met_across(whole, asked)}",
        f"{nearest:.1f} mm (free from {low:.1f} to {high:.1f} mm), or auto",
        "the seam and what lies beside it must stay clear of the joints",
    )


def _met_across(whole: Whole, at_mm: float) -> str:
    """What a seam there would run through, in words: holes first."""
    for end, s in zip(whole.ends, (at_mm, whole.line.length_mm - at_mm), strict=True):
        if s > clear_from(end, whole):
            continue
        shape = end.shape
        tools = [hole.tool() for hole in shape.holes]
        tools += [*shape.cuts, *shape.ring_cuts, *shape.bosses, *shape.ring_bosses]
        for tool in tools:
            low, high = depth_mm(end, tool.solid)
            if low - whole.wall_mm < s < high + whole.wall_mm:
                return f"through the {tool.name}"
        if s < max(shape.engaged_mm, shape.root_mm):
            return f"in the {end.plan.end.kind.replace('_', ' ')} of {end.plan.key}"
        return f"too near to the {end.plan.end.kind.replace('_', ' ')} of {end.plan.key} for the seam's lips"
    return "beyond the part"


def frame_across(whole: Whole, at_mm: float) -> Frame:
    """The plane square to the passage there; its normal points to end_b."""
    point, heading = whole.line.at(at_mm)
    x = np.array([1.0, 0.0, 0.0])
    if abs(heading[0]) > 0.8:
        x = np.array([0.0, 0.0, 1.0])
    right = x - np.array(heading) * float(x @ np.array(heading))
    right /= np.linalg.norm(right)
    return Frame(point, heading, (float(right[0]), float(right[1]), float(right[2])))


def direction(deg: float) -> Vec:
    """The direction square to end_a's axis, clockwise from up."""
    return (math.sin(math.radians(deg)), 0.0, math.cos(math.radians(deg)))


def frame_along(whole: Whole) -> tuple[Frame, float]:
    """The plane through the passage as asked, where it is free, and its direction [deg clockwise from up]."""
    asked, across = whole.halves.along_deg, whole.line.across
    found = obstacles(whole)
    if not whole.line.in_a_plane:
        said = "auto" if asked is None else f"{asked % 360.0:.1f} deg"
        why = "the passage winds through space: no plane holds its centreline"
        raise RefusalError("halves.along", said, "halves: {across: auto}", why)
    if across is None:
        deg = _free_direction(found, 0.0 if asked is None else asked, asked is None)
        return plane_along(direction(deg)), deg
    own = math.degrees(math.atan2(across[0], across[2])) % 180.0
    if asked is not None and abs((asked - own + 90.0) % 180.0 - 90.0) > 0.05:
        raise RefusalError(
            "halves.along",
            f"{asked % 360.0:.1f} deg",
            f"{own:.1f} deg, or auto",
            "the passage's centreline must lie in the plane",
        )
    met = _worst(found, plane_along(across).inward)
    if met is not None:
        _refuse_turned(found, met, across, own)
    return plane_along(across), own


def obstacles(whole: Whole) -> list[Obstacle]:
    """All that a plane along the passage must not run through or come near."""
    return [o for end in whole.ends for o in _of_end(end, whole)]


def _of_end(end: PlacedEnd, whole: Whole) -> list[Obstacle]:
    shape, flange = end.shape, isinstance(end.plan.end.joint, Flange)
    lip, wall = whole.lip_mm + SPARE_MM, whole.wall_mm
    screws = lip if flange else lip + SCREW_HEAD_MM
    found = [Obstacle(h.name, end, _points(h.tool().solid), max(wall, screws), True) for h in shape.holes]
    others = [(t, max(wall, lip) if flange else wall) for t in shape.cuts]
    others += [(t, whole.stack_mm + SPARE_MM) for t in shape.bosses if "gusset" in t.name]
    others += [
        (t, whole.stack_mm + SPARE_MM) for t in shape.ring_bosses if "gusset" in t.name and t not in shape.bosses
    ]
    found += [Obstacle(t.name, end, _points(t.solid), room) for t, room in others if not _is_ring(end, t.solid)]
    return found


def _points(solid: Shape) -> Points:
    return np.array([v.toTuple() for v in solid.tessellate(0.1)[0]])


def _is_ring(end: PlacedEnd, solid: Shape) -> bool:
    offset = np.array(solid.Center().toTuple()) - np.array(end.frame.origin)
    inward = np.array(end.frame.inward)
    return float(np.linalg.norm(offset - inward * float(offset @ inward))) < ON_AXIS_MM


def _worst(found: Sequence[Obstacle], normal: Vec) -> Obstacle | None:
    """What the plane runs through or comes too near to, those it runs through first; None where it is free."""
    met = [o for o in found if o.clear_mm(normal) < -1e-9]
    return min(met, key=lambda o: (o.gap_mm(normal) >= 0.0, not o.is_hole, o.gap_mm(normal)), default=None)


def _free_direction(found: Sequence[Obstacle], asked: float, any_will_do: bool) -> float:
    """The direction asked for; where it is not free, the nearest that is (`any_will_do`), or a refusal naming it."""
    met = _worst(found, plane_along(direction(asked)).inward)
    if met is None:
        return asked
    turns = [asked + sign * step for step in range(1, 91) for sign in (1, -1)]
    room = {turn: min(o.clear_mm(plane_along(direction(turn)).inward) for o in found) for turn in turns}
    free = next((turn for turn in turns if room[turn] >= 0.0), None)
    if any_will_do and free is not None:
        return max(turns, key=lambda turn: round(min(room[turn], AMPLE_MM), 1)) % 180.0
    allowed = f"{free % 180.0:.0f} deg, or auto" if free is not None else "halves: {across: auto}"
    gap = met.gap_mm(plane_along(direction(asked)).inward)
    where = f"through the {met.name}" if gap < 0 else f"{gap:.1f} mm past the {met.name}"
    why = "the plane must stay clear of holes, screws, slits and ribs"
    raise RefusalError("halves.along", f"{asked % 360.0:.0f} deg, {where}", allowed, why)


def _refuse_turned(found: Sequence[Obstacle], met: Obstacle, across: Vec, own: float) -> None:
    """The plane is given by the passage: what could be turned is the pattern at that end."""
    joint, end = met.end.plan.end.joint, met.end
    gap = met.gap_mm(plane_along(across).inward)
    where = f"through the {met.name}" if gap < 0 else f"{gap:.1f} mm past the {met.name}"
    allowed = "halves: {across: auto}"
    if isinstance(joint, Flange) and joint.holes is not None and joint.holes.circle_mm is not None:
        mine = [o for o in found if o.end is end]  # the gussets stand between the holes, and turn with them
        turns = [sign * step for step in range(1, 91) for sign in (1, -1)]
        free = next((t for t in turns if _worst(_turned(mine, end, t), plane_along(across).inward) is None), None)
        if free is not None:
            first = (joint.holes.first_at_deg + free) % 360.0
            allowed = f"{end.plan.key}.flange.holes.first_at: {first:.0f} deg, or halves: {{across: auto}}"
    why = "the plane of the passage must stay clear of holes, screws, slits and ribs"
    raise RefusalError("halves.along", f"{own:.0f} deg, {where}", allowed, why)


def _turned(found: Sequence[Obstacle], end: PlacedEnd, deg: float) -> list[Obstacle]:
    """Obstacles turned clockwise about their end's axis, as seen by who looks into that mouth."""
    axis, a = np.array(end.frame.inward), math.radians(deg)
    turned = []
    for o in found:
        offset = o.points - np.array(end.frame.origin)
        along = np.outer(offset @ axis, axis)
        flat = offset - along
        points = along + flat * math.cos(a) + np.cross(axis, flat) * math.sin(a) + np.array(end.frame.origin)
        turned.append(Obstacle(o.name, o.end, points, o.room_mm, o.is_hole))
    return turned
