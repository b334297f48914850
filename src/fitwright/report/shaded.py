"""The shaded view: what is printed and what is bought from outside, in parallel projection."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from PIL import Image

from fitwright.report.pen import FINER, Pen
from fitwright.report.raster import Canvas, Colour, Floats, View, colours, draw_lines, draw_triangles
from fitwright.report.section_sheet import OF_STOCK, PAPER, Area
from fitwright.report.surface import Surface, corner_normals

INK, QUIET = (38, 48, 58), (96, 106, 114)
_PRINTED: tuple[Colour, Colour] = ((52, 66, 72), (214, 226, 222))
_OF_MANY: tuple[Colour, Colour] = ((110, 72, 28), (240, 206, 152))
_BOUGHT: tuple[Colour, Colour] = ((70, 84, 98), (216, 228, 238))
STOCK: dict[str, tuple[Colour, Colour]] = {
    "": _PRINTED,
    "sheet": ((66, 74, 104), (206, 214, 236)),
    "gasket": ((58, 40, 44), (176, 142, 144)),
}
"""Dark and light of what is printed, cut from sheet, cut for a gasket."""
FROM_AN_END, FROM_ITS_LEFT, FROM_ABOVE = (0.62, -0.66, 0.42), (-0.62, -0.66, 0.42), (0.25, -0.6, 0.9)


def draw_shaded(
    image: Image.Image,
    bodies: Sequence[Surface],
    towards: tuple[float, float, float],
    area: Area,
    bought: Sequence[Surface] = (),
    extent: Floats | None = None,
    stock: Sequence[str] = (),
) -> Floats:
    """The outside seen from `towards`; returns the view's axes (rows right, up, towards the viewer).

    `extent`: points [mm] that are to be in the picture; those of the bodies where None. `stock`: what each body is cut
    from (a key of STOCK), nothing where all are printed.
    """
    axes = _axes(towards)
    points = (np.concatenate([body.vertices_mm for body in bodies]) if extent is None else extent) @ axes.T
    low, high = points.min(axis=0), points.max(axis=0)
    size = (area.wide * FINER, area.high * FINER)
    scale = 0.92 * min(size[0] / (high[0] - low[0]), size[1] / (high[1] - low[1]))
    view = View(axes, scale, ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2), size)
    printed = _drawn(bodies, view)
    shown = colours(printed, PAPER, INK, *(_OF_MANY if bought else _PRINTED))
    for kind in sorted({*stock} - {""}):
        cut = _drawn([body for body, of in zip(bodies, stock, strict=True) if of == kind], view)
        shown.paste(colours(cut, PAPER, INK, *STOCK[kind]), (0, 0), _in_front(cut, printed))
    if bought:
        others = _drawn(bought, view)
        nearer = Image.fromarray(others.depth > printed.depth)
        shown.paste(colours(others, PAPER, QUIET, *_BOUGHT), (0, 0), nearer)
    image.paste(shown, (area.left * FINER, area.top * FINER))
    return axes


def _axes(towards: tuple[float, float, float]) -> Floats:
    out = np.array(towards) / np.linalg.norm(towards)
    right = np.cross([0.0, 0.0, 1.0], out)
    right /= np.linalg.norm(right)
    return np.array([right, np.cross(out, right), out])


def _drawn(bodies: Sequence[Surface], view: View) -> Canvas:
    """Faces, then their sharp edges and outlines."""
    canvas, axes = Canvas.blank(view.size), view.axes
    for body in bodies:
        corners = view.project(body.vertices_mm)[body.faces]
        draw_triangles(canvas, corners, brightness(corner_normals(body) @ axes.T))
    for body in bodies:
        lined = body.sharp | body.turning(axes[2])
        ends = view.project(body.vertices_mm)[body.edge_ends[lined]]
        draw_lines(canvas, ends[:, 0], ends[:, 1], 3.0 / view.scale, FINER)
    return canvas


def _in_front(some: Canvas, whole: Canvas) -> Image.Image:
    """Where nothing of the whole hides what is drawn of some."""
    return Image.fromarray(np.isfinite(some.depth) & (some.depth >= whole.depth - 1e-9))


def draw_legend(pen: Pen, legend: Sequence[tuple[str, str]], at: tuple[float, float]) -> None:
    """Two squares for each, its tone outside and where it is cut, with what it stands for, one below the other."""
    for number, (kind, words) in enumerate(legend):
        x, y = at[0], at[1] + 20 * number
        pen.box((x, y - 11), (x + 13, y + 2), STOCK[kind][1])
        pen.box((x + 14, y - 11), (x + 27, y + 2), OF_STOCK[kind][0])
        pen.text((x + 34, y), words, 14, QUIET)


def draw_frame(pen: Pen, axes: Floats, start: tuple[float, float] = (84.0, 812.0)) -> None:
    """The three directions of all measurements, as they lie in the shaded view."""
    for words, direction in (("right", (1.0, 0.0, 0.0)), ("away", (0.0, 1.0, 0.0)), ("up", (0.0, 0.0, 1.0))):
        x, y = (axes[:2] @ np.array(direction)).tolist()
        long = float(np.hypot(x, y))
        tip = (start[0] + 46 * x, start[1] - 46 * y)
        pen.line([start, tip], QUIET, 1.2)
        pen.arrow(tip, (x / long, -y / long), QUIET)
        pen.text(
            (tip[0] + 17 * x / long, tip[1] - 15 * y / long),
            words,
            13,
            QUIET,
            "mm" if abs(x) < 0.3 else "lm" if x > 0 else "rm",
        )


def brightness(normals: Floats) -> Floats:
    """0..1 for unit normals in the view's axes (last axis of length 3): a lamp over the left shoulder and some sky."""
    lamp = np.array([-0.45, 0.65, 0.61])
    facing: Floats = np.clip(normals @ lamp, 0.0, 1.0)
    sky: Floats = 0.5 + 0.5 * normals[..., 1]
    return np.asarray(0.18 + 0.62 * facing + 0.2 * sky)
