"""The frame's numbers: yoke on the gate, nose plate at the cylinder, and what carries the thrust between them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fitwright.data.fasteners import fastener
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.physics.slide.chain import Ends
from fitwright.spec.models import GateBracketSpec

STAND_OFF_MM = 0.5
"""Yoke to body edge."""
BLADE_ROOM_MM = 1.5
"""Beside the blade, each side, where it goes through the yoke and between the rails."""
COUPLING_ROOM_MM = 2.0
BAR_MM = 6.0
"""The yoke's upper and lower bar."""
EAR_MM = 6.0
EAR_EDGE = 1.5
"""Edge distance of a screw in a print, in diameters."""
RAIL_WIDE_MM, RAIL_HIGH_MM = 10.0, 30.0
ROD = "M8"
FLOOR_MM = 6.0
"""Material under a captive nut."""
SPANNER_WIDE = 2.1
"""An open spanner's head is about so many times as wide as its size (common practice)."""
WEB_MM, RIB_MM = 8.0, 6.0


@dataclass(frozen=True)
class FramePlan:
    """All in mm. `kind` is never `auto`: who builds decides. `rail_x`: the rails' or rods' axes at x = +-rail_x, z = 0.

    The yoke is a plate from `yoke_y0` to `yoke_y1` with a window `window_wide` x `window_high` for blade and coupling.
    The nose plate's web lies from `nose_face - web` to `nose_face`, its ribs `rib_long` further in, `rib_gap`
    apart.
    """

    kind: Literal["one_piece", "rods", "board"]
    rail_x: float
    rod: str
    rod_d_mm: float
    rod_nut_af_mm: float
    rod_nut_m_mm: float
    window_wide: float
    window_high: float
    yoke_y0: float
    yoke_y1: float
    yoke_wide: float
    yoke_high: float
    ear_y: float
    """How far the ears reach inwards over the body (negative y)."""
    web: float
    rib: float
    rib_long: float
    rib_gap: float
    nose_high: float
    nose_wide: float
    nose_face: float


def frame_plan(spec: GateBracketSpec, at: Ends, coupling: CouplingPlan) -> FramePlan:
    """The numbers of the frame that the YAML names; `auto` is taken as rods until one_piece is proved to fit."""
    gate = spec.gate
    kind: Literal["one_piece", "rods", "board"] = "rods" if spec.frame == "auto" else spec.frame
    row = fastener(spec.rod_size or ROD)
    af, m = row.nut_af_mm or 0.0, row.nut_m_mm or 0.0
    corner = af / math.sqrt(3.0)
    window_wide = gate.blade.width_mm + 2 * BLADE_ROOM_MM
    window_high = coupling.high_mm + 2 * COUPLING_ROOM_MM
    y0 = STAND_OFF_MM
    y1 = y0 + m + 0.5 + FLOOR_MM
    rail_x = window_wide / 2 + 3.0 + (corner if kind == "rods" else RAIL_WIDE_MM / 2 - 3.0)
    outer = rail_x + (corner + 3.5 if kind == "rods" else RAIL_WIDE_MM / 2)
    mount = gate.mount
    if mount.screws is not None:
        size = fastener(mount.screws.size)
        ear_y = -(mount.screws.from_edge_mm + EAR_EDGE * size.major_mm)
        outer = max(outer, mount.screws.across_mm / 2 + EAR_EDGE * size.major_mm)
    else:
        ear_y = -24.0
        outer = max(outer, gate.body.width_mm / 2 + 2 * fastener(mount.size).major_mm + 4.0)
    high = max(window_high + 2 * BAR_MM, gate.body.thickness_mm + 2 * abs(gate.blade.plane_mm) + 2 * EAR_MM)
    nut_af = spec.cylinder.nose_nut_af_mm or 0.0
    gap = max(SPANNER_WIDE * nut_af + 4.0, spec.cylinder.body_mm + 6.0)
    return FramePlan(
        kind=kind,
        rail_x=rail_x,
        rod=row.name,
        rod_d_mm=row.major_mm,
        rod_nut_af_mm=af,
        rod_nut_m_mm=m,
        window_wide=window_wide,
        window_high=window_high,
        yoke_y0=y0,
        yoke_y1=y1,
        yoke_wide=2 * outer,
        yoke_high=high,
        ear_y=ear_y,
        web=WEB_MM,
        rib=RIB_MM,
        rib_long=14.0,
        rib_gap=gap,
        nose_high=gap + 2 * RIB_MM,
        nose_wide=2 * (rail_x + (corner + 3.5 if kind == "rods" else RAIL_WIDE_MM / 2)),
        nose_face=at.nose_face_mm,
    )
