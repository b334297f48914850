"""What a body stands on while it is printed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from fitwright.printing.laid import Array, Laid
from fitwright.printing.plan import least_width_mm, outline


@dataclass(frozen=True)
class Base:
    """`area_mm2` on the bed; `width_mm` the least width of its outline.

    `inside_mm` is how far inside that outline the centre of mass stands (< 0: outside).
    """

    area_mm2: float
    width_mm: float
    inside_mm: float


def base(laid: Laid, layer_mm: float) -> Base:
    """Area and stance of the first layer: the faces that lie on the bed."""
    on_bed = laid.on_bed(layer_mm)
    area = float(-laid.area_vectors_mm2[on_bed, 2].sum())
    points = laid.points_mm[np.unique(laid.faces[on_bed])]
    if len(points) < 3:
        return Base(area, 0.0, 0.0)
    hull = outline(points)
    return Base(area, least_width_mm(hull), _inside(hull, _centre_of_mass(laid)[:2]))


def _centre_of_mass(laid: Laid) -> Array:
    """Of the closed mesh: sum of its tetrahedra with the origin."""
    a, b, c = (laid.points_mm[laid.faces[:, k]] for k in range(3))
    volume = np.einsum("nd,nd->n", a, np.cross(b, c)) / 6.0
    total = float(volume.sum())
    if total <= 0.0:
        return np.asarray(laid.points_mm.mean(axis=0))
    return np.asarray(((a + b + c) / 4.0 * volume[:, None]).sum(axis=0) / total)


def _inside(hull: Array, point: Array) -> float:
    """Distance of a point inside a convex outline (counter-clockwise) to its nearest side; negative outside."""
    edges = np.roll(hull, -1, axis=0) - hull
    to = point - hull
    cross = edges[:, 0] * to[:, 1] - edges[:, 1] * to[:, 0]
    return float((cross / np.maximum(np.linalg.norm(edges, axis=1), 1e-12)).min())
