"""What the guide's drawings are made of: letters, rings, bars, calipers, hatched cuts; all sizes in mm on paper."""

from __future__ import annotations

import math
from collections.abc import Sequence

from fitwright.drawing.paper import Paper
from fitwright.drawing.sheet import MEDIUM_MM, THICK_MM, THIN_MM, Arc, Path, Point, Sheet, Words

WIDE_MM = 170.0
"""A drawing fits the width of a page of text."""
CUT, METAL, PAPER_STRIP = 0.80, 0.92, 0.96
"""Greys of what is cut through, of tools, of paper."""
DASH = (2.0, 1.2)
CHAIN = (6.0, 1.5)
"""Dashes of what is hidden, and of axes."""


def sheet(high_mm: float, title: str) -> Sheet:
    """An empty drawing, as wide as a page of text."""
    return Sheet(Paper("guide", WIDE_MM, high_mm), title)


def letter(on: Sheet, at: Point, name: str) -> None:
    """A letter in a ring: it stands for a reading in the table under the drawing."""
    on.add(Arc(at, 2.6, width_mm=MEDIUM_MM, fill=1.0))
    on.add(Words((at[0], at[1] - 1.05), name, 2.1 if len(name) > 1 else 2.5, "middle", bold=True))


def measure(on: Sheet, a: Point, b: Point, off_mm: float, name: str, share: float = 0.5) -> None:
    """A dimension line from a to b, `off_mm` to the left of the way, with the reading's letter at a share of it."""
    if math.dist(a, b) < 9.0:
        _short(on, a, b, off_mm, name)
        return
    p, q = _beside(a, b, off_mm, 0.0), _beside(a, b, off_mm, 1.0)
    if off_mm:
        on.dimension(a, b, off_mm, "")
    else:
        turn = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
        on.line(a, b, THIN_MM)
        on.arrow(a, turn + 180.0)
        on.arrow(b, turn)
    letter(on, (p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])), name)


def _short(on: Sheet, a: Point, b: Point, off_mm: float, name: str) -> None:
    """Arrows from outside, the letter behind the second one."""
    long = math.dist(a, b)
    along = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
    p, q = _beside(a, b, off_mm, 0.0), _beside(a, b, off_mm, 1.0)
    if off_mm:
        past = off_mm + math.copysign(1.5, off_mm)
        for start, share in ((a, 0.0), (b, 1.0)):
            on.line(start, _beside(a, b, past, share), THIN_MM)
    turn = math.degrees(math.atan2(along[1], along[0]))
    on.line((p[0] - 5 * along[0], p[1] - 5 * along[1]), p, THIN_MM)
    on.line(q, (q[0] + 6 * along[0], q[1] + 6 * along[1]), THIN_MM)
    on.arrow(p, turn)
    on.arrow(q, turn + 180.0)
    letter(on, (q[0] + 8.5 * along[0], q[1] + 8.5 * along[1]), name)


def _beside(a: Point, b: Point, off_mm: float, share: float) -> Point:
    """The point at a share of the way from a to b, moved to the left of it."""
    long = math.dist(a, b)
    side = (-(b[1] - a[1]) / long, (b[0] - a[0]) / long)
    return a[0] + share * (b[0] - a[0]) + off_mm * side[0], a[1] + share * (b[1] - a[1]) + off_mm * side[1]


def point_out(on: Sheet, words_at: Point, tip: Point, words: str, cap_mm: float = 2.2) -> None:
    """Words with a thin line to what they are about."""
    right = tip[0] < words_at[0]
    start = (words_at[0] - 1.0 if right else words_at[0] + 1.0, words_at[1] + cap_mm / 2)
    on.line(start, tip, THIN_MM)
    on.arrow(tip, math.degrees(math.atan2(tip[1] - start[1], tip[0] - start[0])), 2.0)
    on.words(words_at, words, cap_mm, "start" if right else "end")


def say(on: Sheet, at: Point, lines: Sequence[str], cap_mm: float = 2.2, bold: bool = False) -> None:
    """Lines of text below each other, the first at `at`."""
    for k, line in enumerate(lines):
        on.words((at[0], at[1] - k * 1.8 * cap_mm), line, cap_mm, bold=bold)


def area(on: Sheet, points: Sequence[Point], fill: float | None = CUT, width_mm: float = MEDIUM_MM) -> None:
    """A closed outline, filled."""
    on.add(Path(tuple(points), closed=True, width_mm=width_mm, fill=fill))


def box(on: Sheet, left: float, lower: float, right: float, upper: float, fill: float | None = CUT) -> None:
    """An upright rectangle, filled."""
    area(on, [(left, lower), (right, lower), (right, upper), (left, upper)], fill)


def disc(on: Sheet, centre: Point, d_mm: float, fill: float | None, width_mm: float = MEDIUM_MM) -> None:
    """A filled circle."""
    on.add(Arc(centre, d_mm / 2, width_mm=width_mm, fill=fill))


def ring(on: Sheet, centre: Point, outer_mm: float, inner_mm: float) -> None:
    """A pipe seen from its end: its cut face grey, its bore white."""
    disc(on, centre, outer_mm, CUT, THICK_MM)
    disc(on, centre, inner_mm, 1.0, THICK_MM)


def axis(on: Sheet, a: Point, b: Point) -> None:
    """An axis."""
    on.line(a, b, THIN_MM, CHAIN)


def ellipse(centre: Point, wide_mm: float, high_mm: float, count: int = 96) -> list[Point]:
    """Points round an ellipse, counter-clockwise from its right."""
    turns = (math.tau * k / count for k in range(count))
    return [(centre[0] + wide_mm / 2 * math.cos(t), centre[1] + high_mm / 2 * math.sin(t)) for t in turns]


def caliper(on: Sheet, left: float, right: float, tip: float, beam: float) -> None:
    """A caliper from above whose outside jaws touch at x = left and right; `tip` and `beam` are heights."""
    box(on, left - 9.0, beam + 0.5, right + 34.0, beam + 5.5, METAL)
    area(on, [(left, beam + 7.0), (left, tip), (left - 2.5, tip), (left - 9.0, beam), (left - 9.0, beam + 7.0)], METAL)
    area(on, [(right, beam), (right, tip), (right + 2.5, tip), (right + 9.0, beam)], METAL)
    box(on, right, beam, right + 22.0, beam + 7.0, METAL)
    box(on, right + 7.0, beam + 1.5, right + 19.0, beam + 5.5, 1.0)


def cross_out(on: Sheet, centre: Point, reach_mm: float) -> None:
    """A large cross over what is wrong."""
    x, y = centre
    for way in (1.0, -1.0):
        on.line((x - reach_mm, y - way * reach_mm), (x + reach_mm, y + way * reach_mm), 0.9)


def tick_off(on: Sheet, at: Point) -> None:
    """A tick beside what is right."""
    x, y = at
    on.add(Path(((x - 3.0, y), (x - 1.0, y - 2.5), (x + 3.0, y + 3.5)), width_mm=0.9))
