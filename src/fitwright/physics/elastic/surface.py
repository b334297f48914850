"""Stresses on the surface, as means over what a sharp corner is blunted to.

A corner drawn sharp has no finite stress; a printed one has the radius of its bead, and plastic yields there. What
counts is the mean over a length that belongs to the material (the theory of critical distances: D. Taylor, The Theory
of Critical Distances, 2007). BLUNT_MM for prints is common practice, no source. The mean is taken along the surface, so
that a wall's bending stress is not lowered by what lies under it; on one side of an edge, because on the other the
stress runs another way and a mean of both would be a stress that is nowhere; and of what each triangle's own element
has at the triangle's three Gauss points: the mean of all elements round a vertex of a sharp edge is much too high until
they are far smaller than the length.
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
SAME_SIDE = 0.7
"""Cosine between normals: what looks 45 deg away lies beyond an edge."""
SIDES, MANY = 2.0, 12
"""Normals that are alike to half a unit are one side; so many times more corners are looked through than are kept."""
SLIVER = 0.05
"""A flatter element (1: regular) counts less: its stress is a small difference of movements over a smaller height."""


class Surface:
    """The corners of the triangles on the boundary, (n,): at which vertex each is (`numbers`), of what `area` [mm2].

    `elements`: those that the triangles belong to. A corner stands for a third of its triangle, and for the side of an
    edge that its triangle lies on.
    """

    def __init__(self, space: Space) -> None:
        from scipy.spatial import cKDTree

        triangles = np.array(space.mesh.ngmesh.Elements2D().NumPy()["nodes"][:, :3], dtype=np.int64) - 1
        a, b, c = (space.points[triangles[:, k]] for k in range(3))
        square = np.cross(b - a, c - a)
        double = np.linalg.norm(square, axis=1)
        element, slots = _behind(space, triangles)
        self.numbers = triangles.ravel()
        self.points = space.points[self.numbers]
        self.normals = np.repeat(square / np.maximum(double, 1e-12)[:, None], 3, axis=0)
        trust = np.clip(space.solid[element] / SLIVER, 1e-3, 1.0) ** 2
        self.area = np.repeat(double / 6.0 * trust, 3)
        self._tree = cKDTree(self.points)
        self.elements, place = np.unique(element, return_inverse=True)
        self._own = _own(place, slots, 4 * len(self.elements))

    def stress(self, at_corners: Array) -> Array:
        """Of the corners of `elements` (elements, 4, 3, 3): at each triangle's Gauss points, (n, 3, 3)."""
        return np.asarray((self._own @ at_corners.reshape(-1, 9)).reshape(-1, 3, 3))

    def worst(self, use: Array, there: NDArray[np.bool_], most: int) -> Numbers:
        """Which corners may be the worst: those of the greatest use, one for each vertex and side."""
        order = np.flatnonzero(there)
        order = order[np.argsort(use[order])[::-1][: MANY * most]]
        sides = np.column_stack([self.numbers[order], np.rint(self.normals[order] * SIDES)]).astype(np.int64)
        first = np.unique(sides, axis=0, return_index=True)[1]
        return np.asarray(order[np.sort(first)][:most])

    def blunted(self, values: Array, which: Numbers, radius_mm: float) -> Array:
        """Means of `values` (n, ...) over the surface round some corners, on the same side of an edge."""
        near = self._tree.query_ball_point(self.points[which], radius_mm)
        made = np.empty((len(which), *values.shape[1:]))
        for k, found in enumerate(near):
            members = np.asarray(found)
            members = members[self.normals[members] @ self.normals[which[k]] > SAME_SIDE]
            weight = self.area[members]
            made[k] = np.tensordot(weight, values[members], axes=(0, 0)) / weight.sum()
        return made


def _own(element: Numbers, slots: Numbers, corners: int) -> Any:
    """The matrix that takes corners of elements to the triangles' Gauss points, near their corners."""
    from scipy.sparse import csr_matrix

    column = (4 * element[:, None] + slots)[:, None, :].repeat(3, axis=1).ravel()
    row = np.arange(3 * len(element)).repeat(3)
    share = np.where(np.eye(3, dtype=bool), *GAUSS).ravel()
    return csr_matrix((np.tile(share, len(element)), (row, column)), shape=(3 * len(element), corners))


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
