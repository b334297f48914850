"""Arcs and straights of an outline: points, areas and distances, in closed form. Lengths in mm, angles in rad."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]
    Points = NDArray[np.float64]

Point = tuple[float, float]

TURN = 2.0 * math.pi
SAME_RAD = 1e-9


class SectionError(ValueError):
    """These numbers make no convex outline."""


@dataclass(frozen=True)
class Arc:
    """An arc of a section; radius 0 is a sharp corner."""

    x: float
    y: float
    radius_mm: float
    start: float
    end: float

    def at(self, angle: float) -> Point:
        """The point whose outward normal points this way."""
        return self.x + self.radius_mm * math.cos(angle), self.y + self.radius_mm * math.sin(angle)

    @property
    def turn(self) -> float:
        """How far its normal turns [rad]."""
        return self.end - self.start


def arc_moments(arc: Arc) -> tuple[float, float, float]:
    """Area [mm2] and first moments [mm3] of the arc's part of Green's integrals, in closed form."""
    r, x, y, s, e, turn = arc.radius_mm, arc.x, arc.y, arc.start, arc.end, arc.turn
    sines, cosines = math.sin(e) - math.sin(s), math.cos(s) - math.cos(e)
    double = (math.sin(2 * e) - math.sin(2 * s)) / 4
    cubed_cos = sines - (math.sin(e) ** 3 - math.sin(s) ** 3) / 3
    cubed_sin = cosines - (math.cos(s) ** 3 - math.cos(e) ** 3) / 3
    area = r * (r * turn + x * sines + y * cosines) / 2
    mx = r * (x * x * sines + 2 * x * r * (turn / 2 + double) + r * r * cubed_cos) / 2
    my = r * (y * y * cosines + 2 * y * r * (turn / 2 - double) + r * r * cubed_sin) / 2
    return area, mx, my


def straight_moments(p: Point, q: Point) -> tuple[float, float, float]:
    (x0, y0), (x1, y1) = p, q
    dx, dy = x1 - x0, y1 - y0
    mx = dy * (x0 * x0 + x0 * x1 + x1 * x1) / 6
    my = -dx * (y0 * y0 + y0 * y1 + y1 * y1) / 6
    return (x0 * y1 - x1 * y0) / 2, mx, my


def to_arc(arc: Arc, points: Points) -> tuple[Numbers, NDArray[np.bool_]]:
    """Distance of points from an arc, and whether they lie beyond it."""
    import numpy as np

    off = points - np.array([arc.x, arc.y])
    within = (np.arctan2(off[:, 1], off[:, 0]) - arc.start) % TURN <= arc.turn + SAME_RAD
    ends = np.array([arc.at(arc.start), arc.at(arc.end)])
    to_ends = np.linalg.norm(points[:, None] - ends, axis=2).min(axis=1)
    over = np.hypot(off[:, 0], off[:, 1]) - arc.radius_mm
    return np.where(within, np.abs(over), to_ends), within & (over > 0.0)


def to_straight(p: Numbers, q: Numbers, points: Points) -> Numbers:
    import numpy as np

    run = q - p
    square = max(float(run @ run), 1e-24)
    share = np.clip((points - p) @ run / square, 0.0, 1.0)
    apart: Numbers = np.linalg.norm(points - p - share[:, None] * run, axis=1)
    return apart
