"""A sheet of paper with marks on it. All in mm; the origin is the sheet's lower left corner, y goes up.

Marks are plain frozen data, so that PDF and SVG show the same, and tests can ask where a line runs.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from fitwright.drawing.paper import PAPERS, Paper, PaperName

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]

THIN_MM, MEDIUM_MM, THICK_MM = 0.13, 0.25, 0.5
"""Line widths of ISO 128 for dimension, hidden and visible lines."""
ARROW_MM = 2.5
CAP_OF_SIZE = 0.72
"""Height of a capital letter over the font's size (Helvetica's AFM: 718 of 1000)."""


@dataclass(frozen=True)
class Path:
    """Straights through `points` [mm]; `fill` and `grey` are 0 black to 1 white, fill None: not filled.

    `holes` are closed outlines that stay empty; `width_mm` 0: no line. `dash_mm` (line, gap), None: solid.
    """

    points: tuple[Point, ...]
    closed: bool = False
    width_mm: float = MEDIUM_MM
    grey: float = 0.0
    fill: float | None = None
    dash_mm: tuple[float, float] | None = None
    holes: tuple[tuple[Point, ...], ...] = ()


@dataclass(frozen=True)
class Arc:
    """Part of a circle about `centre`, from `start_deg` counter-clockwise by `sweep_deg` (from right; 360: all)."""

    centre: Point
    radius_mm: float
    start_deg: float = 0.0
    sweep_deg: float = 360.0
    width_mm: float = MEDIUM_MM
    grey: float = 0.0
    fill: float | None = None
    dash_mm: tuple[float, float] | None = None


@dataclass(frozen=True)
class Words:
    """One line of text; `at` is on its base line, `cap_mm` the height of its capitals, `turn_deg` counter-clockwise."""

    at: Point
    text: str
    cap_mm: float = 2.5
    anchor: Anchor = "start"
    bold: bool = False
    turn_deg: float = 0.0
    grey: float = 0.0

    @property
    def size_mm(self) -> float:
        """The font's size [mm]."""
        return self.cap_mm / CAP_OF_SIZE


@dataclass(frozen=True)
class View:
    """Marks of a larger drawing, moved by `shift` [mm] and seen through a window: left, lower, right, upper [mm]."""

    marks: tuple[Mark, ...]
    shift: Point
    window: tuple[float, float, float, float]


Mark = Path | Arc | Words | View


@dataclass
class Sheet:
    """Marks on a sheet of `paper`, in the order in which they were drawn; `title` goes into the file's properties."""

    paper: Paper
    title: str = ""
    marks: list[Mark] = field(default_factory=list)

    @classmethod
    def of(cls, paper: PaperName, title: str = "") -> Sheet:
        """An empty sheet of the paper of this name."""
        return cls(PAPERS[paper], title)

    def add(self, *marks: Mark) -> None:
        """Draw marks on top of the others."""
        self.marks.extend(marks)

    def line(self, a: Point, b: Point, width_mm: float = MEDIUM_MM, dash_mm: tuple[float, float] | None = None) -> None:
        """A straight from a to b."""
        self.add(Path((a, b), width_mm=width_mm, dash_mm=dash_mm))

    def circle(self, centre: Point, d_mm: float, width_mm: float = MEDIUM_MM) -> None:
        """A circle by its diameter [mm]."""
        self.add(Arc(centre, d_mm / 2, width_mm=width_mm))

    def cross(self, centre: Point, reach_mm: float) -> None:
        """A centre mark: two thin lines that reach so far [mm] from the centre."""
        x, y = centre
        self.line((x - reach_mm, y), (x + reach_mm, y), THIN_MM)
        self.line((x, y - reach_mm), (x, y + reach_mm), THIN_MM)

    def words(self, at: Point, text: str, cap_mm: float = 2.5, anchor: Anchor = "start", bold: bool = False) -> None:
        """One line of text."""
        self.add(Words(at, text, cap_mm, anchor, bold))

    def arrow(self, tip: Point, towards_deg: float, length_mm: float = ARROW_MM) -> None:
        """A filled arrow head whose tip points to `towards_deg` (counter-clockwise from right)."""
        back, half = math.radians(towards_deg + 180.0), math.radians(9.5)
        corners = [
            (tip[0] + length_mm * math.cos(back + turn), tip[1] + length_mm * math.sin(back + turn))
            for turn in (half, -half)
        ]
        self.add(Path((tip, *corners), closed=True, width_mm=0.0, fill=0.0))

    def dimension(self, a: Point, b: Point, off_mm: float, text: str, cap_mm: float = 2.5) -> None:
        """A dimension line `off_mm` to the left of the way from a to b (negative: right), with arrows and text.

        Without text the line is left for somebody else to name.
        """
        length = math.dist(a, b)
        along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
        side = (-along[1], along[0])
        p, q = ((x + off_mm * side[0], y + off_mm * side[1]) for x, y in (a, b))
        over = math.copysign(1.5, off_mm)
        for start, end in ((a, p), (b, q)):
            self.line(start, (end[0] + over * side[0], end[1] + over * side[1]), THIN_MM)
        self.line(p, q, THIN_MM)
        turn = math.degrees(math.atan2(along[1], along[0]))
        self.arrow(p, turn + 180.0)
        self.arrow(q, turn)
        if not text:
            return
        upside_down = turn > 90.0 + 1e-9 or turn <= -90.0 + 1e-9
        lift = -1.0 if upside_down else 1.0
        middle = ((p[0] + q[0]) / 2 + lift * side[0], (p[1] + q[1]) / 2 + lift * side[1])
        reading = turn - math.copysign(180.0, turn) if upside_down else turn
        self.add(Words(middle, text, cap_mm, "middle", turn_deg=reading))


def regular(count: int, centre: Point, radius_mm: float, first_deg: float = 90.0) -> Sequence[Point]:
    """Points [mm] evenly round a circle, counter-clockwise from `first_deg`."""
    angles = (math.radians(first_deg + 360.0 * k / count) for k in range(count))
    return [(centre[0] + radius_mm * math.cos(t), centre[1] + radius_mm * math.sin(t)) for t in angles]
