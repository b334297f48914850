"""The lengths of hose that serve a whole travel box: the shortest that reaches, the longest that does not drag or fold.

The straight distance to a point is convex, so over a box it is greatest in a corner; but where slack hangs lowest or
folds tightest is the place nearest to the anchor in plan, which is mostly no corner. So corners, the nearest places and
a grid are all tried, and from the worst of them a search in ever smaller steps goes on.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from fitwright.frame import Vec
from fitwright.physics.hose_head import Limits, Stand
from fitwright.physics.hose_trolley import Rolled

Stands = Stand | Rolled
Standing = Callable[[Vec, float], Stands]
"""(place of the head, length of hose) -> how it stands."""
Least = Callable[[Vec], float]
"""Place of the head -> the shortest hose that keeps its bends there."""
_GRID = 3
_FINEST_MM, _COARSE_MM = 1.0, 50.0
_SCAN = tuple(2.0**k * 1e-5 for k in range(19))
"""Slack as a share of the shortest length: from 1e-5 to 2.6 of it."""
_HALVINGS = 24


@dataclass(frozen=True)
class Box:
    """Where the head's port goes: from `low` to `high` (right, away, up)."""

    low: Vec
    high: Vec

    def corners(self) -> tuple[Vec, ...]:
        """Two to the number of directions in which it moves."""
        right, away, up = (sorted({lo, hi}) for lo, hi in zip(self.low, self.high, strict=True))
        return tuple(itertools.product(right, away, up))

    def held_inside(self, point: Vec) -> Vec:
        """The nearest point of the box."""
        x, y, z = (min(max(p, lo), hi) for p, lo, hi in zip(point, self.low, self.high, strict=True))
        return x, y, z

    def places(self, anchors: Sequence[Vec], grid: int = _GRID) -> tuple[Vec, ...]:
        """Corners, what is nearest in plan to each anchor (low and high), and a grid."""
        found = list(self.corners())
        for x, y, _ in anchors:
            found += [self.held_inside((x, y, z)) for z in (self.low[2], self.high[2])]
        if grid > 1:
            right, away, up = (_between(lo, hi, grid) for lo, hi in zip(self.low, self.high, strict=True))
            found += itertools.product(right, away, up)
        return tuple(dict.fromkeys(found))


@dataclass(frozen=True)
class Bound:
    """A length of hose and the place of the head that sets it."""

    length_mm: float
    at: Vec


@dataclass(frozen=True)
class Window:
    """The shortest that reaches every place with the permitted pull (None: nowhere does), and the longest by cause."""

    shortest: Bound | None
    drags: Bound
    folds: Bound
    turns: Bound
    unreached: Vec | None = None
    """A place that no length serves: there is no room for the bends, or its own weight pulls too much."""

    @property
    def longest(self) -> Bound:
        """The least of the three."""
        return min(self.drags, self.folds, self.turns, key=lambda one: one.length_mm)

    @property
    def why_not_longer(self) -> str:
        """drags, folds or turns."""
        return min(("drags", "folds", "turns"), key=lambda name: getattr(self, name).length_mm)

    @property
    def works(self) -> bool:
        """Whether some length serves all places."""
        return self.shortest is not None and self.shortest.length_mm <= self.longest.length_mm


def window(
    box: Box, anchors: Sequence[Vec], stand: Standing, least: Least, limits: Limits, grid: int = _GRID
) -> Window:
    """The lengths that serve all of the box."""
    places = box.places(anchors, grid)
    needs = {at: shortest_mm(at, stand, least, limits) for at in places}
    unreached = next((at for at, need in needs.items() if math.isinf(need)), None)
    shortest = None
    if unreached is None:
        shortest = _worst(box, needs, lambda at: shortest_mm(at, stand, least, limits), grid)
    tests: dict[str, Callable[[Stands], bool]] = {
        "drags": lambda one: one.lowest_mm >= limits.lowest_mm,
        "folds": lambda one: one.roundest_mm >= limits.radius_mm,
        "turns": lambda one: one.best_leaves_mm >= 0.0,
    }
    longest = {name: _longest(box, places, stand, least, test, grid) for name, test in tests.items()}
    return Window(shortest, longest["drags"], longest["folds"], longest["turns"], unreached)


def _longest(
    box: Box, places: Sequence[Vec], stand: Standing, least: Least, good: Callable[[Stands], bool], grid: int
) -> Bound:
    def worth(at: Vec) -> float:
        return -longest_mm(at, stand, least, good)

    found = _worst(box, {at: worth(at) for at in places}, worth, grid)
    return Bound(-found.length_mm, found.at)


def shortest_mm(at: Vec, stand: Standing, least: Least, limits: Limits) -> float:
    """The shortest hose with which the head feels no more than it may at this place; inf: none."""
    begin = least(at)
    if math.isinf(begin):
        return math.inf
    return _first(begin, lambda length: stand(at, length).pull_n <= limits.pull_n)


def longest_mm(at: Vec, stand: Standing, least: Least, good: Callable[[Stands], bool]) -> float:
    """The longest hose that is good at this place; 0 where the shortest is not; inf where none is too long."""
    begin = least(at)
    if math.isinf(begin) or not good(stand(at, begin * (1 + _SCAN[0] / 2))):
        return 0.0
    return _first(begin, lambda length: not good(stand(at, length)))


def _first(begin: float, met: Callable[[float], bool]) -> float:
    """The first length beyond `begin` at which `met` holds, looked for in doubling steps, then halved; inf: none."""
    low = begin
    for share in _SCAN:
        high = begin * (1.0 + share)
        if met(high):
            break
        low = high
    else:
        return math.inf
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if met(middle) else (middle, high)
    return high


def worst_place(box: Box, anchors: Sequence[Vec], worth: Callable[[Vec], float], grid: int = _GRID) -> Vec:
    """The place of the box where `worth` is greatest."""
    return _worst(box, {at: worth(at) for at in box.places(anchors, grid)}, worth, grid).at


def _worst(box: Box, tried: dict[Vec, float], worth: Callable[[Vec], float], grid: int) -> Bound:
    """From the worst of those tried, in steps that halve where no neighbour is worse."""
    at = max(tried, key=lambda one: tried[one])
    found = tried[at]
    step = max(hi - lo for lo, hi in zip(box.low, box.high, strict=True)) / max(grid - 1, 1) / 2 if grid > 1 else 0.0
    finest = _FINEST_MM if grid > 2 else _COARSE_MM
    while step > finest and math.isfinite(found):
        beside = dict.fromkeys(
            box.held_inside((at[0] + dx, at[1] + dy, at[2] + dz))
            for dx, dy, dz in ((step, 0, 0), (-step, 0, 0), (0, step, 0), (0, -step, 0), (0, 0, step), (0, 0, -step))
        )
        one = max(beside, key=worth)
        if (value := worth(one)) > found:
            at, found = one, value
        else:
            step /= 2
    return Bound(found, at)


def _between(low: float, high: float, count: int) -> list[float]:
    return [low + (high - low) * k / (count - 1) for k in range(count)] if high > low else [low]
