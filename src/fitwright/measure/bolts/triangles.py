"""Distances that no places can have: one longer than the way round by others."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.sparse.csgraph import shortest_path

from fitwright.measure.bolts.readings import Numbers, Readings
from fitwright.measure.bolts.search import table_of

SLACK_SD = 4.0
"""A distance may be so many standard deviations longer than the way round: chance does that once in 30,000."""


@dataclass(frozen=True)
class Side:
    """Two points, counted from 0 (the opening's centre after the holes), and how far apart they were read [mm]."""

    first: int
    second: int
    apart_mm: float


@dataclass(frozen=True)
class Impossible:
    """`side` is longer than the sides of `way` together, which lead from one of its ends to the other."""

    side: Side
    way: tuple[Side, ...]

    @property
    def round_mm(self) -> float:
        """The way round [mm]."""
        return sum(one.apart_mm for one in self.way)


def impossible(readings: Readings) -> Impossible | None:
    """The worst of such distances (of each the mean of its readings); None where there is none."""
    have = table_of(readings)
    worst, excess = None, 0.0
    for a, b in zip(*np.nonzero(np.triu(have)), strict=True):
        way = _way(have, int(a), int(b))
        if way is None:
            continue
        found = Impossible(Side(int(a), int(b), float(have[a, b])), way)
        over = found.side.apart_mm - found.round_mm - SLACK_SD * readings.sd_mm * np.sqrt(len(way) + 1.0)
        if over > excess:
            worst, excess = found, over
    return worst


def _way(have: Numbers, a: int, b: int) -> tuple[Side, ...] | None:
    """The shortest way from a to b that does not go straight."""
    others = have.copy()
    others[a, b] = others[b, a] = 0.0
    lengths, before = shortest_path(others, directed=False, indices=a, return_predecessors=True)
    if not np.isfinite(lengths[b]):
        return None
    steps = [b]
    while steps[-1] != a:
        steps.append(int(before[steps[-1]]))
    steps.reverse()
    return tuple(Side(p, q, float(have[p, q])) for p, q in pairwise(steps))
