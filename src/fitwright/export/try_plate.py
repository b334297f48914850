"""The try-print: rings and footprints cut from the finished solid, laid flat on as few plates as they need."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import BuildError, FitwrightError
from fitwright.export.stl import on_bed, stl_bytes
from fitwright.mesh import mesh_shape
from fitwright.packing import Outline, Place, pack
from fitwright.part import Body, Part, TryPiece, Vec
from fitwright.tolerances import TOLERANCES

if TYPE_CHECKING:
    from trimesh import Trimesh


@dataclass(frozen=True)
class TryPlate:
    """One plate as a binary STL, the names of the pieces on it, and what it takes to print it."""

    stl: bytes
    pieces: tuple[str, ...]
    volume_mm3: float
    height_mm: float


@dataclass(frozen=True)
class _Laid:
    name: str
    outline: Outline
    volume_mm3: float

    @property
    def height_mm(self) -> float:
        return float(self.outline.vertices_mm[:, 2].max())


def try_plates(part: Part, bed_mm: tuple[float, float]) -> tuple[tuple[TryPlate, ...], tuple[str, ...]]:
    """All try pieces of `part` on beds of `bed_mm` (x, y), and those that cannot be laid, each with the reason.

    Pieces are the body's solid ∩ the piece's tool, turned so that `down` faces the bed, 5 mm apart.
    """
    laid: list[_Laid] = []
    left_out: list[str] = []
    for body in part.printed:
        for piece in body.tries:
            try:
                laid.append(_lay(body, piece))
            except FitwrightError as error:
                left_out.append(f"{piece.name} ({error})")
    beds, too_large = pack([piece.outline for piece in laid], bed_mm)
    left_out += [f"{laid[number].name} (larger than the bed)" for number in too_large]
    return tuple(_plate([(laid[n], place) for n, place in bed.items()]) for bed in beds), tuple(left_out)


def _lay(body: Body, piece: TryPiece) -> _Laid:
    mesh: Trimesh = mesh_shape(
        (piece.whole or body.solid).intersect(piece.tool), TOLERANCES.mesh_chord_mm, TOLERANCES.mesh_angle_rad
    )
    if not len(mesh.faces):
        raise BuildError("it cuts nothing from the part")
    vertices = on_bed(np.asarray(mesh.vertices, dtype=np.float64), turned_down(piece.down))
    vertices[:, :2] -= vertices[:, :2].min(axis=0)
    return _Laid(piece.name, Outline(vertices, np.asarray(mesh.faces, dtype=np.int64)), float(mesh.volume))


def _plate(placed: list[tuple[_Laid, Place]]) -> TryPlate:
    vertices, faces, first = [], [], 0
    for piece, (x, y) in placed:
        vertices.append(piece.outline.vertices_mm + np.array([x, y, 0.0]))
        faces.append(piece.outline.faces + first)
        first += len(piece.outline.vertices_mm)
    pieces = [piece for piece, _ in placed]
    return TryPlate(
        stl_bytes(np.concatenate(vertices), np.concatenate(faces)),
        tuple(piece.name for piece in pieces),
        sum(piece.volume_mm3 for piece in pieces),
        max(piece.height_mm for piece in pieces),
    )


def turned_down(down: Vec) -> NDArray[np.float64]:
    """The 4x4 rotation that turns the part direction `down` (not zero) to -z."""
    z = -np.asarray(down, dtype=np.float64) / np.linalg.norm(down)
    sideways = np.array([0.0, 1.0, 0.0]) if abs(z[0]) > 0.9 else np.array([1.0, 0.0, 0.0])
    y = np.cross(z, sideways)
    y /= np.linalg.norm(y)
    matrix = np.eye(4)
    matrix[:3, :3] = [np.cross(y, z), y, z]
    return matrix
