"""A drawing larger than the page: rows and columns of sheets that overlap, with crosses by which they are joined."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from string import ascii_uppercase

from fitwright.drawing.sheet import MEDIUM_MM, Mark, Path, Point, Words
from fitwright.drawing.text_width import Box

OVERLAP_MM = 15.0
CROSS_MM = 6.0


@dataclass(frozen=True)
class Tile:
    """One sheet's share: `row` and `column` from 1, row 1 at the top; its lower left corner in the drawing [mm]."""

    row: int
    column: int
    lower_left: Point


@dataclass(frozen=True)
class Tiling:
    """Sheets that show `window_mm` (width, height) each and overlap; `corner` is the whole's lower left corner [mm]."""

    rows: int
    columns: int
    corner: Point
    window_mm: tuple[float, float]

    @property
    def many(self) -> bool:
        """Whether it takes more than one sheet."""
        return self.rows * self.columns > 1

    @property
    def step_mm(self) -> tuple[float, float]:
        """From one sheet's left (lower) edge to the next one's [mm]."""
        return self.window_mm[0] - OVERLAP_MM, self.window_mm[1] - OVERLAP_MM

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height [mm] of all sheets together."""
        return (
            self.window_mm[0] + (self.columns - 1) * self.step_mm[0],
            self.window_mm[1] + (self.rows - 1) * self.step_mm[1],
        )

    def tiles(self) -> Iterator[Tile]:
        """All sheets in the order in which one reads."""
        for row in range(1, self.rows + 1):
            for column in range(1, self.columns + 1):
                x = self.corner[0] + (column - 1) * self.step_mm[0]
                y = self.corner[1] + (self.rows - row) * self.step_mm[1]
                yield Tile(row, column, (x, y))

    def kept(self, tile: Tile) -> Box:
        """What a sheet shows between its seams: left, lower, right, upper [mm] in the drawing."""
        (x, y), (wide, high), half = tile.lower_left, self.window_mm, OVERLAP_MM / 2
        return (
            x + (half if tile.column > 1 else 0.0),
            y + (half if tile.row < self.rows else 0.0),
            x + wide - (half if tile.column < self.columns else 0.0),
            y + high - (half if tile.row > 1 else 0.0),
        )

    def seams(self) -> list[Mark]:
        """Part of the drawing: dashed lines to cut along in the middle of every overlap, lettered crosses on them."""
        (x0, y0), (wide, high) = self.corner, self.size_mm
        marks: list[Mark] = []
        crosses: list[Point] = []
        for k in range(1, self.columns):
            x = x0 + k * self.step_mm[0] + OVERLAP_MM / 2
            marks.append(Path(((x, y0), (x, y0 + high)), width_mm=MEDIUM_MM, grey=0.6, dash_mm=(9.0, 4.0)))
            crosses += [(x, y) for y in self._quarters(1)]
        for k in range(1, self.rows):
            y = y0 + k * self.step_mm[1] + OVERLAP_MM / 2
            marks.append(Path(((x0, y), (x0 + wide, y)), width_mm=MEDIUM_MM, grey=0.6, dash_mm=(9.0, 4.0)))
            crosses += [(x, y) for x in self._quarters(0)]
        for name, at in zip(_names(len(crosses)), crosses, strict=True):
            marks += _cross(at, name)
        return marks

    def _quarters(self, axis: int) -> Iterator[float]:
        """A quarter in from both ends of every sheet's window along an axis."""
        for k in range((self.columns, self.rows)[axis]):
            start = self.corner[axis] + k * self.step_mm[axis]
            yield start + 0.25 * self.window_mm[axis]
            yield start + 0.75 * self.window_mm[axis]


def tiling(bounds_mm: tuple[float, float, float, float], window_mm: tuple[float, float]) -> Tiling:
    """As few sheets as hold the drawing (left, lower, right, upper [mm]), which lies in their middle."""
    counts = [_count(bounds_mm[k + 2] - bounds_mm[k], window_mm[k]) for k in (0, 1)]
    laid = Tiling(counts[1], counts[0], (0.0, 0.0), window_mm)
    x, y = ((bounds_mm[k] + bounds_mm[k + 2] - laid.size_mm[k]) / 2 for k in (0, 1))
    return Tiling(counts[1], counts[0], (x, y), window_mm)


def _count(length: float, window: float) -> int:
    return max(1, math.ceil((length - OVERLAP_MM) / (window - OVERLAP_MM) - 1e-9))


def _names(count: int) -> Iterator[str]:
    """A, B, ... Z, A1, B1, ..."""
    for k in range(count):
        yield ascii_uppercase[k % 26] + (str(k // 26) if k >= 26 else "")


def _cross(at: Point, name: str) -> list[Mark]:
    (x, y), r = at, CROSS_MM
    return [
        Path(((x - r, y), (x + r, y)), width_mm=MEDIUM_MM),
        Path(((x, y - r), (x, y + r)), width_mm=MEDIUM_MM),
        Words((x + 1.2, y + 1.2), name, 2.5, bold=True),
    ]
