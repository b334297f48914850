"""A triangle mesh as pixels: a small depth-buffer renderer in numpy.

Written out here because the usual way, off-screen OpenGL, kills the process on a machine without an EGL library, gives
other bytes on other drivers, and takes longer to start than this takes to draw.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Colour = tuple[int, int, int]


@dataclass(frozen=True)
class View:
    """An orthographic view: `axes` rows are picture right, picture up and towards the viewer, in part coordinates.

    A point lands at `scale` [pixel/mm] x its right and up, measured from `centre` (right, up) [mm], in the middle of a
    picture of `size` (wide, high) [pixel].
    """

    axes: Floats
    scale: float
    centre: tuple[float, float]
    size: tuple[int, int]

    def project(self, points_mm: Floats) -> Floats:
        """(n, 3) points [mm] to (n, 3): pixel right, pixel down, and depth [mm] growing towards the viewer."""
        seen = points_mm @ self.axes.T
        x = (seen[:, 0] - self.centre[0]) * self.scale + self.size[0] / 2
        y = (self.centre[1] - seen[:, 1]) * self.scale + self.size[1] / 2
        return np.column_stack([x, y, seen[:, 2]])


@dataclass
class Canvas:
    """What is seen so far at each pixel: depth [mm] (-inf where nothing) and brightness 0..1."""

    depth: Floats
    shade: Floats

    @classmethod
    def blank(cls, size: tuple[int, int]) -> Canvas:
        """An empty canvas of `size` (wide, high) [pixel]."""
        return cls(np.full((size[1], size[0]), -np.inf), np.zeros((size[1], size[0])))


def colours(canvas: Canvas, paper: Colour, line: Colour, dark: Colour, light: Colour) -> Image.Image:
    """Brightness as colour from `dark` to `light`; `line` where it is 0, `paper` where nothing was drawn."""
    index = np.clip(canvas.shade * 252.0 + 2.5, 2.0, 255.0).astype(np.uint8)
    index[canvas.shade == 0.0] = 1
    index[np.isneginf(canvas.depth)] = 0
    ramp = np.linspace(dark, light, 254).round().astype(np.uint8)
    image = Image.fromarray(index, mode="L")
    image.putpalette(np.concatenate([np.array([paper, line], dtype=np.uint8), ramp]).tobytes())
    return image.convert("RGB")


def draw_triangles(canvas: Canvas, corners: Floats, shades: Floats, cut_at_mm: float = np.inf) -> None:
    """Draw triangles (m, 3, 3) in pixels and depth with brightness (m, 3) at their corners.

    Whatever lies nearer to the viewer than `cut_at_mm` is left away, so that a section shows what is behind it.
    """
    corners, shades = _facing(corners, shades)
    row, triangle = _rows(corners, canvas.depth.shape[0])
    x0, x1 = _span(corners, row, triangle, canvas.depth.shape[1])
    counts = np.maximum(x1 - x0, 0)
    x = np.repeat(x0, counts) + _steps(counts)
    y, triangle = np.repeat(row, counts), np.repeat(triangle, counts)
    depth = _flat_field(corners, corners[:, :, 2])(x, y, triangle)
    keep = depth <= cut_at_mm
    x, y, triangle, depth = x[keep], y[keep], triangle[keep], depth[keep]
    place = y * canvas.depth.shape[1] + x
    flat_depth, flat_shade = canvas.depth.reshape(-1), canvas.shade.reshape(-1)
    np.maximum.at(flat_depth, place, depth)
    seen = depth == flat_depth[place]
    flat_shade[place[seen]] = _flat_field(corners, shades)(x[seen], y[seen], triangle[seen])


def draw_lines(
    canvas: Canvas, starts: Floats, ends: Floats, slack_mm: float, width: int, cut_at_mm: float = np.inf
) -> None:
    """Blacken those parts of the lines (n, 3) to (n, 3) that are not hidden by more than `slack_mm`."""
    if not len(starts):
        return
    counts = np.ceil(np.hypot(*(ends - starts)[:, :2].T)).astype(np.int64) + 1
    line = np.repeat(np.arange(len(starts)), counts)
    part = (_steps(counts) / np.maximum(np.repeat(counts, counts) - 1, 1))[:, None]
    points = starts[line] * (1 - part) + ends[line] * part
    high, wide = canvas.depth.shape
    x, y = np.floor(points[:, 0]).astype(np.int64), np.floor(points[:, 1]).astype(np.int64)
    inside = (x >= width) & (x < wide - width) & (y >= width) & (y < high - width) & (points[:, 2] <= cut_at_mm)
    x, y, depth = x[inside], y[inside], points[inside, 2]
    seen = depth >= _nearest_around(canvas.depth, x, y) - slack_mm
    for step_y in range(width):
        for step_x in range(width):
            canvas.shade[y[seen] + step_y, x[seen] + step_x] = 0.0
            where = canvas.depth[y[seen] + step_y, x[seen] + step_x]
            canvas.depth[y[seen] + step_y, x[seen] + step_x] = np.maximum(where, depth[seen])


def _nearest_around(depth: Floats, x: Ints, y: Ints) -> Floats:
    """The least depth of the 3 x 3 pixels round each place: a line on a rim is not hidden by the rim's own faces."""
    around = [depth[y + dy, x + dx] for dy in (-1, 0, 1) for dx in (-1, 0, 1)]
    least: Floats = np.min(around, axis=0)
    return least


def _facing(corners: Floats, shades: Floats) -> tuple[Floats, Floats]:
    """Only the triangles that turn their outside to the viewer (clockwise in pixels, whose y points down)."""
    a, b = corners[:, 1, :2] - corners[:, 0, :2], corners[:, 2, :2] - corners[:, 0, :2]
    front = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0] < 0
    return corners[front], shades[front]


def _steps(counts: Ints) -> Ints:
    """0, 1, .. counts[0]-1, 0, 1, .. counts[1]-1, and so on."""
    first = np.cumsum(counts) - counts
    return np.arange(int(counts.sum())) - np.repeat(first, counts)


def _rows(corners: Floats, high: int) -> tuple[Ints, Ints]:
    """Every (row, triangle) pair whose row centre the triangle may cross."""
    y = corners[:, :, 1]
    first = np.clip(np.ceil(y.min(axis=1) - 0.5), 0, high).astype(np.int64)
    last = np.clip(np.floor(y.max(axis=1) - 0.5), -1, high - 1).astype(np.int64)
    counts = np.maximum(last - first + 1, 0)
    triangle = np.repeat(np.arange(len(corners)), counts)
    return first[triangle] + _steps(counts), triangle


def _span(corners: Floats, row: Ints, triangle: Ints, wide: int) -> tuple[Ints, Ints]:
    """First pixel and the pixel after the last whose centre lies inside the triangle on that row."""
    centre = row + 0.5
    left, right = np.full(len(row), np.inf), np.full(len(row), -np.inf)
    for i, j in ((0, 1), (1, 2), (2, 0)):
        (xa, ya), (xb, yb) = corners[triangle, i, :2].T, corners[triangle, j, :2].T
        crosses = (np.minimum(ya, yb) <= centre) & (centre <= np.maximum(ya, yb)) & (ya != yb)
        with np.errstate(divide="ignore", invalid="ignore"):
            x = xa + (centre - ya) * (xb - xa) / (yb - ya)
        left = np.where(crosses, np.minimum(left, x), left)
        right = np.where(crosses, np.maximum(right, x), right)
    hit = right >= left
    first = np.clip(np.ceil(np.where(hit, left, 0.0) - 0.5), 0, wide).astype(np.int64)
    after = np.clip(np.ceil(np.where(hit, right, 0.0) - 0.5), 0, wide).astype(np.int64)
    return first, after


class _flat_field:  # noqa: N801  # used as a function
    """A value given at the three corners of each triangle, linear in between and never beyond the corners' own."""

    def __init__(self, corners: Floats, values: Floats) -> None:
        (x0, y0), (x1, y1), (x2, y2) = (corners[:, k, :2].T for k in range(3))
        v0, v1, v2 = values.T
        area = (x1 - x0) * (y2 - y0) - (x2 - x0) * (y1 - y0)
        self.by_x = ((v1 - v0) * (y2 - y0) - (v2 - v0) * (y1 - y0)) / area
        self.by_y = ((v2 - v0) * (x1 - x0) - (v1 - v0) * (x2 - x0)) / area
        self.start = v0 - self.by_x * x0 - self.by_y * y0
        self.least, self.most = values.min(axis=1), values.max(axis=1)

    def __call__(self, x: Ints, y: Ints, triangle: Ints) -> Floats:
        value = self.start[triangle] + self.by_x[triangle] * (x + 0.5) + self.by_y[triangle] * (y + 0.5)
        clipped: Floats = np.clip(value, self.least[triangle], self.most[triangle])
        return clipped
