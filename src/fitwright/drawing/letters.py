"""Letters in rings on a drawing: on a dimension line, or at the end of a leader."""

from __future__ import annotations

import math

from fitwright.drawing.sheet import MEDIUM_MM, THIN_MM, Arc, Path, Point, Sheet

RING_MM = 5.6
"""Diameter of the ring round a letter."""
_CAP_MM = 2.6
_TIGHT_MM = 13.0
"""A dimension line shorter than this has no room for ring and arrows between its ends."""
_TAIL_MM = 4.0


def ring(sheet: Sheet, at: Point, letter: str) -> None:
    """A letter (or two) in a white ring about `at`."""
    sheet.add(Arc(at, RING_MM / 2, width_mm=MEDIUM_MM, fill=1.0))
    cap = _CAP_MM if len(letter) < 2 else 2.1
    sheet.words((at[0], at[1] - cap / 2), letter, cap, "middle", bold=True)


def lettered(sheet: Sheet, a: Point, b: Point, off_mm: float, letter: str) -> None:
    """A dimension line like `Sheet.dimension`, with a letter in a ring in place of its text.

    Where a and b are near each other, the arrows stand outside and the ring beyond b.
    """
    long = math.dist(a, b)
    along = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
    side = (-along[1] * off_mm, along[0] * off_mm)
    p, q = ((x + side[0], y + side[1]) for x, y in (a, b))
    if long >= _TIGHT_MM:
        sheet.dimension(a, b, off_mm, "")
        ring(sheet, ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2), letter)
        return
    over = math.copysign(1.5, off_mm) / max(abs(off_mm), 1e-9)
    for start, end in ((a, p), (b, q)):
        sheet.line(start, (end[0] + over * side[0], end[1] + over * side[1]), THIN_MM)
    turn = math.degrees(math.atan2(along[1], along[0]))
    far = (q[0] + along[0] * (_TAIL_MM + RING_MM / 2), q[1] + along[1] * (_TAIL_MM + RING_MM / 2))
    sheet.line((p[0] - along[0] * _TAIL_MM, p[1] - along[1] * _TAIL_MM), far, THIN_MM)
    sheet.arrow(p, turn, 2.0)
    sheet.arrow(q, turn + 180.0, 2.0)
    ring(sheet, far, letter)


def leader(sheet: Sheet, tip: Point, at: Point, letter: str) -> None:
    """A thin line from a dot at `tip` to a letter in a ring about `at`."""
    sheet.line(tip, at, THIN_MM)
    sheet.add(Arc(tip, 0.6, width_mm=0.0, fill=0.0))
    ring(sheet, at, letter)


def broken_end(sheet: Sheet, a: Point, b: Point) -> None:
    """The thin wavy line by which a pipe is shown to go on (ISO 128: drawn freehand)."""
    long = max(math.dist(a, b), 1e-9)
    along, square = ((b[0] - a[0]) / long, (b[1] - a[1]) / long), (-(b[1] - a[1]) / long, (b[0] - a[0]) / long)
    count = max(8, round(long / 1.5))
    points = []
    for k in range(count + 1):
        t, wave = long * k / count, 0.6 * math.sin(2 * math.pi * k / count * max(1, round(long / 12)))
        points.append((a[0] + along[0] * t + square[0] * wave, a[1] + along[1] * t + square[1] * wave))
    sheet.add(Path(tuple(points), width_mm=THIN_MM))
