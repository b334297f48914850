"""Triangles as they come out of a file: corners that lie on one spot are one corner, and nothing else is changed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import BuildError

Points = NDArray[np.float64]
Indices = NDArray[np.int64]

_MIX = np.array([0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9], dtype=np.uint64)
"""Odd numbers without pattern: three coordinates become one number to sort by (a clash of two is found and undone)."""


@dataclass(frozen=True)
class Triangles:
    """Corners (n, 3) [mm] and triangles (m, 3) that count them."""

    vertices: Points
    faces: Indices

    @property
    def corners(self) -> Points:
        """(m, 3, 3): the three corners of each triangle."""
        return np.asarray(self.vertices[self.faces])

    @property
    def size_mm(self) -> Points:
        """Extent along x, y, z."""
        return np.asarray(np.ptp(self.vertices, axis=0)) if len(self.vertices) else np.zeros(3)

    def volumes(self) -> Points:
        """Signed volume between each triangle and the middle of all; their sum is what a closed mesh encloses."""
        corners = self.corners - (self.vertices.min(axis=0) + self.vertices.max(axis=0)) / 2.0
        return np.asarray(np.einsum("nd,nd->n", corners[:, 0], np.cross(corners[:, 1], corners[:, 2])) / 6.0)

    def only(self, chosen: NDArray[np.bool_] | Indices) -> Triangles:
        """Some of its triangles, without the corners that those do not use."""
        faces = self.faces[chosen]
        used = np.zeros(len(self.vertices), dtype=np.bool_)
        used[faces] = True
        number = np.cumsum(used) - 1
        return Triangles(self.vertices[used], number[faces])


def welded(points: Points, faces: Indices) -> Triangles:
    """Join corners of exactly the same place (files without shared corners name each many times over).

    Triangles two of whose corners are then one have no surface and are left out.

    Raises
    ------
    BuildError
        A coordinate is no finite number.
    """
    if not np.isfinite(points).all():
        bad = int((~np.isfinite(points)).any(axis=1).sum())
        raise BuildError(f"has {bad} corners that are no numbers; save it again from the program it came from")
    kept, number = _distinct(np.ascontiguousarray(points, dtype=np.float64) + 0.0)
    joined = number[faces]
    whole = (joined[:, 0] != joined[:, 1]) & (joined[:, 1] != joined[:, 2]) & (joined[:, 2] != joined[:, 0])
    return Triangles(points[kept] + 0.0, joined[whole])


def _distinct(points: Points) -> tuple[Indices, Indices]:
    """Which points to keep, and for each point the number of the one kept in its place.

    Sorting one number that ends in the point's own index is several times as fast as finding an order of points.
    """
    count = len(points)
    width = np.uint64(max(count, 1).bit_length())
    packed = np.sort((_mixed(points) >> width << width) | np.arange(count, dtype=np.uint64))
    order = (packed & ((np.uint64(1) << width) - np.uint64(1))).astype(np.int64)
    begins = np.ones(count, dtype=np.bool_)
    begins[1:] = packed[1:] >> width != packed[:-1] >> width
    number = np.empty(count, dtype=np.int64)
    number[order] = np.cumsum(begins) - 1
    kept = order[begins]
    if not (points[kept[number]] == points).all():
        _, kept, number = np.unique(points, axis=0, return_index=True, return_inverse=True)
    return np.asarray(kept, dtype=np.int64), np.asarray(number, dtype=np.int64).reshape(-1)


def _mixed(points: Points) -> NDArray[np.uint64]:
    """One number a point, hardly ever that of another; few digits of a float32 are in its lower half."""
    bits = points.view(np.uint64)
    key = ((bits ^ (bits >> np.uint64(32))) * _MIX).sum(axis=1, dtype=np.uint64)
    return np.asarray((key ^ (key >> np.uint64(29))) * _MIX[0])


def together(parts: list[Triangles]) -> Triangles:
    """Several in one, each with corners of its own."""
    first = np.cumsum([0, *(len(part.vertices) for part in parts)])
    faces = [part.faces + start for part, start in zip(parts, first[:-1], strict=True)]
    return Triangles(np.concatenate([part.vertices for part in parts]), np.concatenate(faces))
