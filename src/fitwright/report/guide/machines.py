"""Drawings of flange faces, manual slide gates, cylinders, threads, and of the frame that places are told in."""

from __future__ import annotations

import math

from fitwright.drawing.sheet import MEDIUM_MM, THICK_MM, THIN_MM, Arc, Point, Sheet, regular
from fitwright.report.guide.marks import (
    CUT,
    DASH,
    METAL,
    area,
    axis,
    box,
    disc,
    measure,
    point_out,
    ring,
    say,
    sheet,
)


def flange_bolts() -> Sheet:
    """Even count: over the outer edges of opposite holes. Odd: neighbours, or one hole's middle to a far edge."""
    on = sheet(98.0, "Bolts of a flange")
    for centre, count, first in (((44.0, 56.0), 4, 45.0), ((124.0, 56.0), 5, 90.0)):
        disc(on, centre, 70.0, CUT)
        disc(on, centre, 30.0, 1.0)
        for hole in regular(count, centre, 26.0, first):
            disc(on, hole, 7.0, 1.0, THICK_MM)
            on.cross(hole, 4.5)
    four, five = regular(4, (44.0, 56.0), 26.0, 45.0), regular(5, (124.0, 56.0), 26.0, 90.0)
    _over(on, four[1], four[3], 3.5, 0.0, "A")
    _over(on, four[2], four[3], 3.5, -12.0, "B")
    measure(on, (four[0][0] - 3.5, four[0][1]), (four[0][0] + 3.5, four[0][1]), 0.0, "d")
    _over(on, five[2], five[3], 3.5, -10.0, "B")
    far = _towards(five[3], five[0], -3.5)
    measure(on, five[0], far, 0.0, "E")
    say(on, (8.0, 12.0), ["even count: A, outer edges of two opposite holes", "circle = A - d"])
    say(
        on,
        (94.0, 12.0),
        ["odd count: B, outer edges of two neighbours,", "or E, a hole's middle to a far edge;   d: hole"],
    )
    return on


def _over(on: Sheet, a: Point, b: Point, r: float, off: float, name: str) -> None:
    measure(on, _towards(a, b, -r), _towards(b, a, -r), off, name)


def _towards(start: Point, end: Point, by: float) -> Point:
    long = math.dist(start, end)
    return start[0] + by * (end[0] - start[0]) / long, start[1] + by * (end[1] - start[1]) / long


def slide_gate() -> Sheet:
    """A manual slide gate from the front, shut and open, and from its side."""
    on = sheet(112.0, "A manual slide gate: nine readings")
    _gate(on, 46.0, sticks=9.0)
    measure(on, (23.0, 79.0), (23.0, 88.0), 16.0, "A")
    measure(on, (24.0, 88.0), (68.0, 88.0), 10.0, "C")
    measure(on, (18.0, 20.0), (74.0, 20.0), -8.0, "G")
    measure(on, (22.0, 75.0), (70.0, 75.0), -3.5, "J1")
    measure(on, (70.0, 75.0), (70.0, 79.0), -14.0, "J2")
    say(on, (10.0, 3.5), ["from the front, shut"])
    _from_its_side(on)
    _open_gate(on)
    return on


def _gate(on: Sheet, x: float, sticks: float) -> None:
    """Body 56 x 59 from y = 20, its port, four screws; the blade 44 wide sticks out above."""
    box(on, x - 22.0, 74.0, x + 22.0, 79.0 + sticks, METAL)
    box(on, x - 28.0, 20.0, x + 28.0, 79.0, CUT)
    disc(on, (x, 48.0), 40.0, METAL, THICK_MM)
    for sx in (-24.0, 24.0):
        for y in (24.0, 75.0):
            disc(on, (x + sx, y), 3.2, 1.0)
    disc(on, (x, 79.0 + sticks - 4.5), 4.0, 1.0)


def _from_its_side(on: Sheet) -> None:
    box(on, 103.0, 20.0, 107.0, 79.0, CUT)
    box(on, 109.0, 20.0, 113.0, 79.0, CUT)
    box(on, 107.2, 22.0, 108.8, 88.0, METAL)
    measure(on, (103.0, 20.0), (113.0, 20.0), -8.0, "H")
    measure(on, (107.2, 88.0), (108.8, 88.0), 6.0, "D")
    say(on, (95.0, 3.5), ["from its side"])


def _open_gate(on: Sheet) -> None:
    """A third of the front, open, for the second position and the blade's hole."""
    x = 146.0
    box(on, x - 16.0, 46.0, x + 16.0, 92.0, METAL)
    box(on, x - 20.0, 20.0, x + 20.0, 50.0, CUT)
    disc(on, (x, 85.0), 5.0, 1.0, THICK_MM)
    measure(on, (x - 16.0, 50.0), (x - 16.0, 92.0), 5.0, "B")
    measure(on, (x - 2.5, 85.0), (x + 2.5, 85.0), 0.0, "E")
    measure(on, (x, 85.0), (x, 92.0), -5.0, "F")
    say(on, (x - 20.0, 3.5), ["open"])


def cylinder() -> Sheet:
    """A round air cylinder, rod in; dashed the rod out."""
    on = sheet(86.0, "An air cylinder")
    box(on, 18.0, 36.0, 92.0, 60.0, CUT)
    for x in (24.0, 84.0):
        box(on, x - 2.5, 60.0, x + 2.5, 66.0, METAL)
    _threaded(on, 92.0, 110.0, 48.0, 9.0)
    box(on, 110.0, 45.0, 118.0, 51.0, METAL)
    _threaded(on, 118.0, 132.0, 48.0, 3.0)
    on.line((132.0, 51.0), (162.0, 51.0), THIN_MM, DASH)
    on.line((132.0, 45.0), (162.0, 45.0), THIN_MM, DASH)
    on.line((162.0, 45.0), (162.0, 51.0), THIN_MM, DASH)
    axis(on, (10.0, 48.0), (168.0, 48.0))
    measure(on, (14.0, 36.0), (14.0, 60.0), 0.0, "F")
    measure(on, (101.0, 39.0), (101.0, 57.0), 0.0, "C")
    measure(on, (110.0, 57.0), (118.0, 57.0), 7.0, "W")
    measure(on, (132.0, 45.0), (162.0, 45.0), -8.0, "S")
    point_out(on, (120.0, 76.0), (114.0, 50.8), "A: rod")
    point_out(on, (140.0, 62.0), (127.0, 50.8), "B: rod thread")
    point_out(on, (64.0, 76.0), (81.5, 63.0), "G: port thread")
    say(
        on,
        (8.0, 24.0),
        ["F: barrel; the bore stands on the label", "C: nose thread   W: nose face to rod shoulder, rod in"],
    )
    say(on, (8.0, 12.0), ["S: stroke = how far the end is from the nose, rod out, less the same with the rod in"])
    return on


def _threaded(on: Sheet, x0: float, x1: float, y: float, half: float, pitch: float = 1.5) -> None:
    """A thread from the side: its crests as a zigzag above and below."""
    count = round((x1 - x0) / pitch)
    depth = min(0.6 * pitch, 0.3 * half)
    above = []
    for k in range(count):
        above += [(x0 + k * pitch, y + half - depth), (x0 + (k + 0.5) * pitch, y + half)]
    above.append((x1, y + half - depth))
    area(on, [*above, *[(x, 2 * y - h) for x, h in reversed(above)]], METAL)


def thread() -> Sheet:
    """Outside diameter over the crests; ten pitches by rule or caliper."""
    on = sheet(70.0, "A thread: outside diameter, and ten crests")
    box(on, 8.0, 24.0, 22.0, 56.0, CUT)
    box(on, 22.0, 31.0, 34.0, 49.0, METAL)
    _threaded(on, 34.0, 124.0, 40.0, 10.0, pitch=6.0)
    axis(on, (4.0, 40.0), (132.0, 40.0))
    for k in range(11):
        x = 43.0 + 6.0 * k
        on.words((x, 52.0), str(k), 2.2, "middle")
    measure(on, (43.0, 55.0), (103.0, 55.0), 6.0, "T")
    measure(on, (115.0, 30.0), (115.0, 50.0), -14.0, "A")
    say(on, (8.0, 12.0), ["T: from crest 0 to crest 10; pitch = T / 10.  Count gaps, not crests: begin with 0."])
    say(on, (136.0, 44.0), ["A, over the crests,", "is a little below", "the thread's name."])
    return on


def frame() -> Sheet:
    """Standing at end_a and looking into its mouth: right, up, away."""
    on = sheet(90.0, "Right, up and away")
    mouth, back, r = (60.0, 42.0), (104.0, 66.0), 19.0
    run = math.dist(mouth, back)
    nx, ny = -(back[1] - mouth[1]) / run * r, (back[0] - mouth[0]) / run * r
    on.add(Arc(back, r, width_mm=THIN_MM, dash_mm=DASH))
    for sign in (1.0, -1.0):
        a, b = ((c[0] + sign * nx, c[1] + sign * ny) for c in (mouth, back))
        on.line(a, b, MEDIUM_MM)
    ring(on, mouth, 2 * r, 2 * r - 5.0)
    for words, tip, at in (
        ("right", (94.0, 42.0), (82.0, 44.0)),
        ("up", (60.0, 82.0), (62.5, 79.0)),
        ("away", (91.2, 59.0), (93.5, 58.5)),
    ):
        on.line(mouth, tip, THICK_MM)
        on.arrow(tip, math.degrees(math.atan2(tip[1] - mouth[1], tip[0] - mouth[0])), 4.0)
        on.words(at, words, 3.2, bold=True)
    disc(on, mouth, 1.6, 0.0)
    _eye(on, (14.0, 16.5))
    on.line((19.0, 19.2), (55.0, 39.2), THIN_MM, DASH)
    on.arrow((55.0, 39.2), 29.0)
    say(on, (6.0, 7.0), ["you, looking into end_a's mouth"])
    say(on, (118.0, 34.0), ["Everything is told from the", "middle of the mouth's face."])
    say(on, (118.0, 23.0), ["left = minus right", "down = minus up", "toward = minus away"])
    return on


def _eye(on: Sheet, at: Point) -> None:
    x, y = at
    on.add(Arc((x, y - 3.0), 6.0, 30.0, 120.0, width_mm=MEDIUM_MM))
    on.add(Arc((x, y + 3.0), 6.0, 210.0, 120.0, width_mm=MEDIUM_MM))
    disc(on, (x + 1.2, y), 2.6, 0.2)
