"""Undersides flatter than 45 degrees, as connected patches of faces with their rims told apart.

A rim edge is `held` where the surface beyond it goes down (a wall below, the bed), and free where it goes up or level.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components

from fitwright.printing.laid import Array, Bools, Ints, Laid
from fitwright.printing.limits import FLATTEST_RAD

SLIVER_MM2 = 1e-9
"""Faces smaller than this have no direction to speak of."""
UPWARD = 0.05
"""A face whose normal has more than this of up is a top side and never a riser between two undersides."""


@dataclass(frozen=True)
class Patch:
    """`faces` index the laid mesh, ascending (risers lower than a layer included); `rim_mm` (k, 2, 3) its border edges.

    `rim_face` is the face of the patch at each of them.
    """

    faces: Ints
    rim_mm: Array
    rim_face: Ints
    held: Bools


@dataclass(frozen=True)
class _Neighbours:
    """Faces that share an edge: `pair` (e, 2) faces, `edge` (e, 2) points, `beyond` (e, 2) the far corners."""

    pair: Ints
    edge: Ints
    beyond: Ints


def patches(laid: Laid, layer_mm: float) -> tuple[Patch, ...]:
    """All undersides flatter than 45 degrees (1 degree of slack) that do not lie on the bed."""
    areas, up = laid.areas_mm2, laid.area_vectors_mm2[:, 2]
    on_bed = laid.on_bed(layer_mm)
    flat = (up < -np.cos(FLATTEST_RAD) * areas) & (areas > SLIVER_MM2) & ~on_bed
    if not flat.any():
        return ()
    near = _neighbours(laid.faces)
    steep = ~flat & ~on_bed & (up <= UPWARD * areas)
    inside = flat | _risers(laid, near, steep, layer_mm)
    label = _components(near.pair[inside[near.pair].all(axis=1)], len(areas))
    label[~inside] = -1
    return _cut_out(laid, near, label, np.unique(label[flat]), on_bed)


def _neighbours(faces: Ints) -> _Neighbours:
    directed = np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]])
    opposite = np.concatenate([faces[:, 2], faces[:, 0], faces[:, 1]])
    owner = np.tile(np.arange(len(faces)), 3)
    low, high = directed.min(axis=1), directed.max(axis=1)
    key = low * (int(faces.max()) + 1) + high
    order = np.argsort(key, kind="stable")
    first = np.flatnonzero(key[order][:-1] == key[order][1:])
    a, b = order[first], order[first + 1]
    return _Neighbours(
        np.stack([owner[a], owner[b]], axis=1),
        np.stack([low[a], high[a]], axis=1),
        np.stack([opposite[a], opposite[b]], axis=1),
    )


def _components(pairs: Ints, count: int) -> Ints:
    graph = coo_array((np.ones(len(pairs), dtype=np.int8), (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    return np.asarray(connected_components(graph, directed=False)[1], dtype=np.int64)


def _risers(laid: Laid, near: _Neighbours, steep: Bools, layer_mm: float) -> Bools:
    """Steep faces whose whole connected run is lower than a layer: no printer makes a support of those."""
    label = _components(near.pair[steep[near.pair].all(axis=1)], len(steep))
    z = laid.points_mm[laid.faces, 2]
    low, high = np.full(len(steep), np.inf), np.full(len(steep), -np.inf)
    np.minimum.at(low, label, z.min(axis=1))
    np.maximum.at(high, label, z.max(axis=1))
    small = (high - low < layer_mm) & (low >= 0.5 * layer_mm)
    return np.asarray(steep & small[label])


def _cut_out(laid: Laid, near: _Neighbours, label: Ints, wanted: Ints, on_bed: Bools) -> tuple[Patch, ...]:
    """Each wanted label's faces and rim; sorted once for all, as lettering or slivers can make hundreds of patches."""
    of = label[near.pair]
    rim = np.flatnonzero(of[:, 0] != of[:, 1])
    edges = np.concatenate([_rim_side(laid, near, rim, side, on_bed) for side in (0, 1)])
    owner = np.concatenate([of[rim, 0], of[rim, 1]])
    faces, borders = _grouped(label, wanted), _grouped(owner, wanted)
    return tuple(
        Patch(faces[k], edges["ends"][borders[k]], edges["face"][borders[k]], edges["held"][borders[k]])
        for k in range(len(wanted))
    )


def _rim_side(laid: Laid, near: _Neighbours, rim: Ints, side: int, on_bed: Bools) -> NDArray[np.void]:
    """Rim edges as seen from the faces on one side: their ends, that face, and whether what lies beyond holds them."""
    found = np.empty(len(rim), dtype=[("ends", np.float64, (2, 3)), ("face", np.int64), ("held", np.bool_)])
    found["ends"] = laid.points_mm[near.edge[rim]]
    found["face"] = near.pair[rim, side]
    below = _goes_down(found["ends"], laid.points_mm[near.beyond[rim, 1 - side]])
    found["held"] = below | on_bed[near.pair[rim, 1 - side]]
    return found


def _grouped(label: Ints, wanted: Ints) -> list[Ints]:
    """For each wanted label (ascending), where it stands."""
    order = np.argsort(label, kind="stable")
    first, last = (np.searchsorted(label[order], wanted, side=side) for side in ("left", "right"))
    return [order[i:j] for i, j in zip(first, last, strict=True)]


def _goes_down(ends: Array, beyond: Array) -> Bools:
    """Whether the face beyond a rim edge leaves it downwards, square to the edge."""
    along = ends[:, 1] - ends[:, 0]
    along /= np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-300)
    reach = beyond - ends[:, 0]
    square = reach - (reach * along).sum(axis=1, keepdims=True) * along
    length = np.maximum(np.linalg.norm(square, axis=1), 1e-300)
    return np.asarray(square[:, 2] < -1e-3 * length)
