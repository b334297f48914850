"""Half-profiles of round bodies: polylines of (s, r) about an axis, and their closed-form volumes.

`s` is the distance along the axis [mm], `r` the radius [mm]; a polyline runs with s never falling.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Polyline = tuple[Point, ...]

SAME_MM = 1e-7
"""Two profile points closer than this are one: the kernel's own confusion distance."""


def volume_mm3(line: Sequence[Point]) -> float:
    """Volume [mm3] of the solid swept by a polyline turned about its axis: the exact sum of its frustums."""
    total = 0.0
    for (s0, r0), (s1, r1) in itertools.pairwise(line):
        total += math.pi * (s1 - s0) * (r0 * r0 + r0 * r1 + r1 * r1) / 3.0
    return total


def reversed_from(line: Sequence[Point], length_mm: float) -> Polyline:
    """The same polyline measured from the other end of a body `length_mm` long."""
    return tuple((length_mm - s, r) for s, r in reversed(line))


def shifted(line: Sequence[Point], by_mm: float) -> Polyline:
    """The polyline moved along the axis."""
    return tuple((s + by_mm, r) for s, r in line)


def tidy(line: Iterable[Point]) -> Polyline:
    """Without repeated points, and without points in the middle of a straight run."""
    out: list[Point] = []
    for p in line:
        if out and math.dist(out[-1], p) < SAME_MM:
            continue
        while len(out) > 1 and _straight(out[-2], out[-1], p):
            out.pop()
        out.append(p)
    return tuple(out)


def _straight(a: Point, b: Point, c: Point) -> bool:
    cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    onward = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
    return abs(cross) < SAME_MM * math.dist(a, c) and onward >= 0


def radius_at(line: Sequence[Point], s: float) -> float:
    """Radius [mm] of a polyline at s; at a step the larger one. 0 outside the polyline."""
    best = 0.0
    for (s0, r0), (s1, r1) in itertools.pairwise(line):
        if s0 - SAME_MM <= s <= s1 + SAME_MM:
            best = max(best, r0, r1) if s1 - s0 < SAME_MM else max(best, r0 + (r1 - r0) * (s - s0) / (s1 - s0))
    return best


def upper_envelope(lines: Sequence[Sequence[Point]]) -> Polyline:
    """The outermost of several polylines at every s, as one polyline (each counts as 0 outside its own range).

    Used to put humps, collars and flares on a plain outside: whatever reaches out furthest is the skin.
    """
    stations = sorted(_stations(lines))
    out: list[Point] = []
    for s0, s1 in itertools.pairwise(stations):
        if s1 - s0 < SAME_MM:
            continue
        out += [(s0, _one_sided(lines, s0, s1)), (s1, _one_sided(lines, s1, s0))]
    return tidy(out)


def _stations(lines: Sequence[Sequence[Point]]) -> set[float]:
    segments = [(p, q) for line in lines for p, q in itertools.pairwise(line) if q[0] - p[0] > SAME_MM]
    found = {s for line in lines for s, _ in line}
    for i, (a, b) in enumerate(segments):
        for c, d in segments[i + 1 :]:
            slope = (b[1] - a[1]) / (b[0] - a[0]) - (d[1] - c[1]) / (d[0] - c[0])
            if abs(slope) < 1e-12:
                continue
            gap = (c[1] - a[1]) + (a[0] * (b[1] - a[1]) / (b[0] - a[0]) - c[0] * (d[1] - c[1]) / (d[0] - c[0]))
            s = gap / slope
            if max(a[0], c[0]) < s < min(b[0], d[0]):
                found.add(s)
    merged: list[float] = []
    for s in sorted(found):
        if not merged or s - merged[-1] > 1e-6:
            merged.append(s)
    return set(merged)


def _one_sided(lines: Sequence[Sequence[Point]], at: float, towards: float) -> float:
    """The largest radius at `at`, seen as a limit from `towards`."""
    inside = at + (towards - at) * 1e-3
    best = 0.0
    for line in lines:
        for (s0, r0), (s1, r1) in itertools.pairwise(line):
            if s1 - s0 > SAME_MM and s0 <= inside <= s1:
                best = max(best, r0 + (r1 - r0) * (min(max(at, s0), s1) - s0) / (s1 - s0))
    return best


def hump(s0: float, s1: float, top_r: float, floor_r: float, slope: float = 1.0) -> Polyline:
    """A raised ring whose crest runs from s0 to s1 at `top_r`, its flanks falling to `floor_r` at `slope` (1 = 45 deg).

    Flanks of 45 deg print without support whichever mouth is down.
    """
    run = (top_r - floor_r) / slope
    return ((s0 - run, floor_r), (s0, top_r), (s1, top_r), (s1 + run, floor_r))


def clipped(line: Sequence[Point], s0: float, s1: float) -> Polyline:
    """The part of a polyline between s0 and s1."""
    out: list[Point] = []
    for (a, ra), (b, rb) in itertools.pairwise(line):
        if b < s0 - SAME_MM or a > s1 + SAME_MM:
            continue
        if b - a < SAME_MM:
            out += [(a, ra), (b, rb)]
            continue
        lo, hi = max(a, s0), min(b, s1)
        if hi < lo:
            continue
        out += [(lo, ra + (rb - ra) * (lo - a) / (b - a)), (hi, ra + (rb - ra) * (hi - a) / (b - a))]
    return tidy(out)
