"""The section drawing: the cut hatched, what lies behind it pale, dimensions, labels and a scale bar round it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from PIL import Image, ImageChops, ImageDraw

from fitwright.place import direction
from fitwright.report import dimensions as dim
from fitwright.report.pen import FINER, Pen, Point, width
from fitwright.report.raster import Canvas, Floats, View, colours, draw_lines, draw_triangles
from fitwright.report.surface import Surface, corner_normals, cut_loops

PAPER = (250, 248, 243)
_INK = (38, 48, 58)
_QUIET, _LEAD = (96, 106, 114), (150, 158, 164)
_BOUGHT = (70, 110, 150)
_INKS = (_INK, _LEAD, PAPER)
_PLAIN = (206, 220, 232)
_GASKET = (120, 84, 88)
_CUT, _HATCH, _RIM = (236, 205, 158), (176, 128, 70), (92, 62, 30)
OF_STOCK = {"": (_CUT, _HATCH), "sheet": ((190, 200, 228), (84, 98, 146)), "gasket": (_GASKET, _GASKET)}
"""Fill and hatching of what is printed, cut from sheet, and of a gasket, which is too thin to be hatched."""
BESIDE_SEAM_MM = 0.05
"""Several bodies may meet in the very plane of the section: it is cut this near beside it, through one of them."""
ACROSS = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0], [0.0, -1.0, 0.0]])
"""Axes of a section square to `away`, seen from the front: right, up, towards the viewer."""
_LABEL = 18.0
_LABEL_ROW = 44
_FOOT = 46
_SIDE_OF_END: dict[str, dim.Side] = {"end_a": "left", "end_b": "right"}


@dataclass(frozen=True)
class Area:
    """A rectangle of the sheet [final pixel]."""

    left: int
    top: int
    right: int
    bottom: int

    @property
    def wide(self) -> int:
        """Its width."""
        return self.right - self.left

    @property
    def high(self) -> int:
        """Its height."""
        return self.bottom - self.top


@dataclass(frozen=True)
class _Frame:
    """How the plane lies on the sheet: axes, scale [final pixel/mm], point [mm] in the area's middle, outline [mm]."""

    axes: Floats
    scale: float
    centre: Point
    area: Area
    low: Point
    high: Point

    def pixel(self, point: Point) -> Point:
        """Where a point of the plane [mm] lies on the sheet [final pixel]."""
        x = self.area.left + self.area.wide / 2 + (point[0] - self.centre[0]) * self.scale
        return x, self.area.top + self.area.high / 2 + (self.centre[1] - point[1]) * self.scale

    @property
    def view(self) -> View:
        """The same for the renderer, whose picture is the area alone."""
        return View(self.axes, self.scale * FINER, self.centre, (self.area.wide * FINER, self.area.high * FINER))

    @property
    def corners(self) -> tuple[Point, Point]:
        """Left upper and right lower corner of the part's outline on the sheet."""
        return self.pixel((self.low[0], self.high[1])), self.pixel((self.high[0], self.low[1]))


def draw_section(
    image: Image.Image,
    bodies: Sequence[Surface],
    words: dict[str, Any],
    area: Area,
    bought: Sequence[Surface] = (),
    extent: Floats | None = None,
) -> None:
    """Cut all bodies along `away` and `across` and draw the half behind the cut; what is `bought` is not hatched.

    `extent`: points [mm] that are to be on the sheet; those of the bodies where None.
    """
    axes, seen_from = section_axes(np.array(words["across"], dtype=float))
    if words.get("section_at") is not None:
        axes, seen_from = ACROSS, "the front"
        bodies, bought = ([_drawn_up(one, words["section_at"]) for one in shapes] for shapes in (bodies, bought))
    flat = (np.concatenate([body.vertices_mm for body in bodies]) if extent is None else extent) @ axes.T
    low, high = (tuple(limit[:2].tolist()) for limit in (flat.min(axis=0), flat.max(axis=0)))
    lines = [_line(d, axes, low, high) for d in words["dimensions"]]
    frame = _frame(axes, lines, low, high, area)
    if "drawn_at" in words:  # room is left for the dimensions of both ends of a movement, so that the scale is the same
        said = zip(words["dimensions"], lines, strict=True)
        lines = [line for d, line in said if d["only_at"] == words["drawn_at"]]
    scene = image.copy()
    scene.paste(_behind([*bodies, *bought], frame.view), (area.left * FINER, area.top * FINER))
    _draw_cut(scene, bought, frame, hatched=False)
    _draw_cut(scene, bodies, frame, stock=words["stock"])
    box = area.left * FINER, area.top * FINER, (area.left + area.wide) * FINER, (area.top + area.high) * FINER
    image.paste(scene.crop(box), box[:2])  # a joist or batten is longer than the sheet
    pen = Pen(image)
    for met in words["bought"]:
        _draw_bought(pen, met, frame)
    _draw_dimensions(pen, lines, frame)
    _draw_labels(pen, words["labels"], frame, sum(line.side == "above" for line in lines))
    _draw_foot(pen, words["units"], seen_from, frame, "dashed: what it meets; " if words["bought"] else "")


def _drawn_up(body: Surface, at_mm: float) -> Surface:
    """The body moved along `away` so that the section lies at y = 0."""
    moved = body.vertices_mm - np.array([0.0, at_mm, 0.0])
    return Surface(moved, body.faces, body.normals, body.edge_ends, body.edge_faces)


def section_axes(across: Floats) -> tuple[Floats, str]:
    """Rows: right = away, up = across or its opposite, towards the viewer; and where the viewer stands."""
    away = np.array([0.0, 1.0, 0.0])
    up = across - away * across[1]
    up /= np.linalg.norm(up)
    towards = np.cross(away, up)
    if towards @ np.array([0.5, 0.0, 1.0]) < 0:
        up, towards = -up, -towards
    seen_from = "above" if towards[2] > 0.9 else "the right" if towards[0] > 0.9 else "a slant"
    return np.array([away, up, towards]), seen_from


def _line(words: dict[str, Any], axes: Floats, low: Point, high: Point) -> dim.Line:
    one, two = (tuple((axes[:2] @ np.array(words[k], dtype=float)).tolist()) for k in "ab")
    side = dim.side_of(one, two, low, high, words["angle"])
    if side in ("left", "right"):  # end_a's mouth is at the left, wherever on the part its diameter is read
        side = _SIDE_OF_END.get(words["text"].partition(" ")[0], side)
    return dim.Line(words["text"], one, two, side, words["angle"])


def _frame(axes: Floats, lines: list[dim.Line], low: Point, high: Point, area: Area) -> _Frame:
    """As large as the dimension lines round it allow (each counted as a row of its own)."""
    left, right, above, below = (
        dim.GAP + dim.STEP * (sum(line.side == side for line in lines) + 0.5)
        for side in ("left", "right", "above", "below")
    )
    above, below = above + _LABEL_ROW, below + _FOOT
    scale = min((area.wide - left - right) / (high[0] - low[0]), (area.high - above - below) / (high[1] - low[1]))
    x = (low[0] + high[0]) / 2 - (left - right) / 2 / scale
    y = (low[1] + high[1]) / 2 + (above - below) / 2 / scale
    return _Frame(axes, scale, (x, y), area, low, high)


def _behind(bodies: Sequence[Surface], view: View) -> Image.Image:
    """What lies behind the cut, pale."""
    canvas = Canvas.blank(view.size)
    for body in bodies:
        shades = 0.25 + 0.75 * np.abs((corner_normals(body) @ view.axes.T)[..., 2])
        draw_triangles(canvas, view.project(body.vertices_mm)[body.faces], shades, cut_at_mm=0.0)
    for body in bodies:
        ends = view.project(body.vertices_mm)[body.edge_ends[body.sharp]]
        draw_lines(canvas, ends[:, 0], ends[:, 1], 2.0 / view.scale, FINER // 2, cut_at_mm=0.0)
    return colours(canvas, PAPER, (150, 160, 162), (196, 206, 206), (240, 243, 240))


def _draw_cut(
    image: Image.Image, bodies: Sequence[Surface], frame: _Frame, hatched: bool = True, stock: Sequence[str] = ()
) -> None:
    """The cut faces, each body hatched in its own direction, with their outlines; what is bought pale and plain."""
    pen = Pen(image)
    at = BESIDE_SEAM_MM if len(bodies) > 1 else 0.0
    for number, body in enumerate(bodies):
        loops = [
            [frame.pixel((x, y)) for x, y in (loop @ frame.axes[:2].T).tolist()]
            for loop in cut_loops(body.vertices_mm, body.faces, frame.axes[2], at)
        ]
        if not loops:
            continue
        mask = _filled(loops, image.size)
        fill, hatch = OF_STOCK[stock[number] if stock else ""]
        image.paste(fill if hatched else _PLAIN, (0, 0), mask)
        if hatched:
            image.paste(hatch, (0, 0), ImageChops.logical_and(mask, _hatching(image.size, number)))
        for loop in loops:
            pen.line([*loop, loop[0]], _RIM if hatched else _BOUGHT, 1.4 if hatched else 1.0)


def _draw_bought(pen: Pen, bought: dict[str, Any], frame: _Frame) -> None:
    """The pipe or hose that a joint meets, dashed: its outline from a little outside the mouth to where it ends."""
    inward = np.array(bought["inward"], dtype=float)
    sideways = np.cross(frame.axes[2], inward)
    size = float(np.linalg.norm(sideways))
    if size < 0.5:  # it goes into the picture, not along it
        return
    out = -(dim.GAP - 10) / frame.scale
    ends = []
    for side in (-1.0, 1.0):
        line = [
            np.array(bought["origin"]) + inward * s + sideways / size * side * (r0 + (r1 - r0) * s / bought["deep"])
            for s, r0, r1 in ((s, bought["r0"], bought["r1"]) for s in (out, bought["deep"]))
        ]
        points = [frame.pixel(tuple((frame.axes[:2] @ point).tolist())) for point in line]
        pen.dashed(points[0], points[1], _BOUGHT, 1.2)
        ends.append(points[1])
    pen.dashed(ends[0], ends[1], _BOUGHT, 1.2)


def _filled(loops: list[list[Point]], size: tuple[int, int]) -> Image.Image:
    """The area inside an odd number of the outlines."""
    mask = Image.new("1", size, 0)
    for loop in loops:
        one = Image.new("1", size, 0)
        ImageDraw.Draw(one).polygon([(x * FINER, y * FINER) for x, y in loop], fill=1)
        mask = ImageChops.logical_xor(mask, one)
    return mask


def _hatching(size: tuple[int, int], number: int) -> Image.Image:
    """Thin lines at 45 deg, the other way for every second body."""
    x, y = np.arange(size[0])[None, :], np.arange(size[1])[:, None]
    stripes = (x + (y if number % 2 == 0 else -y)) % (8 * FINER) < FINER
    return Image.fromarray(stripes).convert("1", dither=Image.Dither.NONE)


def _draw_dimensions(pen: Pen, lines: list[dim.Line], frame: _Frame) -> None:
    placed = [dim.Line(line.text, frame.pixel(line.a), frame.pixel(line.b), line.side, line.angle) for line in lines]
    (left, top), (right, bottom) = frame.corners
    beside: tuple[tuple[dim.Side, float, int], ...] = (("left", left, -1), ("right", right, 1))
    along: tuple[tuple[dim.Side, float, int], ...] = (("above", top, -1), ("below", bottom, 1))
    for side, edge, outwards in beside:
        for number, row in enumerate(dim.rows(placed, side)):
            for line in row:
                dim.draw_beside(pen, line, edge + outwards * (dim.GAP + dim.STEP * number), edge, _INKS)
    for side, edge, outwards in along:
        for number, row in enumerate(dim.rows(placed, side)):
            for line in row:
                dim.draw_along(pen, line, edge + outwards * (dim.GAP + dim.STEP * number), edge, _INKS)
    for line in placed:
        if line.side == "aslant":
            dim.draw_aslant(pen, line, _INKS)


def _draw_labels(pen: Pen, labels: list[dict[str, Any]], frame: _Frame, rows_above: int) -> None:
    """The words in a row over the part and its dimensions, each with a thin line down to its point."""
    points = sorted(
        (frame.pixel(tuple((frame.axes[:2] @ np.array(label["at"], dtype=float)).tolist())), label["text"])
        for label in labels
    )
    wanted = [(point[0], width(text, _LABEL)) for point, text in points]
    y = max(frame.area.top + 20, frame.corners[0][1] - dim.GAP - dim.STEP * rows_above - 12)
    for (point, text), x in zip(points, dim.spread(wanted, frame.area.left + 4, frame.area.right - 4), strict=True):
        pen.line([(x, y + 6), (x, y + 14), point], _QUIET, 0.8)
        pen.dot(point, 3.0, _INK)
        pen.text((x, y), text, _LABEL, _INK, "ms")


def _draw_foot(pen: Pen, units: str, seen_from: str, frame: _Frame, dashed: str) -> None:
    """Scale bar at the left, what the drawing shows at the right."""
    per_unit = 25.4 if units == "in" else 1.0
    steps = [
        length for length in (0.25, 0.5, 1, 2, 4, 5, 10, 20, 50, 100, 200) if length * per_unit * frame.scale < 220
    ]
    length = steps[-1] if steps else 0.25
    x, y = frame.area.left + 8, frame.area.bottom - 14
    end = x + length * per_unit * frame.scale
    pen.line([(x, y), (end, y)], _INK, 2.0)
    for at in (x, end):
        pen.line([(at, y - 6), (at, y + 1)], _INK, 1.4)
    pen.text((end + 10, y + 3), f"{length:g} {units}", dim.TEXT, _INK)
    lengths = "inches" if units == "in" else "mm"
    cut = "section across" if seen_from == "the front" else "section through the axis"
    shown = f"{cut}, seen from {seen_from}; {direction(frame.axes[1].tolist())} is at the top"
    pen.text((frame.area.right - 8, y - 17), shown, dim.TEXT, _QUIET, "rs")
    pen.text((frame.area.right - 8, y + 3), f"{dashed}lengths in {lengths}", dim.TEXT, _QUIET, "rs")
