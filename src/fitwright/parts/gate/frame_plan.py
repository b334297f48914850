"""The frame's numbers: yoke on the gate, nose plate at the cylinder, and what carries the thrust between them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.data.spanners import spanner
from fitwright.errors import DataError, RefusalError
from fitwright.parts.compensation import caught
from fitwright.parts.gate.board_sizes import board_up_mm, foot_deep_mm, leg_wide_mm, tower_ends
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.parts.gate.nose_hold import ClampHold, fitting_reach_mm
from fitwright.parts.gate.nose_plan import NoseEnds, NosePlan, nose_plan, thrust_n
from fitwright.parts.gate.nose_stiffness import LASTING
from fitwright.physics.slide.chain import Ends
from fitwright.physics.slide.frames import LIMIT_DEG, LIMIT_MM, Movement
from fitwright.spec.models import GateBracketSpec

STAND_OFF_MM = 0.5
"""Yoke to body edge; where slotted ears give the setting, after all of it has been used."""
BLADE_ROOM_MM = 1.5
"""Beside the blade, each side, where it goes through the yoke and between the rails."""
COUPLING_ROOM_MM = 2.0
BAR_MM = 6.0
"""The yoke's upper and lower bar."""
EAR_MM = 6.0
EAR_EDGE = 1.5
"""Edge distance of a screw in a print, in diameters."""
EAR_SPARE_MM = 3.0
"""An ear is so much wider, each side of its screw's edge distance."""
RAIL_WIDE_MM, RAIL_HIGH_MM = 8.0, 30.0
ROD = "M8"
FLOOR_MM = 6.0
"""Material under a captive nut."""
RODS_EDGE = 1.25
"""Of a threaded rod, in diameters: it pulls along its axis, its washer must rest on the print, that is all (common
practice, no source)."""
NUT_WALL_MM = 3.0
"""Material beside a captive nut."""

LEAST_SWING_DEG = 40.0
"""A spanner that is turned over each time needs 30, in steps of 5 (common practice, no source)."""

NO_SADDLE = "a saddle's arms stand on bars over the blade, which one piece has not"

Kind = Literal["one_piece", "rods", "board"]


@dataclass(frozen=True)
class FramePlan:
    """All in mm. `kind` is never `auto`: who builds decides. `rail_x`: the rails' or rods' axes at x = +-rail_x, z = 0.

    The yoke is a plate from `yoke_y0` to `yoke_y1` with a window `window_wide` x `window_high` for blade and coupling.
    The nose plate: see `nose_plan.NosePlan`; `web` is what the cylinder bears on, `rib` the front chord.
    """

    kind: Kind
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
    nose_high: float
    nose_wide: float
    nose_face: float
    nose: NosePlan
    rod_hole_mm: float
    rail_wide: float
    frame_why: str = ""
    """Why this frame, in words."""
    board_up: float = 0.0
    """Thrust line above the board; 0: there is none."""


def frame_plan(spec: GateBracketSpec, at: Ends, coupling: CouplingPlan) -> FramePlan:
    """The numbers of the frame; `auto`: one piece where it fits the bed and is stiff enough, else rods.

    RefusalError where no nose plate holds this cylinder.
    """
    if spec.frame != "auto":
        return _frame(spec, at, coupling, spec.frame, "asked for (frame)")
    if spec.layout == "alongside":
        return _frame(spec, at, coupling, "rods", "the cylinder lies alongside")
    try:
        one = _frame(spec, at, coupling, "one_piece", "")
        against = against_one_piece(one, spec)
    except RefusalError as error:
        against = error.why
    if not against:
        return replace(one, frame_why="one piece: it fits the bed and is stiff enough")
    return on_rods(spec, at, coupling, against)


def on_rods(spec: GateBracketSpec, at: Ends, coupling: CouplingPlan, against: str) -> FramePlan:
    """On rods, for what speaks against one piece."""
    return _frame(spec, at, coupling, "rods", f"rods, not one piece: {against}")


def _frame(spec: GateBracketSpec, at: Ends, coupling: CouplingPlan, kind: Kind, why: str) -> FramePlan:
    gate, rods, board = spec.gate, kind != "one_piece", kind == "board"
    row = fastener(spec.rod_size or ROD)
    af, m = row.nut_af_mm or 0.0, row.nut_m_mm or 0.0
    corner = max(af, caught(af, spec.printer)) / math.sqrt(3.0)
    window_wide = gate.blade.width_mm + 2 * BLADE_ROOM_MM
    window_high = coupling.high_mm + 2 * COUPLING_ROOM_MM
    beside = max(NUT_WALL_MM, spec.wall_mm + 0.5)
    round_rod = max(beside + corner, RODS_EDGE * row.major_mm)
    rail_x = window_wide / 2 + (round_rod if rods else RAIL_WIDE_MM / 2)
    if rods:
        rail_x = _beside_screws(spec, af, _spanner_room(spec, af, rail_x))
        rail_x = rail_x if board else max(rail_x, _beside_fitting(spec, af))
    outer = rail_x + (round_rod + 0.5 if rods else RAIL_WIDE_MM / 2)
    y0 = STAND_OFF_MM + (0.0 if rods else spec.setting_mm)
    outer = window_wide / 2 + leg_wide_mm() if board else outer
    wide, ear_y = _yoke_reach(spec, outer)
    high = max(window_high + 2 * BAR_MM, gate.body.thickness_mm + 2 * abs(gate.blade.plane_mm) + 2 * EAR_MM)
    ends = _nose_ends(at, coupling, row, rail_x, rods, spec)
    nose = nose_plan(spec, tower_ends(spec, ends.rod_in_mm, thrust_n(spec), coupling) if board else ends, coupling)
    up = board_up_mm(spec, coupling, nose, high) if board else 0.0
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
        yoke_y1=y0 + (foot_deep_mm(spec, at, up, coupling) if board else m + 0.5 + FLOOR_MM),
        yoke_wide=2 * wide,
        yoke_high=high if rods else max(high, nose.high),
        ear_y=ear_y,
        web=nose.web,
        rib=nose.chord,
        nose_high=nose.high,
        nose_wide=2 * nose.ends.outer_x,
        nose_face=at.nose_face_mm,
        nose=nose,
        rod_hole_mm=row.hole_medium_mm,
        rail_wide=RAIL_WIDE_MM,
        frame_why=why,
        board_up=up,
    )


def _spanner_room(spec: GateBracketSpec, nut_af_mm: float, rail_x: float) -> float:
    """The rods' x: a spanner on the nut before the yoke swings past the blade, which may reach into its mouth."""
    try:
        head = spanner(nut_af_mm).head_usual_mm / 2
    except DataError:
        return rail_x
    blade, beside = spec.gate.blade, rail_x - spec.gate.blade.width_mm / 2
    if beside >= head:
        return rail_x
    mouth = math.asin(nut_af_mm / 2 / head)
    taken = min(math.atan2(blade.thickness_mm / 2, beside), math.acos(beside / head))
    swings = mouth - taken >= math.radians(LEAST_SWING_DEG / 2)
    return rail_x if swings else blade.width_mm / 2 + head + BLADE_ROOM_MM


def _beside_fitting(spec: GateBracketSpec, nut_af_mm: float) -> float:
    """The rods' least x where the cylinder's ports look at them: a spanner turns the outer nuts beside the fitting."""
    if spec.cylinder.ports_face in ("up", "down") or spec.layout == "alongside":
        return 0.0
    try:
        head = spanner(nut_af_mm).head_usual_mm / 2
    except DataError:
        head = nut_af_mm
    return fitting_reach_mm(spec.cylinder) + head + 1.0


def _beside_screws(spec: GateBracketSpec, nut_af_mm: float, rail_x: float) -> float:
    """The rods' x: on a thin body a nut's way runs along the ears' inner faces, clear of the gate's screws."""
    screws, body = spec.gate.mount.screws, spec.gate.body
    face, nut = body.thickness_mm / 2 - abs(spec.gate.blade.plane_mm), nut_af_mm / 2 + 0.25
    if screws is None or face >= nut:
        return rail_x
    row = fastener(screws.size)
    beside = max(row.hole_medium_mm / 2 + NUT_WALL_MM + 0.5, EAR_EDGE * row.major_mm + 0.2)
    clear = (2 * nut - max(0.0, face)) / math.sqrt(3.0) + beside
    return rail_x if abs(screws.across_mm / 2 - rail_x) >= clear else screws.across_mm / 2 + clear


def _yoke_reach(spec: GateBracketSpec, outer: float) -> tuple[float, float]:
    """Half the yoke's width, and how far its ears reach inwards over the body (negative y)."""
    mount = spec.gate.mount
    if mount.screws is None:
        return max(outer, spec.gate.body.width_mm / 2 + 2 * fastener(mount.size).major_mm + 4.0), -24.0
    edge = EAR_EDGE * fastener(mount.screws.size).major_mm
    return max(outer, mount.screws.across_mm / 2 + edge), -(mount.screws.from_edge_mm + edge)


def _nose_ends(
    at: Ends, coupling: CouplingPlan, row: FastenerRow, rail_x: float, rods: bool, spec: GateBracketSpec
) -> NoseEnds:
    """Solid ends: for a rod with room for its washers; for a rail as wide as the rail."""
    edge_in = at.blade_open_mm if spec.layout == "in_line" else at.blade_shut_mm
    rod_in = abs(at.nose_face_mm - (edge_in + coupling.long_mm))
    if spec.layout == "alongside":  # there the bridge makes the room
        rod_in = spec.cylinder.rod_stub_mm + spec.cylinder.stroke_mm
    if not rods:
        half = RAIL_WIDE_MM / 2
        return NoseEnds(rail_x, rail_x - half, rail_x + half, RAIL_HIGH_MM, rod_in)
    half = max(EAR_EDGE * row.major_mm, (row.washer_d2_mm or 2 * row.major_mm) / 2 + 2.0)
    return NoseEnds(rail_x, rail_x - half, rail_x + half, 2 * half, rod_in)


def against_one_piece(plan: FramePlan, spec: GateBracketSpec) -> str:
    """What speaks against one piece, in words; empty: nothing does."""
    return too_large(one_piece_outline(plan, spec), spec) or not_at_all(plan, spec)


def too_large(corners: list[tuple[float, float]], spec: GateBracketSpec) -> str:
    """In words, where this outline does not fit the bed; empty: it does."""
    if fits_bed(corners, spec.printer.bed_x_mm, spec.printer.bed_y_mm):
        return ""
    long = max(y for _, y in corners) - min(y for _, y in corners)
    wide = 2 * max(x for x, _ in corners)
    bed = f"{spec.printer.bed_x_mm:g} x {spec.printer.bed_y_mm:g} mm"
    return f"lying flat it is {wide:.1f} x {long:.1f} mm, more than the bed ({bed})"


def not_at_all(plan: FramePlan, spec: GateBracketSpec) -> str:
    """What speaks against one piece on any printer, in words."""
    if spec.gate.mount.kind == "saddle":
        return NO_SADDLE
    moved = one_piece_gives(plan, spec)
    if not moved.within():
        gives = f"it would give {moved.moves_mm:.2f} mm and tilt {moved.tilt_deg:.2f} deg"
        return f"{gives} at full thrust ({LIMIT_MM:g} mm and {LIMIT_DEG:g} deg allowed)"
    return ""


def one_piece_outline(plan: FramePlan, spec: GateBracketSpec, ears_y: float = 0.0) -> list[tuple[float, float]]:
    """The corners of its outline as it lies on the bed: yoke with ears (slotted), nose plate, clamp.

    `ears_y`: how far the ears reach, where it is known better: a clamp's ears are as long as bending them asks.
    """
    mount, hold = spec.gate.mount, plan.nose.hold
    row = fastener(mount.screws.size if mount.screws else mount.size)
    edge = max(EAR_EDGE * row.major_mm, (row.washer_d2_mm or row.head_d_mm) / 2 + 1.0)
    screws_x = mount.screws.across_mm / 2 + EAR_SPARE_MM if mount.screws else spec.gate.body.width_mm / 2 + row.major_mm
    yoke, nose = max(plan.yoke_wide / 2, screws_x + edge), plan.nose_wide / 2
    tip = plan.ear_y - (spec.setting_mm if mount.screws else EAR_EDGE * row.major_mm)
    stretch = [(yoke, min(tip, ears_y)), (yoke, plan.yoke_y1), (nose, plan.nose_face)]
    if isinstance(hold, ClampHold):
        stretch.append((hold.half_mm, plan.nose_face + hold.off_mm + hold.band_mm))
    return [*stretch, *((-x, y) for x, y in stretch)]


def fits_bed(corners: list[tuple[float, float]], bed_x: float, bed_y: float) -> bool:
    """Whether the outline fits, turned by some whole quarter of a degree.

    >>> fits_bed([(0, 0), (230, 0), (230, 20), (0, 20)], 180, 180), fits_bed([(0, 0), (230, 0), (230, 40)], 160, 160)
    (True, False)
    """
    for quarter in range(720):
        c, s = math.cos(math.radians(quarter / 4)), math.sin(math.radians(quarter / 4))
        across, along = [c * x - s * y for x, y in corners], [s * x + c * y for x, y in corners]
        if max(across) - min(across) <= bed_x and max(along) - min(along) <= bed_y:
            return True
    return False


def one_piece_gives(plan: FramePlan, spec: GateBracketSpec) -> Movement:
    """Rails along (F L / 2 EA) and the nose plate with its ends free to turn: the upper bound.

    The screw in each ear lets a rail turn, so that the rails do not hold the plate's ends.
    """
    force, modulus = thrust_n(spec), spec.sized_for.lasting_modulus_mpa / LASTING
    long = plan.nose_face - plan.nose.deep - plan.ear_y
    rails = force * long / (2.0 * modulus * plan.rail_wide * one_piece_high(plan))
    plate = plan.nose.gives(force, modulus)
    return Movement((rails + plate.pinned_mm) / LASTING, 0.0, plate.tilt_deg)


def one_piece_high(plan: FramePlan) -> float:
    """All of it is one height, so that it lies flat on the bed."""
    return max(plan.nose_high, plan.yoke_high)
