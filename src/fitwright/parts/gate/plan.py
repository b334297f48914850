"""Every number of a gate bracket, derived once from the spec. Bodies, stand-ins, seats and words all read this plan.

Part coordinates (mm), in the position shut: x right across the blade, y outwards from the body edge, z square to the
blade; z = 0 is the blade's middle plane and, in line, the thrust line.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fitwright.errors import RefusalError
from fitwright.parts.gate.alongside_bolt import bolt_coupling
from fitwright.parts.gate.bought import sold_strokes
from fitwright.parts.gate.coupling_plan import CouplingPlan, coupling_plan
from fitwright.parts.gate.frame_plan import FramePlan, frame_plan, on_rods, one_piece_outline, too_large
from fitwright.physics.slide.chain import (
    SHORT_MM,
    Chain,
    Ends,
    Stop,
    choose_stop,
    ends,
    engaged_mm,
    stroke_to_buy,
)
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

if TYPE_CHECKING:
    from fitwright.parts.gate.alongside_plan import AlongsidePlan

LIP_MM = 2.0
"""A blade covers its port by so much all round (common practice, no source): travel = port + 2 lips."""


@dataclass(frozen=True)
class GatePlan:
    """The bracket in numbers.

    `body_z_mm`: lower and upper face of the gate's body. `blade_long_mm`: as measured, or as the port needs it (then
    `blade_assumed`). `axis_x_mm`: x of the cylinder's axis (0 in line). `way`: +1 where the cylinder's body lies
    outwards of its nose face (in line), -1 where it lies inwards (alongside). `beside`: what is more, alongside.
    """

    chain: Chain
    ends: Ends
    stop: Stop
    coupling: CouplingPlan
    frame: FramePlan
    body_z_mm: tuple[float, float]
    blade_long_mm: float
    blade_assumed: bool
    engaged_open_mm: float
    axis_x_mm: float = 0.0
    way: float = 1.0
    beside: AlongsidePlan | None = None

    @property
    def nose_face_mm(self) -> float:
        """y of the cylinder's mounting face."""
        return self.ends.nose_face_mm

    @property
    def shoulder_shut_mm(self) -> float:
        """y of the rod's shoulder, shut as driven."""
        return self.ends.blade_shut_mm + self.chain.coupling_mm

    @property
    def moved_mm(self) -> float:
        """From shut to open as driven."""
        return self.ends.moved_mm


def gate_plan(spec: GateBracketSpec) -> GatePlan:
    """The plan; RefusalError names the key and, where the stroke is at fault, the stroke to buy."""
    if spec.layout == "in_line":
        return _plan(spec, coupling_plan(spec))
    from fitwright.parts.gate.alongside_plan import beside_gate, refuse_unmade  # need the yoke, it needs this

    refuse_unmade(spec)
    return beside_gate(_plan(spec, bolt_coupling(spec)), spec)


def _plan(spec: GateBracketSpec, coupling: CouplingPlan) -> GatePlan:
    gate, cylinder = spec.gate, spec.cylinder
    chain = Chain(
        gate.shut_mm,
        gate.open_mm,
        coupling.long_mm,
        cylinder.rod_stub_mm,
        cylinder.nose_mm,
        cylinder.stroke_mm,
        spec.layout,
    )
    blade_long, assumed = _blade_long(spec)
    engaged = engaged_mm(blade_long, gate.open_mm, gate.body.length_mm)
    stop = _stop(spec, chain, engaged)
    at = ends(chain, stop)
    plane, half = gate.blade.plane_mm, gate.body.thickness_mm / 2
    frame = frame_plan(spec, at, coupling)
    short = at.blade_open_mm + 1.0 - (frame.nose_face - frame.nose.deep)
    if spec.layout == "in_line" and short > 0.0:
        found = f"the blade's edge {format_length(at.blade_open_mm, spec.units)} out when open"
        allowed = f"a stroke {format_length(short, spec.units)} longer, or less pressure"
        raise RefusalError("cylinder", found, allowed, "the open blade would meet the nose plate")
    plan = GatePlan(
        chain=chain,
        ends=at,
        stop=stop,
        coupling=coupling,
        frame=frame,
        body_z_mm=(-plane - half, -plane + half),
        blade_long_mm=blade_long,
        blade_assumed=assumed,
        engaged_open_mm=engaged_mm(blade_long, at.blade_open_mm, gate.body.length_mm),
        way=1.0 if spec.layout == "in_line" else -1.0,
    )
    against = _as_built(plan, spec) if spec.frame == "auto" and plan.frame.kind == "one_piece" else ""
    return replace(plan, frame=on_rods(spec, at, coupling, against)) if against else plan


def _as_built(plan: GatePlan, spec: GateBracketSpec) -> str:
    """What speaks against one piece once its yoke is known: ears that hold too little, or reach beyond the bed."""
    from fitwright.parts.gate.yoke_strength import yoke_plan  # its numbers need this plan

    try:
        ears = yoke_plan(plan, spec, rods=False).ears
    except RefusalError as error:
        return error.why
    return too_large(one_piece_outline(plan.frame, spec, min(ear.tip_y for ear in ears)), spec)


def _blade_long(spec: GateBracketSpec) -> tuple[float, bool]:
    """As measured; else so long that its tip covers the port's far edge by a lip when shut."""
    gate = spec.gate
    if gate.blade.length_mm is not None:
        return gate.blade.length_mm, False
    return gate.shut_mm + gate.port.to_edge_mm + gate.port.d_mm / 2 + LIP_MM, True


def _stop(spec: GateBracketSpec, chain: Chain, engaged_open: float) -> Stop:
    gate, sold = spec.gate, sold_strokes()
    buy = stroke_to_buy(chain.travel_mm, sold)
    bought = f"{buy:g} mm" if buy else "a longer stroke than is sold"
    found = f"a stroke of {format_length(chain.stroke_mm, spec.units)} for a travel of "
    found += format_length(chain.travel_mm, spec.units)
    if chain.excess_mm < -SHORT_MM:
        why = f"the blade would stay {format_length(-chain.excess_mm, spec.units)} short of open"
        raise RefusalError("cylinder", found, f"a stroke of {bought}", why)
    if spec.stop == "over_shut":
        _room_beyond_shut(spec, chain)
    if spec.stop != "auto":
        return spec.stop if chain.excess_mm > 0.5 else _by_itself(chain, gate.body.far_end == "open", engaged_open)
    stop = choose_stop(chain, gate.body.far_end == "open", engaged_open, gate.body.far_room_mm)
    if stop is None:
        why = "nothing can take up what the stroke is longer than the travel"
        raise RefusalError("cylinder", found, f"a stroke of {bought}", why)
    return stop


def _room_beyond_shut(spec: GateBracketSpec, chain: Chain) -> None:
    """Refuses `over_shut` where the slot is closed and ends sooner."""
    body, over = spec.gate.body, chain.excess_mm
    if body.far_end == "closed" and body.far_room_mm < over:
        found = f"over_shut by {format_length(over, spec.units)} where far_end: closed leaves "
        found += format_length(body.far_room_mm, spec.units)
        allowed = f"sleeve, or gate.body.far_end_room: {format_length(over, spec.units)} or more"
        raise RefusalError("stop", found, allowed, "the blade would be driven against the end of its slot")


def _by_itself(chain: Chain, far_end_open: bool, engaged_open: float) -> Stop:
    stop = choose_stop(chain, far_end_open, engaged_open)
    assert stop is not None
    return stop
