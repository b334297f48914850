"""How high a profile stands at a place along the surface, and what a cutter square to it takes away."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence

import numpy as np

from fitwright.outline_union import Region

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)


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


def taken_along_v_mm3(
    profile: Region,
    u: float,
    r_mm: float,
    v: tuple[float, float],
    chord: Callable[[float], float],
    breaks: Sequence[float] = (),
) -> float:
    """What a cutter along v takes from the profile [mm3]: at each u its `chord` along y times the profile's height.

    It reaches `r_mm` to both sides of its middle at `u`, between the two of `v`; `chord` and `breaks`, where its slope
    jumps, count from its middle. Gauss's quadrature over t, u = r sin t, between all breaks.
    """
    own = (one - u for one in breaks_u(profile))
    stops = sorted({-r_mm, r_mm, *breaks, *(one for one in own if -r_mm < one < r_mm)})
    turns = [math.asin(max(-1.0, min(1.0, one / r_mm))) for one in stops]
    total = 0.0
    for first, last in itertools.pairwise(turns):
        for x, w in zip(_NODES.tolist(), _WEIGHTS.tolist(), strict=True):
            t = (first + last) / 2 + (last - first) / 2 * x
            at = r_mm * math.sin(t)
            area = r_mm * math.cos(t) * chord(at)
            total += w * (last - first) / 2 * area * height_mm(profile, u + at, *v)
    return total
