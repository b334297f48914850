"""Does a body's outline seen from above fit the bed, turned as it may be?"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull, QhullError

from fitwright.printing.laid import Array

SWEEP = 721
"""Turns tried between 0 and 180 deg, besides those that lay an edge of the outline along a side of the bed."""
REFINE = 101
"""Turns tried again, closely, round the best one."""
FITS_MM = 1e-6
"""Rounding: an outline exactly as wide as the bed fits."""


@dataclass(frozen=True)
class PlanFit:
    """How the outline lies best: turned by `turn_rad` it is `width_mm` x `depth_mm`; `spare_mm` is left (< 0: lacks).

    `centre_mm` is the middle of the turned outline's box, in turned bed coordinates.
    """

    turn_rad: float
    width_mm: float
    depth_mm: float
    spare_mm: float
    centre_mm: tuple[float, float]

    @property
    def fits(self) -> bool:
        """Whether it lies within the bed."""
        return self.spare_mm >= -FITS_MM


def outline(points_mm: Array) -> Array:
    """Corners of the convex hull in plan, counter-clockwise; of the box where the points lie on one line."""
    flat = points_mm[:, :2]
    try:
        return np.asarray(flat[ConvexHull(flat).vertices])
    except QhullError:
        (x0, y0), (x1, y1) = flat.min(axis=0), flat.max(axis=0)
        return np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]])


def best_turn(hull_mm: Array, bed_x_mm: float, bed_y_mm: float) -> PlanFit:
    """As it is when that fits; else the turn about the vertical that leaves most room.

    The outline's box changes smoothly between the turns that lay an edge of the hull along a side of the bed, so those
    are tried, with a fine sweep for the diagonals between them, and the best of all is refined.
    """
    straight = _fit(hull_mm, np.array([0.0]), bed_x_mm, bed_y_mm)
    if straight.fits:
        return straight
    edges = np.roll(hull_mm, -1, axis=0) - hull_mm
    along = -np.arctan2(edges[:, 1], edges[:, 0])
    sweep = np.linspace(0.0, math.pi, SWEEP)
    first = _fit(hull_mm, np.concatenate([along, along + math.pi / 2, sweep]), bed_x_mm, bed_y_mm)
    close = first.turn_rad + np.linspace(-1.0, 1.0, REFINE) * math.pi / (SWEEP - 1)
    second = _fit(hull_mm, close, bed_x_mm, bed_y_mm)
    return max(first, second, key=lambda fit: fit.spare_mm)


def _fit(hull: Array, turns: Array, bed_x_mm: float, bed_y_mm: float) -> PlanFit:
    c, s = np.cos(turns)[:, None], np.sin(turns)[:, None]
    x, y = c * hull[:, 0] - s * hull[:, 1], s * hull[:, 0] + c * hull[:, 1]
    width, depth = np.ptp(x, axis=1), np.ptp(y, axis=1)
    spare = np.minimum(bed_x_mm - width, bed_y_mm - depth)
    k = int(np.argmax(spare))
    centre = (float(x[k].max() + x[k].min()) / 2, float(y[k].max() + y[k].min()) / 2)
    return PlanFit(float(turns[k]), float(width[k]), float(depth[k]), float(spare[k]), centre)


def least_width_mm(hull_mm: Array) -> float:
    """Least distance between two parallel lines that hold the outline between them (rotating calipers)."""
    edges = np.roll(hull_mm, -1, axis=0) - hull_mm
    normals = np.stack([-edges[:, 1], edges[:, 0]], axis=1)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12)
    return float(np.ptp(hull_mm @ normals.T, axis=0).min())
