"""All arrangements that fit the distances: several starts, and what folds over a hinge.

Starts: classical multidimensional scaling (W. S. Torgerson 1952) on the distances, completed by the shortest way
round or by those of a regular polygon; that polygon itself; each also shaken. Then every part of the pattern that
hangs on two holes only is folded over the line through them. Numbering clockwise tells the right one from its mirror
and its folds.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse.csgraph import connected_components, shortest_path

from fitwright.measure.bolts.adjust import Fit, free_fit
from fitwright.measure.bolts.readings import Numbers, Readings

SAME_MM = 0.5
"""Arrangements whose distances all agree within this are one."""
AS_GOOD = 12.0
"""Sum of squares by which an arrangement may be worse and still be as likely as the best (3.5 standard deviations)."""
MIDDLE = 0.15
"""A hole nearer to the middle than this share of the mean distance has no direction from it."""
SHAKEN = 8
MOST_FOLDED = 24


@dataclass(frozen=True)
class Arrangements:
    """The arrangement taken, and others that fit as well. `order`: 2 outward-bulging clockwise, 1 clockwise about the
    middle, 0 neither. `mirror_settled`: the numbering tells it from its mirror image.
    """

    taken: Fit
    order: int
    others: tuple[Fit, ...]
    mirror_settled: bool


def arrange(readings: Readings) -> Arrangements:
    """The arrangement that fits best among those numbered clockwise, and what else fits as well."""
    found: list[Fit] = []
    starts = _starts(readings)
    for start in starts:
        _note(found, free_fit(readings, start))
    if len(found) > 1 or found[0].spare < readings.points:
        for start in _shaken(starts):
            _note(found, free_fit(readings, start))
    _fold(readings, found)
    least = min(fit.chi2 for fit in found)
    good = [fit for fit in found if fit.chi2 <= least + AS_GOOD]
    good.sort(key=lambda fit: (-order_of(fit.holes), fit.chi2))
    order = order_of(good[0].holes)
    others = tuple(fit for fit in good[1:] if order_of(fit.holes) == order)
    return Arrangements(good[0], order, others, order > 0 or _turns(good[0].holes))


def order_of(holes: Numbers) -> int:
    """How well the numbering goes round clockwise, in this arrangement or its mirror image (see Arrangements)."""
    return max(_order(holes), _order(holes * [-1.0, 1.0]))


def clockwise(holes: Numbers) -> bool:
    """Whether this arrangement, and not its mirror image, is numbered clockwise (right and up as seen)."""
    one, other = _order(holes), _order(holes * [-1.0, 1.0])
    return one > other or (one == other and _area(holes) <= 0)


def _order(holes: Numbers) -> int:
    """2, 1, 0 as in Arrangements, of the arrangement as it stands; a hole in the middle has no place in the round."""
    spokes = holes - holes.mean(axis=0)
    outward = np.linalg.norm(spokes, axis=1)
    holes, spokes = (every[outward > MIDDLE * outward.mean()] for every in (holes, spokes))
    if len(holes) < 3:
        return 2
    if not _round_once(spokes):
        return 0
    sides = np.roll(holes, -1, axis=0) - holes
    after = np.roll(sides, -1, axis=0)
    return 2 if bool(np.all(_cross(sides, after) < 0)) else 1


def _round_once(spokes: Numbers) -> bool:
    """Whether the spokes follow one another clockwise, once round."""
    turns = np.arctan2(
        _cross(spokes, np.roll(spokes, -1, axis=0)), np.sum(spokes * np.roll(spokes, -1, axis=0), axis=1)
    )
    return bool(np.all(turns < 0)) and abs(float(turns.sum()) + 2 * np.pi) < 1e-6


def _turns(holes: Numbers) -> bool:
    """Whether going through the holes in order turns clearly to one side."""
    size = float(np.ptp(holes, axis=0).max())
    return abs(_area(holes)) > 0.02 * size**2


def _area(holes: Numbers) -> float:
    return float(_cross(holes, np.roll(holes, -1, axis=0)).sum() / 2)


def _cross(a: Numbers, b: Numbers) -> Numbers:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _note(found: list[Fit], fit: Fit) -> bool:
    """Keep a fit that is new; the better of two that are the same arrangement."""
    apart = _apart(fit.places)
    for k, old in enumerate(found):
        if np.max(np.abs(_apart(old.places) - apart)) < SAME_MM:
            found[k] = min(old, fit, key=lambda one: one.chi2)
            return False
    found.append(fit)
    return True


def _apart(places: Numbers) -> Numbers:
    return np.asarray(np.linalg.norm(places[:, None] - places[None], axis=2))


def polygon(count: int) -> Numbers:
    """A regular polygon of radius 1, its first corner up, clockwise."""
    turns = 2 * np.pi * np.arange(count) / count
    return np.column_stack([np.sin(turns), np.cos(turns)])


def table_of(readings: Readings) -> Numbers:
    """Distances as read, point by point [mm]; 0 where there is none. Several readings count by their mean."""
    sums, counts = np.zeros((readings.points,) * 2), np.zeros((readings.points,) * 2)
    for a, b, apart in zip(readings.first, readings.second, readings.centres(), strict=True):
        for pair in ((a, b), (b, a)):
            sums[pair] += max(apart, 1e-3)
            counts[pair] += 1
    return np.asarray(np.divide(sums, counts, out=sums, where=counts > 0))


def _starts(readings: Readings) -> list[Numbers]:
    have = table_of(readings)
    shape = _polygon_like(readings, have)
    ways = shortest_path(have, directed=False)
    half = np.where(have > 0, have, (ways + _apart(shape)) / 2)
    blended = np.where(have > 0, have, np.minimum(_apart(shape), ways))
    return [shape, _scaled(blended), _scaled(half), _scaled(ways)]


def _shaken(starts: list[Numbers]) -> Iterator[Numbers]:
    """More starts, for where the first ones disagree or few readings are spare."""
    random = np.random.default_rng(11)
    for k in range(SHAKEN):
        start = starts[k % len(starts)]
        yield start + random.normal(0.0, 0.15 * float(np.ptp(start)), start.shape)


def _polygon_like(readings: Readings, have: Numbers) -> Numbers:
    """A regular polygon of the size that the distances ask for, the opening's centre a little off its middle."""
    shape = np.vstack([polygon(readings.count), np.full((readings.points - readings.count, 2), 0.03)])
    unit, known = _apart(shape), have > 0
    return np.asarray(shape * (np.sum(have[known] * unit[known]) / np.sum(unit[known] ** 2)))


def _scaled(apart: Numbers) -> Numbers:
    """Classical multidimensional scaling to two dimensions."""
    n = len(apart)
    centring = np.eye(n) - 1.0 / n
    values, vectors = np.linalg.eigh(-0.5 * centring @ apart**2 @ centring)
    return np.asarray(vectors[:, -2:] * np.sqrt(np.maximum(values[-2:], 1e-6)))


def _fold(readings: Readings, found: list[Fit]) -> None:
    """Add what comes from folding a part over two holes that alone hold it, again and again."""
    hinges = _hinges(table_of(readings) > 0)
    at = int(np.argmin([fit.chi2 for fit in found]))
    open_ends = [found[at]]
    while hinges and open_ends and len(found) < MOST_FOLDED:
        fit = open_ends.pop(0)
        for a, b, part in hinges:
            folded = free_fit(readings, _mirrored(fit.places, a, b, part))
            if _note(found, folded):
                open_ends.append(folded)


def _hinges(linked: NDArray[np.bool_]) -> list[tuple[int, int, Numbers]]:
    """(a, b, the points that only a and b join to the rest)."""
    found = []
    for a, b in combinations(range(len(linked)), 2):
        rest = np.array([k for k in range(len(linked)) if k not in (a, b)])
        if len(rest):
            count, labels = connected_components(linked[np.ix_(rest, rest)], directed=False)
            found += [(a, b, rest[labels == k]) for k in range(1, count)]
    return found


def _mirrored(places: Numbers, a: int, b: int, part: Numbers) -> Numbers:
    along = (places[b] - places[a]) / max(float(np.linalg.norm(places[b] - places[a])), 1e-9)
    made = places.copy()
    spokes = places[part] - places[a]
    made[part] = places[a] + 2 * np.outer(spokes @ along, along) - spokes
    return made
