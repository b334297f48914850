"""Stresses on the surface, as means over what a sharp corner is blunted to.

A corner drawn sharp has no finite stress; a printed one has the radius of its bead, and plastic yields there. What
counts is the mean over a length that belongs to the material (the theory of critical distances: D. Taylor, The Theory
of Critical Distances, 2007). BLUNT_MM for prints is common practice, no source. The mean is taken along the surface, so
that a wall's bending stress is not lowered by what lies under it.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
BLUNT_MM, BLUNT_OF_WALL = 1.0, 0.4
"""Radius of the mean: about two printed lines, and no more than this share of the wall."""


class Surface:
    """The vertices on the boundary: which they are, where (n, 3) [mm], and the area that each stands for [mm2]."""

    def __init__(self, mesh: Any, corners: Array) -> None:
        from scipy.spatial import cKDTree

        triangles = np.array(mesh.ngmesh.Elements2D().NumPy()["nodes"][:, :3], dtype=np.int64) - 1
        a, b, c = (corners[triangles[:, k]] for k in range(3))
        area = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 6.0
        whole = np.bincount(triangles.ravel(), np.repeat(area, 3), len(corners))
        self.numbers = np.flatnonzero(whole > 0.0)
        self.points = corners[self.numbers]
        self.area = whole[self.numbers]
        self._tree = cKDTree(self.points)

    def blunted(self, values: Array, which: NDArray[np.int64], radius_mm: float) -> Array:
        """Means of `values` (vertices, ...) over the surface round some of its vertices (indices into `numbers`)."""
        near = self._tree.query_ball_point(self.points[which], radius_mm)
        made = np.empty((len(which), *values.shape[1:]))
        for k, members in enumerate(near):
            weight = self.area[members]
            made[k] = np.tensordot(weight, values[self.numbers[members]], axes=(0, 0)) / weight.sum()
        return made


def blunt_mm(wall_mm: float) -> float:
    """The radius of the mean for a wall.

    >>> blunt_mm(2.52), blunt_mm(1.2)
    (1.0, 0.48)
    """
    return min(BLUNT_MM, BLUNT_OF_WALL * wall_mm)
