"""Distances in plan from points over an underside to its rim."""

from __future__ import annotations

import math

import numpy as np

from fitwright.printing.laid import Array, Bools

SQUARE = math.cos(math.radians(30.0))
"""A bridge lands on its support within 30 degrees of square: a chord along an annular shoulder is no bridge."""
HEADINGS = 8
"""Directions tried for a bridge, besides the one to the nearest support: square to the longest rims."""
BESIDE_MM = (0.1, -0.1, 0.4, -0.4, 0.79, -0.79)
"""How far to the side a bridge is looked for: up to the ledge that prints clean."""
NOWHERE = 1e-12


class Rim:
    """The rim of one underside in plan: `segments` (k, 2, 2) [mm], `held` where something below carries it."""

    def __init__(self, segments: Array, held: Bools) -> None:
        along = segments[:, 1] - segments[:, 0]
        self.length = np.linalg.norm(along, axis=1)
        keep = self.length > NOWHERE
        self.start, self.along, self.held = segments[keep, 0], along[keep], held[keep]
        self.length = self.length[keep]
        self.normal = np.stack([-self.along[:, 1], self.along[:, 0]], axis=1) / self.length[:, None]

    def within(self, points: Array) -> float:
        """A distance [mm] from one held edge that no part of the patch with these corners exceeds."""
        if not self.held.any():
            return math.inf
        return float(self._distances(points)[1].max(axis=0).min())

    def reach(self, points: Array) -> tuple[Array, Array]:
        """Distance [mm] to the nearest support that each point sees without crossing air, and the unit direction to it.

        inf and (0, 0) where it sees none.
        """
        near, towards = self._nearest(points)
        if self.held.all() or not self.held.any():
            return near, towards
        seen, _, _ = self._first_hit(points, towards)
        hidden = np.isfinite(near) & (seen < near - 1e-6)
        if hidden.any():
            near[hidden], towards[hidden] = self._reach_by_rays(points[hidden])
        return near, towards

    def _nearest(self, points: Array) -> tuple[Array, Array]:
        if not self.held.any():
            return np.full(len(points), math.inf), np.zeros((len(points), 2))
        gap, distance = self._distances(points)
        which = np.argmin(distance, axis=1)
        rows = np.arange(len(points))
        best = distance[rows, which]
        return best, gap[rows, which] / np.maximum(best, NOWHERE)[:, None]

    def _distances(self, points: Array) -> tuple[Array, Array]:
        """From each point to each held edge: the way (n, k, 2), and its length (n, k)."""
        start, along = self.start[self.held], self.along[self.held]
        offset = points[:, None, :] - start[None]
        share = np.clip((offset * along).sum(axis=2) / (along * along).sum(axis=1), 0.0, 1.0)
        gap = share[:, :, None] * along[None] - offset
        return gap, np.linalg.norm(gap, axis=2)

    def _reach_by_rays(self, points: Array) -> tuple[Array, Array]:
        best, towards = np.full(len(points), math.inf), np.zeros((len(points), 2))
        for angle in np.arange(0.0, 2 * math.pi, math.pi / 16):
            heading = np.array([math.cos(angle), math.sin(angle)])
            distance, held, _ = self._first_hit(points, np.tile(heading, (len(points), 1)))
            closer = held & (distance < best)
            best[closer], towards[closer] = distance[closer], heading
        return best, towards

    def span(self, points: Array, towards: Array) -> Array:
        """Length [mm] of the shortest bridge through each point, or close beside it; inf where there is none.

        Beside: a strip that sticks out beyond the ends of its supports no more than a ledge may is held by the bridge.
        """
        headings = [towards, *(np.tile(h, (len(points), 1)) for h in self._headings())]
        best = np.full(len(points), math.inf)
        for heading in headings:
            best = np.minimum(best, self._bridge(points, heading))
        for heading in headings:
            for aside in BESIDE_MM:
                left = np.flatnonzero(~np.isfinite(best))
                if len(left) == 0:
                    return best
                best[left] = self._bridge_beside(points[left], heading[left], aside)
        return best

    def _bridge(self, points: Array, heading: Array) -> Array:
        return self._landing(points, heading) + self._landing(points, -heading)

    def _bridge_beside(self, points: Array, heading: Array, aside_mm: float) -> Array:
        across = np.stack([-heading[:, 1], heading[:, 0]], axis=1) * math.copysign(1.0, aside_mm)
        room, _, _ = self._first_hit(points, across)
        beside = self._bridge(points + abs(aside_mm) * across, heading)
        return np.where(room > abs(aside_mm), beside, math.inf)

    def _headings(self) -> list[Array]:
        """Directions square to the held rims: the longest edge of each of 8 equal ranges of angle."""
        normal, length = self.normal[self.held], self.length[self.held]
        angle = np.arctan2(normal[:, 1], normal[:, 0]) % math.pi
        which = np.minimum((angle / math.pi * HEADINGS).astype(int), HEADINGS - 1)
        longest = [np.flatnonzero(which == k) for k in range(HEADINGS)]
        return [normal[group[np.argmax(length[group])]] for group in longest if len(group)]

    def _landing(self, points: Array, heading: Array) -> Array:
        """Distance along a heading to a support met squarely; inf where air comes first or it is met askew."""
        distance, held, which = self._first_hit(points, heading)
        square = np.abs((self.normal[which] * heading).sum(axis=1)) >= SQUARE
        return np.where(held & square, distance, math.inf)

    def _first_hit(self, points: Array, heading: Array) -> tuple[Array, Bools, Array]:
        """For each point: distance along its heading to the first rim edge, whether that is held, and which it is."""
        along = self.along
        cross = heading[:, :1] * along[None, :, 1] - heading[:, 1:] * along[None, :, 0]
        to_x, to_y = self.start[None, :, 0] - points[:, :1], self.start[None, :, 1] - points[:, 1:]
        with np.errstate(divide="ignore", invalid="ignore"):
            distance = (to_x * along[None, :, 1] - to_y * along[None, :, 0]) / cross
            share = (to_x * heading[:, 1:] - to_y * heading[:, :1]) / cross
        meets = (np.abs(cross) > NOWHERE) & (distance >= -1e-9) & (share >= -1e-9) & (share <= 1.0 + 1e-9)
        distance = np.where(meets, np.maximum(distance, 0.0), math.inf)
        which = np.argmin(distance, axis=1)
        first = distance[np.arange(len(points)), which]
        return first, self.held[which] & np.isfinite(first), which
