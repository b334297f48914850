"""The yoke's clamp: ears that reach over the body's sides, squeezed by screws that pass beside it; friction holds.

The screws stand so far from the plate that a small share of their preload bends the ears down to the body.
"""

from __future__ import annotations

from fitwright.data.fasteners import fastener
from fitwright.parts.compensation import placed, small_hole
from fitwright.parts.gate.frame_plan import EAR_EDGE
from fitwright.parts.gate.yoke_ears import CLEAR_MM, Ear, beside_stub, ear_half_mm, ear_name, mirrored
from fitwright.spec.models import GateBracketSpec

GRIP_MM, GRIP_CORE_MM = 18.0, 10.0
"""An ear reaches so far over the body's face, and keeps so much of it beside an obstacle."""
LEAST_LONG_MM, APART = 20.0, 3.2
"""Plate to the nearest screw, at least; from one screw to the next on the same side, in diameters."""
HAND_NM, NUT_FACTOR = 0.5, 0.2
"""Torque of a short screwdriver or key held back on plastic, and preload = torque / (factor x diameter): common
practice, no source."""
KEPT = 0.5
"""Share of a preload that plastic under a washer keeps over the months (common practice, no source)."""
GRIP_MU = 0.25
"""Printed plastic on a gate's body, dusty (common practice, no source)."""
BENDS_SHARE = 0.1
"""Of the preload, spent on bending the ears down to the body."""


def clamp_ears(
    spec: GateBracketSpec, thick_mm: float, gap_mm: float, yoke_y0: float, clear_x: float, screws_each_side: int
) -> list[Ear]:
    """Four ears, `thick_mm` thick and built `gap_mm` clear of the body's faces; holes begin beyond `clear_x`."""
    row = fastener(spec.gate.mount.size)
    edge, x = placed(spec.gate.body.width_mm / 2, spec.printer), _screw_x(spec, clear_x)
    outer = x + ear_half_mm(row)
    first = yoke_y0 - screw_out_mm(spec, outer - edge + GRIP_MM, thick_mm, gap_mm)
    ys = [first - k * APART * row.major_mm for k in range(screws_each_side)]
    tip = ys[-1] - EAR_EDGE * row.major_mm
    found = []
    for side, up in ((side, up) for up in (True, False) for side in (-1.0, 1.0)):
        wide, core = mirrored((edge - GRIP_MM, outer), side), mirrored((edge - GRIP_CORE_MM, outer), side)
        ear = Ear(ear_name(up, side), wide, tip, core, tuple((side * x, y) for y in ys), up)
        found.append(beside_stub(ear, spec, "gate.clamp"))
    return found


def _screw_x(spec: GateBracketSpec, clear_x: float) -> float:
    """x of the screws, as modelled: they pass beside the body, and beyond the way of the rods' nuts."""
    d = small_hole(fastener(spec.gate.mount.size).hole_medium_mm, spec.printer)
    return max(placed(spec.gate.body.width_mm / 2, spec.printer) + CLEAR_MM, clear_x) + d / 2


def preload_n(size: str) -> float:
    """Of one hand-tight screw [N].

    >>> round(preload_n("M5"))
    500
    """
    return HAND_NM * 1000.0 / (NUT_FACTOR * fastener(size).major_mm)


def bends_n(modulus_mpa: float, wide_mm: float, thick_mm: float, long_mm: float, gap_mm: float) -> float:
    """What bends one ear down by its gap, as a cantilever [N]: 3 EI gap / L^3.

    >>> round(bends_n(2000.0, 30.0, 6.0, 30.0, 0.2), 1)
    24.0
    """
    return 3 * modulus_mpa * wide_mm * thick_mm**3 / 12 * gap_mm / long_mm**3


def screw_out_mm(spec: GateBracketSpec, wide_mm: float, thick_mm: float, gap_mm: float) -> float:
    """From the plate to the nearest screw: bending the ear down takes no more than BENDS_SHARE of the preload."""
    spent = BENDS_SHARE * preload_n(spec.gate.mount.size)
    once = bends_n(spec.material.modulus_mpa, wide_mm, thick_mm, 1.0, gap_mm)
    return max(LEAST_LONG_MM, float((once / spent) ** (1 / 3)))


def holds_n(preload: float, bends: float) -> float:
    """What one screw holds by friction on both faces [N], after the plastic has crept.

    >>> holds_n(500.0, 50.0)
    100.0
    """
    return 2 * GRIP_MU * max(0.0, KEPT * preload - bends)
