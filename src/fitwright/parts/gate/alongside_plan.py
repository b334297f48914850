"""The numbers of a cylinder that lies beside the gate: its arm on the yoke, the bridge to the blade, the guide rod.

Along y, shut: the front of the web that holds the nose is the yoke's front, so that both lie on the bed. How far the
rod's shoulder stands from the blade's edge follows from that; the bridge is made to fit. From the gate outwards:
nose face | web | nose nut | sleeve | shoulder, jam nut | the bridge's near face, wall, captive nut | rod's tip.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.data.cylinders import cylinder_row
from fitwright.errors import DataError, RefusalError
from fitwright.parts.gate.alongside_bridge_plan import BridgePlan, bridge_plan, high_mm
from fitwright.parts.gate.alongside_collar import Collar, collar, collar_half_mm, pocket_r_mm
from fitwright.parts.gate.alongside_guide import GuidePlan, apart_mm, guide_plan, seat_half_mm, seat_long_mm
from fitwright.parts.gate.alongside_statics import Statics, refuse_bare_rod, refuse_bent_guide, statics, will_do
from fitwright.parts.gate.blocks import Block, Span, volume_mm3
from fitwright.parts.gate.coupling import coupling_shift_mm
from fitwright.parts.gate.frame_plan import COUPLING_ROOM_MM, RAIL_WIDE_MM
from fitwright.parts.gate.nose_hold import Hold, SquareHold, ThreadHold, square_hold, thread_hold
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_plan import YokePlan, yoke_numbers
from fitwright.parts.gate.yoke_strength import HOLDS, clamp_holds_n, stall_n
from fitwright.physics.slide.beside import Yoke
from fitwright.physics.slide.chain import ends
from fitwright.spec.models import GateBracketSpec

BESIDE_MM = 4.0
"""Between the gate's body and the widest of the cylinder."""
AROUND_MM = 1.5
"""Between cylinder and yoke where the one stands in a corner of the other."""
SEAT_WALL_MM = 4.0
"""Between the yoke's window and the guide rod's seat."""
SQUARE_WEB_MM = (12, 13, 14, 15, 16, 18, 20)
"""Thicknesses of the web that a front cover is screwed to: the first for which a screw is sold."""
FACE_MM = 0.3
"""Between the seat and the ears' inner faces."""
SLIVER_MM = 2.0
"""No block is thinner: the web then begins at the plate."""
DEEPER_MM, TALLER_MM = tuple(2.0 * k for k in range(13)), (0.0, 3.0, 6.0, 9.0)
ROOT_DEG, NOSE_DEG, NOSE_MM = 0.25, 0.4, 0.4
"""The yoke is made deeper and its bars higher until it turns by no more at running force (of 0.5 deg and mm in all)."""


@dataclass(frozen=True)
class ArmPlan:
    """What the yoke has more, as modelled: a block beside its plate, and from there the web that holds the nose.

    Round a round cylinder the block goes on as a `collar`, and the web is its front.
    """

    yoke: YokePlan
    block: Block
    web: Block
    hold: Hold
    collar: Collar | None

    @property
    def blocks(self) -> tuple[Block, ...]:
        """What is added to the plate; a block that the plate reaches by itself is left out."""
        if self.collar is not None:
            return (self.collar.block,)
        return (self.block, self.web) if self.block.x[1] - self.block.x[0] > 1e-6 else (self.web,)


@dataclass(frozen=True)
class AlongsidePlan:
    """All that is more than in line. `guide` None: the piston rod alone guides the bridge."""

    arm: ArmPlan
    bridge: BridgePlan
    guide: GuidePlan | None
    statics: Statics


def beside_gate(plan: GatePlan, spec: GateBracketSpec) -> GatePlan:
    """The plan with the cylinder beside the gate; RefusalError where it cannot be held, or would jam or bend."""
    refuse_unmade(spec)
    hold = _hold(spec)
    least = seat_long_mm(spec) if spec.second_guide else plan.frame.yoke_y1 - plan.frame.yoke_y0
    tried = [_placed(plan, spec, hold, least + deeper, taller) for deeper in DEEPER_MM for taller in TALLER_MM]
    stiff = [one for one in tried if _statics(one).stiff(ROOT_DEG, NOSE_DEG, NOSE_MM) and _guided(one)]
    found = min(stiff, key=_plate_mm3) if stiff else min(tried, key=lambda one: _statics(one).root_deg)
    if spec.second_guide:
        refuse_bent_guide(found, spec)
    else:
        refuse_bare_rod(found, spec)
    return found


def _guided(plan: GatePlan) -> bool:
    """Whether the guide rod, where there is one, does not give way too far."""
    return plan.beside is None or plan.beside.guide is None or will_do(plan)


def _statics(plan: GatePlan) -> Statics:
    assert plan.beside is not None
    return plan.beside.statics


def _plate_mm3(plan: GatePlan) -> float:
    """What the yoke's plate takes."""
    assert plan.beside is not None
    yoke = plan.beside.arm.yoke
    return volume_mm3([yoke.plate]) - yoke.deep_mm * 4 * yoke.window.x[1] * yoke.window.z[1]


def refuse_unmade(spec: GateBracketSpec) -> None:
    """What is not made alongside."""
    if spec.frame in ("rods", "board"):
        why = "beside the gate the cylinder is held by an arm of the yoke; there is no frame"
        raise RefusalError("frame", spec.frame, "auto, or layout: in_line", why)
    if spec.hold == "clamp":
        why = "beside the gate the yoke's arm holds the cylinder by its front"
        raise RefusalError("hold", "clamp", "nose or front_square, or layout: in_line", why)
    if spec.gate.mount.kind == "saddle":
        why = "a saddle may turn round its stub when the cylinder pushes beside it"
        raise RefusalError("gate.saddle", "saddle", "screws or clamp, or layout: in_line", why)


def _hold(spec: GateBracketSpec) -> Hold:
    if spec.hold == "nose":
        return thread_hold(spec)
    for web in SQUARE_WEB_MM:
        hold = square_hold(spec, float(web))
        if hold is not None:
            return hold
    why = f"no screw is sold that holds it through a web of {SQUARE_WEB_MM[0]} to {SQUARE_WEB_MM[-1]} mm"
    raise RefusalError("cylinder.square", spec.cylinder.square_screw or "none", "another cylinder", why)


def web_mm(hold: Hold) -> float:
    """Thickness of the web."""
    if isinstance(hold, ThreadHold):
        return hold.web_mm
    assert isinstance(hold, SquareHold)
    return hold.long_mm - hold.engaged_mm - hold.washer_h_mm


def _placed(plan: GatePlan, spec: GateBracketSpec, hold: Hold, deep: float, taller: float) -> GatePlan:
    """Everything in its place with a yoke so deep, its bars so much higher."""
    frame, web = plan.frame, web_mm(hold)
    front = frame.yoke_y0 + deep
    nose = replace(frame.nose, hold=hold, web=web, deep=web)
    rail = frame.window_wide / 2 + RAIL_WIDE_MM / 2
    frame = replace(frame, yoke_y1=front, rail_x=rail, web=web, nose=nose, nose_face=front - web)
    if plan.coupling.back_y + coupling_shift_mm(plan) < front + BESIDE_MM:  # then the bridge stands in the window, shut
        least = high_mm(plan.coupling, spec) + 2 * COUPLING_ROOM_MM
        frame = replace(frame, window_high=max(frame.window_high, least))
    plan = replace(plan, frame=frame)
    yoke = _yoke(plan, spec, taller)
    axis = _axis_mm(spec, yoke, hold)
    plan = _chained(replace(plan, axis_x_mm=axis), spec)
    arm = _arm(spec, yoke, hold, axis, front - web)
    guide = guide_plan(plan, spec, guide_x_mm(yoke, spec), hold) if spec.second_guide else None
    bridge = bridge_plan(plan, spec, guide)
    guide = guide and guide.reaching(bridge, plan)
    found = statics(plan, spec, _beam(arm, guide, axis, spec), guide, arm.collar)
    return replace(plan, beside=AlongsidePlan(arm, bridge, guide, found))


def _chained(plan: GatePlan, spec: GateBracketSpec) -> GatePlan:
    """Blade edge to shoulder as the web asks for it, and both ends of the movement again."""
    cylinder = spec.cylinder
    out = plan.frame.nose_face + cylinder.rod_stub_mm + cylinder.stroke_mm
    chain = replace(plan.chain, coupling_mm=out - plan.ends.blade_open_mm)
    return replace(plan, chain=chain, ends=ends(chain, plan.stop))


def _yoke(plan: GatePlan, spec: GateBracketSpec, taller: float) -> YokePlan:
    """The yoke's own numbers; a clamp has as many screws as hold the thrust."""
    one = yoke_numbers(plan, spec, False, taller)
    if spec.gate.mount.kind != "clamp" or clamp_holds_n(one, spec) >= HOLDS * stall_n(spec):
        return one
    two = yoke_numbers(plan, spec, False, taller, 2)
    holds, need = clamp_holds_n(two, spec), HOLDS * stall_n(spec)
    if holds >= need:
        return two
    why = f"hand-tight screws on plastic hold {holds:.0f} N where {HOLDS:g} x the thrust is {need:.0f} N"
    most = f"{math.floor(holds / need * spec.pressure_mpa * 100) / 10:.1f} bar or less, or screws in place of clamp"
    raise RefusalError("pressure", f"{spec.pressure_mpa * 10:.1f} bar", most, why)


def guide_x_mm(yoke: YokePlan, spec: GateBracketSpec) -> float:
    """x of the guide rod: beside the window, in the yoke's plate; beside the ears where these would close its seat."""
    half = seat_half_mm(spec)
    inside = min(yoke.faces_z[1], -yoke.faces_z[0]) - FACE_MM >= half
    return yoke.window.x[0] - SEAT_WALL_MM - half if inside else yoke.plate.x[0] - SEAT_WALL_MM - half


def _axis_mm(spec: GateBracketSpec, yoke: YokePlan, hold: Hold) -> float:
    """x of the cylinder: beside body and yoke, and far enough from the guide rod."""
    half = widest_mm(spec) / 2
    pocket = half + AROUND_MM if spec.cylinder.body_square_mm else pocket_r_mm(half, spec)
    beside = [spec.gate.body.width_mm / 2 + BESIDE_MM + half, yoke.plate.x[1] + AROUND_MM + half]
    if spec.second_guide:
        guide = -guide_x_mm(yoke, spec)
        beside.append(guide + apart_mm(spec, hold))
        beside.append(guide + seat_half_mm(spec) + SEAT_WALL_MM + pocket)
    return -max(beside)


def widest_mm(spec: GateBracketSpec) -> float:
    """The cylinder's widest: its body, or its covers where the table of its standard knows them."""
    cylinder = spec.cylinder
    if cylinder.body_square_mm:
        return cylinder.body_mm
    try:
        row = cylinder_row(f"{cylinder.standard} {cylinder.bore_mm:g}")
    except DataError:
        return cylinder.body_mm
    return max(cylinder.body_mm, row.head_round_mm or 0.0)


def _arm(spec: GateBracketSpec, yoke: YokePlan, hold: Hold, axis: float, face: float) -> ArmPlan:
    """The block goes as near to the cylinder as it may; the web from there round the nose."""
    plate, beyond = yoke.plate, _web_half_mm(hold)
    root = axis + widest_mm(spec) / 2 + AROUND_MM
    root = root if root < plate.x[0] - SLIVER_MM else plate.x[0]
    half: Span = (-max(plate.z[1], beyond), max(plate.z[1], beyond))
    block = Block((root, plate.x[0]), plate.y, plate.z)
    web = Block((axis - beyond, root), (face, plate.y[1]), half)
    if not isinstance(hold, ThreadHold):
        return ArmPlan(yoke, block, web, hold, None)
    wide = widest_mm(spec) / 2
    edge = axis - collar_half_mm(wide, spec, hold.bears_mm)
    whole = Block((edge, plate.x[0]), plate.y, plate.z)
    web = Block((edge, root), web.y, plate.z)
    return ArmPlan(yoke, block, web, hold, collar(spec, whole, axis, wide, face))


def _web_half_mm(hold: Hold) -> float:
    """From the axis to the web's edge: what bears on it, and a rim; edge distance of the cover's screws."""
    if isinstance(hold, ThreadHold):
        return hold.bears_mm / 2 + 2.0
    assert isinstance(hold, SquareHold)
    return hold.apart_mm / 2 + max(1.5 * hold.d_mm, hold.washer_d_mm / 2 + 1.0)


def _beam(arm: ArmPlan, guide: GuidePlan | None, axis: float, spec: GateBracketSpec) -> Yoke:
    """The yoke as a beam on its two screws (a clamp: on the body's edges)."""
    yoke, web = arm.yoke, arm.web
    grip = spec.gate.body.width_mm / 2
    if yoke.mount == "screws":
        grip = max(abs(x) for ear in yoke.ears for x, _ in ear.holes)
    second = (web.z[1] - web.z[0]) * (web.y[1] - web.y[0]) ** 3 / 12
    return Yoke(
        screw_mm=grip,
        window_mm=yoke.window.x[1],
        guide_mm=-guide.x_mm if guide else None,
        web_mm=-web.x[1],
        nose_mm=-axis,
        bars_mm4=2 * yoke.bar_mm * yoke.deep_mm**3 / 12,
        ends_mm4=2 * yoke.half_high_mm * yoke.deep_mm**3 / 12,
        web_mm4=arm.collar.walls_mm4 if arm.collar else second,
        modulus_mpa=spec.material.modulus_mpa,
    )
