"""What the report says of coupling and sleeve: how they hold, how much play there is, what to mind when putting on."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.parts.gate.coupling_plan import ACROSS_MM, PLAY_MM, CouplingPlan
from fitwright.parts.gate.jaw_plan import JawPlan
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.sleeve import LEAST_LONG_MM, sleeve_mpa, sleeve_sizes
from fitwright.physics.slide import coupling as strength
from fitwright.spec.gate_coupling import TILT_DEG
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

LONG_TIMES = 3.0


def coupling_facts(plan: GatePlan, spec: GateBracketSpec) -> Mapping[str, str]:
    """Lines for the report: `coupling`, `rod in the coupling`, and `sleeve` where there is one."""
    at = plan.coupling
    facts: dict[str, str] = {}
    if spec.layout == "in_line":
        facts["coupling"] = _clamped(at.jaw, spec) if at.jaw is not None else _pinned(at, spec)
        facts["rod in the coupling"] = _rod(at, spec)
    sleeve = _sleeve(plan, spec)
    return {**facts, "sleeve": sleeve} if sleeve else facts


def _pinned(at: CouplingPlan, spec: GateBracketSpec) -> str:
    def say(mm: float) -> str:
        return format_length(mm, spec.units)

    tears = 2 * strength.tear_out_n(at.beyond_mm, at.jaw_mm, spec.material.strength_across_mpa)
    return (
        f"its floor pushes the blade's edge, an {at.pin} x {at.pin_long_mm:g} screw through the blade's hole pulls; "
        f"{say(PLAY_MM)} of play along, {say(ACROSS_MM / 2)} to either side, {TILT_DEG:g} deg askew. "
        "Screw with a plain shank, locking nut not tight: the fork must stay loose on the blade. "
        f"The fork tears out at {tears:.0f} N, the stalled cylinder pulls {at.pull_n:.0f} N"
    )


def _clamped(jaw: JawPlan, spec: GateBracketSpec) -> str:
    return (
        f"the blade has no hole: two {jaw.screw} x {jaw.screw_long_mm:g} screws press a jaw on it. "
        f"At {jaw.torque_nm:.1f} N m each (about; no more, the print gives way under the washers) it holds "
        f"{jaw.holds_n:.0f} N by friction {strength.FRICTION:g} (common practice); asked {jaw.need_n:.0f} N. "
        "It has no play: line the cylinder up before tightening. "
        f"A hole of {format_length(jaw.hole_for_pin_mm, spec.units)} or more near the blade's edge is better "
        "(gate.blade.hole): a pin holds by its shape, and floats"
    )


def _rod(at: CouplingPlan, spec: GateBracketSpec) -> str:
    washer = f", a washer of {at.washer_d_mm:g} mm between it and the rod's shoulder" if at.washer_h_mm else ""
    return (
        f"{at.rod_thread} nut, {at.nut_af_mm:g} mm across flats, dropped into its pocket; screw the rod in until its "
        f"thread is through the nut, jam nut against the coupling's back{washer}"
    )


def _sleeve(plan: GatePlan, spec: GateBracketSpec) -> str:
    if plan.stop != "sleeve":
        return ""
    end = "open" if plan.way > 0 else "shut"
    sizes = sleeve_sizes(plan, spec)
    if sizes is None:
        gap = format_length(plan.ends.sleeve_mm, spec.units)
        return (
            f"none is printed: {gap} is less than {format_length(LEAST_LONG_MM, spec.units)}. Put washers on the rod, "
            f"{gap} together, between jam nut and nose: they stop the blade {end}"
        )
    say = [format_length(mm, spec.units) for mm in (sizes.long_mm, sizes.bore_mm, sizes.outside_mm)]
    held = strength.sustained_mpa(spec.material.strength_mpa)
    text = (
        f"{say[0]} long, bore {say[1]}, outside {say[2]}; goes on the rod before the jam nut. "
        f"It stops the blade {end}: that end is out of the cylinder's cushion. "
        f"{sleeve_mpa(spec):.1f} MPa at stall, {held:.1f} MPa for good"
    )
    if sizes.long_mm > LONG_TIMES * sizes.outside_mm:
        text += f"; {sizes.long_mm / sizes.outside_mm:.1f} times as long as wide: see that its ends are square"
    return text
