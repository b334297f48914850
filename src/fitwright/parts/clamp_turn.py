"""Which way to turn a hose clamp's screw: the user can turn it anywhere, so it is put where it has room."""

from __future__ import annotations

import math

from fitwright.frame import Frame, Vec
from fitwright.shapes.profile import Point
from fitwright.spec.models import BarObstacle, BoxObstacle, ConeObstacle, Envelope, Obstacle, PlaneObstacle

TURNS_DEG = tuple(45.0 * k for k in range(8))
ENOUGH_MM = 80.0
"""Room for the housing and a driver; with this much, up is as good as any other way."""
WORDS = ("up", "up and right", "right", "down and right", "down", "down and left", "left", "up and left")


def clamp_turn(frame: Frame, s_mm: float, radius_mm: float, envelope: Envelope) -> tuple[float, str]:
    """The clock angle [deg] of the screw housing and the direction in words, as seen by who looks into the mouth.

    Of turns with the same room the one nearest to up.
    """

    def room(deg: float) -> float:
        return round(min(ENOUGH_MM, _room(_at(frame, s_mm, radius_mm, deg), envelope)), 3)

    best = max(TURNS_DEG, key=lambda deg: (room(deg), -min(deg, 360.0 - deg)))
    return best, WORDS[TURNS_DEG.index(best)]


def _at(frame: Frame, s: float, r: float, deg: float) -> Vec:
    a = math.radians(deg)
    return frame.point(r * math.sin(a), s, r * math.cos(a))


def _room(point: Vec, envelope: Envelope) -> float:
    """Distance [mm] to the nearest plain obstacle; meshes are left to the clearance check."""
    return min((_distance(point, o) for o in envelope.keep_clear), default=math.inf)


def _distance(p: Vec, obstacle: Obstacle) -> float:
    if isinstance(obstacle, PlaneObstacle):
        return sum((p[i] - obstacle.point[i]) * obstacle.normal[i] for i in range(3))
    if isinstance(obstacle, BoxObstacle):
        return math.dist(p, [min(max(p[i], obstacle.low[i]), obstacle.high[i]) for i in range(3)])
    if isinstance(obstacle, BarObstacle):
        return _to_cone(p, obstacle.start, obstacle.end, obstacle.d_mm / 2, obstacle.d_mm / 2)
    if isinstance(obstacle, ConeObstacle):
        return _to_cone(p, obstacle.start, obstacle.end, obstacle.d_start_mm / 2, obstacle.d_end_mm / 2)
    return math.inf


def _to_cone(p: Vec, a: Vec, b: Vec, r0: float, r1: float) -> float:
    """Distance of a point from a round bar with flat ends, radius r0 at a and r1 at b; 0 inside."""
    long = math.dist(a, b)
    s = sum((p[i] - a[i]) * (b[i] - a[i]) for i in range(3)) / long
    r = math.sqrt(max(0.0, math.dist(p, a) ** 2 - s * s))
    if 0.0 <= s <= long and r <= r0 + (r1 - r0) * s / long:
        return 0.0
    sides = (((0.0, 0.0), (0.0, r0)), ((0.0, r0), (long, r1)), ((long, r1), (long, 0.0)))
    return min(_to_line((s, r), *side) for side in sides)


def _to_line(p: Point, a: Point, b: Point) -> float:
    """Distance of a point from the line that ends at a and b."""
    x, y = b[0] - a[0], b[1] - a[1]
    square = x * x + y * y
    share = min(1.0, max(0.0, ((p[0] - a[0]) * x + (p[1] - a[1]) * y) / square)) if square else 0.0
    return math.dist(p, (a[0] + share * x, a[1] + share * y))
