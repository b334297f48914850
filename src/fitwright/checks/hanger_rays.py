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


@dataclass(frozen=True)
class Opening:
    """The clear width between two lips [mm]: least of all lines across; how far out (from where it was meant) it is."""

    wide_mm: float
    out_mm: float


LIPS_MM, COARSE_MM, FINE_MM, ALONG_LIPS = 12.0, 0.4, 0.02, 5


def opening(
    mesh: trimesh.Trimesh, at: Numbers, across: Numbers, out: Numbers, half_mm: float, in_mm: float = LIPS_MM
) -> Opening | None:
    """Least clear width of an opening round `at`, over lines along `across`; None where none meets both lips.

    Lines stand up to LIPS_MM further out than `at` and no more than `in_mm` further in (beyond the middle of what is
    held lies its other side), and over +-`half_mm` along the lips. A line whose middle lies in the material tells an
    opening that is closed: width 0.
    """
    along = np.cross(across, out)
    best: Opening | None = None
    for step, middle, reach in ((COARSE_MM, 0.0, LIPS_MM), (FINE_MM, None, 2 * COARSE_MM)):
        centre = middle if middle is not None else (best.out_mm if best else 0.0)
        outs = np.maximum(centre + np.arange(-reach, reach + step / 2, step), -in_mm)
        for b in np.linspace(-half_mm, half_mm, ALONG_LIPS):
            widths = _widths(mesh, at + b * along + outs[:, None] * out, across)
            least = int(np.argmin(widths))
            if np.isfinite(widths[least]) and (best is None or widths[least] < best.wide_mm):
                best = Opening(float(widths[least]), float(outs[least]))
    return best


def _widths(mesh: trimesh.Trimesh, starts: Numbers, across: Numbers) -> Numbers:
    """Clear width at each start; inf where a side is open."""
    both = np.concatenate([starts, starts])
    ways = np.concatenate([np.tile(across, (len(starts), 1)), np.tile(-across, (len(starts), 1))])
    first, _ = two_hits(mesh, both, ways)
    wide = first[: len(starts)] + first[len(starts) :]
    met = np.isfinite(wide)
    wide[met & mesh.contains(starts)] = 0.0
    return wide
