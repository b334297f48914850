"""A seat divided into patches that press one by one, and how a held body moves when they do."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from fitwright.loads import LoadFace
from fitwright.physics.elastic.patch import Patch
from fitwright.physics.elastic.seat import glued, pressing

Array = NDArray[np.float64]
CELLS = 24
"""A seat is divided into about so many patches."""
LEAST_SHARE = 0.05
"""A patch smaller than this share of the mean one carries nothing."""


@dataclass(frozen=True)
class Cells:
    """Patches of all seats of a body: unit pushes (p, unknowns) out of the seat, areas [mm2] (p,)."""

    pushes: Array
    areas_mm2: Array

    @property
    def none(self) -> bool:
        """Whether there is no seat."""
        return len(self.areas_mm2) == 0


def cells(seats: Sequence[tuple[LoadFace, Patch]], unknowns: int) -> Cells:
    """The patches of these seats."""
    made = [one for face, patch in seats for one in _divided(face, patch)]
    if not made:
        return Cells(np.zeros((0, unknowns)), np.zeros(0))
    return Cells(np.array([push.reshape(-1) for push, _ in made]), np.array([area for _, area in made]))


def _divided(face: LoadFace, patch: Patch) -> list[tuple[Array, float]]:
    """Unit pushes along the normals, with their areas."""
    plane, vertices = _unrolled(face, patch), patch.space.vertices
    here = np.abs(patch.weights) > 1e-9
    low, high = plane[here].min(axis=0), plane[here].max(axis=0)
    wide, tall = np.maximum(high - low, 1e-6)
    columns = max(2, round(math.sqrt(CELLS * wide / tall)))
    rows = max(2, round(CELLS / columns))
    which = np.clip(((plane - low) / (high - low + 1e-9) * (columns, rows)).astype(int), 0, (columns - 1, rows - 1))
    number = which[:, 0] * rows + which[:, 1]
    found = []
    for k in np.unique(number[here]):
        weights = np.where(here & (number == k), patch.weights, 0.0)
        area = float(weights[:vertices].sum())
        if area > LEAST_SHARE * patch.area_mm2 / (columns * rows):
            found.append(((patch.normals * (weights / area)[:, None]).T, area))
    return found


def _unrolled(face: LoadFace, patch: Patch) -> Array:
    """Places on the face in its own plane, (n, 2) [mm]; a round one unrolled about the middle of its turn."""
    away = patch.space.points - np.asarray(face.frame.origin)
    right, s, up = (away @ np.asarray(axis) for axis in (face.frame.right, face.frame.inward, face.frame.up))
    if face.kind == "flat":
        return np.stack([right, up], axis=1)
    middle = math.radians(sum(face.turn_deg) / 2.0)
    turn = (np.arctan2(right, up) - middle + math.pi) % (2.0 * math.pi) - math.pi
    return np.stack([face.r_mm * turn, s], axis=1)


@dataclass(frozen=True)
class SeatModel:
    """What each patch does when pushed: displacements (p, unknowns) and mean movements (p, p) out of the seat."""

    cells: Cells
    moved: Array
    compliance: Array
    springs_n_mm: Array

    def answers(self, loose: Array) -> Seated:
        """From the displacement without a seat."""
        return Seated(loose, loose if self.cells.none else loose + self._by(pressing, loose), self)

    def glued(self, loose: Array) -> Array:
        """The displacement where the seats hold both ways."""
        return loose if self.cells.none else loose + self._by(glued, loose)

    def _by(self, pressed: Callable[[Array, Array, Array], Array], loose: Array) -> Array:
        return np.asarray(pressed(self.compliance, self.springs_n_mm, -self.cells.pushes @ loose) @ self.moved)


@dataclass(frozen=True)
class Seated:
    """The answers to one load: pressing only, no seat at all, and glued; displacements (unknowns,)."""

    loose: Array
    pressing: Array
    seat: SeatModel

    @cached_property
    def glued(self) -> Array:
        """Seats that hold both ways; worked out where it is asked for, which is for the worst direction only."""
        return self.seat.glued(self.loose)


def seat_model(made: Cells, moved: Array, seat_n_mm3: float) -> SeatModel:
    """From the patches and the displacements (p, unknowns) that their unit pushes cause."""
    return SeatModel(made, moved, made.pushes @ moved.T, seat_n_mm3 * made.areas_mm2)
