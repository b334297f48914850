"""Closing small holes and cracks of a mesh: each rim with the triangles of least area."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.envelope_mesh.edges import edges
from fitwright.envelope_mesh.triangles import Indices, Points, Triangles

HOLE_MM = 10.0
"""Holes up to this far across are filled (the diagonal of the rim's box); what a larger one would hide is not known."""
CRACK_MM = 0.1
"""Cracks of any length are closed where they are no wider than this on average."""
MOST_CORNERS = 400
"""Rims of more corners are left open."""
MOST_RIMS = 100_000
"""A file with more open edges is no mesh with holes; nothing is filled."""


@dataclass(frozen=True)
class Filled:
    """How many holes and cracks were closed, and how far across the largest hole was."""

    holes: int = 0
    cracks: int = 0
    largest_mm: float = 0.0


def filled(mesh: Triangles) -> tuple[Triangles, Filled]:
    """The mesh with its small holes and cracks closed; larger ones stay."""
    patches, across, cracks = [], [], 0
    for rim in _rims(mesh):
        if not 3 <= len(rim) <= MOST_CORNERS:
            continue
        corners = mesh.vertices[rim]
        patch, area = least_area(corners)
        wide = float(np.linalg.norm(np.ptp(corners, axis=0)))
        if area <= CRACK_MM * wide:
            cracks += 1
        elif wide <= HOLE_MM:
            across.append(wide)
        else:
            continue
        patches.append(rim[patch])
    faces = np.concatenate([mesh.faces, *patches]) if patches else mesh.faces
    return Triangles(mesh.vertices, faces), Filled(len(across), cracks, max(across, default=0.0))


def _rims(mesh: Triangles) -> list[Indices]:
    """Rings of corners along the open edges, each walked so that its patch faces as its neighbours do."""
    found = edges(mesh)
    side = np.flatnonzero(found.count[found.of_side] == 1)
    if len(side) > MOST_RIMS:
        return []
    start, end = mesh.faces.reshape(-1)[side], np.roll(mesh.faces, -1, axis=1).reshape(-1)[side]
    onward: dict[int, list[int]] = {}
    for a, b in zip(start.tolist(), end.tolist(), strict=True):
        onward.setdefault(b, []).append(a)
    rings: list[Indices] = []
    for first in list(onward):
        while onward.get(first):
            rings += _rings_from(first, onward)
    return rings


def _rings_from(first: int, onward: dict[int, list[int]]) -> list[Indices]:
    """Walk on until the rim ends; whenever a corner comes again, the ring between is cut off."""
    walk, place, rings = [first], {first: 0}, []
    while onward.get(walk[-1]):
        corner = onward[walk[-1]].pop()
        if corner not in place:
            place[corner] = len(walk)
            walk.append(corner)
            continue
        ring = walk[place[corner] :]
        rings.append(np.array(ring, dtype=np.int64))
        for gone in ring[1:]:
            del place[gone]
        del walk[place[corner] + 1 :]
    return rings


def least_area(corners: Points) -> tuple[Indices, float]:
    """Triangles over a ring of n corners with the least area, and that area [mm2], exactly, in n^3 steps.

    G. Barequet and M. Sharir, "Filling gaps in the boundary of a polyhedron", Computer Aided Geometric Design 12 (1995)
    207: the least over `i..j` is the least over `i..k` and `k..j` with the triangle i k j.
    """
    n = len(corners)
    cost, choice = np.zeros((n, n)), np.zeros((n, n), dtype=np.int64)
    for reach in range(2, n):
        i = np.arange(n - reach)[:, None]
        k, j = i + np.arange(1, reach), i + reach
        a, b, c = corners[i], corners[k], corners[j]
        total = cost[i, k] + cost[k, j] + np.linalg.norm(np.cross(b - a, c - a), axis=2) / 2.0
        best = np.argmin(total, axis=1)
        row = np.arange(n - reach)
        cost[row, row + reach], choice[row, row + reach] = total[row, best], row + 1 + best
    made, open_ = [], [(0, n - 1)]
    while open_:
        i_, j_ = open_.pop()
        if j_ - i_ >= 2:
            k_ = int(choice[i_, j_])
            made.append((i_, k_, j_))
            open_ += [(i_, k_), (k_, j_)]
    return np.array(made), float(cost[0, n - 1])
