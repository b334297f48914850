"""Where two sides of a convex outline meet once both have moved inwards. Lengths in mm, angles in rad."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from fitwright.arcs import SAME_RAD, TURN, Arc, Point, SectionError

OVER_MM = 1e-4
"""An outline that reaches no further than this beyond a side lies within it."""


@dataclass(frozen=True)
class Line:
    """A straight side of an outline: the angle of its outward normal, and its distance from the axis that way."""

    angle: float
    reach_mm: float


Side = Arc | Line


def within(sides: Sequence[Side]) -> list[Arc]:
    """The arcs of the outline that all sides bound, in their order; what the others cut off altogether is left out.

    Raises
    ------
    SectionError
        No two sides in order are left that meet.
    """
    left = list(sides)
    while left:
        corners = [_joint_or_none(one, other) for one, other in zip(left, (*left[1:], left[0]), strict=True)]
        lengths = [_length(side, corners[k - 1], corners[k]) for k, side in enumerate(left)]
        shortest = min(range(len(left)), key=lengths.__getitem__)
        if lengths[shortest] >= -OVER_MM / 10:
            return _outline(left, [c for c in corners if c is not None])
        del left[shortest]
    raise SectionError("nothing is left of the outline")


def reach(side: Side, angle: float) -> float:
    """How far the half-plane or disc of a side reaches in this direction [mm]."""
    if isinstance(side, Line):
        return side.reach_mm
    return side.x * math.cos(angle) + side.y * math.sin(angle) + side.radius_mm


def normals(side: Side) -> list[float]:
    """Angles at which a side bounds an outline: its own, or some along the arc."""
    return [side.angle] if isinstance(side, Line) else [side.start + side.turn * k / 16 for k in range(17)]


def _joint_or_none(one: Side, other: Side) -> Arc | None:
    try:
        return joint(one, other)
    except SectionError:
        return None


def _length(side: Side, before: Arc | None, after: Arc | None) -> float:
    """Length of a side [mm] between its corners, negative where they have passed each other."""
    if before is None or after is None:
        return -math.inf if isinstance(side, Arc) else 0.0
    if isinstance(side, Arc):
        kept = _shortened(side, before, after)
        return side.radius_mm * kept.turn if kept.turn <= side.turn + SAME_RAD else -math.inf
    return (after.y - before.y) * math.cos(side.angle) - (after.x - before.x) * math.sin(side.angle)


def _shortened(arc: Arc, before: Arc, after: Arc) -> Arc:
    start = arc.start + math.remainder(before.end - arc.start, TURN)
    return replace(arc, start=start, end=arc.end + math.remainder(after.start - arc.end, TURN))


def _outline(sides: Sequence[Side], corners: Sequence[Arc]) -> list[Arc]:
    if len(corners) < len(sides):
        raise SectionError("nothing is left of the outline")
    arcs: list[Arc] = []
    for k, side in enumerate(sides):
        if isinstance(side, Arc):
            arcs.append(_shortened(side, corners[k - 1], corners[k]))
        arcs.append(corners[k])
    return [arc for arc in arcs if arc.turn > SAME_RAD]


def joint(one: Arc | Line, other: Arc | Line) -> Arc:
    """Where two neighbouring sides meet, as a corner of radius 0 that turns from one's normal to the other's."""
    first = one.angle if isinstance(one, Line) else one.end
    turn = math.remainder((other.angle if isinstance(other, Line) else other.start) - first, TURN)
    if abs(turn) < 1e-7:  # they touch without a kink, and still do further in
        touching = one if isinstance(one, Arc) else other
        x, y = touching.at(first) if isinstance(touching, Arc) else _foot(touching)
        return Arc(x, y, 0.0, first, first)
    x, y = _meeting(one, other)
    start = one.angle if isinstance(one, Line) else math.atan2(y - one.y, x - one.x)
    end = other.angle if isinstance(other, Line) else math.atan2(y - other.y, x - other.x)
    return Arc(x, y, 0.0, start, start + (end - start) % TURN)


def _foot(line: Line) -> Point:
    return line.reach_mm * math.cos(line.angle), line.reach_mm * math.sin(line.angle)


def _meeting(one: Arc | Line, other: Arc | Line) -> Point:
    if isinstance(one, Line) and isinstance(other, Line):
        det = math.sin(other.angle - one.angle)
        if abs(det) < 1e-9:
            raise SectionError("nothing is left of the outline")
        x = (one.reach_mm * math.sin(other.angle) - other.reach_mm * math.sin(one.angle)) / det
        y = (other.reach_mm * math.cos(one.angle) - one.reach_mm * math.cos(other.angle)) / det
        return x, y
    if isinstance(one, Arc) and isinstance(other, Arc):
        return _arcs_meeting(one, other)
    arc, line = (one, other) if isinstance(one, Arc) else (other, one)
    assert isinstance(arc, Arc) and isinstance(line, Line)
    ahead = line.reach_mm - arc.x * math.cos(line.angle) - arc.y * math.sin(line.angle)
    if abs(ahead) > arc.radius_mm:
        raise SectionError("nothing is left of the outline")
    swing = math.acos(ahead / arc.radius_mm)
    return arc.at(line.angle - swing if arc is one else line.angle + swing)


def _arcs_meeting(one: Arc, other: Arc) -> Point:
    dx, dy = other.x - one.x, other.y - one.y
    apart = math.hypot(dx, dy)
    if not abs(one.radius_mm - other.radius_mm) < apart < one.radius_mm + other.radius_mm:
        raise SectionError("nothing is left of the outline")
    along = (apart * apart + one.radius_mm**2 - other.radius_mm**2) / (2.0 * apart)
    swing, ahead = math.acos(along / one.radius_mm), math.atan2(dy, dx)
    found = [one.at(ahead + k * swing) for k in (-1.0, 1.0)]
    corner = one.at(one.end)
    return min(found, key=lambda p: math.dist(p, corner))
