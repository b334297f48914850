"""The bridge's numbers: a flat plate from the piston rod's end to the coupling on the blade, past the guide's bush.

With a second guide its hold on the rod floats: the captive nut locks by itself, and leaves the wall between it and the
jam nut FLOAT_MM. Two guides that are both held fast would bind.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.data.fasteners import fastener
from fitwright.data.nuts import NutRow, nut
from fitwright.data.thread_words import thread_named
from fitwright.errors import DataError, RefusalError
from fitwright.parts.compensation import small_hole
from fitwright.parts.gate.alongside_bolt import BOLT
from fitwright.parts.gate.alongside_guide import GuidePlan, bush_bore_mm
from fitwright.parts.gate.blocks import Block, Span
from fitwright.parts.gate.coupling import coupling_shift_mm
from fitwright.parts.gate.coupling_plan import AROUND_MM, NUT_ROOM_MM, WALL_MM, CouplingPlan, pocket_af_mm
from fitwright.parts.gate.lengths import SOLD_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_strength import stall_n
from fitwright.physics.slide import coupling as strength
from fitwright.physics.slide.bridge import Bridge
from fitwright.spec.gate_coupling import JAM_ROOM_MM, ROD_LOOSE_MM, rod_washer
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

FLOAT_MM = 0.3
"""How far the bridge may go on the rod's end, with a second guide."""
FLOAT_ASIDE_MM = 0.6
"""... and aside: the rod's hole is so much wider, either way half of it (beyond a fixed one's room)."""
MOST_WALL_MM = 6.0
BLADE_CLEAR_MM = 2.0
LEAST_DEEP_MM = 14.0
GIVES_MM = 0.5
"""At stall: how far the bridge bends. Of the strength it uses what lasts."""
BOLT_LEAST_MM = 4.8
"""Of the bolt in its nut."""
BOLT_SHORT_MM = 0.3
"""The bolt ends so far before the ground of the nut's pocket, at the longest."""


@dataclass(frozen=True)
class BridgePlan:
    """Shut as driven, mm; three blocks of one height side by side, and one round the bush where there is one.

    `near_y`: the face that the jam nut bears on. `rod`: as `nut_pocket.nut_cuts` wants it, its y counted from the outer
    face inwards. `floats`: the hold on the rod does.
    """

    high_mm: float
    rod_block: Block
    arm: Block
    head: Block
    housing: Block | None
    near_y: float
    outer_y: float
    wall_mm: float
    nut: NutRow
    floats: bool
    rod: CouplingPlan
    jam_y: Span
    bolt_long_mm: float
    bolt_hole_mm: float
    deep_mm: float

    @property
    def housing_y(self) -> Span:
        """Of the block round the bush, or of the arm."""
        return (self.housing or self.arm).y

    @property
    def blocks(self) -> tuple[Block, ...]:
        """What it is made of."""
        own = (self.rod_block, self.arm, self.head)
        return own if self.housing is None else (*own, self.housing)


def bridge_plan(plan: GatePlan, spec: GateBracketSpec, guide: GuidePlan | None) -> BridgePlan:
    """The numbers; RefusalError where nut and jam nut do not find room on the rod's thread."""
    coupling, late, axis = plan.coupling, coupling_shift_mm(plan), plan.axis_x_mm
    captive, thin = rod_nut(spec, guide is not None), nut(spec.cylinder.rod_thread, "thin")
    washer, _ = rod_washer(spec)
    shoulder = plan.shoulder_shut_mm
    near = shoulder + JAM_ROOM_MM + washer + thin.m_mm
    wall = _wall_mm(spec, captive, shoulder + spec.cylinder.rod_thread_long_mm - near, guide is not None)
    pocket = pocket_af_mm(captive, spec)
    high = high_mm(coupling, spec)
    deep = deep_mm(plan, spec, guide, high)
    arm_y = max(near, plan.ends.blade_shut_mm + BLADE_CLEAR_MM)
    back = coupling.back_y + late
    nut_y = (near + wall, near + wall + captive.m_mm + NUT_ROOM_MM)
    long, outer = _bolt(max(nut_y[1] + AROUND_MM, arm_y + deep, back + LEAST_DEEP_MM), coupling, late)
    half, split = pocket / 2 + AROUND_MM, -(coupling.wide_mm / 2 + BLADE_CLEAR_MM)
    z = (-high / 2, high / 2)
    rod = replace(
        coupling,
        pocket_af_mm=pocket,
        rod_hole_mm=captive_d_mm(captive) + ROD_LOOSE_MM + (FLOAT_ASIDE_MM if guide else 0.0),
        nut_y0=outer - nut_y[1],
        nut_y1=outer - nut_y[0],
        back_y=outer - near,
    )
    return BridgePlan(
        high_mm=high,
        rod_block=Block((axis - half, axis + half), (near, outer), z),
        arm=Block((axis + half, split), (arm_y, outer), z),
        head=Block((split, coupling.wide_mm / 2), (back, outer), z),
        housing=None if guide is None else _housing(guide, arm_y, outer, z),
        near_y=near,
        outer_y=outer,
        wall_mm=wall,
        nut=captive,
        floats=guide is not None,
        rod=rod,
        jam_y=(near - thin.m_mm, near),
        bolt_long_mm=long,
        bolt_hole_mm=small_hole(fastener(BOLT).hole_medium_mm, spec.printer),
        deep_mm=outer - arm_y,
    )


def captive_d_mm(row: NutRow) -> float:
    """Diameter of a nut's thread."""
    return thread_named(row.thread).major_mm


def rod_nut(spec: GateBracketSpec, floats: bool) -> NutRow:
    """The captive nut: one that locks by itself where the hold floats and such a nut is sold."""
    thread = spec.cylinder.rod_thread
    if floats:
        try:
            return nut(thread, "insert")
        except DataError:
            pass
    return nut(thread, "full")


def _wall_mm(spec: GateBracketSpec, captive: NutRow, room: float, floats: bool) -> float:
    """What the thread leaves between jam nut and captive nut."""
    left = room - captive.m_mm - (FLOAT_MM if floats else 0.0)
    stress = spec.material.strength_mpa / strength.SAFETY
    span = captive.af_mm
    least = max(WALL_MM, strength.web_mm(stall_n(spec), span, span + 2 * AROUND_MM, stress))
    if left < least - 1e-9:
        long = spec.cylinder.rod_thread_long_mm
        why = f"jam nut, a wall of {format_length(least, spec.units)} and captive nut find no room on the rod's thread"
        need = f"{format_length(long + least - left, spec.units)} or more"
        raise RefusalError("cylinder.rod_thread_length", format_length(long, spec.units), need, why)
    return min(left, MOST_WALL_MM)


def high_mm(coupling: CouplingPlan, spec: GateBracketSpec) -> float:
    """The coupling's height; under the nut's corner, and over the roof of the bush's bore, AROUND_MM and a wall."""
    pocket = pocket_af_mm(rod_nut(spec, spec.second_guide), spec)
    least = [coupling.box_mm, 2 * (pocket / math.sqrt(3.0) + AROUND_MM)]
    if spec.second_guide:
        least.append(2 * (bush_bore_mm(spec) / math.sqrt(2.0) + WALL_MM))
    return max(least)


def deep_mm(plan: GatePlan, spec: GateBracketSpec, guide: GuidePlan | None, high: float) -> float:
    """Of the arm along the travel: a stalled cylinder on a stuck blade bends it by GIVES_MM at most; closed forms.

    A cantilever from guide rod (or piston rod) to the blade's middle: F L^3 / 3 EI, F L / W.
    """
    force, long, b = stall_n(spec), -plan.axis_x_mm, high
    if guide is not None:
        force = Bridge(guide.offset_mm, guide.apart_mm, guide.bush_mm).stuck_drag_n(force)
        long = -guide.x_mm
    gives: float = (4.0 * force * long**3 / (spec.material.modulus_mpa * b * GIVES_MM)) ** (1.0 / 3.0)
    stress = math.sqrt(6.0 * force * long / (b * spec.material.lasting_mpa))
    return max(LEAST_DEEP_MM, gives, stress)


def _bolt(least_outer: float, coupling: CouplingPlan, late: float) -> tuple[float, float]:
    """The shortest bolt sold that reaches, and where the bridge's outer face then is."""
    washer = fastener(BOLT).washer_h_mm or 0.0
    ground = coupling.nut_y0 + late
    for long in SOLD_MM:
        outer = ground + long - washer + BOLT_SHORT_MM
        if outer >= least_outer:
            engaged = coupling.nut_m_mm - BOLT_SHORT_MM
            assert engaged >= BOLT_LEAST_MM - 1e-9
            return float(long), outer
    raise RefusalError(
        "cylinder", f"a bridge {least_outer - ground:.0f} mm deep", "a shorter stroke", "no bolt is sold"
    )


def _housing(guide: GuidePlan, arm_y: float, outer: float, z: Span) -> Block:
    """Round the bush, grown into the arm."""
    y = (guide.bush_y[0], max(guide.bush_y[1], min(outer, arm_y + LEAST_DEEP_MM)))
    return Block((guide.x_mm - guide.housing_mm, guide.x_mm + guide.housing_mm), y, z)
