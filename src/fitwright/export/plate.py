"""All bodies of a part that are printed in one go, as one STL."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.export.stl import on_bed, stl_bytes


@dataclass(frozen=True)
class Plate:
    """The STL's bytes, and what it takes to print them."""

    stl: bytes
    volume_mm3: float
    height_mm: float


def plate(pieces: Sequence[tuple[NDArray[np.float64], NDArray[np.int64], float]]) -> Plate:
    """One STL of pieces (vertices [mm], faces, volume [mm3]) as they lie, moved to the middle of x = y = 0."""
    vertices = on_bed(np.concatenate([corners for corners, _, _ in pieces]), np.eye(4))
    vertices[:, :2] -= (vertices[:, :2].min(axis=0) + vertices[:, :2].max(axis=0)) / 2.0
    first = np.cumsum([0, *(len(corners) for corners, _, _ in pieces)])[:-1]
    faces = np.concatenate([own + start for (_, own, _), start in zip(pieces, first, strict=True)])
    volume = sum(one for _, _, one in pieces)
    return Plate(stl_bytes(vertices, faces), volume, float(vertices[:, 2].max()))
