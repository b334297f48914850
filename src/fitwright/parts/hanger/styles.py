"""What is round the hose, by style: sizes, how far apart several stand, and the carrier itself."""

from __future__ import annotations

from fitwright.errors import RefusalError
from fitwright.outline import Point
from fitwright.parts.compensation import modelled, placed
from fitwright.parts.hanger.clamp import clamp
from fitwright.parts.hanger.hook import hook, lip_deg, printed_throat
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.saddle import saddle
from fitwright.spec.hanger import HoseHangerSpec

ARM_MM = 8.0
SLACK_MM = 1.0
"""A saddle's or hook's bore is so much wider than the hose (common practice, no source)."""
OPENS_DEG = {
    "saddle": {"up": 180.0, "down": 0.0, "left": 0.0, "right": 0.0},
    "hook": {"up": 90.0, "down": 0.0, "left": 0.0, "right": 0.0},
    "clamp": {"up": 180.0, "down": 0.0, "left": 90.0, "right": 270.0},
}
"""A saddle opens upwards; under a ceiling downwards, and its strap carries. A hook opens so that the weight does not
press the hose out; a clamp's cap lies away from the surface."""
OPEN_GAP_MM = 2.0
"""Between neighbours that open away from the surface."""
PASS_MM = 4.0
"""A hose that comes in between two neighbours has so much room beyond its own size."""
CARRIERS = {"saddle": saddle, "hook": hook, "clamp": clamp}


def carrier_of(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    """What is round the axis at (u, v)."""
    return CARRIERS[spec.style](sizes, spec, u, v, number)


def sizes_of(spec: HoseHangerSpec, side: Placed) -> Sizes:
    """The sizes, and where the axes lie along u; RefusalError names the key that has to change."""
    one = _one(spec, side)
    carrier = carrier_of(one, spec, 0.0, 0.0, "")
    need = _apart(one, carrier)
    apart = need if spec.apart_mm is None else spec.apart_mm
    if spec.count > 1 and apart < need - 1e-6:
        why = "a hose cannot be put in beside its neighbour"
        raise RefusalError("apart", f"{apart:g}", f"{need:.1f} mm or more", why)
    axes = tuple(placed((k - (spec.count - 1) / 2) * apart, spec.printer) for k in range(spec.count))
    return Sizes(one.bore_r, one.bore_printed_d, one.arm, one.wide, one.lip_deg, one.opens, axes, one.throat)


def _one(spec: HoseHangerSpec, side: Placed) -> Sizes:
    printed, throat = _bore_mm(spec), 0.0
    bore = modelled(printed, "hole", spec.printer) / 2
    arm = ARM_MM if spec.arm_mm is None else spec.arm_mm
    lip = 90.0
    if spec.style == "hook":
        throat = modelled(printed_throat(spec), "hole", spec.printer)
        lip = lip_deg(bore, arm, throat)
    return Sizes(bore, printed, arm, spec.width_mm, lip, _opens(spec, side), (0.0,), throat)


def _bore_mm(spec: HoseHangerSpec) -> float:
    """The bore as it is to measure once printed [mm]: a clamp closes on the mean size, the rest lies loose."""
    if spec.style == "clamp":
        return spec.carried.size.nominal_mm
    loose = spec.carried.size.greatest_mm + SLACK_MM
    return max(loose, printed_throat(spec)) if spec.style == "hook" else loose


def _opens(spec: HoseHangerSpec, side: Placed) -> Point:
    """Which way it opens, in (u, v): along the surface or away from it."""
    asked = OPENS_DEG[spec.style][spec.mount.side] if spec.opens_deg is None else spec.opens_deg % 360.0
    allowed = allowed_deg(spec, side)
    near = next((one for one in allowed if abs((asked - one + 180.0) % 360.0 - 180.0) < 0.01), None)
    if near is None:
        words = ", ".join(f"{one:g} deg" for one in allowed)
        raise RefusalError("opens", f"{asked:g} deg", words, _why(spec, side, asked))
    u, v = side.uv_of_turn(near)
    return float(round(u)), float(round(v))


def allowed_deg(spec: HoseHangerSpec, side: Placed) -> tuple[float, ...]:
    """The openings [deg clockwise from up] of which a sound body comes."""
    out = [one for one in (0.0, 90.0, 180.0, 270.0) if side.uv_of_turn(one)[1] > -0.5]
    return tuple(one for one in out if side.uv_of_turn(one)[1] > 0.5 or spec.style != "clamp")


def _why(spec: HoseHangerSpec, side: Placed, asked: float) -> str:
    if side.uv_of_turn(asked)[1] < -0.5:
        return f"a {spec.style} that opens towards its own base takes no hose"
    if spec.style == "clamp":
        return "a clamp's cap lies away from the surface, or its screws cannot be reached"
    return f"a {spec.style} opens straight along the surface or straight away from it"


def _apart(one: Sizes, carrier: Carrier) -> float:
    """As near as every hose still comes in: between its neighbours where it opens along the surface."""
    wide = carrier.reach_u[1] - carrier.reach_u[0]
    if abs(one.opens[0]) > 0.7:
        return wide + 2 * one.bore_r + PASS_MM
    return wide + OPEN_GAP_MM
