"""The convex outline that holds an outline read at the bench: small kinks that turn inwards are reading errors."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from fitwright.arcs import TURN, Arc

Numbers = NDArray[np.float64]

TINY_RAD = 5e-4
"""A corner or arc that turns less than this is none: over 300 mm its sides part by 0.15 mm."""
FAR_MM = 1e6


def belt(pieces: Sequence[Arc]) -> list[Arc]:
    """The arcs of the hull of arcs and points (radius 0, whose normals may point anywhere), in order.

    Each direction belongs to the piece that reaches furthest in it.
    """
    cuts = np.unique(np.concatenate([_cuts(pieces), [0.0]]))
    ends = np.append(cuts[1:], cuts[0] + TURN)
    wide = ends - cuts > 1e-12
    starts, ends = cuts[wide], ends[wide]
    winners = _reaches(pieces, (starts + ends) / 2).argmax(axis=0)
    runs: list[tuple[int, float, float]] = []
    for which, start, end in zip(winners.tolist(), starts.tolist(), ends.tolist(), strict=True):
        if runs and runs[-1][0] == which:
            runs[-1] = (which, runs[-1][1], end)
        else:
            runs.append((which, start, end))
    if len(runs) > 1 and runs[0][0] == runs[-1][0]:
        which, start, _ = runs.pop()
        runs[0] = (which, start, runs[0][2] + TURN)
    return without_tiny([replace(pieces[which], start=start, end=end) for which, start, end in runs])


def without_tiny(arcs: Sequence[Arc]) -> list[Arc]:
    """Without arcs that turn less than TINY_RAD: their neighbours meet, or are joined by one straight."""
    left, kept = list(arcs), set[tuple[float, float, float]]()
    while len(left) > 2:
        tiny = [k for k, a in enumerate(left) if a.turn < TINY_RAD and (a.x, a.y, a.radius_mm) not in kept]
        if not tiny:
            break
        k = min(tiny, key=lambda k: left[k].turn)
        angle = _common(left[k - 1], left[(k + 1) % len(left)], (left[k].start + left[k].end) / 2)
        if angle is None:
            kept.add((left[k].x, left[k].y, left[k].radius_mm))
        else:
            _joined(left, k, angle)
    return left


def _joined(arcs: list[Arc], k: int, angle: float) -> None:
    """Arc k left out; its neighbours' normals meet at this angle."""
    before, after = (k - 1) % len(arcs), (k + 1) % len(arcs)
    one, other = arcs[before], arcs[after]
    arcs[before] = replace(one, end=one.end + math.remainder(angle - one.end, TURN))
    arcs[after] = replace(other, start=other.start + math.remainder(angle - other.start, TURN))
    del arcs[k]


def _common(one: Arc, other: Arc, near: float) -> float | None:
    """The direction near this one in which both reach equally far; None where there is none that near."""
    apart = math.dist((one.x, one.y), (other.x, other.y))
    if apart <= abs(other.radius_mm - one.radius_mm):
        return None
    ahead = math.atan2(one.y - other.y, one.x - other.x)
    swing = math.acos((other.radius_mm - one.radius_mm) / apart)
    off = min((math.remainder(ahead + k * swing - near, TURN) for k in (-1, 1)), key=abs)
    return near + off if abs(off) < 20 * TINY_RAD else None


def _cuts(pieces: Sequence[Arc]) -> Numbers:
    """Every direction in [0, 2 pi) in which two pieces reach equally far, or an arc's normals end."""
    found = [a for p in pieces if p.turn < TURN for a in (p.start, p.end)]
    for one, other in itertools.combinations(pieces, 2):
        apart = math.dist((one.x, one.y), (other.x, other.y))
        if apart > abs(other.radius_mm - one.radius_mm) + 1e-12:
            ahead = math.atan2(one.y - other.y, one.x - other.x)
            swing = math.acos((other.radius_mm - one.radius_mm) / apart)
            found += [ahead + swing, ahead - swing]
    return np.asarray(found) % TURN


def _reaches(pieces: Sequence[Arc], angles: Numbers) -> Numbers:
    """How far each piece (row) reaches in each direction (column); nowhere where its normals do not point."""
    rows = []
    for p in pieces:
        reach = p.x * np.cos(angles) + p.y * np.sin(angles) + p.radius_mm
        rows.append(np.where((angles - p.start) % TURN <= p.turn, reach, -FAR_MM))
    return np.array(rows)
