"""The try-print: rings and footprints cut from the finished solid, laid flat side by side on one plate."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray
from shapely import MultiPoint, Polygon, box, get_coordinates
from shapely.affinity import translate

from fitwright.errors import BuildError, FitwrightError
from fitwright.export.stl import on_bed, stl_bytes
from fitwright.mesh import mesh_shape
from fitwright.part import Body, Part, TryPiece, Vec
from fitwright.tolerances import TOLERANCES

if TYPE_CHECKING:
    from trimesh import Trimesh

GAP_MM = 5.0
"""Between two pieces, and to the edge of the bed: a brim on either side still leaves a gap."""
_COARSE_MM = 0.05


@dataclass(frozen=True)
class TryPlate:
    """The plate as a binary STL, the names of the pieces on it, and those left out, with the reason."""

    stl: bytes
    pieces: tuple[str, ...]
    left_out: tuple[str, ...]
    volume_mm3: float


@dataclass(frozen=True)
class _Laid:
    name: str
    vertices_mm: NDArray[np.float64]
    faces: NDArray[np.int64]
    volume_mm3: float

    @cached_property
    def outline(self) -> Polygon:
        """Convex outline seen from above, within 0.05 mm; its box starts at x = y = 0."""
        return MultiPoint(self.vertices_mm[:, :2]).convex_hull.simplify(_COARSE_MM)


def try_plate(part: Part, bed_mm: tuple[float, float]) -> TryPlate | None:
    """All try pieces of `part` on one bed of `bed_mm` (x, y), or None where there are none.

    Pieces are the body's solid ∩ the piece's tool, turned so that `down` faces the bed, 5 mm apart.
    """
    laid: list[_Laid] = []
    left_out: list[str] = []
    for body in part.bodies:
        for piece in body.tries:
            try:
                laid.append(_lay(body, piece))
            except FitwrightError as error:
                left_out.append(f"{piece.name} ({error})")
    placed, too_many = _arrange(laid, bed_mm)
    left_out += [f"{piece.name} (no room on the bed)" for piece in too_many]
    if not placed:
        return None
    vertices, faces = _joined(placed)
    names = tuple(piece.name for piece, _ in placed)
    return TryPlate(stl_bytes(vertices, faces), names, tuple(left_out), sum(p.volume_mm3 for p, _ in placed))


def _lay(body: Body, piece: TryPiece) -> _Laid:
    mesh: Trimesh = mesh_shape(body.solid.intersect(piece.tool), TOLERANCES.mesh_chord_mm, TOLERANCES.mesh_angle_rad)
    if not len(mesh.faces):
        raise BuildError("it cuts nothing from the part")
    vertices = on_bed(np.asarray(mesh.vertices, dtype=np.float64), turned_down(piece.down))
    vertices[:, :2] -= vertices[:, :2].min(axis=0)
    return _Laid(piece.name, vertices, np.asarray(mesh.faces, dtype=np.int64), float(mesh.volume))


def turned_down(down: Vec) -> NDArray[np.float64]:
    """The 4x4 rotation that turns the part direction `down` (not zero) to -z."""
    z = -np.asarray(down, dtype=np.float64) / np.linalg.norm(down)
    sideways = np.array([0.0, 1.0, 0.0]) if abs(z[0]) > 0.9 else np.array([1.0, 0.0, 0.0])
    y = np.cross(z, sideways)
    y /= np.linalg.norm(y)
    matrix = np.eye(4)
    matrix[:3, :3] = [np.cross(y, z), y, z]
    return matrix


_Placed = list[tuple[_Laid, tuple[float, float]]]


def _arrange(pieces: list[_Laid], bed_mm: tuple[float, float]) -> tuple[_Placed, list[_Laid]]:
    """Each piece as far to the front, then left, as those before it leave room; second: what finds none."""
    placed: _Placed = []
    left: list[_Laid] = []
    taken: list[Polygon] = []
    for piece in sorted(pieces, key=lambda p: -p.outline.area):
        place = _front_left(piece, taken, bed_mm)
        if place is None:
            left.append(piece)
            continue
        placed.append((piece, place))
        taken.append(translate(piece.outline, *place))
    return placed, left


def _front_left(piece: _Laid, taken: list[Polygon], bed_mm: tuple[float, float]) -> tuple[float, float] | None:
    """Where the piece's corner may go: the places left over by the bed's edge and by all places too near to another."""
    wide, deep = piece.outline.bounds[2:]
    if GAP_MM + wide + GAP_MM > bed_mm[0] or GAP_MM + deep + GAP_MM > bed_mm[1]:
        return None
    room = box(GAP_MM, GAP_MM, bed_mm[0] - GAP_MM - wide, bed_mm[1] - GAP_MM - deep)
    for other in taken:
        room = room.difference(_too_near(piece.outline, other))
    corners = get_coordinates(room)
    if not len(corners):
        return None
    x, y = min(corners.tolist(), key=lambda corner: (round(corner[1], 6), corner[0]))
    return x, y


def _too_near(moved: Polygon, other: Polygon) -> Polygon:
    """All shifts that bring one convex outline closer than GAP_MM to another: their Minkowski difference."""
    shifts = get_coordinates(other)[:, None, :] - get_coordinates(moved)[None, :, :]
    return MultiPoint(shifts.reshape(-1, 2)).convex_hull.buffer(GAP_MM + 2 * _COARSE_MM)


def _joined(placed: _Placed) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    vertices, faces, first = [], [], 0
    for piece, (x, y) in placed:
        vertices.append(piece.vertices_mm + np.array([x, y, 0.0]))
        faces.append(piece.faces + first)
        first += len(piece.vertices_mm)
    return np.concatenate(vertices), np.concatenate(faces)
