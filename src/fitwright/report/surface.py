"""What a mesh shows besides its triangles: smooth patches, sharp edges, and the outline of a plane cut."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SMOOTH_COS = np.cos(np.radians(25.0))
"""Faces meeting at less are one smooth patch, drawn without a line between them."""


@dataclass(frozen=True)
class Surface:
    """A closed mesh with its face normals, and for each edge its two corners and two faces."""

    vertices_mm: Floats
    faces: Ints
    normals: Floats
    edge_ends: Ints
    edge_faces: Ints

    @property
    def sharp(self) -> NDArray[np.bool_]:
        """For each edge, whether a line belongs there."""
        pairs = self.normals[self.edge_faces]
        return np.asarray(np.einsum("ij,ij->i", pairs[:, 0], pairs[:, 1]) < _SMOOTH_COS)

    def turning(self, towards: Floats) -> NDArray[np.bool_]:
        """For each edge, whether one face looks `towards` the viewer and the other away: the silhouette."""
        front = (self.normals @ towards > 0)[self.edge_faces]
        return np.asarray(front[:, 0] != front[:, 1])


def surface(vertices_mm: Floats, faces: Ints) -> Surface:
    """Find normals and edges; an edge with other than two faces is left out."""
    a, b, c = (vertices_mm[faces[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-300)
    ends = np.sort(faces[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    key = ends[:, 0] * len(vertices_mm) + ends[:, 1]
    order = np.argsort(key, kind="stable")
    _, first, count = np.unique(key[order], return_index=True, return_counts=True)
    first = first[count == 2]
    one, two = order[first], order[first + 1]
    return Surface(vertices_mm, faces, normals, ends[one], np.column_stack([one // 3, two // 3]))


def corner_normals(shape: Surface) -> Floats:
    """(m, 3, 3): the normal at each corner of each face, averaged over its smooth patch's faces that meet there."""
    patch = _patches(shape)
    key = (patch[:, None] * len(shape.vertices_mm) + shape.faces).reshape(-1)
    _, group = np.unique(key, return_inverse=True)
    a, b, c = (shape.vertices_mm[shape.faces[:, k]] for k in range(3))
    weighted = np.repeat(np.cross(b - a, c - a), 3, axis=0)
    total: Floats = np.column_stack([np.bincount(group, weights=weighted[:, k]) for k in range(3)])
    total /= np.maximum(np.linalg.norm(total, axis=1, keepdims=True), 1e-300)
    mean: Floats = total[group].reshape(-1, 3, 3)
    return mean


def _patches(shape: Surface) -> Ints:
    """A number for each face, equal within a smooth patch: labels sink to the least reachable one."""
    pairs = shape.edge_faces[~shape.sharp]
    label = np.arange(len(shape.faces))
    while True:
        least = np.minimum(label[pairs[:, 0]], label[pairs[:, 1]])
        sunk = label.copy()
        for side in (0, 1):
            np.minimum.at(sunk, label[pairs[:, side]], least)
            np.minimum.at(sunk, pairs[:, side], least)
        sunk = sunk[sunk]
        if np.array_equal(sunk, label):
            return label
        label = sunk


def cut_loops(vertices_mm: Floats, faces: Ints, normal: Floats, at_mm: float = 0.0) -> list[Floats]:
    """The closed outlines [(n, 3) mm] in which the plane (points with point . normal = at_mm) cuts a closed mesh.

    Each outline is followed from triangle to triangle by their common edges, so no distance decides what belongs
    together.
    """
    side = vertices_mm @ normal - at_mm
    above = side > 0
    crossed = np.flatnonzero(above[faces].any(axis=1) & ~above[faces].all(axis=1))
    following: dict[tuple[int, int], tuple[int, int]] = {}
    for face in faces[crossed].tolist():
        entry, leave = _through(face, above)
        following[entry] = leave
    loops = []
    while following:
        start, edge = following.popitem()
        loop = [start]
        while edge in following:
            loop.append(edge)
            edge = following.pop(edge)
        loops.append(_points(np.array(loop), vertices_mm, side))
    return loops


def _through(face: list[int], above: NDArray[np.bool_]) -> tuple[tuple[int, int], tuple[int, int]]:
    """The edge by which the cut enters a face (going up) and the one by which it leaves, each as sorted corners."""
    entry = leave = (0, 0)
    for one, two in ((face[0], face[1]), (face[1], face[2]), (face[2], face[0])):
        if above[two] and not above[one]:
            entry = (min(one, two), max(one, two))
        elif above[one] and not above[two]:
            leave = (min(one, two), max(one, two))
    return entry, leave


def _points(edges: Ints, vertices_mm: Floats, side: Floats) -> Floats:
    low, high = edges[:, 0], edges[:, 1]
    part = (side[low] / (side[low] - side[high]))[:, None]
    points: Floats = vertices_mm[low] * (1 - part) + vertices_mm[high] * part
    return points
