"""Hatching of a cut face, and outlines made ready for paper: thinned, and cut off where a long pipe is broken."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from fitwright.drawing.sheet import Point

Outline = tuple[Point, ...]


def hatching(outlines: Sequence[Outline], gap_mm: float, slope_deg: float) -> list[tuple[Point, Point]]:
    """Parallel straights `gap_mm` apart within an odd number of the closed outlines, at `slope_deg` from the right.

    The lines lie on one grid through the origin, so that pieces of one body are hatched as one.
    """
    turn = math.radians(slope_deg)
    along, square = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))
    sides = [(a, b) for line in outlines for a, b in zip(line, (*line[1:], line[0]), strict=True)]
    heights = [_dot(p, square) for line in outlines for p in line]
    if not heights:
        return []
    strokes = []
    for k in range(math.ceil(min(heights) / gap_mm), math.floor(max(heights) / gap_mm) + 1):
        at = k * gap_mm + 1e-7  # beside corners that lie on the very grid
        cuts = sorted(_crossings(sides, along, square, at))
        for low, high in zip(cuts[::2], cuts[1::2], strict=False):
            ends = [(along[0] * t + square[0] * at, along[1] * t + square[1] * at) for t in (low, high)]
            strokes.append((ends[0], ends[1]))
    return strokes


def _crossings(sides: Sequence[tuple[Point, Point]], along: Point, square: Point, at: float) -> list[float]:
    found = []
    for a, b in sides:
        p, q = _dot(a, square) - at, _dot(b, square) - at
        if (p > 0.0) != (q > 0.0):
            share = p / (p - q)
            found.append(_dot(a, along) * (1 - share) + _dot(b, along) * share)
    return found


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def within(outline: Sequence[Point], low: float, high: float) -> Outline:
    """The part of a closed outline whose first coordinate is between two limits; empty where there is none."""
    return _cut(_cut(tuple(outline), low, 1.0), high, -1.0)


def _cut(outline: Outline, limit: float, sign: float) -> Outline:
    kept: list[Point] = []
    for a, b in zip(outline, (*outline[1:], *outline[:1]), strict=True):
        p, q = sign * (a[0] - limit), sign * (b[0] - limit)
        if p >= 0.0:
            kept.append(a)
        if (p > 0.0 > q) or (p < 0.0 < q):
            share = p / (p - q)
            kept.append((a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share))
    return tuple(kept)


def thinned(outline: Sequence[Point], stray_mm: float) -> Outline:
    """A closed outline without the points that lie within `stray_mm` of the line between those kept."""
    points = list(outline)
    if len(points) < 4:
        return tuple(points)
    far = max(range(len(points)), key=lambda k: (round(math.dist(points[0], points[k]), 6), -k))
    one, two = points[: far + 1], [*points[far:], points[0]]
    return (*_thin(one, stray_mm)[:-1], *_thin(two, stray_mm)[:-1])


def _thin(line: list[Point], stray_mm: float) -> list[Point]:
    """The Douglas-Peucker rule, without recursion."""
    keep = {0, len(line) - 1}
    spans = [(0, len(line) - 1)]
    while spans:
        first, last = spans.pop()
        inner = range(first + 1, last)
        far = max(inner, key=lambda k: _off(line[k], line[first], line[last]), default=first)
        if far != first and _off(line[far], line[first], line[last]) > stray_mm:
            keep.add(far)
            spans += [(first, far), (far, last)]
    return [line[k] for k in sorted(keep)]


def _off(p: Point, a: Point, b: Point) -> float:
    long = math.dist(a, b)
    if long < 1e-12:
        return math.dist(p, a)
    return abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / long


def area_mm2(outline: Sequence[Point]) -> float:
    """The area inside a closed outline."""
    ends = itertools.pairwise((*outline, outline[0]))
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in ends)) / 2
