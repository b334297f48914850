"""A blade without a hole: numbers of a jaw that clamps it by friction, pressed by two screws beyond its edge.

The lower jaw is of one piece with the coupling, the upper one a plate of its own: a lever with its heel on the coupling
and its toe on the blade, the screws between the two, beside the box round the rod's nut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.errors import RefusalError
from fitwright.parts.gate.refusals import or_more
from fitwright.physics.slide import coupling as strength
from fitwright.spec.gate_coupling import pin_loose_mm
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

SCREWS = ("M4", "M5", "M6", "M8")
TOE_MM = 10.0
"""How far jaw and blade lie on each other."""
HEEL_MM = 3.0
"""Width of the heel's ledge."""
BITE_MM = 0.3
"""The heel's ledge stands so much lower than the blade's upper face, so that the toe presses first."""
CLEAR_MM = 0.5
"""Jaw plate to box, and between jaw plate and coupling beside the heel."""
TIP_CLEAR_MM = 1.0
LUG_MM = 5.0
"""Material beside a screw's washer."""
EDGE = 1.5
"""Edge distance of a screw in a print, in diameters (common practice, no source)."""
LEAST_MM = 8.0
"""Least thickness of either jaw."""
_LENGTHS_MM = (16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100)


@dataclass(frozen=True)
class JawPlan:
    """All in mm, E = blade edge, y as in the part, shut as measured.

    `screw_x`, `screw_y`: the two screws at +-x. `over_mm`, `under_mm`: how far the whole stands above and below the
    thrust line, heads and nuts counted. `low_mm`: the coupling's underside below it; `box_top_mm`: the box's top.
    """

    screw: str
    screw_d_mm: float
    hole_mm: float
    washer_mm: float
    screw_long_mm: float
    screw_x: float
    screw_y: float
    tip_y: float
    heel_y: float
    wide_mm: float
    box_wide_mm: float
    thick_mm: float
    low_mm: float
    box_top_mm: float
    over_mm: float
    under_mm: float
    preload_n: float
    torque_nm: float
    holds_n: float
    need_n: float
    hole_for_pin_mm: float
    """What to drill the blade to for the smallest pin that is worth it (M4)."""


def jaw_plan(spec: GateBracketSpec, edge: float, box_wide: float, pull_n: float, box: tuple[float, float]) -> JawPlan:
    """The smallest screws that hold the stalled pull, and twice the drag where it was measured.

    `box`: how far the box round the nut stands below and above the thrust line. RefusalError where none holds, where
    the blade is too narrow, or does not stick out far enough.
    """
    need = max(pull_n, 2.0 * (spec.gate.drag_n or 0.0))
    _sticks_out(spec, edge)
    best = 0.0
    for name in SCREWS:
        jaw = _with_screw(spec, fastener(name), edge, box_wide, need, box)
        best = max(best, jaw.holds_n)
        if jaw.holds_n >= need and jaw.wide_mm <= spec.gate.blade.width_mm:
            return jaw
    why = f"no clamp holds a blade without a hole against {need:.0f} N (up to {best:.0f} N by friction)"
    hole = or_more(4.0 + pin_loose_mm(spec.gate.blade), spec.units)
    raise RefusalError("gate.blade.hole", "none", f"a hole of {hole} for a pin, drilled near the edge", why)


def _sticks_out(spec: GateBracketSpec, edge: float) -> None:
    need = TOE_MM + TIP_CLEAR_MM
    if edge >= need:
        return
    why = "there is not enough of the blade to clamp: the jaw would reach into the gate's body"
    say = spec.units
    raise RefusalError("gate.sticks_out.shut", format_length(edge, say), or_more(need, say), why)


def _with_screw(
    spec: GateBracketSpec, row: FastenerRow, edge: float, box_wide: float, need: float, box: tuple[float, float]
) -> JawPlan:
    material, half = spec.material, spec.gate.blade.thickness_mm / 2
    washer, h = row.washer_d2_mm or 2 * row.major_mm, row.washer_h_mm or 1.0
    lug = washer + 2 * LUG_MM
    screw_y = edge + max(washer / 2 + 1.0, EDGE * row.major_mm)
    heel_y = screw_y + max(washer / 2 + HEEL_MM, EDGE * row.major_mm + 0.2)
    to_heel, to_toe = heel_y - HEEL_MM / 2 - screw_y, screw_y - (edge - TOE_MM / 2)
    preload = strength.washer_preload_n(washer, row.hole_medium_mm, material.strength_mpa)
    holds = strength.jaw_holds_n(preload, 2, to_heel, to_toe)
    pressed = holds / (2 * strength.FRICTION)
    net = 2 * (lug - row.hole_medium_mm)
    stress = strength.sustained_mpa(material.strength_mpa)
    thick = max(LEAST_MM, math.ceil(2 * math.sqrt(6 * pressed * to_toe / (net * stress))) / 2)
    low = max(thick + half, box[0])
    nut_m = row.nut_m_mm or row.major_mm
    grip = low + half + thick + 2 * h + nut_m + (row.pitch_mm or 1.0)
    long = next((float(length) for length in _LENGTHS_MM if length >= grip), grip)
    return JawPlan(
        screw=row.name,
        screw_d_mm=row.major_mm,
        hole_mm=row.hole_medium_mm,
        washer_mm=washer,
        screw_long_mm=long,
        screw_x=box_wide / 2 + CLEAR_MM + lug / 2,
        screw_y=screw_y,
        tip_y=edge - TOE_MM,
        heel_y=heel_y,
        wide_mm=box_wide + 2 * (CLEAR_MM + lug),
        box_wide_mm=box_wide,
        thick_mm=thick,
        low_mm=low,
        box_top_mm=box[1],
        over_mm=half + thick + h + (row.head_k_mm or row.major_mm),
        under_mm=long - h - half - thick,
        preload_n=preload,
        torque_nm=0.2 * preload * row.major_mm / 1000,
        holds_n=holds,
        need_n=need,
        hole_for_pin_mm=4.0 + pin_loose_mm(spec.gate.blade),
    )
