"""Faces -> sheets at true size: a title, the drawing or its share of it, and the check bar on every sheet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap

from fitwright.drawing.check_bar import check_bar
from fitwright.drawing.face import Face, FaceHole, FaceLine, Style
from fitwright.drawing.paper import MARGIN_MM, PAPERS, Paper, PaperName
from fitwright.drawing.sheet import MEDIUM_MM, THIN_MM, Arc, Mark, Path, Point, Sheet, View
from fitwright.drawing.text_width import Box
from fitwright.drawing.tiles import Tile, Tiling, tiling
from fitwright.drawing.way_mark import way_mark
from fitwright.units import Units, format_length

PAD_MM = 4.0
"""Free round the drawing: half of a hole's number, a line's width."""
TITLE_CAP_MM, WORDS_CAP_MM, PITCH_MM = 4.0, 2.2, 4.2
BAR_ROOM_MM = 13.0
JOIN = "Cut along the right and the lower grey dashed line, lay it on the next sheet: crosses of one letter must meet."
MAP_MM = 26.0
_STYLES: dict[Style, tuple[float, tuple[float, float] | None]] = {
    "edge": (MEDIUM_MM, None),
    "cut": (0.35, None),
    "hidden": (THIN_MM, (3.0, 2.0)),
}


@dataclass(frozen=True)
class Side:
    """One side of a face: as seen from the front, or its mirror image; `quarter`: turned to lie better on the page."""

    face: Face
    mirrored: bool = False
    quarter: bool = False

    def at(self, point: Point) -> Point:
        """Where a point of the face (right, up) lies in the drawing."""
        x, y = (-point[0] if self.mirrored else point[0]), point[1]
        return (-y, x) if self.quarter else (x, y)

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, lower, right, upper [mm] of the drawing, with the room round it."""
        left, lower, right, upper = self.face.bounds_mm
        (x0, y0), (x1, y1) = self.at((left, lower)), self.at((right, upper))
        return min(x0, x1) - PAD_MM, min(y0, y1) - PAD_MM, max(x0, x1) + PAD_MM, max(y0, y1) + PAD_MM

    @property
    def words(self) -> str:
        """Who sees it so."""
        if self.face.is_symmetric():
            return "The same from both sides."
        if self.mirrored:
            return f"BACK, mirrored: {self.face.back}."
        return f"FRONT: {self.face.front}."

    @property
    def key(self) -> str:
        """For a file's name."""
        return self.face.key + ("_mirrored" if self.mirrored else "")


def sides(faces: Sequence[Face]) -> list[Side]:
    """Every face, followed by its mirror image where that differs."""
    found = []
    for face in faces:
        found += [Side(face)] if face.is_symmetric() else [Side(face), Side(face, mirrored=True)]
    return found


def template_sheets(title: str, faces: Sequence[Face], paper: PaperName, units: Units) -> list[Sheet]:
    """Every side of every face on as many sheets as it needs, all 1:1, `title` on each."""
    return [sheet for side in sides(faces) for sheet in _pages(title, side, PAPERS[paper], units)]


def whole_sheet(title: str, side: Side, units: Units) -> Sheet:
    """One side on one sheet of its own size, for a cutter, a plotter or a shop that prints large."""
    left, lower, right, upper = side.bounds_mm
    wide = max(right - left, 140.0) + 2 * MARGIN_MM
    lines = _lines(title, side, units, wide - 2 * MARGIN_MM)
    head = _head_mm(len(lines))
    sheet = Sheet(Paper("whole", wide, upper - lower + head + BAR_ROOM_MM + 2 * MARGIN_MM), f"{title}: {side.key}")
    window = (MARGIN_MM, MARGIN_MM + BAR_ROOM_MM, wide - MARGIN_MM, MARGIN_MM + BAR_ROOM_MM + upper - lower)
    shift = ((wide - left - right) / 2, window[1] - lower)
    sheet.add(View(tuple(drawing(side)), shift, window))
    _head(sheet, lines)
    check_bar(sheet, MARGIN_MM, MARGIN_MM)
    return sheet


def drawing(side: Side, windows: Sequence[Box] = ()) -> list[Mark]:
    """All marks of one side in the drawing's own mm: its centre at the origin.

    `windows`: what each sheet shows of it; none: one sheet shows all.
    """
    marks = way_mark(side.face, side.at, [_overlap(side.bounds_mm, one) for one in windows] or [side.bounds_mm])
    for line in side.face.lines:
        marks.append(_line(side, line))
    for number, hole in enumerate(side.face.holes, start=1):
        marks += _hole(side, hole, number)
    return marks


def _pages(title: str, side: Side, paper: Paper, units: Units) -> list[Sheet]:
    lines = _lines(title, side, units, paper.inner_mm[0] - MAP_MM)
    window = paper.inner_mm[0], paper.inner_mm[1] - _head_mm(len(lines) + 1) - BAR_ROOM_MM
    laid, best = _laid(side, window)
    marks = drawing(best, [laid.kept(tile) for tile in laid.tiles()])
    if laid.many:
        marks += laid.seams()
        lines.append(JOIN)
    return [_page(title, best, paper, lines, laid, tile, marks) for tile in laid.tiles()]


def _laid(side: Side, window: tuple[float, float]) -> tuple[Tiling, Side]:
    """Upright, or turned by a quarter where that takes fewer sheets."""
    both = [Side(side.face, side.mirrored, quarter) for quarter in (False, True)]
    tilings = [(tiling(one.bounds_mm, window), one) for one in both]
    return min(tilings, key=lambda found: found[0].rows * found[0].columns)


def _page(title: str, side: Side, paper: Paper, lines: list[str], laid: Tiling, tile: Tile, marks: list[Mark]) -> Sheet:
    sheet = Sheet(paper, f"{title}: templates 1:1")
    (wide, high), (x, y) = laid.window_mm, tile.lower_left
    lower_left = (MARGIN_MM, MARGIN_MM + BAR_ROOM_MM)
    window = (*lower_left, lower_left[0] + wide, lower_left[1] + high)
    sheet.add(View(tuple(marks), (lower_left[0] - x, lower_left[1] - y), window))
    _head(sheet, lines)
    if laid.many:
        _page_map(sheet, side, laid, tile)
    check_bar(sheet, MARGIN_MM, MARGIN_MM)
    return sheet


def _head_mm(lines: int) -> float:
    return max(TITLE_CAP_MM + 1.0 + PITCH_MM * (lines - 1) + 3.0, MAP_MM)


def _head(sheet: Sheet, lines: list[str]) -> None:
    top = sheet.paper.height_mm - MARGIN_MM - TITLE_CAP_MM
    sheet.words((MARGIN_MM, top), lines[0], TITLE_CAP_MM, bold=True)
    for k, line in enumerate(lines[1:], start=1):
        sheet.words((MARGIN_MM, top - 1.0 - PITCH_MM * k), line, WORDS_CAP_MM)


def _lines(title: str, side: Side, units: Units, wide_mm: float) -> list[str]:
    """The title, then what stands below it, broken to the width (a letter is about 0.7 of its capitals' height)."""
    face = side.face
    words = [side.words, *_hole_words(face, units), *face.says]
    letters = int(wide_mm / (0.71 * WORDS_CAP_MM))
    heading = wrap(f"{title}: {face.name}", int(wide_mm / (0.80 * TITLE_CAP_MM)))
    return [
        heading[0] + (" ..." if len(heading) > 1 else ""),
        *(line for text in words for line in wrap(text, letters)),
    ]


def _hole_words(face: Face, units: Units) -> list[str]:
    if not face.holes:
        return []
    sizes = [
        f"{n}{_hole_size(h, units) if h.d_mm else ''}{f' for {h.bolt}' if h.bolt else ''}" for n, h in face.hole_sizes()
    ]
    words = [f"Holes: {', '.join(sizes)}."]
    if len(face.holes) > 1:
        apart = [f"{i} to {j}: {_length(d, units)}" for i, j, d in face.longest()]
        words.append(f"Check with a tape, middle to middle: {', '.join(apart)}.")
    return words


def _hole_size(hole: FaceHole, units: Units) -> str:
    if not hole.long_mm:
        return f" x {_length(hole.d_mm, units)}"
    whole = _length(hole.d_mm + hole.long_mm, units)
    return f" x slot {_length(hole.d_mm, units)} x {whole}"


def _length(mm: float, units: Units) -> str:
    return format_length(mm, units, fraction=False)


def _overlap(one: Box, other: Box) -> Box:
    return max(one[0], other[0]), max(one[1], other[1]), min(one[2], other[2]), min(one[3], other[3])


def _line(side: Side, line: FaceLine) -> Mark:
    width, dash = _STYLES[line.style]
    if line.d_mm:
        return Arc(side.at(line.centre), line.d_mm / 2, width_mm=width, dash_mm=dash)
    return Path(tuple(side.at(p) for p in line.points), closed=True, width_mm=width, dash_mm=dash)


def _hole(side: Side, hole: FaceHole, number: int) -> list[Mark]:
    """The circle or slot, a cross through its middle that reaches a little beyond it, its number."""
    sheet = Sheet.of("A4")
    x, y = side.at(hole.at)
    r = hole.d_mm / 2
    if hole.long_mm:
        _slot(sheet, side, hole)
    elif hole.d_mm:
        sheet.circle((x, y), hole.d_mm, THIN_MM)
    sheet.cross((x, y), r + (2.0 if hole.d_mm else 4.0))
    u, v = (abs(mm) for mm in side.at(hole.half_way))
    sheet.words((x + u + 0.75 * r + 0.5, y + v + 0.75 * r + 0.5), str(number), 2.5, bold=True)
    return sheet.marks


def _slot(sheet: Sheet, side: Side, hole: FaceHole) -> None:
    """Two half circles and the two straights between them."""
    (x, y), (u, v) = hole.at, hole.half_way
    r, half = hole.d_mm / 2, hole.long_mm / 2
    (ax, ay), (bx, by) = side.at((x - u, y - v)), side.at((x + u, y + v))
    way = math.degrees(math.atan2(by - ay, bx - ax))
    sheet.add(Arc((bx, by), r, way - 90.0, 180.0, width_mm=THIN_MM), Arc((ax, ay), r, way + 90.0, 180.0, THIN_MM))
    across = ((by - ay) / (2 * half) * r, -(bx - ax) / (2 * half) * r)
    for sign in (-1.0, 1.0):
        off = sign * across[0], sign * across[1]
        sheet.line((ax + off[0], ay + off[1]), (bx + off[0], by + off[1]), THIN_MM)


def _page_map(sheet: Sheet, side: Side, laid: Tiling, tile: Tile) -> None:
    """Where this sheet belongs, small, at the top right: all cut lines with this sheet's share filled."""
    wide, high = laid.size_mm
    scale = min((MAP_MM - 2.0) / wide, (MAP_MM - 6.0) / high)
    right, top = sheet.paper.width_mm - MARGIN_MM, sheet.paper.height_mm - MARGIN_MM
    x0, y0 = right - scale * wide, top - scale * high
    for one in laid.tiles():
        x, y = x0 + scale * (one.lower_left[0] - laid.corner[0]), y0 + scale * (one.lower_left[1] - laid.corner[1])
        w, h = (scale * length for length in laid.window_mm)
        box = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
        sheet.add(Path(box, closed=True, width_mm=THIN_MM, fill=0.8 if one == tile else None))
    for line in side.face.lines:
        sheet.add(_small(side, line, scale, (x0 - scale * laid.corner[0], y0 - scale * laid.corner[1])))
    words = f"row {tile.row}, column {tile.column} of {laid.rows} x {laid.columns}"
    sheet.words((right, y0 - 3.5), words, 2.2, "end", bold=True)


def _small(side: Side, line: FaceLine, scale: float, shift: Point) -> Mark:
    def at(point: Point) -> Point:
        x, y = side.at(point)
        return shift[0] + scale * x, shift[1] + scale * y

    if line.d_mm:
        return Arc(at(line.centre), scale * line.d_mm / 2, width_mm=THIN_MM)
    return Path(tuple(at(p) for p in line.points), closed=True, width_mm=THIN_MM)
