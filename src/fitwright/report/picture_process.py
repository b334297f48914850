"""`python -m fitwright.report.picture_process job.npz out.png`: a sheet with a shaded view and a section.

With `faces.pickle out.pdf` behind these, then the paper template of these faces.
"""

from __future__ import annotations

import json
import pickle
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from PIL import Image

from fitwright.report.motion_sheet import motion_sheet
from fitwright.report.pen import FINER, Pen
from fitwright.report.section_sheet import PAPER, Area, draw_section
from fitwright.report.shaded import (
    FROM_ABOVE,
    FROM_AN_END,
    FROM_ITS_LEFT,
    INK,
    QUIET,
    draw_frame,
    draw_legend,
    draw_shaded,
)
from fitwright.report.surface import Surface, surface

SIZE = (1600, 900)
SHADED = Area(16, 96, 580, 872)
SECTION = Area(600, 88, 1584, 884)
LEGEND = (608.0, 30.0)


TOUCH_MM = 0.5
"""What lies so near beside the part touches it."""
_LARGER = 1.2
"""What is so many times as long as the part (a joist, a wall) would hide it from outside."""


@dataclass(frozen=True)
class Job:
    """The meshes to draw and the words to say."""

    bodies: tuple[Surface, ...]
    words: dict[str, Any]
    bought: tuple[Surface, ...] = ()


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
        count = sum(name.startswith("bought_faces_") for name in data.files)
        bought = tuple(surface(data[f"bought_vertices_{n}"], data[f"bought_faces_{n}"]) for n in range(count))
    return Job(bodies, words, bought)


def sheet(job: Job) -> Image.Image:
    """The whole picture at its final size."""
    if job.words.get("motion"):
        return motion_sheet(job.bodies, job.bought, job.words)
    image = Image.new("RGB", (SIZE[0] * FINER, SIZE[1] * FINER), PAPER)
    pen = Pen(image)
    pen.text((24, 46), job.words["title"], 30, INK)
    if job.bought:
        pen.text((24, 74), f"{job.words['subtitle']}: printed brown, bought blue", 17, QUIET)
    else:
        pen.text((24, 74), job.words["subtitle"], 17, QUIET)
    carried = [one for one, is_carried in zip(job.bought, job.words["carried"], strict=True) if is_carried]
    holding = [one for one, is_carried in zip(job.bought, job.words["carried"], strict=True) if not is_carried]
    holding = [one for one in holding if _long(one) < _LARGER * _long(*job.bodies)]
    towards = FROM_ABOVE if job.words.get("from_above") else _towards(job.bodies, holding)
    draw_frame(Pen(image), draw_shaded(image, job.bodies, towards, SHADED, holding, stock=job.words["stock"]))
    draw_legend(pen, job.words["legend"], LEGEND)
    shown = np.concatenate([one.vertices_mm for one in (*job.bodies, *carried)])
    draw_section(image, job.bodies, job.words, SECTION, job.bought, shown)
    return image.reduce(FINER)


def _towards(bodies: Sequence[Surface], holding: Sequence[Surface]) -> tuple[float, float, float]:
    """Seen from its right; from its left where a wall or joist stands on its right and would hide it."""
    right = max(float(one.vertices_mm[:, 0].max()) for one in bodies)
    hidden = any(float(one.vertices_mm[:, 0].min()) > right - TOUCH_MM for one in holding)
    return FROM_ITS_LEFT if hidden else FROM_AN_END


def _long(*shapes: Surface) -> float:
    """Diagonal [mm] of the box round the shapes."""
    points = np.concatenate([one.vertices_mm for one in shapes])
    return float(np.linalg.norm(np.ptp(points, axis=0)))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
