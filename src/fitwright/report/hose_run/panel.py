"""One view of a hose run on its picture: from the front, from the side, from above, to scale."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from fitwright.frame import Vec
from fitwright.report.pen import Colour, Pen, Point, width

INK: Colour = (40, 40, 46)
QUIET: Colour = (120, 120, 128)
PALE: Colour = (226, 230, 236)
PAPER: Colour = (255, 255, 255)
HOSE: Colour = (52, 92, 150)
BAD: Colour = (192, 52, 44)
BOX: Colour = (238, 240, 226)
BESIDE = ((9.0, -8.0, "ls"), (-9.0, -8.0, "rs"), (9.0, 18.0, "ls"), (-9.0, 18.0, "rs"), (9.0, -24.0, "ls"))
BELOW = ((0.0, 18.0, "ls"), (0.0, 36.0, "ls"), (0.0, 54.0, "ls"))
"""Where words may stand beside a point, the best place first."""
GAP = 5.0
"""Between two words [pixel]."""
LEAST_STEP_MM = (1.0, 2.0, 5.0)


@dataclass
class Panel:
    """Axes `across` and `upward` (0 right, 1 away, 2 up) in the rectangle from `low` to `high` [pixel].

    `points`: all that is to be seen. `labels`: where words stand already, so that none is written on another.
    """

    title: str
    across: int
    upward: int
    low: Point
    high: Point
    points: Sequence[Vec]
    margin_mm: float
    labels: list[tuple[float, float, float, float]] = field(default_factory=list)

    def __post_init__(self) -> None:
        spans = []
        for axis in (self.across, self.upward):
            values = [p[axis] for p in self.points]
            spans.append((min(values) - self.margin_mm, max(values) + self.margin_mm))
        (x0, x1), (y0, y1) = spans
        wide, high = self.high[0] - self.low[0], self.high[1] - self.low[1]
        self.scale = min(wide / (x1 - x0), high / (y1 - y0))
        self.centre_mm = (x0 + x1) / 2, (y0 + y1) / 2
        self.centre = (self.low[0] + self.high[0]) / 2, (self.low[1] + self.high[1]) / 2

    def at(self, point: Vec) -> Point:
        """Where a place stands on the picture."""
        x = self.centre[0] + (point[self.across] - self.centre_mm[0]) * self.scale
        return x, self.centre[1] - (point[self.upward] - self.centre_mm[1]) * self.scale

    def frame(self, pen: Pen) -> None:
        """A pale border, its title, and a bar of a round length."""
        (x0, y0), (x1, y1) = self.low, self.high
        pen.line([(x0, y0), (x1, y0), (x1, y1), (x0, y1), (x0, y0)], PALE, 1.0)
        self.words(pen, (x0 + 8, y0 + 18), self.title, 14, QUIET, "ls")

    def bar(self, pen: Pen, long_mm: float, said: str) -> None:
        """The bar that tells the scale, below on the left."""
        x, y = self.low[0] + 12, self.high[1] - 12
        pen.line([(x, y), (x + long_mm * self.scale, y)], INK, 2.0)
        for end in (x, x + long_mm * self.scale):
            pen.line([(end, y - 4), (end, y + 4)], INK, 1.5)
        self.words(pen, (x + long_mm * self.scale + 8, y + 4), said, 12, INK, "ls")

    def bar_mm(self, unit_mm: float) -> float:
        """A round length of about a fifth of the view, in steps of 1, 2, 5 times ten of the unit."""
        wanted = (self.high[0] - self.low[0]) / self.scale / 5 / unit_mm
        tens = 10.0 ** math.floor(math.log10(wanted))
        return unit_mm * max(step * tens for step in LEAST_STEP_MM if step * tens <= wanted)

    def hose(self, pen: Pen, points: Iterable[Vec], over_mm: float, colour: Colour, full: bool) -> None:
        """A hose by its axis; `full` also as wide as it is."""
        drawn = [self.at(p) for p in points]
        if full:
            pale: Colour = (150 + colour[0] * 105 // 255, 150 + colour[1] * 105 // 255, 150 + colour[2] * 105 // 255)
            wide = max(2.0, over_mm * self.scale)
            pen.line(drawn, pale, wide)
            for at in drawn[1:-1]:
                pen.dot(at, wide / 2 - 0.6, pale)
        pen.line(drawn, colour, 1.6)

    def rectangle(self, pen: Pen, low: Vec, high: Vec) -> None:
        """The travel."""
        (x0, y0), (x1, y1) = self.at(low), self.at(high)
        left, right, top, bottom = min(x0, x1), max(x0, x1), min(y0, y1), max(y0, y1)
        pen.box((left - 1, top - 1), (right + 1, bottom + 1), BOX)
        pen.line([(left, top), (right, top), (right, bottom), (left, bottom), (left, top)], QUIET, 1.0)

    def level(self, pen: Pen, height_mm: float, said: str) -> None:
        """A dashed line across at a height."""
        y = self.at((0.0, 0.0, height_mm))[1]
        pen.dashed((self.low[0] + 2, y), (self.high[0] - 2, y), BAD, 1.0)
        self.words(pen, (self.high[0] - 8, y - 4), said, 12, BAD, "rs")

    def place(self, pen: Pen, point: Vec, said: str, colour: Colour = INK) -> None:
        """A dot with its name beside it, where there is room."""
        x, y = self.at(point)
        pen.dot((x, y), 4.0, colour)
        if said:
            self.beside(pen, (x, y), said, colour)

    def beside(self, pen: Pen, at: Point, said: str, colour: Colour, size: float = 13, below: bool = False) -> None:
        """Words near a point: the first of several places that no other words have, and that lies inside."""
        x, y = at
        for dx, dy, anchor in BELOW if below else (*BESIDE, *BELOW):
            box = _box((x + dx, y + dy), said, size, anchor)
            if self._inside(box) and not any(_meet(box, other) for other in self.labels):
                self.words(pen, (x + dx, y + dy), said, size, colour, anchor)
                return

    def words(self, pen: Pen, at: Point, said: str, size: float, colour: Colour, anchor: str) -> None:
        """Words, and the room they take."""
        pen.text(at, said, size, colour, anchor, PAPER)
        self.labels.append(_box(at, said, size, anchor))

    def _inside(self, box: tuple[float, float, float, float]) -> bool:
        return box[0] > self.low[0] and box[1] > self.low[1] and box[2] < self.high[0] and box[3] < self.high[1]


def _box(at: Point, said: str, size: float, anchor: str) -> tuple[float, float, float, float]:
    wide = width(said, size)
    x = at[0] - (wide if anchor[0] == "r" else 0.0)
    return x, at[1] - size, x + wide, at[1] + 3


def _meet(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return one[0] - GAP < other[2] and other[0] - GAP < one[2] and one[1] < other[3] and other[1] < one[3]
