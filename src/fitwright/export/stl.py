"""Binary STL in mm, the mesh as it lies on the bed."""

from __future__ import annotations

import struct

import numpy as np
from numpy.typing import NDArray

from fitwright.errors import ExportError

_HEADER = b"Fitwright: binary STL, unit mm, z = 0 on the bed"
_RECORD = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])


def on_bed(vertices_mm: NDArray[np.float64], pose: NDArray[np.float64]) -> NDArray[np.float64]:
    """The vertices (n, 3) [mm] moved by the 4x4 matrix `pose`, then up or down until the lowest has z = 0."""
    turned = vertices_mm @ pose[:3, :3].T + pose[:3, 3]
    turned[:, 2] -= turned[:, 2].min()
    return turned


def stl_bytes(vertices_mm: NDArray[np.float64], faces: NDArray[np.int64]) -> bytes:
    """A binary STL of the triangles; the same mesh gives the same bytes, with no date in the header.

    Parameters
    ----------
    vertices_mm
        (n, 3) corners [mm].
    faces
        (m, 3) indices into `vertices_mm`, counter-clockwise seen from outside.

    Raises
    ------
    ExportError
        Nothing to write, or a coordinate that is not a number.

    Notes
    -----
    STL holds 32-bit floats. Triangles of which two corners become equal by that rounding are left out: their other two
    edges fall together, so that the surface stays closed.
    """
    corners = vertices_mm.astype("<f4")[faces]
    if not np.isfinite(corners).all():
        raise ExportError("the mesh holds a coordinate that is not a number; nothing was written")
    corners = corners[_distinct(corners)]
    if not len(corners):
        raise ExportError("the mesh is empty; nothing was written")
    records = np.zeros(len(corners), dtype=_RECORD)
    records["corners"] = corners
    records["normal"] = _normals(corners.astype(np.float64))
    return _HEADER.ljust(80, b" ") + struct.pack("<I", len(records)) + records.tobytes()


def _distinct(corners: NDArray[np.float32]) -> NDArray[np.bool_]:
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    different: NDArray[np.bool_] = (a != b).any(axis=1) & (b != c).any(axis=1) & (c != a).any(axis=1)
    return different


def _normals(corners: NDArray[np.float64]) -> NDArray[np.float64]:
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    length = np.linalg.norm(normals, axis=1, keepdims=True)
    unit: NDArray[np.float64] = np.divide(normals, length, out=np.zeros_like(normals), where=length > 0)
    return unit
