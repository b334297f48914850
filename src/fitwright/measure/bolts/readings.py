"""What was read: distances between holes, by which edges; the holes' and the opening's diameters."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal, TypeVar

import numpy as np
from numpy.typing import NDArray

T = TypeVar("T")
Numbers = NDArray[np.float64]
Kind = Literal["centre", "outer", "inner", "far_edge", "near_edge"]
HOLE_SHARE: dict[Kind, float] = {"centre": 0.0, "outer": 1.0, "inner": -1.0, "far_edge": 0.5, "near_edge": -0.5}
"""How many hole diameters a reading has more than the distance of the centres."""
OPENING = -1
"""`first` of a reading from the opening's rim to a hole."""
CALIPER_SD_MM = 0.1
"""Standard deviation of one caliper reading between holes (common practice, no source)."""
TAPE_SD_MM = 0.5
"""Standard deviation of one reading with a tape or rule (common practice, no source)."""


@dataclass(frozen=True)
class Reading:
    """One distance [mm] between two holes, counted from 0, or from the opening's rim (`first` is OPENING) to a hole.

    `centre`: centre to centre; `outer`: over the outer edges of both holes; `inner`: between their inner edges;
    `far_edge`, `near_edge`: from the first one's centre (the opening's rim) to that edge of the second.
    """

    first: int
    second: int
    value_mm: float
    kind: Kind = "centre"
    said: str = ""
    """What it was called, where not by its holes (`adjacent`)."""

    @property
    def name(self) -> str:
        """`1-2`, `opening-3`, `adjacent`: holes count from 1 as at the bench."""
        return self.said or f"{'opening' if self.first == OPENING else self.first + 1}-{self.second + 1}"


@dataclass(frozen=True)
class Readings:
    """All readings of one pattern of `count` holes; diameters as often as they were read; `sd_mm` of one reading."""

    count: int
    distances: tuple[Reading, ...]
    hole_mm: tuple[float, ...] = ()
    opening_mm: tuple[float, ...] = ()
    sd_mm: float = CALIPER_SD_MM

    @property
    def points(self) -> int:
        """Holes, and the opening's centre where it was read."""
        return self.count + self.by_rim

    @property
    def by_rim(self) -> bool:
        """Whether the opening was read."""
        return bool(self.opening_mm) or any(one.first == OPENING for one in self.distances)

    @property
    def by_edges(self) -> bool:
        """Whether the holes' diameter enters any reading."""
        return any(one.kind != "centre" for one in self.distances)

    @property
    def observed(self) -> int:
        """Rows of the adjustment: distances, then hole diameters where they enter, then the opening's."""
        return len(self.distances) + (len(self.hole_mm) if self.by_edges else 0) + len(self.opening_mm)

    @property
    def width(self) -> int:
        """Columns: right and up of each point, the holes' diameter, the opening's diameter."""
        return 2 * self.points + 2

    @cached_property
    def first(self) -> NDArray[np.int_]:
        """The first point of each distance; the opening's centre is the last point."""
        return np.array([self.count if r.first == OPENING else r.first for r in self.distances], dtype=int)

    @cached_property
    def second(self) -> NDArray[np.int_]:
        """The second point of each distance."""
        return np.array([r.second for r in self.distances], dtype=int)

    @cached_property
    def shares(self) -> Numbers:
        """A row an observation: how much of the hole's and of the opening's diameter is in it."""
        rows = [(HOLE_SHARE[r.kind], -0.5 if r.first == OPENING else 0.0) for r in self.distances]
        rows += [(1.0, 0.0)] * (len(self.hole_mm) if self.by_edges else 0) + [(0.0, 1.0)] * len(self.opening_mm)
        return np.array(rows, dtype=float).reshape(-1, 2)

    @cached_property
    def values(self) -> Numbers:
        """What was read [mm], a row an observation."""
        holes = self.hole_mm if self.by_edges else ()
        return np.array([*(r.value_mm for r in self.distances), *holes, *self.opening_mm], dtype=float)

    def diameters(self) -> Numbers:
        """Mean hole and opening diameter as read [mm]; 0 where there is none."""
        means = [float(np.mean(one)) if one else 0.0 for one in (self.hole_mm, self.opening_mm)]
        return np.array(means)

    def centres(self) -> Numbers:
        """Each distance as read, from centre to centre [mm]."""
        m = len(self.distances)
        return self.values[:m] - self.shares[:m] @ self.diameters()

    def without(self, row: int) -> Readings:
        """The same without one observation."""
        m, holes = len(self.distances), len(self.hole_mm) if self.by_edges else 0
        if row < m:
            return replace(self, distances=_less(self.distances, row))
        if row < m + holes:
            return replace(self, hole_mm=_less(self.hole_mm, row - m))
        return replace(self, opening_mm=_less(self.opening_mm, row - m - holes))

    def name(self, row: int) -> str:
        """The observation in words: `1-2`, `hole`, `opening`."""
        if row < len(self.distances):
            return self.distances[row].name
        return "hole" if row < self.observed - len(self.opening_mm) else "opening"


def _less(items: tuple[T, ...], at: int) -> tuple[T, ...]:
    return items[:at] + items[at + 1 :]
