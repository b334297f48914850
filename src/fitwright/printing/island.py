"""Islands: places where a print would start in the air.

The layers below height c are the material with z <= c. A new piece of it appears only at a local minimum of height with
the material above it. So every island of any layer thickness is found on the mesh's corners, without slicing.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from fitwright.frame import Vec
from fitwright.printing.laid import Array, Bools, Ints, Laid

LEVEL_MM = 1e-3
"""Corners closer in height than this are level: rounding must not make a dent of a flat face."""


@dataclass(frozen=True)
class Island:
    """A lowest place in the air: `at` in part coordinates, `height_mm` above the bed."""

    at: Vec
    height_mm: float


def islands(laid: Laid, layer_mm: float) -> tuple[Island, ...]:
    """All local minima of height that hang over air, lowest first."""
    z = laid.points_mm[:, 2]
    edges = np.concatenate([laid.faces[:, [0, 1]], laid.faces[:, [1, 2]], laid.faces[:, [2, 0]]])
    label, count = _plateaus(z, edges)
    lowest = _without_lower_neighbour(z, edges, label, count)
    hanging = _facing_down(laid, label, lowest)
    height = np.full(count, np.inf)
    np.minimum.at(height, label, z)
    found = np.flatnonzero(lowest & hanging & (height >= 0.5 * layer_mm))
    return tuple(_island(laid, label, int(k)) for k in found[np.argsort(height[found], kind="stable")])


def _plateaus(z: Array, edges: Ints) -> tuple[Ints, int]:
    level = edges[np.abs(z[edges[:, 0]] - z[edges[:, 1]]) <= LEVEL_MM]
    graph = coo_array((np.ones(len(level), dtype=np.int8), (level[:, 0], level[:, 1])), shape=(len(z), len(z)))
    count, label = connected_components(graph, directed=False)
    return np.asarray(label, dtype=np.int64), int(count)


def _without_lower_neighbour(z: Array, edges: Ints, label: Ints, count: int) -> Bools:
    lowest = np.ones(count, dtype=np.bool_)
    a, b = edges[:, 0], edges[:, 1]
    lowest[label[a[z[b] < z[a] - LEVEL_MM]]] = False
    lowest[label[b[z[a] < z[b] - LEVEL_MM]]] = False
    return lowest


def _facing_down(laid: Laid, label: Ints, lowest: Bools) -> Bools:
    """Whether the material is above a plateau: the floor of a pit is a local minimum too, with the material below.

    The sign of the angle-weighted normal tells inside from outside at a corner or edge where plain and area-weighted
    normals do not (Baerentzen and Aanaes, IEEE Trans. Visualization and Computer Graphics 11(3), 2005).
    """
    up = np.zeros(len(lowest))
    faces = laid.faces[lowest[label[laid.faces]].any(axis=1) & (laid.areas_mm2 > 0)]
    corners = laid.points_mm[faces]
    unit_z = _unit(np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]))[:, 2]
    for k in range(3):
        one, other = (_unit(corners[:, (k + j) % 3] - corners[:, k]) for j in (1, 2))
        angle = np.arccos(np.clip((one * other).sum(axis=1), -1.0, 1.0))
        np.add.at(up, label[faces[:, k]], angle * unit_z)
    return up < 0


def _unit(vectors: Array) -> Array:
    return np.asarray(vectors / np.maximum(np.linalg.norm(vectors, axis=1, keepdims=True), 1e-300))


def _island(laid: Laid, label: Ints, which: int) -> Island:
    points = laid.points_mm[label == which]
    middle = points.mean(axis=0)
    at = points[np.argmin(((points - middle) ** 2).sum(axis=1))]
    return Island(laid.in_part(at), float(at[2]))
