"""Where the stresses of a model of springs count: not beside washers and fixed edges, which are judged by hand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.loads import LoadFace, Support
from fitwright.physics.elastic.patch import Patch
from fitwright.physics.elastic.space import Space
from fitwright.physics.elastic.task import Task

Bools = NDArray[np.bool_]
FIXED_WALLS = 0.5
"""Nearer to a fixed face than so many walls nothing counts."""


def counted_at(
    space: Space, task: Task, supports: Sequence[Support], faces: Mapping[str, LoadFace], patches: Mapping[str, Patch]
) -> Bools:
    """True for each vertex that counts; beside washers within one wall of the washer and of its face."""
    out = np.zeros(space.vertices, dtype=bool)
    fixed = np.zeros(space.vertices, dtype=bool)
    for support in supports:
        if support.kind == "washer":
            out |= _under(space, faces[support.face], task.wall_mm)
        elif support.kind == "fixed":
            fixed |= np.abs(patches[support.face].weights[: space.vertices]) > 1e-9
    if fixed.any():
        out |= _near(space, fixed, FIXED_WALLS * task.wall_mm)
    return ~out if not out.all() else ~fixed


def _under(space: Space, face: LoadFace, wall_mm: float) -> Bools:
    away = space.points[: space.vertices] - np.asarray(face.frame.origin)
    axis = np.asarray(face.frame.inward)
    deep = away @ axis
    aside = np.linalg.norm(away - np.outer(deep, axis), axis=1)
    size = face.disc_mm or max(face.right_mm[1] - face.right_mm[0], face.up_mm[1] - face.up_mm[0])
    return np.asarray((aside < size / 2.0 + wall_mm) & (np.abs(deep) < wall_mm))


def _near(space: Space, fixed: Bools, within_mm: float) -> Bools:
    from scipy.spatial import cKDTree

    points = space.points[: space.vertices]
    distance, _ = cKDTree(points[fixed]).query(points, distance_upper_bound=within_mm)
    return np.asarray(np.isfinite(distance))
