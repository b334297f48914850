"""Whether a body, or the halves that it would give, fits the bed in some pose: by points, before anything is parted."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Frame, Vec
from fitwright.part import Body
from fitwright.parts import seam_bolts as bolts
from fitwright.parts.parting import GLUE_GAP_MM, Whole
from fitwright.printing.plan import best_turn, outline
from fitwright.spec.models import HalvesLap, Printer
from fitwright.tessellation import body_facets

Points = NDArray[np.float64]

MARGIN_MM = 0.5
"""Left to the bed's edge: the points are a sample."""
STEP_MM = 2.0
"""Places across that are tried lie this far apart."""


def body_points(body: Body) -> Points:
    """The corners of a body's mesh."""
    return np.asarray(body_facets(body).vertices, dtype=np.float64)


def fits(points: Points, downs: Sequence[Vec], printer: Printer, margin_mm: float = 0.0) -> bool:
    """Whether these points fit the bed with one of the directions down."""
    return any(_fits_so(points, down, printer, margin_mm) for down in downs)


def _fits_so(points: Points, down: Vec, printer: Printer, margin_mm: float) -> bool:
    z = -np.asarray(down, dtype=np.float64)
    x = np.cross(np.eye(3)[np.abs(z).argmin()], z)
    x /= np.linalg.norm(x)
    laid = points @ np.array([x, np.cross(z, x), z]).T
    if float(np.ptp(laid[:, 2])) > printer.bed_z_mm - margin_mm + 1e-6:
        return False
    return best_turn(outline(laid), printer.bed_x_mm - margin_mm, printer.bed_y_mm - margin_mm).fits


def halves_fit(points: Points, seam: Points, frame: Frame, downs: tuple[Sequence[Vec], ...], printer: Printer) -> bool:
    """Whether both halves of `points` parted at the plane, each with the points of the seam's lips, fit."""
    side = (points - np.array(frame.origin)) @ np.array(frame.inward)
    both = (points[side <= 0.0], points[side >= 0.0])
    return all(
        fits(np.concatenate([mine, seam]), ways, printer, MARGIN_MM) for mine, ways in zip(both, downs, strict=True)
    )


def lip_ring(whole: Whole, frame: Frame, radius_mm: float) -> Points:
    """Points of a lip across, taken as round and as far out as the part is there."""
    turns = np.linspace(0.0, 2.0 * np.pi, 48, endpoint=False)
    r = radius_mm + lip_width_mm(whole)
    right, up, n = np.array(frame.right), np.array(frame.up), np.array(frame.inward)
    ring = np.array(frame.origin) + r * (np.cos(turns)[:, None] * right + np.sin(turns)[:, None] * up)
    return np.concatenate([ring - whole.lip_mm * n, ring + whole.lip_mm * n])


def lip_width_mm(whole: Whole) -> float:
    """How far a lip stands out beyond the skin."""
    joint = whole.joint
    if isinstance(joint, HalvesLap):
        return GLUE_GAP_MM + whole.wall_mm + 1.0
    return bolts.axis_from_skin_mm(joint) + bolts.edge_mm(whole, joint)


def from_the_middle(low: float, high: float) -> Iterator[float]:
    """Places from the middle of a range outwards."""
    middle = (low + high) / 2
    yield middle
    for k in itertools.count(1):
        if k * STEP_MM > (high - low) / 2:
            return
        yield middle + k * STEP_MM
        yield middle - k * STEP_MM
