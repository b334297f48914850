"""The coupling's numbers: a fork over the blade's edge, a pin through its hole, a captive nut for the rod, a jam nut.

Along y, from the gate outwards, E = the blade's edge (shut as measured):
fork tip .. pin .. | floor E + FLOOR | web | nut pocket from E + WEB | wall | back face | jam nut | shoulder E + c.
"""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.errors import RefusalError
from fitwright.parts.gate.bought import full_nut, thin_nut
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

FLOOR_MM = 0.2
"""Blade edge to the fork's floor with the play in the middle: pushing, the floor drives the blade."""
PLAY_MM = 0.4
"""Lost motion along the thrust line: enough not to bind, too little to hammer (common practice, no source)."""
ACROSS_MM = 1.5
"""How far the pin may wander across the blade, so that a cylinder that stands a little to the side does not bind it."""
SLOT_MM = 0.4
"""The fork's slot is so much wider than the blade is thick."""
WEB_MM = 4.0
"""Blade edge to the nut's pocket."""
NUT_ROOM_MM, JAM_ROOM_MM = 0.4, 0.4
JAW_MM = 5.0
"""Least thickness of each jaw of the fork."""
AROUND_MM = 4.0
"""Material round the nut's pocket and beyond the pin."""
PINS = ("M3", "M4", "M5", "M6", "M8")


@dataclass(frozen=True)
class CouplingPlan:
    """All in mm; y as in the part, shut as measured. `pin` None: the blade has no hole and is clamped."""

    long_mm: float
    """Blade edge to rod shoulder (c)."""
    edge_y: float
    tip_y: float
    pin: str | None
    pin_d_mm: float
    pin_y: float
    floor_y: float
    nut_y0: float
    nut_y1: float
    back_y: float
    shoulder_y: float
    wide_mm: float
    high_mm: float
    slot_mm: float
    rod_thread: str
    rod_hole_mm: float
    nut_af_mm: float
    nut_m_mm: float
    jam_m_mm: float


def coupling_plan(spec: GateBracketSpec) -> CouplingPlan:
    """The numbers; RefusalError where the blade does not stick out far enough for a fork."""
    gate, cylinder = spec.gate, spec.cylinder
    blade, edge = gate.blade, gate.shut_mm
    nut, jam = full_nut(cylinder.rod_thread), thin_nut(cylinder.rod_thread)
    long = cylinder.rod_thread_long_mm + WEB_MM
    shoulder = edge + long
    back = shoulder - jam.m_mm - JAM_ROOM_MM
    pin, pin_d, pin_y, tip = _pin(spec)
    af_high = nut.af_mm / 0.8660254 + 2 * AROUND_MM
    high = max(af_high, blade.thickness_mm + SLOT_MM + 2 * JAW_MM)
    wide = max(nut.af_mm + 2 * AROUND_MM + 2.0, pin_d + ACROSS_MM + 4 * AROUND_MM)
    return CouplingPlan(
        long_mm=long,
        edge_y=edge,
        tip_y=tip,
        pin=pin,
        pin_d_mm=pin_d,
        pin_y=pin_y,
        floor_y=edge + FLOOR_MM,
        nut_y0=edge + WEB_MM,
        nut_y1=edge + WEB_MM + nut.m_mm + NUT_ROOM_MM,
        back_y=back,
        shoulder_y=shoulder,
        wide_mm=wide,
        high_mm=high,
        slot_mm=blade.thickness_mm + SLOT_MM,
        rod_thread=cylinder.rod_thread,
        rod_hole_mm=nut.d_mm + 0.5,
        nut_af_mm=nut.af_mm,
        nut_m_mm=nut.m_mm,
        jam_m_mm=jam.m_mm,
    )


def _pin(spec: GateBracketSpec) -> tuple[str | None, float, float, float]:
    """Pin, diameter, y, and the fork's tip: the pin pulls PLAY_MM after the floor has pushed."""
    blade, edge = spec.gate.blade, spec.gate.shut_mm
    if blade.hole_mm is None or blade.hole_to_edge_mm is None:
        return None, 0.0, edge, max(1.0, edge - 16.0)
    name = next((n for n in reversed(PINS) if float(n[1:]) <= blade.hole_mm - 0.05), None)
    if name is None:
        raise RefusalError(
            "gate.blade.hole",
            format_length(blade.hole_mm, spec.units),
            f"{format_length(3.1, spec.units)} or more",
            "no screw goes through it: drill it up, or leave hole out and the blade is clamped",
        )
    d = float(name[1:])
    y = edge - blade.hole_to_edge_mm + (blade.hole_mm - d) / 2 - (PLAY_MM - FLOOR_MM)
    tip = y - d / 2 - AROUND_MM
    if tip < 1.0:
        need = edge + 1.0 - tip
        raise RefusalError(
            "gate.sticks_out.shut",
            format_length(edge, spec.units),
            f"{format_length(need, spec.units)} or more",
            "the fork round the blade's hole would reach into the gate's body",
        )
    return name, d, y, tip
