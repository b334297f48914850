"""What is round the hose, by style: sizes, how far apart several stand, and the carrier itself."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.outline import Point
from fitwright.parts.compensation import modelled, placed
from fitwright.parts.hanger.arms import WIDEST_MM, Bent, arm_of, pipe_throat_mm, snap_mm
from fitwright.parts.hanger.clamp import clamp
from fitwright.parts.hanger.eye import with_eye
from fitwright.parts.hanger.hook import hook, lip_deg
from fitwright.parts.hanger.neck_need import neck_mm
from fitwright.parts.hanger.necks import roots_deg
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.saddle import least_shared_mm, saddle, saddle_lip_deg
from fitwright.physics.arm import HELD_SHARE, SQUEEZED_SHARE
from fitwright.spec.hanger import HoseHangerSpec

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
DEFAULT_SHARE = 0.85
"""Throat of a hook in outsides of the hose (common practice, no source)."""
EASY_MM = 0.5
WIDTH_STEP_MM = 5.0
UPWARDS = 0.7
CARRIERS = {"saddle": saddle, "hook": hook, "clamp": clamp}

WAYS: Mapping[float, str] = {0.0: "up", 90.0: "right", 180.0: "down", 270.0: "left"}
"""Where it opens, as the YAML says it, by the angle clockwise from up."""


def carrier_of(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    """What is round the axis at (u, v); the eye is on the last of several (`number` "": the only one, or a trial)."""
    one = CARRIERS[spec.style](sizes, spec, u, v, number)
    if spec.eye and number in ("", f"{spec.count} "):
        return with_eye(one, sizes, spec, (u, v), "")
    return one


def sizes_of(spec: HoseHangerSpec, side: Placed) -> Sizes:
    """The sizes, and where the axes lie along u; RefusalError names the key that has to change.

    `side`: which surface, and how far it is from the axis where that is known already (0: it is not).
    """
    one = _hook_sizes(spec, side) if spec.style == "hook" else _sizes(spec, side, _bore_mm(spec))
    carrier = CARRIERS[spec.style](one, spec, 0.0, 0.0, "")
    need = least_apart(one, spec, carrier)
    apart = _apart(one, carrier) if spec.apart_mm is None else spec.apart_mm
    if spec.count > 1 and apart < need - 1e-6:
        why = f"a {spec.carried.kind} cannot be put in beside its neighbour"
        raise RefusalError("apart", f"{apart:g}", f"{math.ceil(need * 10) / 10:g} mm or more", why)
    axes = tuple(placed((k - (spec.count - 1) / 2) * apart, spec.printer) for k in range(spec.count))
    return replace(one, axes_u=axes)


def _sizes(spec: HoseHangerSpec, side: Placed, printed: float) -> Sizes:
    opens, bore = _opens(spec, side), modelled(printed, "hole", spec.printer) / 2
    lip = saddle_lip_deg(bore) if spec.style == "saddle" else 90.0
    arm = arm_of(spec, bore, opens, side.axis_mm)
    neck = neck_mm(spec, bore, arm, opens, side.axis_mm)
    return Sizes(bore, printed, arm, spec.width_mm, lip, opens, (0.0,), neck)


def _hook_sizes(spec: HoseHangerSpec, side: Placed) -> Sizes:
    """A hook's: its throat as asked, or so that the hose is pressed in, or as the arms let a pipe through."""
    size, asked = spec.carried.size, spec.throat_mm
    if asked is not None and asked > size.nominal_mm * (1.0 - HELD_SHARE):
        _weight_holds(spec, side, asked)
    drop_in = asked is not None and asked >= size.nominal_mm
    one = _sizes(spec, side, max(_bore_mm(spec), asked or 0.0))
    if spec.carried.kind == "hose" or drop_in:
        return _with_throat(spec, one, asked) if asked is not None else _pressed_in(spec, one)
    return _snapped_in(spec, one, lambda: _snaps_at(spec, side))


def _snapped_in(spec: HoseHangerSpec, one: Sizes, works: Callable[[], str]) -> Sizes:
    """A hook whose arms let a pipe through; RefusalError where they give too little."""
    made = _with_throat(spec, one, spec.carried.size.nominal_mm * (1.0 - HELD_SHARE))
    for _ in range(8):
        made = _with_throat(spec, one, pipe_throat_mm(spec, made.snaps_mm, works))
    return made


def _snaps_at(spec: HoseHangerSpec, side: Placed) -> str:
    """The least width at which a pipe snaps in, with the arms that this asks for; in words."""
    wide = spec.width_mm
    while wide <= WIDEST_MM:
        trial = spec.model_copy(update={"width_mm": wide, "arm_mm": None, "throat_mm": None})
        try:
            found = _snapped_in(trial, _sizes(trial, side, _bore_mm(trial)), str)
        except RefusalError:
            wide = (math.floor(wide / WIDTH_STEP_MM) + 1) * WIDTH_STEP_MM
            continue
        return f"{wide:g} mm with arms of {found.arm:g} mm, or a clamp"
    return f"a clamp: up to {WIDEST_MM:g} mm wide no hook of {spec.material.name} does it"


def _pressed_in(spec: HoseHangerSpec, one: Sizes) -> Sizes:
    """A hook whose throat a hose goes through, squeezed by hand while the arms give."""
    size, squeezed = spec.carried.size, spec.carried.squeezed_mm
    flat = size.greatest_mm * (1.0 - SQUEEZED_SHARE) if squeezed is None else min(squeezed, size.greatest_mm)
    most, made = size.nominal_mm * (1.0 - HELD_SHARE), _with_throat(spec, one, DEFAULT_SHARE * size.nominal_mm)
    for _ in range(8):
        wide = max(DEFAULT_SHARE * size.nominal_mm, flat - made.snaps_mm + EASY_MM)
        made = _with_throat(spec, one, min(wide, most))
    return made


def _with_throat(spec: HoseHangerSpec, one: Sizes, printed: float) -> Sizes:
    wide = modelled(printed, "hole", spec.printer)
    lip = lip_deg(one.bore_r, one.arm, wide)
    roots = roots_deg(one.bore_r, one.arm, one.opens, one.neck)
    snaps = snap_mm(spec, Bent(one.bore_r, one.arm, one.wide, lip, roots))
    return replace(one, lip_deg=lip, throat=wide, throat_printed=printed, snaps_mm=snaps)


def _weight_holds(spec: HoseHangerSpec, side: Placed, asked: float) -> None:
    """A throat that holds nothing back is for a hook that opens upwards, over nobody."""
    most = spec.carried.size.nominal_mm * (1.0 - HELD_SHARE)
    if side.direction(*_opens(spec, side))[2] > UPWARDS:
        if spec.above not in ("people", "cutter"):
            return
        why = f"only its weight holds the {spec.carried.kind} in so wide an opening, and below are: {spec.above}"
        raise RefusalError("hook.throat", f"{asked:g}", f"{most:.1f} mm or less, a saddle or a clamp", why)
    why = f"the {spec.carried.kind} is not held by the lips, and the weight does not hold it in a hook that opens so"
    raise RefusalError("hook.throat", f"{asked:g}", f"{most:.1f} mm or less, or hook: {{opens: up}}", why)


def _bore_mm(spec: HoseHangerSpec) -> float:
    """The bore as it is to measure once printed [mm]: a clamp closes on the mean size, the rest lies loose."""
    return spec.carried.size.nominal_mm if spec.style == "clamp" else spec.carried.size.greatest_mm + SLACK_MM


def _opens(spec: HoseHangerSpec, side: Placed) -> Point:
    """Which way it opens, in (u, v): along the surface or away from it."""
    asked = OPENS_DEG[spec.style][spec.mount.side] if spec.opens_deg is None else spec.opens_deg % 360.0
    allowed = allowed_deg(spec, side)
    near = next((one for one in allowed if abs((asked - one + 180.0) % 360.0 - 180.0) < 0.01), None)
    if near is None:
        words = " | ".join(WAYS[one] for one in allowed)
        raise RefusalError(f"{spec.style}.opens", WAYS.get(asked, f"{asked:g} deg"), words, _why(spec, side, asked))
    u, v = side.uv_of_turn(near)
    return float(round(u)), float(round(v))


def allowed_deg(spec: HoseHangerSpec, side: Placed) -> tuple[float, ...]:
    """The openings [deg clockwise from up] of which a sound body comes."""
    out = [one for one in (0.0, 90.0, 180.0, 270.0) if side.uv_of_turn(one)[1] > -0.5]
    if spec.style == "clamp":
        return tuple(one for one in out if side.uv_of_turn(one)[1] > 0.5)
    return tuple(one for one in out if one != 180.0 or spec.style != "hook" or spec.carried.kind == "pipe")


def _why(spec: HoseHangerSpec, side: Placed, asked: float) -> str:
    if side.uv_of_turn(asked)[1] < -0.5:
        return f"a {spec.style} that opens towards its own base takes no hose"
    if spec.style == "clamp":
        return "a clamp's cap lies away from the surface, or its screws cannot be reached"
    if spec.style == "hook" and abs(asked - 180.0) < 45.0:
        return "the weight presses the hose out of a hook that opens downwards"
    return f"a {spec.style} opens straight along the surface or straight away from it"


def _apart(one: Sizes, carrier: Carrier) -> float:
    """As near as every hose still comes in: between its neighbours where it opens along the surface."""
    wide = carrier.reach_u[1] - carrier.reach_u[0]
    if abs(one.opens[0]) > 0.7:
        return wide + 2 * one.bore_r + PASS_MM
    return wide + OPEN_GAP_MM


def least_apart(one: Sizes, spec: HoseHangerSpec, carrier: Carrier) -> float:
    """The nearest that the axes may come: saddles that open away from the surface may share an ear."""
    own = _apart(one, carrier)
    if spec.style == "saddle" and abs(one.opens[0]) < UPWARDS:
        return min(own, least_shared_mm(one, spec))
    return own
