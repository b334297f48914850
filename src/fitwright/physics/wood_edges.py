"""Whether screws stand too near to each other, to an edge or to an end of the wood. Lengths in mm; no numpy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.physics.wood_shear import Distances

Place = tuple[float, float]
"""Where a screw is on the wood: along the grain, across it."""


@dataclass(frozen=True)
class WoodFace:
    """The face of the wood: its two edges (along the grain) and its two ends; None where they are far or not known."""

    low_edge_mm: float | None = None
    high_edge_mm: float | None = None
    near_end_mm: float | None = None
    far_end_mm: float | None = None


@dataclass(frozen=True)
class Shortfall:
    """A distance that is too small: which screw (from 1), to what, what there is and what it takes [mm]."""

    screw: int
    to: str
    has_mm: float
    needs_mm: float

    @property
    def words(self) -> str:
        """Said for a report.

        >>> Shortfall(2, "the edge that the load pushes at", 30.0, 50.0).words
        'screw 2 is 30.0 mm from the edge that the load pushes at; it takes 50.0 mm'
        """
        return f"screw {self.screw} is {self.has_mm:.1f} mm from {self.to}; it takes {self.needs_mm:.1f} mm"


def shortfalls(
    screws: Sequence[Place], face: WoodFace, need: Distances, push: Place | None = None
) -> tuple[Shortfall, ...]:
    """Every distance that is too small, the worst first.

    `push`: the force along and across the grain, for its direction alone: edges and ends that it points at are the
    loaded ones; None: it may point anywhere, all are. Two screws are too near where they are nearer than `along_mm`
    along the grain and nearer than `across_mm` across it.
    """
    found = [*_to_rims(screws, face, need, push), *_to_each_other(screws, need)]
    return tuple(sorted(found, key=lambda one: one.has_mm - one.needs_mm))


def _to_rims(screws: Sequence[Place], face: WoodFace, need: Distances, push: Place | None) -> Iterator[Shortfall]:
    rims = (
        (1, face.low_edge_mm, -1.0, "edge", need.edge_loaded_mm, need.edge_mm),
        (1, face.high_edge_mm, 1.0, "edge", need.edge_loaded_mm, need.edge_mm),
        (0, face.near_end_mm, -1.0, "end", need.end_loaded_mm, need.end_mm),
        (0, face.far_end_mm, 1.0, "end", need.end_loaded_mm, need.end_mm),
    )
    for axis, at, side, name, loaded_mm, other_mm in rims:
        if at is None:
            continue
        loaded = push is None or push[axis] * side > 1e-9
        needs = loaded_mm if loaded else other_mm
        to = f"the {name} that the load pushes at" if loaded and push is not None else f"the {name} of the wood"
        for number, screw in enumerate(screws, start=1):
            has = side * (at - screw[axis])
            if has < needs - 1e-6:
                yield Shortfall(number, to, has, needs)


def _to_each_other(screws: Sequence[Place], need: Distances) -> Iterator[Shortfall]:
    for number, one in enumerate(screws, start=1):
        for other, two in enumerate(screws[: number - 1], start=1):
            along, across = abs(one[0] - two[0]), abs(one[1] - two[1])
            if along >= need.along_mm - 1e-6 or across >= need.across_mm - 1e-6:
                continue
            if need.along_mm - along < need.across_mm - across:
                yield Shortfall(number, f"screw {other} along the grain", along, need.along_mm)
            else:
                yield Shortfall(number, f"screw {other} across the grain", across, need.across_mm)
