"""Outlines seen from above, packed on as few beds as they need, small ones inside large rings where they go."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPoint, Polygon, box, get_coordinates
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

GAP_MM = 5.0
"""Between two pieces, and to the edge of the bed: a brim on either side still leaves a gap."""
_COARSE_MM = 0.05
_SEAM_MM = 0.01
"""Hairline gaps between projected triangles are closed."""
_LEAST_ROOM_MM = 10.0
"""Holes narrower than this are not looked into."""

Place = tuple[float, float]


@dataclass(frozen=True)
class Outline:
    """A piece seen from above; its box starts at x = y = 0."""

    vertices_mm: NDArray[np.float64]
    faces: NDArray[np.int64]

    @cached_property
    def hull(self) -> Polygon:
        """Convex outline, within 0.05 mm."""
        return MultiPoint(self.vertices_mm[:, :2]).convex_hull.simplify(_COARSE_MM)

    @cached_property
    def holes(self) -> tuple[Polygon, ...]:
        """What can be seen through, less the gap to be kept; holes that are not convex are not used."""
        shadow = _shadow(self.vertices_mm, self.faces)
        wide = [Polygon(ring).buffer(-GAP_MM - 2 * _COARSE_MM) for ring in _rings(shadow)]
        return tuple(hole.simplify(_COARSE_MM) for hole in wide if not hole.is_empty and _is_convex(hole))


@dataclass(frozen=True)
class Plan:
    """A piece's convex outline, its box starting at x = y = 0, and the convex room in it, less the gap to be kept."""

    hull: Polygon
    holes: tuple[Polygon, ...] = ()


Piece = Outline | Plan


def pack(outlines: Sequence[Piece], bed_mm: tuple[float, float]) -> tuple[list[dict[int, Place]], list[int]]:
    """Beds, each a map from a piece's number to where its corner goes; and the pieces larger than the bed.

    Largest first, each on the first bed that has room for it: inside another where it can, else as far to the front,
    then left, as those before it leave room.
    """
    beds: list[dict[int, Place]] = []
    too_large = []
    for number in sorted(range(len(outlines)), key=lambda n: -outlines[n].hull.area):
        for bed in [*beds, {}]:
            place = _place(outlines[number], [(outlines[n], at) for n, at in bed.items()], bed_mm)
            if place is not None:
                bed[number] = place
                if bed not in beds:
                    beds.append(bed)
                break
        else:
            too_large.append(number)
    return beds, sorted(too_large)


def _place(piece: Piece, taken: list[tuple[Piece, Place]], bed_mm: tuple[float, float]) -> Place | None:
    """Where the piece's corner may go: the places left by the bed's edge and by all places too near to another."""
    wide, deep = piece.hull.bounds[2:]
    spare = (bed_mm[0] - wide, bed_mm[1] - deep)
    if min(spare) < 2 * GAP_MM:
        alone = not taken and min(spare) >= 0.0
        return (spare[0] / 2, spare[1] / 2) if alone else None
    room: BaseGeometry = box(GAP_MM, GAP_MM, spare[0] - GAP_MM, spare[1] - GAP_MM)
    nests: list[BaseGeometry] = []
    for other, at in taken:
        inside = [translate(_inside(piece.hull, hole), *at) for hole in other.holes]
        nests += inside
        near = translate(_too_near(piece.hull, other.hull), *at)
        room = room.difference(near.difference(shapely.union_all(inside)))
    return _front_left(room.intersection(shapely.union_all(nests))) or _front_left(room)


def _front_left(room: BaseGeometry) -> Place | None:
    corners = get_coordinates(room)
    if not len(corners):
        return None
    x, y = min(corners.tolist(), key=lambda corner: (round(corner[1], 6), corner[0]))
    return x, y


def _too_near(moved: Polygon, other: Polygon) -> BaseGeometry:
    """All shifts that bring one convex outline closer than GAP_MM to another: their Minkowski difference."""
    shifts = get_coordinates(other)[:, None, :] - get_coordinates(moved)[None, :, :]
    return MultiPoint(shifts.reshape(-1, 2)).convex_hull.buffer(GAP_MM + 2 * _COARSE_MM)


def _inside(moved: Polygon, hole: Polygon) -> BaseGeometry:
    """All shifts that bring a convex outline wholly into a convex hole."""
    room: BaseGeometry = hole
    for number, (x, y) in enumerate(get_coordinates(moved).tolist()):
        shifted = translate(hole, -x, -y)
        room = shifted if number == 0 else room.intersection(shifted)
        if room.is_empty:
            break
    return room


def _shadow(vertices_mm: NDArray[np.float64], faces: NDArray[np.int64]) -> BaseGeometry:
    """The area covered: every line from above that meets a closed surface meets a face that looks down."""
    triangles = vertices_mm[faces][:, :, :2]
    (ax, ay), (bx, by) = (triangles[:, k].T - triangles[:, 0].T for k in (1, 2))
    down = ax * by - ay * bx < -1e-6
    covered: BaseGeometry = shapely.union_all(shapely.polygons(triangles[down]), grid_size=1e-4)
    return covered.buffer(_SEAM_MM).buffer(-_SEAM_MM)


def _rings(shadow: BaseGeometry) -> list[NDArray[np.float64]]:
    polygons = [polygon for polygon in shapely.get_parts(shadow) if isinstance(polygon, Polygon)]
    holes = [get_coordinates(ring) for polygon in polygons for ring in polygon.interiors]
    return [ring for ring in holes if np.ptp(ring, axis=0).min() >= _LEAST_ROOM_MM]


def _is_convex(hole: BaseGeometry) -> bool:
    return isinstance(hole, Polygon) and bool(hole.convex_hull.area - hole.area < 1e-3 * hole.area)
