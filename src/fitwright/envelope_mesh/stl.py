"""STL, binary and text: a triangle soup of float32, without units."""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np

from fitwright.envelope_mesh.numbers import numbers
from fitwright.envelope_mesh.triangles import Points, Triangles, welded
from fitwright.errors import BuildError

_HEAD, _COUNT = 80, 84
_RECORD = np.dtype([("normal", "<f4", (3,)), ("corners", "<f4", (3, 3)), ("attribute", "<u2")])
_NAME = re.compile(rb"^[ \t]*(end)?solid[^\r\n]*", re.IGNORECASE | re.MULTILINE)
_VERTEX = re.compile(rb"vertex\s+(\S+)\s+(\S+)\s+(\S+)", re.IGNORECASE)


def read_stl(path: Path) -> Triangles:
    """The triangles of the file, corners on one spot joined; numbers as they stand.

    Raises
    ------
    BuildError
        It is no STL, cut short, or holds no triangles.
    """
    data = path.read_bytes()
    corners = _text(data) if _is_text(data) else _binary(data)
    if len(corners) == 0:
        raise BuildError("holds no triangles; save it again as a binary STL")
    points = corners.reshape(-1, 3)
    return welded(points, np.arange(len(points), dtype=np.int64).reshape(-1, 3))


def _is_text(data: bytes) -> bool:
    """Many binary files begin with the word that text files begin with: the length of a binary one settles it."""
    if not data[:_COUNT].lstrip()[:5].lower() == b"solid":
        return False
    if len(data) > _COUNT and len(data) == _COUNT + _RECORD.itemsize * int.from_bytes(data[_HEAD:_COUNT], "little"):
        return False
    start = data[:2000].lower()
    return b"facet" in start or b"endsolid" in start


def _binary(data: bytes) -> Points:
    if len(data) < _COUNT:
        raise BuildError("is no STL file; save it again as a binary STL")
    count = int.from_bytes(data[_HEAD:_COUNT], "little")
    there = (len(data) - _COUNT) // _RECORD.itemsize
    if there < count:
        raise BuildError(f"is cut short or no STL: it speaks of {count} triangles and holds {there}; save it again")
    records = np.frombuffer(data, dtype=_RECORD, count=count, offset=_COUNT)
    return np.asarray(records["corners"], dtype=np.float64)


def _text(data: bytes) -> Points:
    """Twelve numbers a triangle, its normal first; where a normal is none, the corners are picked out one by one."""
    if not re.search(rb"endsolid[^\r\n]*\s*$", data[-1000:], re.IGNORECASE):
        raise BuildError("is cut short: its last line is not `endsolid`; save it again")
    plain = _NAME.sub(b"", data).lower()
    for word in (b"endfacet", b"facet", b"normal", b"outer", b"endloop", b"loop", b"vertex"):
        plain = plain.replace(word, b"")
    try:
        found = numbers(plain)
    except BuildError:
        found = np.empty(0)
    if len(found) and len(found) % 12 == 0:
        return np.asarray(found.reshape(-1, 4, 3)[:, 1:])
    picked = numbers(b" ".join(word for corner in _VERTEX.findall(data) for word in corner))
    if len(picked) % 9:
        raise BuildError("has a triangle without three corners; save it again as a binary STL")
    return np.asarray(picked.reshape(-1, 3, 3))
