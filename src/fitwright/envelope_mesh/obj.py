"""OBJ: corners, and faces of three or more corners that count them from the first or back from the last, no units.

Groups, objects, materials, normals and textures do not matter here: all faces of a file are read as one.
"""

from __future__ import annotations

import re
from pathlib import Path

import manifold3d
import numpy as np

from fitwright.envelope_mesh.numbers import numbers
from fitwright.envelope_mesh.triangles import Indices, Points, Triangles, welded
from fitwright.errors import BuildError

_BEHIND_SLASH = re.compile(rb"/[^ ]*")
_CURVED = (b"surf", b"curv", b"cstype")


def read_obj(path: Path) -> Triangles:
    """The triangles of the file, corners on one spot joined, faces of more corners divided; numbers as they stand.

    Raises
    ------
    BuildError
        It holds no faces, or a line of it makes no sense (the line is named).
    """
    data = path.read_bytes().replace(b"\\\r\n", b" ").replace(b"\\\n", b" ").replace(b"\t", b" ").replace(b"\r", b"\n")
    lines = [line.strip() for line in data.split(b"\n")]
    corner_at = [k for k, line in enumerate(lines) if line[:2] == b"v "]
    face_at = [k for k, line in enumerate(lines) if line[:2] == b"f "]
    if not face_at:
        curved = any(line.startswith(_CURVED) for line in lines)
        what = "curved surfaces only, which are not read" if curved else "no faces"
        raise BuildError(f"holds {what}; save it again as triangles")
    points = _points([lines[k] for k in corner_at])
    return welded(points, _triangles(points, lines, np.array(corner_at), np.array(face_at)))


def _points(lines: list[bytes]) -> Points:
    """x, y, z; a weight or colour behind them is left out."""
    found = numbers(b" ".join(line[2:] for line in lines))
    if len(found) != 3 * len(lines):
        words = [line.split()[1:4] for line in lines]
        if any(len(word) < 3 for word in words):
            raise BuildError("has a corner (a line that begins with `v`) of less than three numbers")
        found = numbers(b" ".join(one for word in words for one in word))
    return np.asarray(found.reshape(-1, 3))


def _triangles(points: Points, lines: list[bytes], corner_at: Indices, face_at: Indices) -> Indices:
    """All faces as triangles."""
    text = [lines[k][2:].partition(b"#")[0] for k in face_at]
    many = np.fromiter((len(line.split()) for line in text), dtype=np.int64, count=len(text))
    joined = b" ".join(text)
    picks = numbers(_BEHIND_SLASH.sub(b"", joined) if b"/" in joined else joined, np.int64)
    if len(picks) != int(many.sum()):
        raise BuildError("has a face (a line that begins with `f`) that is not a row of whole numbers")
    owner = np.repeat(np.arange(len(text)), many)
    before = np.searchsorted(corner_at, face_at)[owner]
    number = np.where(picks < 0, picks + before, picks - 1)
    wrong = (picks == 0) | (number < 0) | (number >= len(points)) | (many[owner] < 3)
    if wrong.any() or (many == 0).any():
        k = int(owner[np.argmax(wrong)]) if wrong.any() else int(np.argmin(many))
        shown = lines[face_at[k]][:60].decode("utf-8", "replace")
        raise BuildError(f"line {face_at[k] + 1} makes no sense: {shown!r}; there are {len(points)} corners")
    first = np.cumsum(many) - many
    return np.concatenate([_divided(points, number[first[many == n][:, None] + np.arange(n)]) for n in np.unique(many)])


def _divided(points: Points, polygons: Indices) -> Indices:
    """Faces of n corners each as n - 2 triangles: a fan where the face is convex, else by cutting off ears."""
    n = polygons.shape[1]
    if n == 3:
        return polygons
    corners = points[polygons]
    ahead = np.roll(corners, -1, axis=1) - corners
    normal = np.cross(corners, np.roll(corners, -1, axis=1)).sum(axis=1)
    turn = np.einsum("nkd,nd->nk", np.cross(np.roll(ahead, 1, axis=1), ahead), normal)
    convex = (turn >= 0.0).all(axis=1)
    fan = np.array([(0, k, k + 1) for k in range(1, n - 1)])
    made = [polygons[convex][:, fan].reshape(-1, 3)]
    made += [row[_ears(points[row], up)] for row, up in zip(polygons[~convex], normal[~convex], strict=True)]
    return np.concatenate(made)


def _ears(corners: Points, normal: Points) -> Indices:
    """Triangles of one face that is not convex, seen along its normal."""
    size = float(np.linalg.norm(normal))
    n = len(corners)
    if size > 0.0:
        up = normal / size
        x = np.cross(up, np.eye(3)[int(np.argmin(np.abs(up)))])
        x /= np.linalg.norm(x)
        flat = np.column_stack([corners @ x, corners @ np.cross(up, x)])
        found = np.asarray(manifold3d.triangulate([flat]), dtype=np.int64)
        if len(found) == n - 2:
            return found
    return np.array([(0, k, k + 1) for k in range(1, n - 1)])
