"""Which way a drawing lies on the page: a cross with two named arrows, placed so that no sheet cuts it off."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from fitwright.drawing.face import Face
from fitwright.drawing.sheet import THIN_MM, Mark, Path, Point, Sheet, Words
from fitwright.drawing.text_width import Box, box_of

REACH_MM = 18.0
"""Length of an arrow; on a small face a third of its size."""
CAP_MM = 2.2
CENTRE_MM = 3.0
"""Half of the cross that stays at the centre."""
NUMBER_MM = 5.0
"""Beyond a hole's edge: its centre mark and its number."""
STEP_MM = 5.0


def way_mark(face: Face, at: Callable[[Point], Point], windows: Sequence[Box]) -> list[Mark]:
    """The arrows at the face's centre, where one of `windows` [mm, the drawing's own] shows them whole.

    Elsewhere a small cross at the centre, and the arrows as near to it as they are whole, in free space if there is
    some. `at` leads from the face to the drawing: turned, mirrored.
    """
    boxes = [line.bounds_mm for line in face.lines] or [face.bounds_mm]
    reach = min(REACH_MM, *(0.33 * (box[k + 2] - box[k]) for box in boxes for k in (0, 1)))
    arms = [(face.upwards, at((0.0, 1.0))), ("right", at((1.0, 0.0)))]
    box = _around(_arms(arms, (0.0, 0.0), reach))
    if any(_inside(box, window) for window in windows):
        return _arms(arms, (0.0, 0.0), reach)
    places = _places(box, windows) or [(0.0, 0.0)]
    free = [place for place in places if _is_free(face, at, _moved(box, place))]
    place = min(free or places, key=lambda point: math.hypot(*point))
    sheet = Sheet.of("A4")
    sheet.cross((0.0, 0.0), CENTRE_MM)
    return [*sheet.marks, *_arms(arms, place, reach)]


def _arms(arms: Sequence[tuple[str, Point]], centre: Point, reach_mm: float) -> list[Mark]:
    sheet = Sheet.of("A4")
    cx, cy = centre
    for words, (x, y) in arms:
        tip = (cx + reach_mm * x, cy + reach_mm * y)
        sheet.line((cx - 0.4 * reach_mm * x, cy - 0.4 * reach_mm * y), tip, THIN_MM)
        sheet.arrow(tip, math.degrees(math.atan2(y, x)))
        upright = abs(x) < 0.5
        beside = (tip[0] + 1.0, tip[1] + 0.6) if upright else (tip[0], tip[1] - 4.0)
        sheet.words(beside, words, CAP_MM, "start" if upright else "middle")
    return sheet.marks


def _places(box: Box, windows: Sequence[Box]) -> list[Point]:
    """Where the mark can lie whole in one of the windows: every `STEP_MM` from its corner."""
    found: list[Point] = []
    for left, lower, right, upper in windows:
        xs, ys = _steps(left - box[0], right - box[2]), _steps(lower - box[1], upper - box[3])
        found += [(x, y) for x in xs for y in ys]
    return found


def _steps(low: float, high: float) -> list[float]:
    """From low to high; both, and what lies nearest to 0 between them; none where high is below low."""
    if high < low:
        return []
    count = max(1, math.ceil((high - low) / STEP_MM))
    return [*(low + (high - low) * k / count for k in range(count + 1)), min(max(0.0, low), high)]


def _around(marks: Iterable[Mark]) -> Box:
    boxes = list(_boxes(marks))
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )


def _boxes(marks: Iterable[Mark]) -> Iterator[Box]:
    for mark in marks:
        if isinstance(mark, Words):
            yield box_of(mark)
        elif isinstance(mark, Path):
            xs, ys = zip(*mark.points, strict=True)
            yield min(xs), min(ys), max(xs), max(ys)


def _is_free(face: Face, at: Callable[[Point], Point], box: Box) -> bool:
    """Whether no hole, number or line of the face comes into the box: judged by the circle round it (cautious)."""
    middle = ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
    r = math.hypot(box[2] - box[0], box[3] - box[1]) / 2
    if any(math.dist(middle, at(hole.at)) < r + hole.d_mm / 2 + NUMBER_MM for hole in face.holes):
        return False
    lines = [replace(line, points=tuple(map(at, line.points)), centre=at(line.centre)) for line in face.lines]
    return all(line.distance_mm(middle) >= r for line in lines)


def _inside(box: Box, window: Box) -> bool:
    return all(box[k] >= window[k] and box[k + 2] <= window[k + 2] for k in (0, 1))


def _moved(box: Box, by: Point) -> Box:
    return box[0] + by[0], box[1] + by[1], box[2] + by[0], box[3] + by[1]
