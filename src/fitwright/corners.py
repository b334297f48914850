"""Where two sides of a convex outline meet once both have moved inwards. Lengths in mm, angles in rad."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.arcs import TURN, Arc, Point, SectionError


@dataclass(frozen=True)
class Line:
    """A straight side of an outline: the angle of its outward normal, and its distance from the axis that way."""

    angle: float
    reach_mm: float


def joint(one: Arc | Line, other: Arc | Line) -> Arc:
    """Where two neighbouring sides meet, as a corner of radius 0 that turns from one's normal to the other's."""
    first = one.angle if isinstance(one, Line) else one.end
    turn = math.remainder((other.angle if isinstance(other, Line) else other.start) - first, TURN)
    if abs(turn) < 1e-7:  # they touch without a kink, and still do further in
        x, y = one.at(first) if isinstance(one, Arc) else (0.0, 0.0)
        return Arc(x, y, 0.0, first, first)
    x, y = _meeting(one, other)
    start = one.angle if isinstance(one, Line) else math.atan2(y - one.y, x - one.x)
    end = other.angle if isinstance(other, Line) else math.atan2(y - other.y, x - other.x)
    return Arc(x, y, 0.0, start, start + (end - start) % TURN)


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
