"""Rays on the finished mesh of a hanger: out of a bore's axis, and between the lips of its opening."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import trimesh
from numpy.typing import NDArray

from fitwright.checks.hardware_rays import two_hits
from fitwright.frame import Frame

Numbers = NDArray[np.float64]
OFF_DEG, OFF_MM = 0.1373, 0.0119
"""Rays go so much beside round numbers: there the edges of facets lie."""


@dataclass(frozen=True)
class Swept:
    """Rays square to an axis: `first`, `second` crossing [mm from the axis] by place along it and angle."""

    s_mm: Numbers
    deg: Numbers
    first: Numbers
    second: Numbers


def swept(mesh: trimesh.Trimesh, frame: Frame, s_mm: Numbers, deg: Numbers) -> Swept:
    """Rays from the frame's axis at each place `s_mm` and each angle, clockwise from `up` seen along `inward`."""
    origin, along, right, up = (np.array(v, dtype=float) for v in (frame.origin, frame.inward, frame.right, frame.up))
    s_mm, deg = s_mm + OFF_MM, deg + OFF_DEG
    rad = np.radians(deg)
    ways = np.sin(rad)[:, None] * right + np.cos(rad)[:, None] * up
    starts = np.repeat(origin + s_mm[:, None] * along, len(deg), axis=0)
    first, second = two_hits(mesh, starts, np.tile(ways, (len(s_mm), 1)))
    shape = len(s_mm), len(deg)
    return Swept(s_mm, deg, first.reshape(shape), second.reshape(shape))
