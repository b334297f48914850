"""Where dimension lines and labels go round a section drawing so that none crosses another's words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.report.pen import Colour, Pen, Point, width

TEXT = 15.0
STEP = 27.0
"""From one dimension line to the next [pixel]."""
GAP = 32.0
"""From the part to the first one."""
Inks = tuple[Colour, Colour, Colour]
"""For the dimension itself, for the lines that lead to it, and the paper."""
Side = Literal["left", "right", "above", "below", "aslant"]


@dataclass(frozen=True)
class Line:
    """A dimension: its words, the two points it measures between and the side of the part it is drawn on."""

    text: str
    a: Point
    b: Point
    side: Side
    angle: bool = False

    @property
    def span(self) -> tuple[float, float]:
        """Least and greatest place along the dimension line."""
        k = 1 if self.side in ("left", "right") else 0
        return min(self.a[k], self.b[k]), max(self.a[k], self.b[k])


def side_of(a: Point, b: Point, low: Point, high: Point, angle: bool) -> Side:
    """The side for a dimension from `a` to `b` on a part whose outline runs from `low` to `high` (y upwards)."""
    along, up = abs(a[0] - b[0]), abs(a[1] - b[1])
    if angle or min(along, up) > 0.02 * max(along, up):
        return "aslant"
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    if along < up:
        return "left" if middle[0] <= (low[0] + high[0]) / 2 else "right"
    return "above" if middle[1] > low[1] + 0.75 * (high[1] - low[1]) else "below"


def rows(lines: list[Line], side: Side) -> list[list[Line]]:
    """The lines of one side in rows from the part outwards: shortest first, and no two in a row that would touch."""
    result: list[list[Line]] = []
    mine = sorted((line for line in lines if line.side == side), key=lambda line: line.span[1] - line.span[0])
    for line in mine:
        room = next((row for row in result if all(_apart(line, other) for other in row)), None)
        if room is None:
            result.append([line])
        else:
            room.append(line)
    return result


def _apart(one: Line, other: Line) -> bool:
    low, high = _taken(one)
    other_low, other_high = _taken(other)
    return high < other_low or other_high < low


def _taken(line: Line) -> tuple[float, float]:
    low, high = line.span
    more = max(0.0, width(line.text, TEXT) + 8 - (high - low)) / 2
    return low - more - 4, high + more + 4


def draw_beside(pen: Pen, line: Line, at: float, edge: float, inks: Inks) -> None:
    """A dimension left or right of the part: its line at x = `at`; `edge` is where the part's outline ends."""
    ink = inks[0]
    outwards = 1.0 if line.side == "right" else -1.0
    for x, y in (line.a, line.b):
        start = x + outwards * 4 if (edge - x) * outwards > 0 else edge
        pen.line([(start, y), (at + outwards * 4, y)], inks[1], 0.7)
    low, high = line.span
    pen.line([(at, low), (at, high)], ink, 1.0)
    pen.arrow((at, low), (0.0, -1.0), ink)
    pen.arrow((at, high), (0.0, 1.0), ink)
    pen.clear_text((at - 11.0, (low + high) / 2), line.text, TEXT, (ink, inks[2]), upright=True)


def draw_along(pen: Pen, line: Line, at: float, edge: float, inks: Inks) -> None:
    """A dimension above or below the part: its line at y = `at` (pixels, y downwards)."""
    ink = inks[0]
    outwards = 1.0 if line.side == "below" else -1.0
    for x, y in (line.a, line.b):
        start = y + outwards * 4 if (edge - y) * outwards > 0 else edge
        pen.line([(x, start), (x, at + outwards * 4)], inks[1], 0.7)
    low, high = line.span
    pen.line([(low, at), (high, at)], ink, 1.0)
    if high - low > 22:
        pen.arrow((low, at), (-1.0, 0.0), ink)
        pen.arrow((high, at), (1.0, 0.0), ink)
    else:
        for x, along in ((low, 1.0), (high, -1.0)):
            pen.line([(x - along * 16, at), (x, at)], ink, 1.0)
            pen.arrow((x, at), (along, 0.0), ink)
    pen.clear_text(((low + high) / 2, at - 12.0), line.text, TEXT, (ink, inks[2]))


def draw_aslant(pen: Pen, line: Line, inks: Inks) -> None:
    """A dimension drawn where it is, its words in the middle; an angle is words with a pointer to `a`."""
    ink = inks[0]
    (ax, ay), (bx, by) = line.a, line.b
    long = max(((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5, 1e-9)
    along = ((bx - ax) / long, (by - ay) / long)
    pen.line([line.a, line.b], ink, 1.0)
    pen.arrow(line.a, (-along[0], -along[1]), ink)
    middle = line.b if line.angle else ((ax + bx) / 2, (ay + by) / 2)
    if not line.angle:
        pen.arrow(line.b, along, ink)
    pen.clear_text(middle, line.text, TEXT, (ink, inks[2]))


def spread(wanted: list[tuple[float, float]], low: float, high: float) -> list[float]:
    """Centres for words of (wanted centre, width), in order, moved to stay apart and inside low..high."""
    centres: list[float] = []
    least = low
    for centre, wide in wanted:
        centres.append(max(centre, least + wide / 2))
        least = centres[-1] + wide / 2 + 14
    most = high
    for number in range(len(wanted) - 1, -1, -1):
        wide = wanted[number][1]
        centres[number] = min(centres[number], most - wide / 2)
        most = centres[number] - wide / 2 - 14
    return centres
