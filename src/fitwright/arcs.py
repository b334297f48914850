"""Arcs and straights of an outline: points, areas and distances, in closed form. Lengths in mm, angles in rad."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Point = tuple[float, float]
Numbers = NDArray[np.float64]
Points = NDArray[np.float64]

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
    """Area and first moments of the arc's part of Green's integrals, by Gauss points (exact to rounding)."""
    nodes, weights = np.polynomial.legendre.leggauss(12)
    angles = arc.start + arc.turn * (nodes + 1) / 2
    x, y = arc.x + arc.radius_mm * np.cos(angles), arc.y + arc.radius_mm * np.sin(angles)
    dx, dy = -arc.radius_mm * np.sin(angles), arc.radius_mm * np.cos(angles)
    w = weights * arc.turn / 2
    area = float((w * (x * dy - y * dx)).sum() / 2)
    return area, float((w * x * x * dy).sum() / 2), float(-(w * y * y * dx).sum() / 2)


def straight_moments(p: Point, q: Point) -> tuple[float, float, float]:
    (x0, y0), (x1, y1) = p, q
    dx, dy = x1 - x0, y1 - y0
    mx = dy * (x0 * x0 + x0 * x1 + x1 * x1) / 6
    my = -dx * (y0 * y0 + y0 * y1 + y1 * y1) / 6
    return (x0 * y1 - x1 * y0) / 2, mx, my


def to_arc(arc: Arc, points: Points) -> tuple[Numbers, NDArray[np.bool_]]:
    """Distance of points from an arc, and whether they lie beyond it."""
    off = points - np.array([arc.x, arc.y])
    within = (np.arctan2(off[:, 1], off[:, 0]) - arc.start) % TURN <= arc.turn + SAME_RAD
    ends = np.array([arc.at(arc.start), arc.at(arc.end)])
    to_ends = np.linalg.norm(points[:, None] - ends, axis=2).min(axis=1)
    over = np.hypot(off[:, 0], off[:, 1]) - arc.radius_mm
    return np.where(within, np.abs(over), to_ends), within & (over > 0.0)


def to_straight(p: Numbers, q: Numbers, points: Points) -> Numbers:
    run = q - p
    square = max(float(run @ run), 1e-24)
    share = np.clip((points - p) @ run / square, 0.0, 1.0)
    apart: Numbers = np.linalg.norm(points - p - share[:, None] * run, axis=1)
    return apart
