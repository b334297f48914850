"""Screw joints of the coupling: the pin through the blade, the rod's nuts, the screws of a clamping jaw."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.fasteners import fastener
from fitwright.data.nuts import nut
from fitwright.part import Bought, Fastening, Pocket, Turned
from fitwright.parts.gate.bought import thread_d_mm
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.parts.gate.jaw_plan import JawPlan
from fitwright.parts.gate.lengths import bought_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec

PIN_EDGE = 1.0
"""The fork beyond the pin is as thick as the stalled pull asks (physics/slide/coupling.py), not by rule of thumb."""


def coupling_fastenings(plan: GatePlan, spec: GateBracketSpec) -> tuple[Fastening, ...]:
    """Pin or jaw screws, and the rod's captive nut with its jam nut (alongside the bridge has these)."""
    late = plan.ends.blade_shut_mm - plan.coupling.edge_y
    at_blade = tuple(_at_blade(plan.coupling, late))
    return at_blade if spec.layout == "alongside" else (*at_blade, _rod(plan.coupling, late))


def _at_blade(at: CouplingPlan, late: float) -> Iterator[Fastening]:
    if at.pin is not None:
        yield _pin(at, late)
    elif at.jaw is not None:
        yield from (_jaw(at.jaw, late, side) for side in (-1.0, 1.0))


def _pin(at: CouplingPlan, late: float) -> Fastening:
    """Through both jaws of the fork; loose, with a nut that locks. Its hole is a slot, long across."""
    row = fastener(at.pin or "")
    return Fastening(
        name="coupling pin",
        size=row.name,
        d_mm=row.major_mm,
        head=(0.0, at.pin_slot_y + late, at.fork_mm / 2),
        direction=(0.0, 0.0, -1.0),
        grip_mm=at.fork_mm,
        through=("coupling", "blade", "coupling"),
        key="gate.blade.hole",
        long_mm=at.pin_long_mm,
        pitch_mm=row.pitch_mm or 1.0,
        nut_m_mm=row.nut_m_mm or row.major_mm,
        nut_af_mm=row.nut_af_mm or 2 * row.major_mm,
        washer_d_mm=at.pin_washer_mm,
        washer_h_mm=row.washer_h_mm or 0.0,
        head_d_mm=row.head_d_mm,
        moving=True,
        slotted=True,
        edge_limit=PIN_EDGE,
    )


def _jaw(jaw: JawPlan, late: float, side: float) -> Fastening:
    row = fastener(jaw.screw)
    top = jaw.over_mm - (row.washer_h_mm or 0.0) - (row.head_k_mm or row.major_mm)
    return Fastening(
        name=f"jaw screw {'left' if side < 0 else 'right'}",
        size=row.name,
        d_mm=row.major_mm,
        head=(side * jaw.screw_x, jaw.screw_y + late, top),
        direction=(0.0, 0.0, -1.0),
        grip_mm=top + jaw.low_mm,
        through=("jaw", "coupling"),
        key="gate.blade.hole",
        long_mm=jaw.screw_long_mm,
        pitch_mm=row.pitch_mm or 1.0,
        nut_m_mm=row.nut_m_mm or row.major_mm,
        nut_af_mm=row.nut_af_mm or 2 * row.major_mm,
        washer_d_mm=jaw.washer_mm,
        washer_h_mm=row.washer_h_mm or 0.0,
        head_d_mm=row.head_d_mm,
        moving=True,
    )


def _rod(at: CouplingPlan, late: float) -> Fastening:
    """The jam nut bears on the back, the captive nut against the wall from inside."""
    full, thin = nut(at.rod_thread, "full"), nut(at.rod_thread, "thin")
    d = thread_d_mm(full.thread)
    return Fastening(
        name="rod in the coupling",
        size=full.thread,
        d_mm=d,
        head=(0.0, at.back_y + late, 0.0),
        direction=(0.0, -1.0, 0.0),
        grip_mm=at.wall_mm,
        through=("coupling",),
        key="cylinder.rod_thread",
        nut_m_mm=full.m_mm,
        nut_af_mm=full.af_mm,
        washers=0,
        pocket=Pocket("coupling", (0.0, 0.0, -1.0) if at.jaw else (-1.0, 0.0, 0.0), at.wide_mm),
        turned=(Turned(thin.af_mm, 0.0, -1.0, "jam nut", without=("sleeve", "coupling jam"), thin_mm=thin.m_mm),),
        washer_d_mm=thin.af_mm,
        moving=True,
        edge_limit=0.0,
    )


def coupling_bought(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bought]:
    """Pin screw with a locking nut and washers, the rod's two nuts."""
    at = plan.coupling
    late = plan.ends.blade_shut_mm - at.edge_y
    note = "the pin: its nut locks and stays loose" if at.pin else "clamps the blade"
    yield from bought_of(_at_blade(at, late), note)
    yield Bought(1, f"nut {at.rod_thread}, caught in the coupling")
    if spec.layout == "alongside":
        return
    yield Bought(1, f"thin nut {at.rod_thread}, jammed against the coupling")
    if at.washer_h_mm:
        yield Bought(1, f"washer {at.washer_d_mm:.0f} mm wide, between jam nut and sleeve")
