"""Edges of a mesh: which have triangles on both sides, and which do not."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from fitwright.envelope_mesh.triangles import Indices, Points, Triangles


def closed(mesh: Triangles) -> bool:
    """True where each edge is walked as often one way as the other: the mesh has no rim and faces one way.

    Bodies that touch along an edge or a face, with four triangles there, are closed too.
    """
    ahead, back = _walked(mesh)
    return bool(np.array_equal(np.sort(ahead), np.sort(back)))


def _walked(mesh: Triangles) -> tuple[Indices, Indices]:
    """Every side of every triangle as one number, and the number of the same side walked back."""
    start, end = mesh.faces.reshape(-1), np.roll(mesh.faces, -1, axis=1).reshape(-1)
    count = len(mesh.vertices)
    return start * count + end, end * count + start


@dataclass(frozen=True)
class Edges:
    """All edges once, each as its two corners (n, 2), with how many triangles meet there and their surplus one way.

    `of_side` (3 m) is the edge of each side of each triangle, and `ahead` whether it is walked from its lesser corner.
    """

    ends: Indices
    count: Indices
    surplus: Indices
    of_side: Indices
    ahead: NDArray[np.bool_]

    @property
    def open(self) -> NDArray[np.bool_]:
        """Edges with an odd number of triangles: a rim, or a sheet that ends on a body."""
        return np.asarray(self.count % 2 == 1)

    @property
    def against(self) -> NDArray[np.bool_]:
        """Edges whose triangles face different ways."""
        return np.asarray((self.count % 2 == 0) & (self.surplus != 0))


def edges(mesh: Triangles) -> Edges:
    """The edges of a mesh."""
    start, end = mesh.faces.reshape(-1), np.roll(mesh.faces, -1, axis=1).reshape(-1)
    low, high = np.minimum(start, end), np.maximum(start, end)
    count = max(len(mesh.vertices), 1)
    key, of_side = np.unique(low * count + high, return_inverse=True)
    ahead = start < end
    many = np.bincount(of_side, minlength=len(key))
    surplus = 2 * np.bincount(of_side, ahead, minlength=len(key)).astype(np.int64) - many
    return Edges(np.column_stack([key // count, key % count]), many, surplus, of_side, ahead)


@dataclass(frozen=True)
class Gapes:
    """Where a mesh is open: rims that hang together, widest first, with the box of each."""

    middle: Points
    across_mm: Points


def gapes(mesh: Triangles, found: Edges) -> Gapes:
    """The rims of a mesh."""
    ends = found.ends[found.open]
    used, number = np.unique(ends, return_inverse=True)
    number = number.reshape(-1, 2)
    count, label = groups(number, len(used))
    low, high = np.full((count, 3), np.inf), np.full((count, 3), -np.inf)
    np.minimum.at(low, label, mesh.vertices[used])
    np.maximum.at(high, label, mesh.vertices[used])
    across = np.linalg.norm(high - low, axis=1)
    order = np.argsort(-across, kind="stable")
    return Gapes(((low + high) / 2.0)[order], across[order])


def groups(pairs: Indices, count: int) -> tuple[int, Indices]:
    """How many groups `count` things form where `pairs` (n, 2) of them hang together, and the group of each."""
    graph = coo_array((np.ones(len(pairs), dtype=np.int8), (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    many, label = connected_components(graph, directed=False)
    return int(many), np.asarray(label, dtype=np.int64)
