"""A mesh turned to a print pose, as plain arrays in bed coordinates."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Vec

if TYPE_CHECKING:
    from trimesh import Trimesh

Array = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True)
class Laid:
    """A body on the bed: z = 0 is the bed, xy is not yet centred or turned.

    `points_mm` (n, 3) and `faces` (m, 3); `area_vectors_mm2` (m, 3) point out of the material, their length is the
    face's area. `matrix` (4, 4) takes part coordinates to these.
    """

    points_mm: Array
    faces: Ints
    area_vectors_mm2: Array
    matrix: Array

    @property
    def height_mm(self) -> float:
        """How tall the body stands."""
        return float(self.points_mm[:, 2].max())

    @property
    def areas_mm2(self) -> Array:
        """Area of each face."""
        return np.asarray(np.linalg.norm(self.area_vectors_mm2, axis=1))

    def on_bed(self, layer_mm: float) -> Bools:
        """Faces that the first layer squashes onto the bed: downward, no corner higher than half a layer."""
        low = self.points_mm[self.faces, 2].max(axis=1) < 0.5 * layer_mm
        return np.asarray(low & (self.area_vectors_mm2[:, 2] < 0))

    def in_part(self, point_mm: Array) -> Vec:
        """A bed point in part coordinates."""
        x, y, z = (point_mm - self.matrix[:3, 3]) @ self.matrix[:3, :3]
        return float(x), float(y), float(z)


def lay(mesh: Trimesh, down: Vec) -> Laid:
    """The mesh with the part direction `down` (any length but zero) pointing at the bed."""
    matrix = np.eye(4)
    matrix[:3, :3] = turned_down(down)
    points = np.asarray(mesh.vertices, dtype=np.float64) @ matrix[:3, :3].T
    matrix[2, 3] = -points[:, 2].min()
    points[:, 2] += matrix[2, 3]
    faces = np.asarray(mesh.faces, dtype=np.int64)
    a, b, c = (points[faces[:, k]] for k in range(3))
    return Laid(points, faces, np.cross(b - a, c - a) / 2.0, matrix)


def turned_down(down: Vec) -> Array:
    """The rotation (3, 3) that takes `down` to -z; the part's right stays as near to the bed's x as it can."""
    z = -np.asarray(down, dtype=np.float64) / np.linalg.norm(down)
    sideways = np.array([0.0, 1.0, 0.0]) if abs(z[0]) > 0.9 else np.array([1.0, 0.0, 0.0])
    y = np.cross(z, sideways)
    y /= np.linalg.norm(y)
    return np.stack([np.cross(y, z), y, z])
