"""Which way to turn a hose clamp's screw: the user can turn it anywhere, so it is put where it has most room."""

from __future__ import annotations

import math

from fitwright.frame import Frame, Vec
from fitwright.spec.models import BarObstacle, BoxObstacle, ConeObstacle, Envelope, Obstacle, PlaneObstacle

TURNS_DEG = tuple(45.0 * k for k in range(8))
ENOUGH_MM = 80.0
"""Room for the housing and a driver; with this much, up is as good as any other way."""
WORDS = ("up", "up and right", "right", "down and right", "down", "down and left", "left", "up and left")


def clamp_turn(frame: Frame, s_mm: float, radius_mm: float, envelope: Envelope) -> tuple[float, str]:
    """The clock angle [deg] of the screw housing and the direction in words, as seen by who looks into the mouth."""
    best = max(TURNS_DEG, key=lambda deg: (min(ENOUGH_MM, _room(_at(frame, s_mm, radius_mm, deg), envelope)), -deg))
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
        return _to_bar(p, obstacle.start, obstacle.end) - obstacle.d_mm / 2
    if isinstance(obstacle, ConeObstacle):
        return _to_bar(p, obstacle.start, obstacle.end) - max(obstacle.d_start_mm, obstacle.d_end_mm) / 2
    return math.inf


def _to_bar(p: Vec, a: Vec, b: Vec) -> float:
    along = [b[i] - a[i] for i in range(3)]
    share = sum((p[i] - a[i]) * along[i] for i in range(3)) / sum(x * x for x in along)
    share = min(1.0, max(0.0, share))
    return math.dist(p, [a[i] + share * along[i] for i in range(3)])
