"""Plain solids that a part must keep clear of or stay inside of: a box, and a round bar that may taper."""

from __future__ import annotations

import math
from dataclasses import dataclass

import manifold3d
import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Vec

Points = NDArray[np.float64]

FACET_MM = 0.004
"""Facets of a round obstacle lie outside the true surface, by no more than this: gaps come out small, never large."""


@dataclass(frozen=True)
class Box:
    """Between two opposite corners [mm], `low` < `high`."""

    low: Vec
    high: Vec

    def solid(self) -> manifold3d.Manifold:
        """As a closed mesh."""
        size = [b - a for a, b in zip(self.low, self.high, strict=True)]
        return manifold3d.Manifold.cube(size).translate(list(self.low))

    def nearest(self, points: Points) -> Points:
        """The point of the box that is nearest to each of `points` (n, 3)."""
        return np.clip(points, self.low, self.high)

    def depth(self, points: Points) -> Points:
        """How far inside the box each point is: distance to the nearest face, negative outside of it."""
        spare = np.concatenate([points - np.array(self.low), np.array(self.high) - points], axis=1)
        return np.asarray(spare.min(axis=1))

    def facing(self, point: Points) -> Points:
        """Unit vector from the boundary that `depth` measured to, inwards."""
        spare = np.concatenate([point - np.array(self.low), np.array(self.high) - point])
        side = int(np.argmin(spare))
        return np.asarray(np.eye(3)[side % 3] * (1.0 if side < 3 else -1.0))


@dataclass(frozen=True)
class Frustum:
    """A round bar from `start` to `end` [mm] with radius `r_start_mm` to `r_end_mm` (equal: a cylinder)."""

    start: Vec
    end: Vec
    r_start_mm: float
    r_end_mm: float

    @property
    def length_mm(self) -> float:
        """From end to end."""
        return math.dist(self.start, self.end)

    @property
    def axis(self) -> Points:
        """Unit vector from start to end."""
        return np.asarray((np.array(self.end) - np.array(self.start)) / self.length_mm)

    def solid(self) -> manifold3d.Manifold:
        """As a closed mesh whose facets touch the true surface from outside."""
        largest = max(self.r_start_mm, self.r_end_mm)
        count = max(16, math.ceil(math.pi / math.acos(1.0 / (1.0 + FACET_MM / largest))))
        out = 1.0 / math.cos(math.pi / count)
        bar = manifold3d.Manifold.cylinder(self.length_mm, self.r_start_mm * out, self.r_end_mm * out, count)
        z = self.axis
        x = np.cross(z, np.eye(3)[int(np.argmin(np.abs(z)))])
        x /= np.linalg.norm(x)
        return bar.transform(np.column_stack([x, np.cross(z, x), z, self.start]))

    def nearest(self, points: Points) -> Points:
        """The point of the bar that is nearest to each of `points` (n, 3) outside of it."""
        s, r, outward = self._along_and_out(points)
        near_s, near_r = self._nearest_in_profile(s, r)
        return np.asarray(np.array(self.start) + near_s[:, None] * self.axis + near_r[:, None] * outward)

    def _along_and_out(self, points: Points) -> tuple[Points, Points, Points]:
        offset = points - np.array(self.start)
        s = offset @ self.axis
        radial = offset - s[:, None] * self.axis
        r = np.linalg.norm(radial, axis=1)
        return s, r, radial / np.maximum(r, 1e-12)[:, None]

    def _nearest_in_profile(self, s: Points, r: Points) -> tuple[Points, Points]:
        """Of the two end discs and the side, each taken as a straight line in the (s, r) half-plane."""
        length, a, b = self.length_mm, self.r_start_mm, self.r_end_mm
        share = np.clip((s * length + (r - a) * (b - a)) / (length**2 + (b - a) ** 2), 0.0, 1.0)
        on_s = np.stack([np.zeros_like(s), np.full_like(s, length), share * length])
        on_r = np.stack([np.minimum(r, a), np.minimum(r, b), a + share * (b - a)])
        which = np.argmin((on_s - s) ** 2 + (on_r - r) ** 2, axis=0)
        rows = np.arange(len(s))
        return on_s[which, rows], on_r[which, rows]

    def depth(self, points: Points) -> Points:
        """How far inside the bar each point is: distance to the nearest of its faces, negative outside."""
        s, r, _ = self._along_and_out(points)
        return np.asarray(np.stack(self._spares(s, r)).min(axis=0))

    def _spares(self, s: Points, r: Points) -> tuple[Points, Points, Points]:
        slope = (self.r_end_mm - self.r_start_mm) / self.length_mm
        side = (self.r_start_mm + slope * s - r) / math.hypot(1.0, slope)
        return s, self.length_mm - s, side

    def facing(self, point: Points) -> Points:
        """Unit vector from the boundary that `depth` measured to, inwards."""
        s, r, outward = self._along_and_out(point[None])
        side = int(np.argmin([float(spare[0]) for spare in self._spares(s, r)]))
        return np.asarray((self.axis, -self.axis, -outward[0])[side])
