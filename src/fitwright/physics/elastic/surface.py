"""Stresses on the surface, as means over what a sharp corner is blunted to.

A corner drawn sharp has no finite stress; a printed one has the radius of its bead, and plastic yields there. What
counts is the mean over a length that belongs to the material (the theory of critical distances: D. Taylor, The Theory
of Critical Distances, 2007). BLUNT_MM for prints is common practice, no source. The mean is taken along the surface, so
that a wall's bending stress is not lowered by what lies under it; and of the stress that each triangle's own element
has at the three Gauss points of the triangle: at a sharp corner the mean of all elements round a vertex is much too
high until they are far smaller than the length.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.elastic.space import Space

Array = NDArray[np.float64]
Numbers = NDArray[np.int64]
BLUNT_MM, BLUNT_OF_WALL = 1.0, 0.4
"""Radius of the mean: about two printed lines, and no more than this share of the wall."""
GAUSS = (2.0 / 3.0, 1.0 / 6.0)
"""Of a triangle's three points: how near each lies to its corner and to the two others."""
SLIVER = 0.05
"""A flatter element (1: regular) counts less: its stress is a small difference of movements over a smaller height."""


class Surface:
    """The vertices on the boundary: which they are, where (n, 3) [mm], and the area that each stands for [mm2]."""

    def __init__(self, space: Space) -> None:
        from scipy.spatial import cKDTree

        triangles = np.array(space.mesh.ngmesh.Elements2D().NumPy()["nodes"][:, :3], dtype=np.int64) - 1
        points = space.points[: space.vertices]
        a, b, c = (points[triangles[:, k]] for k in range(3))
        third = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 6.0
        whole = np.bincount(triangles.ravel(), np.repeat(third, 3), space.vertices)
        self.numbers = np.flatnonzero(whole > 0.0)
        self.points = points[self.numbers]
        self.area = whole[self.numbers]
        self._tree = cKDTree(self.points)
        self._own = _own(space, triangles, third)

    def stress(self, at_corners: Array) -> Array:
        """Of elements' corners (elements, 4, 3, 3): at each vertex of the surface the mean over its triangles' own."""
        made = (self._own @ at_corners.reshape(-1, 9))[self.numbers]
        return np.asarray(made.reshape(-1, 3, 3))

    def blunted(self, values: Array, which: Numbers, radius_mm: float) -> Array:
        """Means of `values` (n, ...) over the surface round some of its vertices (indices into `numbers`)."""
        near = self._tree.query_ball_point(self.points[which], radius_mm)
        made = np.empty((len(which), *values.shape[1:]))
        for k, members in enumerate(near):
            weight = self.area[members]
            made[k] = np.tensordot(weight, values[members], axes=(0, 0)) / weight.sum()
        return made


def _own(space: Space, triangles: Numbers, third_mm2: Array) -> Any:
    """The matrix that takes corners of elements to vertices: each triangle's Gauss points, near its corners."""
    from scipy.sparse import csr_matrix

    element, slots = _behind(space, triangles)
    weight = third_mm2 * np.clip(space.solid[element] / SLIVER, 1e-6, 1.0) ** 2
    whole = np.bincount(triangles.ravel(), np.repeat(weight, 3), space.vertices)
    shape = (space.vertices, space.corners.size)
    made = csr_matrix(shape)
    for k in range(3):
        share = weight / np.maximum(whole[triangles[:, k]], 1e-300)
        for j in range(3):
            gauss = GAUSS[0 if j == k else 1] * share
            made = made + csr_matrix((gauss, (triangles[:, k], 4 * element + slots[:, j])), shape=shape)
    return made


def _behind(space: Space, triangles: Numbers) -> tuple[Numbers, Numbers]:
    """The element that each triangle of the surface belongs to, and which of its corners the triangle's are."""
    sides = np.array([(1, 2, 3), (0, 2, 3), (0, 1, 3), (0, 1, 2)])
    known = _numbered(space.corners[:, sides].reshape(-1, 3), space.vertices)
    order = np.argsort(known)
    element = order[np.searchsorted(known[order], _numbered(triangles, space.vertices))] // 4
    slots = (space.corners[element][:, None, :] == triangles[:, :, None]).argmax(axis=2)
    return element, slots


def _numbered(triples: Numbers, vertices: int) -> Numbers:
    """One number for three vertices, in whatever order."""
    low, middle, high = np.sort(triples, axis=1).T
    return np.asarray((low * vertices + middle) * vertices + high)


def blunt_mm(wall_mm: float) -> float:
    """The radius of the mean for a wall.

    >>> blunt_mm(2.52), blunt_mm(1.2)
    (1.0, 0.48)
    """
    return min(BLUNT_MM, BLUNT_OF_WALL * wall_mm)
