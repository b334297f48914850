"""Sections of a finished mesh with their areas and second moments, measured by slicing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
import trimesh
from numpy.typing import NDArray

from fitwright.checks.passage import section_loops
from fitwright.frame import Frame

SMALL_MM2 = 0.5


@dataclass(frozen=True)
class Piece:
    """One connected piece of a section: area [mm2], centroid (right, up) [mm], own second moments [mm4], bounds [mm].

    `up_mm4`: for bending along `up`; `right_mm4`: for bending along `right`.
    """

    area_mm2: float
    right_at: float
    up_at: float
    up_mm4: float
    right_mm4: float
    bounds_mm: tuple[float, float, float, float]


@dataclass(frozen=True)
class Cut:
    """All pieces of one section."""

    pieces: tuple[Piece, ...]

    @property
    def area_mm2(self) -> float:
        """Their area together."""
        return sum(piece.area_mm2 for piece in self.pieces)

    @property
    def right_at(self) -> float:
        """Their common centroid."""
        return sum(piece.area_mm2 * piece.right_at for piece in self.pieces) / self.area_mm2

    @property
    def up_at(self) -> float:
        """Their common centroid."""
        return sum(piece.area_mm2 * piece.up_at for piece in self.pieces) / self.area_mm2

    @property
    def up_mm4(self) -> float:
        """Bending along up, each piece about its own centroid: nothing but their ends joins them."""
        return sum(piece.up_mm4 for piece in self.pieces)

    @property
    def right_mm4(self) -> float:
        """Bending along right, each piece about its own centroid."""
        return sum(piece.right_mm4 for piece in self.pieces)

    @property
    def joined_right_mm4(self) -> float:
        """Bending along right about the common centroid: walls join the pieces."""
        middle = self.right_at
        return sum(piece.right_mm4 + piece.area_mm2 * (piece.right_at - middle) ** 2 for piece in self.pieces)


def cut(mesh: trimesh.Trimesh, frame: Frame, within: tuple[float, float, float, float] | None = None) -> Cut:
    """The section in the plane square to a frame's axis through its origin, in its right and up.

    `within`: only what lies between these (low right, low up, high right, high up).
    """
    loops = [shapely.Polygon(loop) for loop in section_loops(mesh, frame)]
    filled = shapely.Polygon()
    for loop in sorted(loops, key=lambda polygon: -polygon.area):
        filled = filled.symmetric_difference(loop if loop.is_valid else loop.buffer(0.0))
    if within is not None:
        filled = filled.intersection(shapely.box(*within))
    parts = filled.geoms if hasattr(filled, "geoms") else [filled]
    return Cut(tuple(_piece(p) for p in parts if isinstance(p, shapely.Polygon) and p.area > SMALL_MM2))


def across_y(y_mm: float) -> Frame:
    """The plane square to the movement at y: right = x, up = z."""
    return Frame((0.0, y_mm, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))


def across_x(x_mm: float) -> Frame:
    """The plane square to x: right = y, up = z."""
    return Frame((x_mm, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


def across_z(z_mm: float) -> Frame:
    """The plane square to z: right = y, up = x."""
    return Frame((0.0, 0.0, z_mm), (0.0, 0.0, 1.0), (0.0, 1.0, 0.0))


def _piece(polygon: shapely.Polygon) -> Piece:
    """By Green's theorem round each ring; holes count negative."""
    rings = [(polygon.exterior, 1.0), *((ring, -1.0) for ring in polygon.interiors)]
    area, first_r, first_u, second_r, second_u = (
        sum(parts) for parts in zip(*(_integrals(np.asarray(ring.coords), sign) for ring, sign in rings), strict=True)
    )
    right, up = first_r / area, first_u / area
    bounds = tuple(float(one) for one in polygon.bounds)
    assert len(bounds) == 4
    return Piece(area, right, up, second_u - area * up**2, second_r - area * right**2, bounds)


def _integrals(ring: NDArray[np.float64], sign: float) -> Sequence[float]:
    """Area, first moments and second moments of a ring about the origin, counted positive whichever way it runs."""
    (x0, y0), (x1, y1) = ring[:-1, :2].T, ring[1:, :2].T
    turn = x0 * y1 - x1 * y0
    area = turn.sum() / 2.0
    way = sign if area > 0.0 else -sign
    found = (
        area,
        ((x0 + x1) * turn).sum() / 6.0,
        ((y0 + y1) * turn).sum() / 6.0,
        ((x0 * x0 + x0 * x1 + x1 * x1) * turn).sum() / 12.0,
        ((y0 * y0 + y0 * y1 + y1 * y1) * turn).sum() / 12.0,
    )
    return [way * float(one) for one in found]
