"""The picture of a part that moves: both ends of its movement, from outside and cut along the thrust line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

import numpy as np
from PIL import Image

from fitwright.report.pen import FINER, Pen
from fitwright.report.section_sheet import PAPER, Area, draw_section
from fitwright.report.shaded import INK, QUIET, draw_frame, draw_shaded
from fitwright.report.surface import Surface

SIZE = (1600, 1180)
_ROWS = ((88, 612), (640, 1164))
_SHADED, _SECTION = (16, 640), (660, 1584)
TOWARDS = (0.75, -0.35, 0.75)
End = Literal["begin", "end"]


def motion_sheet(bodies: Sequence[Surface], bought: Sequence[Surface], words: dict[str, Any]) -> Image.Image:
    """The sheet at its final size; `words["motion"]` says what moves and how far."""
    image = Image.new("RGB", (SIZE[0] * FINER, SIZE[1] * FINER), PAPER)
    pen, motion = Pen(image), words["motion"]
    pen.text((24, 46), words["title"], 30, INK)
    without = "; from outside without its guard" if any(motion["covers"]) else ""
    pen.text((24, 74), f"{words['subtitle']}: printed brown, bought blue{without}", 17, QUIET)
    at_ends = [_placed(bodies, bought, motion, end) for end in ("begin", "end")]
    shown = np.concatenate([one.vertices_mm for printed, others in at_ends for one in (*printed, *others)])
    for end, name, (top, bottom), (printed, others) in zip(
        ("begin", "end"), motion["names"], _ROWS, at_ends, strict=True
    ):
        area = Area(_SHADED[0], top + 20, _SHADED[1], bottom)
        seen = [one for one, covers in zip(printed, motion["covers"], strict=True) if not covers]
        axes = draw_shaded(image, seen, TOWARDS, area, others, shown)
        draw_frame(pen, axes, (74.0, bottom - 50.0))
        labels = words["labels"] if end == "begin" else []
        section = Area(_SECTION[0], top, _SECTION[1], bottom)
        draw_section(image, printed, {**words, "labels": labels, "drawn_at": end}, section, others, shown)
        pen.text((_SHADED[0] + 8, top + 22), name, 24, INK)
    return image.reduce(FINER)


def _placed(
    bodies: Sequence[Surface], bought: Sequence[Surface], motion: dict[str, Any], end: End
) -> tuple[list[Surface], list[Surface]]:
    """Everything where it is at this end of the movement."""
    shift = np.array(motion["shift"], dtype=float) * (1.0 if end == "end" else 0.0)
    printed = [
        _shifted(one, shift if moves else 0 * shift) for one, moves in zip(bodies, motion["moving"], strict=True)
    ]
    others = [
        _shifted(one, shift if moves else 0 * shift)
        for one, moves, only in zip(bought, motion["bought_moving"], motion["bought_only_at"], strict=True)
        if only in ("", end)
    ]
    return printed, others


def _shifted(one: Surface, shift: np.ndarray[Any, np.dtype[np.float64]]) -> Surface:
    return Surface(one.vertices_mm + shift, one.faces, one.normals, one.edge_ends, one.edge_faces)
