"""How high a profile stands at a place along the surface."""

from __future__ import annotations

import itertools
import math

from fitwright.outline_union import Region


def height_mm(profile: Region, u: float, v0: float, v1: float) -> float:
    """How much [mm] of the line at u, between v0 and v1, lies inside the profile."""
    loops = (profile.outer, *profile.inner)
    found = sorted(p[1] for loop in loops for s in loop.sides for p in s.crossings((u, v0 - 1e4), (u, v1 + 1e4)))
    stops = [v0, *(v for v in found if v0 < v < v1), v1]
    pairs = itertools.pairwise(stops)
    return math.fsum(b - a for a, b in pairs if b - a > 1e-9 and profile.contains((u, (a + b) / 2)))


def breaks_u(profile: Region) -> list[float]:
    """Where along u the height may change at once: ends of sides and outermost points of arcs."""
    return [p[0] for loop in (profile.outer, *profile.inner) for s in loop.sides for p in s.extremes()]
