"""`python -m fitwright.report.picture_process job.npz out.png`: a sheet with a shaded view and a section.

With `faces.pickle out.pdf` behind these, then the paper template of these faces.
"""

from __future__ import annotations

import json
import pickle
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from fitwright.report.pen import FINER, Pen
from fitwright.report.raster import Canvas, Floats, View, colours, draw_lines, draw_triangles
from fitwright.report.section_sheet import PAPER, Area, draw_section
from fitwright.report.surface import Surface, corner_normals, surface

SIZE = (1600, 900)
SHADED = Area(16, 96, 580, 872)
SECTION = Area(600, 88, 1584, 884)
INK, QUIET = (38, 48, 58), (96, 106, 114)


@dataclass(frozen=True)
class Job:
    """The meshes to draw and the words to say."""

    bodies: tuple[Surface, ...]
    words: dict[str, Any]


def main(arguments: list[str]) -> int:
    """Draw the job of the first argument into the file of the second; of the third, if any, into the fourth."""
    job = load(Path(arguments[0]))
    picture = Path(arguments[1])
    unfinished = picture.with_suffix(".unfinished")
    sheet(job).save(unfinished, format="PNG", optimize=False)
    unfinished.replace(picture)
    if len(arguments) > 2:
        draw_template(Path(arguments[2]), Path(arguments[3]))
    return 0


def draw_template(faces: Path, pdf: Path) -> None:
    """The 1:1 template of the title, faces and units that `picture.drawing` wrote."""
    from fitwright.export.templates import template_pdf

    unfinished = pdf.with_suffix(".unfinished")
    unfinished.write_bytes(template_pdf(*pickle.loads(faces.read_bytes())))
    unfinished.replace(pdf)


def load(path: Path) -> Job:
    """Read the arrays and words that `picture.drawing` wrote."""
    with np.load(path, allow_pickle=False) as data:
        words = json.loads(str(data["words"]))
        count = sum(name.startswith("faces_") for name in data.files)
        bodies = tuple(surface(data[f"vertices_{n}"], data[f"faces_{n}"]) for n in range(count))
    return Job(bodies, words)


def sheet(job: Job) -> Image.Image:
    """The whole picture at its final size."""
    image = Image.new("RGB", (SIZE[0] * FINER, SIZE[1] * FINER), PAPER)
    pen = Pen(image)
    pen.text((24, 46), job.words["title"], 30, INK)
    pen.text((24, 74), job.words["subtitle"], 17, QUIET)
    draw_shaded(image, job)
    draw_section(image, job.bodies, job.words, SECTION)
    return image.reduce(FINER)


def draw_shaded(image: Image.Image, job: Job) -> None:
    """The outside, seen from end_a's side, somewhat from the right and above; what lies on a bed more from above."""
    towards = np.array([0.25, -0.6, 0.9] if job.words.get("from_above") else [0.62, -0.66, 0.42])
    towards /= np.linalg.norm(towards)
    right = np.cross([0.0, 0.0, 1.0], towards)
    right /= np.linalg.norm(right)
    axes = np.array([right, np.cross(towards, right), towards])
    points = np.concatenate([body.vertices_mm for body in job.bodies]) @ axes.T
    low, high = points.min(axis=0), points.max(axis=0)
    size = (SHADED.wide * FINER, SHADED.high * FINER)
    scale = 0.92 * min(size[0] / (high[0] - low[0]), size[1] / (high[1] - low[1]))
    view = View(axes, scale, ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2), size)
    canvas = Canvas.blank(size)
    for body in job.bodies:
        corners = view.project(body.vertices_mm)[body.faces]
        draw_triangles(canvas, corners, brightness(corner_normals(body) @ axes.T))
    for body in job.bodies:
        lined = body.sharp | body.turning(towards)
        ends = view.project(body.vertices_mm)[body.edge_ends[lined]]
        draw_lines(canvas, ends[:, 0], ends[:, 1], 3.0 / scale, FINER)
    shown = colours(canvas, PAPER, INK, (52, 66, 72), (214, 226, 222))
    image.paste(shown, (SHADED.left * FINER, SHADED.top * FINER))
    draw_frame(Pen(image), axes)


def draw_frame(pen: Pen, axes: Floats) -> None:
    """The three directions of all measurements, as they lie in the shaded view."""
    start = (84.0, 812.0)
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


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
