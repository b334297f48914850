"""Gaps and clashes between closed meshes.

Two questions with two answers: solids clash when they share volume; a gap is a distance. A distance of nothing cannot
tell touching from a clash, and for a solid wholly inside another it may say anything (OCCT issue 1123). So the common
volume is asked first, and distance only of solids that have none.
"""

from __future__ import annotations

from dataclasses import dataclass

import manifold3d
import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Vec

Points = NDArray[np.float64]

CLASH_MM3 = 0.01
"""Less common volume than this is rounding: a cube of 0.2 mm."""
CLASH_DEPTH_MM = 0.02
"""A common volume thinner than this on average is the facets of two surfaces that touch: twice the chord error."""


@dataclass(frozen=True)
class Gap:
    """What lies between two solids: `gap_mm`, or `common_mm3` > 0 where they clash (the gap is then 0).

    `at_least` says that the true gap is that or more: nothing was found within the search length.
    `clash` is the box (low, high) of the common volume.
    """

    gap_mm: float
    at_least: bool = False
    common_mm3: float = 0.0
    clash: tuple[Vec, Vec] | None = None


def between(one: manifold3d.Manifold, other: manifold3d.Manifold, search_mm: float) -> Gap:
    """Common volume or least gap [mm] of two sound, closed solids, searched no further than `search_mm`."""
    apart = box_gap_mm(one, other)
    if apart >= search_mm:
        return Gap(apart, at_least=True)
    if apart == 0.0:
        clash = common(one, other)
        if clash is not None:
            return clash
    gap = float(one.min_gap(other, search_mm))
    return Gap(gap, at_least=gap >= search_mm)


def common(one: manifold3d.Manifold, other: manifold3d.Manifold) -> Gap | None:
    """The clash of two solids, or None where they share no volume to speak of."""
    if box_gap_mm(one, other) > 0.0:
        return None
    shared = one ^ other
    volume, area = float(shared.volume()), float(shared.surface_area())
    if volume <= CLASH_MM3 or 2.0 * volume / area <= CLASH_DEPTH_MM:
        return None
    x0, y0, z0, x1, y1, z1 = (float(v) for v in shared.bounding_box())
    return Gap(0.0, False, volume, ((x0, y0, z0), (x1, y1, z1)))


def box_gap_mm(one: manifold3d.Manifold, other: manifold3d.Manifold) -> float:
    """Distance between the boxes of two solids, 0 where they overlap: never more than that of the solids."""
    a, b = np.array(one.bounding_box()), np.array(other.bounding_box())
    apart = np.maximum(np.maximum(a[:3] - b[3:], b[:3] - a[3:]), 0.0)
    return float(np.linalg.norm(apart))


def outside_of(solid: manifold3d.Manifold, body: manifold3d.Manifold, margin_mm: float) -> manifold3d.Manifold:
    """All round `solid`, as far as `body` and `margin_mm` reach: what a body that stays inside keeps clear of."""
    a, b = np.array(solid.bounding_box()), np.array(body.bounding_box())
    low = np.minimum(a[:3], b[:3]) - margin_mm - 1.0
    high = np.maximum(a[3:], b[3:]) + margin_mm + 1.0
    return manifold3d.Manifold.cube(list(high - low)).translate(list(low)) - solid


def surface_points(vertices: Points, faces: NDArray[np.int64], pitch_mm: float, most: int) -> Points:
    """Corners, and points spread over the larger faces about `pitch_mm` apart, some `most` at most (evenly thinned)."""
    a, b, c = (vertices[faces[:, k]] for k in range(3))
    area = np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2.0
    longest = np.maximum(np.linalg.norm(b - a, axis=1), np.linalg.norm(c - b, axis=1))
    want = np.maximum(area / pitch_mm**2, np.maximum(longest, np.linalg.norm(a - c, axis=1)) / pitch_mm)
    count = np.floor(want * min(1.0, most / max(float(want.sum()), 1.0))).astype(np.int64)
    owner = np.repeat(np.arange(len(faces)), count)
    k = np.arange(len(owner)) + 1.0
    u, v = (0.7548776662466927 * k) % 1.0, (0.5698402909980532 * k) % 1.0
    fold = u + v > 1.0
    u, v = np.where(fold, 1.0 - u, u)[:, None], np.where(fold, 1.0 - v, v)[:, None]
    spread = (1.0 - u - v) * a[owner] + u * b[owner] + v * c[owner]
    return np.concatenate([vertices, spread])
