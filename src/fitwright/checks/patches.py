"""Smooth patches of a mesh and the sharp edges between them.

Facets that meet at less than TOLERANCES.smooth_edge_rad are one patch: a cylinder is one, and so is a cylinder with a
15 deg lead-in.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components
from scipy.spatial import cKDTree

from fitwright.tolerances import TOLERANCES

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]

LEAST_AREA_MM2 = 1e-9
"""Facets smaller than this have no direction worth a patch or an edge."""
STEP_MM = 0.5
"""Long edges are looked up by points this far apart; the distance itself is exact."""


@dataclass(frozen=True)
class Edges:
    """Mesh edges: ends a, b (n, 3) and the two facets (n, 2) that meet there."""

    a: Points
    b: Points
    facets: Indices


@dataclass(frozen=True)
class Patches:
    """`of_facet` numbers the patch of each facet; `ridges` are sharp convex edges, `corners` re-entrant ones."""

    of_facet: Indices
    count: int
    ridges: Edges
    corners: Edges

    def pair_key(self, one: Indices, other: Indices) -> Indices:
        """One number for each unordered pair of patches."""
        key: Indices = np.minimum(one, other) * self.count + np.maximum(one, other)
        return key


def find_patches(mesh: trimesh.Trimesh, corner_rad: float) -> Patches:
    """Patches and sharp edges of a closed mesh; re-entrant edges count as corners from `corner_rad` on."""
    pairs = np.asarray(mesh.face_adjacency, dtype=np.int64)
    angles, convex = np.asarray(mesh.face_adjacency_angles), np.asarray(mesh.face_adjacency_convex)
    solid = (np.asarray(mesh.area_faces) > LEAST_AREA_MM2)[pairs].all(axis=1)
    smooth = pairs[solid & (angles < TOLERANCES.smooth_edge_rad)]
    count = len(mesh.faces)
    graph = coo_matrix((np.ones(len(smooth)), (smooth[:, 0], smooth[:, 1])), shape=(count, count))
    number, of_facet = connected_components(graph, directed=False)

    def edges(chosen: NDArray[np.bool_]) -> Edges:
        ends = mesh.vertices[np.asarray(mesh.face_adjacency_edges)[chosen]]
        return Edges(ends[:, 0], ends[:, 1], pairs[chosen])

    ridges = edges(solid & convex & (angles >= TOLERANCES.smooth_edge_rad))
    corners = edges(solid & ~convex & (angles >= corner_rad))
    return Patches(of_facet.astype(np.int64), int(number), ridges, corners)


def shared_ridge_mm(patches: Patches, one: Indices, other: Indices, points: Points) -> Numbers:
    """Distance from each point to the nearest sharp convex edge shared by its two patches; inf where there is none."""
    distance = np.full(len(points), np.inf)
    wanted = patches.pair_key(one, other)
    sides = patches.of_facet[patches.ridges.facets]
    owned = patches.pair_key(sides[:, 0], sides[:, 1])
    for key in np.intersect1d(wanted, owned):
        asking, own = np.flatnonzero(wanted == key), np.flatnonzero(owned == key)
        distance[asking] = _to_segments(patches.ridges.a[own], patches.ridges.b[own], points[asking])
    return distance


def along(edges: Edges, step_mm: float) -> tuple[Points, Indices]:
    """Points along edges, at most `step_mm` apart, and the edge that each lies on."""
    length = np.linalg.norm(edges.b - edges.a, axis=1)
    number = np.maximum(1, np.ceil(length / step_mm)).astype(np.int64)
    which = np.repeat(np.arange(len(number)), number)
    place = np.arange(len(which)) - np.repeat(np.cumsum(number) - number, number)
    share = (place + 0.5) / number[which]
    points: Points = edges.a[which] + (edges.b - edges.a)[which] * share[:, None]
    return points, which


def _to_segments(a: Points, b: Points, points: Points) -> Numbers:
    """Exact distance from points to the nearest of many segments, the candidates looked up by points along them."""
    seeds, which = along(Edges(a, b, np.empty((0, 2), dtype=np.int64)), STEP_MM)
    _, near = cKDTree(seeds).query(points, k=min(3, len(seeds)))
    chosen = which[near.reshape(len(points), -1)]
    start, run = a[chosen], b[chosen] - a[chosen]
    offset = points[:, None, :] - start
    square = np.maximum(np.einsum("ijk,ijk->ij", run, run), 1e-30)
    share = np.clip(np.einsum("ijk,ijk->ij", offset, run) / square, 0.0, 1.0)
    apart: Numbers = np.linalg.norm(offset - share[:, :, None] * run, axis=2).min(axis=1)
    return apart
