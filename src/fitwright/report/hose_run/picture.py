"""The picture of a hose run: from the front, from the side and from above, as PNG."""

from __future__ import annotations

import io
import textwrap
from collections.abc import Iterator
from dataclasses import dataclass

from PIL import Image

from fitwright.frame import Vec
from fitwright.physics.hose_piece import Piece
from fitwright.physics.hose_trolley import Rolled
from fitwright.report.hose_run.moving import shown_places
from fitwright.report.hose_run.panel import BAD, HOSE, INK, PAPER, QUIET, Panel
from fitwright.report.hose_run.say import RunAnswer, Say
from fitwright.report.hose_run.still import drags
from fitwright.report.pen import FINER, Pen
from fitwright.spec.run import RunSpec
from fitwright.spec.run_solved import HeadAt, MovingSolved, RowSolved

SIZE = (1600, 900)
LEFT, TOP, RIGHT, BOTTOM, BETWEEN = 20.0, 96.0, 1580.0, 880.0, 16.0
VIEWS = {"from the front": (0, 2), "from the side, the front on the left": (1, 2), "from above": (0, 1)}
LEAST_SEEN = 0.05
"""A direction in which a run is less long than this share has no view of its own."""
LINES = 2


@dataclass(frozen=True)
class Drawn:
    """A piece to draw: its points, whether it stands still, whether something is wrong with it."""

    points: list[Vec]
    still: bool
    bad: bool


def picture_png(answer: RunAnswer, solved: RowSolved | MovingSolved) -> bytes:
    """All of it as PNG."""
    run, say = answer.run, Say(answer.run.units)
    image = Image.new("RGB", (SIZE[0] * FINER, SIZE[1] * FINER), PAPER)
    pen = Pen(image)
    pen.text((24, 40), run.name, 26, INK)
    words, colour = ("good", QUIET) if answer.good else ("does not work", BAD)
    pen.text((RIGHT, 40), words, 22, colour, "rs")
    told = textwrap.wrap(answer.headline.removeprefix(f"{run.name}: "), 190)[:LINES]
    for k, line in enumerate(told):
        pen.text((24, 62 + 18 * k), line, 13, QUIET)
    pieces = list(_pieces(run, solved))
    for panel in _panels(run, pieces):
        _draw(pen, panel, answer, solved, pieces, say)
    held = io.BytesIO()
    image.reduce(FINER).save(held, format="PNG", optimize=False)
    return held.getvalue()


def _pieces(run: RunSpec, solved: RowSolved | MovingSolved) -> Iterator[Drawn]:
    if isinstance(solved, RowSolved):
        for one in solved.spans:
            low = run.keep_above_mm is not None and one.piece.lowest_mm - run.hose.over_mm / 2 < run.keep_above_mm
            yield Drawn(one.piece.points(), True, one.sags_too_far or low or one.too_far_apart is not None)
        return
    for still in solved.fixed:
        bad = bool(still.faults()) or drags(run, still)
        stiff = [list(one.points) for one in still.rods[-1:]]
        yield Drawn(still.piece.points(), not stiff, bad)
        yield from (Drawn(points, True, bad) for points in stiff)
    for place in shown_places(solved):
        bad = bool(place.stand.faults(solved.moving.limits))
        for moving in _of(place):
            yield Drawn(moving.points(), False, bad)


def _of(place: HeadAt) -> tuple[Piece, ...]:
    return (place.stand.before.slack, place.stand.slack) if isinstance(place.stand, Rolled) else (place.stand.slack,)


def _panels(run: RunSpec, pieces: list[Drawn]) -> list[Panel]:
    """One a view; views of a direction in which nothing happens are left out; heights as the views need."""
    points = [p for one in pieces for p in one.points] + [one.at for one in run.stations]
    points += [*run.head.box.corners()] if run.head else []
    points += [one.rail.end for one in run.stations if one.rail]
    if run.keep_above_mm is not None:
        points += [(points[0][0], points[0][1], run.keep_above_mm)]
    wide = [max(p[k] for p in points) - min(p[k] for p in points) for k in range(3)]
    flat = [k for k in (0, 1) if wide[k] < LEAST_SEEN * max(wide)]
    views = [(said, axes) for said, axes in VIEWS.items() if not set(flat) & set(axes)] or [("from the front", (0, 2))]
    areas = _areas(len(views))
    margin = max(1.5 * run.hose.over_mm, 0.04 * max(wide))
    return [
        Panel(said, *axes, low, high, points, margin) for (said, axes), (low, high) in zip(views, areas, strict=True)
    ]


def _areas(count: int) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    if count == 1:
        return [((LEFT, TOP), (RIGHT, BOTTOM))]
    middle, half = (LEFT + RIGHT) / 2, (TOP + BOTTOM) / 2
    left = ((LEFT, TOP), (middle - BETWEEN / 2, BOTTOM))
    if count == 2:
        return [left, ((middle + BETWEEN / 2, TOP), (RIGHT, BOTTOM))]
    upper = ((middle + BETWEEN / 2, TOP), (RIGHT, half - BETWEEN / 2))
    return [left, upper, ((middle + BETWEEN / 2, half + BETWEEN / 2), (RIGHT, BOTTOM))]


def _draw(
    pen: Pen, panel: Panel, answer: RunAnswer, solved: RowSolved | MovingSolved, pieces: list[Drawn], say: Say
) -> None:
    run = answer.run
    panel.frame(pen)
    if run.head is not None:
        panel.rectangle(pen, run.head.box.low, run.head.box.high)
    if run.keep_above_mm is not None and panel.upward == 2:
        panel.level(pen, run.keep_above_mm, f"keep above {say.mm(run.keep_above_mm)}")
    for one in sorted(pieces, key=lambda each: (each.bad, each.still)):
        panel.hose(pen, one.points, run.hose.over_mm, BAD if one.bad else HOSE, one.still)
    for station in run.stations:
        if station.rail is not None:
            pen.line([panel.at(station.rail.start), panel.at(station.rail.end)], INK, 3.0)
        panel.place(pen, station.at, station.label)
    _told(pen, panel, run, solved, say)
    unit_mm = 1.0 if run.units == "mm" else 25.4
    panel.bar(pen, long := panel.bar_mm(unit_mm), say.mm(long))


def _told(pen: Pen, panel: Panel, run: RunSpec, solved: RowSolved | MovingSolved, say: Say) -> None:
    """Sags of a row; pulls of a moving head, where it is in the corners."""
    if isinstance(solved, RowSolved):
        for one in solved.spans if panel.upward == 2 else ():
            points = one.piece.points(3)
            colour = BAD if one.sags_too_far else INK
            x, y = panel.at(points[1])
            below = y + run.hose.over_mm / 2 * panel.scale
            panel.beside(pen, (x - 40, below), f"sag {say.mm(one.piece.span.sag_mm)}", colour, below=True)
        return
    for at, places in _together(panel, shown_places(solved)).items():
        faults = [one for place in places for one in place.stand.faults(solved.moving.limits)]
        pulls = [place.stand.pull_n for place in places]
        words = ", ".join(dict.fromkeys(faults)) or say.n(max(pulls))
        pen.dot(at, 4.0, BAD if faults else HOSE)
        panel.beside(pen, at, words, BAD if faults else HOSE)


def _together(panel: Panel, places: list[HeadAt]) -> dict[tuple[float, float], list[HeadAt]]:
    """Places by where they stand on the view: several lie behind each other."""
    found: dict[tuple[float, float], list[HeadAt]] = {}
    for one in places:
        x, y = panel.at(one.at)
        found.setdefault((round(x), round(y)), []).append(one)
    return found
