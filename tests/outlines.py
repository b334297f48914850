"""Convex outlines for the tests: by corners, as a belt round circles, and at random."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely

from fitwright.section import Arc, Section

TURN = 2.0 * math.pi
FINE = 1024
"""Chords of a quarter circle in shapely: (pi / 2 / 1024)^2 / 6 = 4e-7 of a disc's area are lost."""


def corner_section(points: Sequence[tuple[float, float]]) -> Section:
    """A polygon's outline, counter-clockwise; every corner an arc of radius 0."""
    count, arcs = len(points), []
    for k, (x, y) in enumerate(points):
        (px, py), (nx, ny) = points[k - 1], points[(k + 1) % count]
        start, end = math.atan2(px - x, y - py), math.atan2(x - nx, ny - y)
        arcs.append(Arc(x, y, 0.0, start, start + (end - start) % TURN))
    return Section(tuple(arcs))


def hull_of_circles(circles: Sequence[tuple[float, float, float]]) -> Section:
    """The outline of a belt round circles (x, y, r): each direction belongs to the circle that reaches furthest."""
    cuts = []
    for x, y, r in circles:
        for u, v, q in circles:
            apart = math.hypot(x - u, y - v)
            if apart > abs(r - q) and (x, y) != (u, v):
                ahead, swing = math.atan2(y - v, x - u), math.acos((q - r) / apart)
                cuts += [(ahead + swing) % TURN, (ahead - swing) % TURN]
    cuts.sort()
    arcs: list[Arc] = []
    for start, end in zip(cuts, [*cuts[1:], cuts[0] + TURN], strict=True):
        if end - start < 1e-9:
            continue
        middle = (start + end) / 2
        x, y, r = max(circles, key=lambda c: c[0] * math.cos(middle) + c[1] * math.sin(middle) + c[2])
        if arcs and (arcs[-1].x, arcs[-1].y) == (x, y):
            arcs[-1] = Arc(x, y, r, arcs[-1].start, end)
        else:
            arcs.append(Arc(x, y, r, start, end))
    if len(arcs) > 1 and (arcs[0].x, arcs[0].y) == (arcs[-1].x, arcs[-1].y):
        last = arcs.pop()
        arcs[0] = Arc(last.x, last.y, last.radius_mm, last.start, last.end + arcs[0].turn)
    return Section(tuple(arcs))


def belt(circles: Sequence[tuple[float, float, float]]) -> shapely.Geometry:
    """The same, by shapely."""
    discs = [shapely.Point(x, y).buffer(r, quad_segs=FINE) if r else shapely.Point(x, y) for x, y, r in circles]
    return shapely.convex_hull(shapely.union_all(discs))


def random_circles(seed: int) -> list[tuple[float, float, float]]:
    """Three to seven circles about the axis, some of them points."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(3, 8))
    turns = np.sort((np.arange(count) + rng.uniform(-0.3, 0.3, count)) * TURN / count)
    wide, high = rng.uniform(40, 150), rng.uniform(40, 150)
    radii = rng.uniform(0, 20, count) * (rng.random(count) < 0.6)
    return [(float(wide * math.cos(t)), float(high * math.sin(t)), float(r)) for t, r in zip(turns, radii, strict=True)]


def random_section(seed: int) -> Section:
    """A random convex outline about the axis."""
    return hull_of_circles(random_circles(seed))
