"""Drawings of ports: which face is meant, caliper and strip, inside jaws, tapered and rectangular ports."""

from __future__ import annotations

import math

from fitwright.drawing.sheet import MEDIUM_MM, THICK_MM, THIN_MM, Arc, Path, Sheet
from fitwright.report.guide.marks import (
    CUT,
    DASH,
    METAL,
    PAPER_STRIP,
    area,
    axis,
    box,
    caliper,
    cross_out,
    disc,
    ellipse,
    letter,
    measure,
    point_out,
    ring,
    say,
    sheet,
    tick_off,
)


def which_face() -> Sheet:
    """Three joints cut along their axis, each with the face of the bought part that is measured."""
    on = sheet(74.0, "Which face is measured: over, into, hose_inside")
    for x, key, words in (
        (8.0, "socket: {over: A}", "the print goes over it: outside"),
        (60.0, "spigot: {into: B}", "the print goes into it: inside"),
        (114.0, "hose_tail: {hose_inside: C}", "the hose goes over the print"),
    ):
        on.words((x, 66.0), key, 2.5, bold=True)
        on.words((x, 61.5), words, 2.2)
    _joint(on, 8.0, bought=(15.0, 13.0), printed=(18.0, 15.6))
    measure(on, (10.0, 18.0), (10.0, 48.0), -3.0, "A")
    _joint(on, 60.0, bought=(17.0, 15.0), printed=(14.4, 12.0))
    measure(on, (62.0, 18.0), (62.0, 48.0), -3.0, "B")
    _joint(on, 114.0, bought=(16.5, 15.0), printed=(14.8, 12.0))
    measure(on, (116.0, 18.0), (116.0, 48.0), -3.0, "C")
    say(
        on,
        (8.0, 7.0),
        ["Light grey: what you have (pipe, port, hose).   Dark grey: the print.   Measure the light one."],
    )
    return on


def _joint(on: Sheet, x: float, bought: tuple[float, float], printed: tuple[float, float]) -> None:
    """Half-heights of both walls about the axis at y = 33: the bought part from the left, the print from the right."""
    for sign in (1.0, -1.0):
        (b0, b1), (p0, p1) = bought, printed
        box(on, x, 33.0 + sign * b1, x + 32.0, 33.0 + sign * b0, 0.9)
        box(on, x + 18.0, 33.0 + sign * p1, x + 44.0, 33.0 + sign * p0, 0.55)
    axis(on, (x - 2.0, 33.0), (x + 47.0, 33.0))


def caliper_outside() -> Sheet:
    """A pipe from its end with the three directions; from the side, the jaws square and askew."""
    on = sheet(92.0, "A caliper on a pipe's outside")
    centre, d = (45.0, 38.0), 44.0
    ring(on, centre, d, 39.0)
    for k, name in enumerate(("1", "2", "3")):
        turn = math.radians(60.0 * k)
        c, s = math.cos(turn), math.sin(turn)
        a, b = ((centre[0] + f * 29.0 * c, centre[1] + f * 29.0 * s) for f in (-1.0, 1.0))
        on.line(a, b, THIN_MM, DASH)
        if k:
            letter(on, b, name)
    letter(on, (centre[0] - 33.0, centre[1]), "1")
    caliper(on, 23.0, 67.0, 36.0, 68.0)
    say(on, (8.0, 6.5), ["Three times round, 60 deg apart; turn the caliper, not the pipe."])
    for x, askew in ((118.0, False), (150.0, True)):
        _from_the_side(on, x, askew)
    say(on, (100.0, 84.0), ["from the side:"])
    say(on, (104.0, 17.0), ["square to the", "axis: right"])
    say(on, (139.0, 17.0), ["askew: reads", "too much"])
    return on


def _from_the_side(on: Sheet, x: float, askew: bool) -> None:
    """The pipe upright, the jaws across it as a bar; the reading is d / cos(angle) where they stand askew."""
    box(on, x - 9.0, 26.0, x + 9.0, 76.0, CUT)
    axis(on, (x, 23.0), (x, 79.0))
    tilt = math.tan(math.radians(18.0)) if askew else 0.0
    reach = 13.0
    low, high = 50.0 - reach * tilt, 50.0 + reach * tilt
    area(on, [(x - reach, low - 1.6), (x + reach, high - 1.6), (x + reach, high + 1.6), (x - reach, low + 1.6)], METAL)
    if askew:
        cross_out(on, (x + 10.5, 70.0), 3.0)
    else:
        tick_off(on, (x + 12.5, 70.0))


def paper_strip() -> Sheet:
    """A strip of paper round an oval port, pricked through where it overlaps, and laid flat."""
    on = sheet(84.0, "A strip of paper round an oval port")
    centre = (45.0, 46.0)
    on.add(Path(tuple(ellipse(centre, 60.0, 46.0)), closed=True, width_mm=THICK_MM, fill=CUT))
    on.add(Path(tuple(ellipse(centre, 54.0, 40.0)), closed=True, width_mm=THICK_MM, fill=1.0))
    around = [p for p in ellipse(centre, 62.5, 48.5, 180)][38:] + ellipse(centre, 62.5, 48.5, 180)[:38]
    on.add(Path((*around, *[(x, y + 1.1) for x, y in ellipse(centre, 63.0, 49.0, 180)[38:60]]), width_mm=0.8))
    on.line((40.0, 64.0), (40.0, 80.0), THICK_MM)
    on.arrow((40.0, 68.5), 270.0)
    point_out(on, (48.0, 78.0), (40.4, 77.0), "prick through both layers where the strip overlaps")
    measure(on, (15.0, 46.0), (75.0, 46.0), 0.0, "a", 0.3)
    measure(on, (45.0, 23.0), (45.0, 69.0), 0.0, "b", 0.3)
    on.words((8.0, 8.0), "a and b show the shape", 2.2)
    box(on, 88.0, 44.0, 164.0, 51.0, PAPER_STRIP)
    for x in (94.0, 158.0):
        disc(on, (x, 47.5), 1.2, 0.0)
    measure(on, (94.0, 44.0), (158.0, 44.0), -8.0, "L")
    say(on, (88.0, 57.0), ["laid flat: from prick to prick"])
    say(on, (88.0, 24.0), ["circumference: L", "mean diameter = L / 3.1416", "1 mm of strip is 0.32 mm of diameter"])
    return on


def inside_jaws() -> Sheet:
    """Flat jaws in a curved bore touch by their corners and read a chord."""
    on = sheet(84.0, "Inside jaws in a curved bore")
    centre, r, w = (44.0, 43.0), 34.0, 18.0
    disc(on, centre, 2 * r + 8.0, CUT)
    disc(on, centre, 2 * r, 1.0, THICK_MM)
    half = math.sqrt(r * r - w * w / 4)
    x, y = centre
    for sign in (-1.0, 1.0):
        face = x + sign * half
        area(
            on,
            [(face, y - w / 2), (face, y + w / 2), (face - sign * 9.0, y + w / 2), (face - sign * 9.0, y - w / 2)],
            METAL,
        )
    axis(on, (x - r - 5.0, y), (x + r + 5.0, y))
    measure(on, (x - half, y - w / 2), (x + half, y - w / 2), -9.0, "R")
    measure(on, (x - r, y), (x + r, y), 0.0, "D")
    measure(on, (x + half - 9.0, y - w / 2), (x + half - 9.0, y + w / 2), 3.0, "w")
    point_out(on, (92.0, 66.0), (x + half, y + w / 2), "only the corners touch")
    say(
        on,
        (92.0, 54.0),
        ["The caliper says R, the bore is D:", "D = square root of (R x R + w x w)", "w is the width over both jaws."],
    )
    say(on, (92.0, 36.0), ["w = 3 mm:  in 20 mm 0.23 mm too little,", "in 40 mm 0.11, in 100 mm 0.05."])
    say(on, (92.0, 25.0), ["Turn for the largest reading", "round the bore,", "rock for the smallest along it."])
    return on


def tapered_port() -> Sheet:
    """Two diameters and their distance."""
    on = sheet(74.0, "A tapered port: two readings")
    for sign in (1.0, -1.0):
        area(
            on, [(40.0, 38 + sign * 18), (130.0, 38 + sign * 26), (130.0, 38 + sign * 22), (40.0, 38 + sign * 14)], 0.9
        )
    box(on, 130.0, 6.0, 138.0, 70.0, METAL)
    axis(on, (30.0, 38.0), (148.0, 38.0))
    measure(on, (40.0, 20.0), (40.0, 56.0), 10.0, "A")
    on.line((95.0, 11.5), (95.0, 64.5), THIN_MM, DASH)
    measure(on, (95.0, 15.1), (95.0, 60.9), 0.0, "B")
    measure(on, (40.0, 60.9), (95.0, 60.9), 6.0, "C")
    say(on, (6.0, 14.0), ["A: at the end face", "B: further along", "C: how far apart"])
    say(on, (142.0, 40.0), ["machine"])
    return on


def rectangular_port() -> Sheet:
    """Width, height, corner, and whether it is square."""
    on = sheet(74.0, "A rectangular port")
    _rounded(on, 20.0, 14.0, 110.0, 62.0, 9.0, CUT)
    _rounded(on, 24.0, 18.0, 106.0, 58.0, 6.0, 1.0)
    measure(on, (24.0, 38.0), (106.0, 38.0), -7.0, "A")
    measure(on, (52.0, 18.0), (52.0, 58.0), 0.0, "B")
    on.line((25.8, 19.8), (104.2, 56.2), THIN_MM, DASH)
    on.line((25.8, 56.2), (104.2, 19.8), THIN_MM, DASH)
    letter(on, (90.0, 49.6), "D1")
    letter(on, (90.0, 26.4), "D2")
    on.add(Arc((100.0, 52.0), 6.0, width_mm=0.9, sweep_deg=90.0))
    point_out(on, (122.0, 62.0), (104.6, 56.4), "C: corner; try drill shanks")
    say(on, (122.0, 48.0), ["A and B in the middle", "and near both ends", "(sheet metal bulges)."])
    say(on, (122.0, 30.0), ["D1 = D2: it is square.", "If not, draw it by points."])
    return on


def _rounded(on: Sheet, left: float, low: float, right: float, high: float, corner: float, fill: float) -> None:
    points = []
    for x, y, start in (
        (right - corner, low + corner, -90.0),
        (right - corner, high - corner, 0.0),
        (left + corner, high - corner, 90.0),
        (left + corner, low + corner, 180.0),
    ):
        for k in range(9):
            turn = math.radians(start + 90.0 * k / 8)
            points.append((x + corner * math.cos(turn), y + corner * math.sin(turn)))
    on.add(Path(tuple(points), closed=True, width_mm=MEDIUM_MM, fill=fill))
