"""A point of the part in words."""

from __future__ import annotations

from collections.abc import Sequence


def words(point_mm: Sequence[float]) -> str:
    """`12.0 mm right, 45.0 mm away, 3.0 mm up`: a point in part coordinates, from end_a's mouth centre."""
    x, y, z = (float(c) for c in point_mm)
    along = [_one(x, "right", "left"), _one(y, "away", "toward"), _one(z, "up", "down")]
    return ", ".join(along)


def direction(vector: Sequence[float]) -> str:
    """The main direction of a vector in one word: right, left, away, toward, up, down."""
    names = (("right", "left"), ("away", "toward"), ("up", "down"))
    sizes = [abs(float(c)) for c in vector]
    axis = sizes.index(max(sizes))
    return names[axis][0 if float(vector[axis]) >= 0 else 1]


def _one(value_mm: float, positive: str, negative: str) -> str:
    rounded = round(value_mm, 1)
    return f"{abs(rounded):.1f} mm {negative if rounded < 0 else positive}"
