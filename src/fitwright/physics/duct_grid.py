"""Curves and fields of a handbook's table, read between its points and never beyond them unasked."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

from fitwright.errors import DataError


@dataclass(frozen=True)
class Curve:
    """y over x, straight between the points; `source` names table and edition."""

    source: str
    x: tuple[float, ...]
    y: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.x) != len(self.y) or len(self.x) < 2:
            raise DataError(f"{self.source}: a curve needs as many x as y, two at least")
        if any(b <= a for a, b in zip(self.x, self.x[1:], strict=False)):
            raise DataError(f"{self.source}: a curve's x must rise")

    def covers(self, x: float) -> bool:
        """Whether x lies within the table."""
        return self.x[0] <= x <= self.x[-1]

    def at(self, x: float) -> float:
        """y at x; beyond the table its end value."""
        return between(self.x, self.y, x)


@dataclass(frozen=True)
class Field:
    """z over x (columns) and y (rows), straight between the points."""

    source: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    z: tuple[tuple[float, ...], ...]

    def __post_init__(self) -> None:
        for row in self.z:
            Curve(self.source, self.x, row)
        Curve(self.source, self.y, tuple(row[0] for row in self.z))

    def covers(self, x: float, y: float) -> bool:
        """Whether the point lies within the table."""
        return self.x[0] <= x <= self.x[-1] and self.y[0] <= y <= self.y[-1]

    def at(self, x: float, y: float) -> float:
        """z at a point; beyond the table the value at its edge."""
        return between(self.y, tuple(between(self.x, row, x) for row in self.z), y)


def between(xs: tuple[float, ...], ys: tuple[float, ...], x: float) -> float:
    """Straight between the points, level beyond them."""
    if x <= xs[0]:
        return ys[0]
    if x >= xs[-1]:
        return ys[-1]
    i = bisect_right(xs, x) - 1
    share = (x - xs[i]) / (xs[i + 1] - xs[i])
    return ys[i] + share * (ys[i + 1] - ys[i])
