"""Does the yoke carry the thrust: bars beside the window, its ends, the ears' roots, a clamp's grip. Closed forms.

The stalled thrust may stay for hours: what lasts of the filament's strength is what may be used.

In plan the yoke is a beam: the rods or rails push on it at x = +-rail, the ears or arms hold it at x = +-grip; between
the nearer pair the moment F/2 x |rail - grip| is constant. From above to below, each end is a beam from the upper ear
to the lower one, pushed in its middle. Beams of any handbook (Roark's Formulas for Stress and Strain; from memory).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.errors import RefusalError
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_clamp import bends_n, holds_n, preload_n
from fitwright.parts.gate.yoke_plan import YokePlan, yoke_numbers
from fitwright.spec.models import GateBracketSpec

GIVES_MM = 0.1
"""Aimed at, at stall, of the 0.5 mm that the whole frame may move."""
NEARLY = 1.1
"""Where that is out of reach: the least material that comes so near to the best."""
TALLEST_MM, STEP_MM = 24.0, 2.0
"""The bars are made higher by so much, in such steps."""
HOLDS = 1.5
"""A clamp's grip over the stall thrust."""


@dataclass(frozen=True)
class Stressed:
    """What one force does to it: `gives_mm` along y at the rods; stresses [MPa] in the layers and across them."""

    gives_mm: float
    in_layer_mpa: float
    across_mpa: float


def stall_n(spec: GateBracketSpec) -> float:
    """The cylinder's thrust at the pressure asked for, rod going out."""
    return spec.pressure_mpa * math.pi * spec.cylinder.bore_mm**2 / 4


def yoke_plan(plan: GatePlan, spec: GateBracketSpec, rods: bool) -> YokePlan:
    """The yoke as it is built, with rods its bars as high as stall asks for; RefusalError where it would not hold."""
    force, screws = stall_n(spec), 1
    if spec.gate.mount.kind == "clamp":
        screws = _clamp_screws(plan, spec, rods, force)
    if not rods:
        return _as_it_is(plan, spec, screws, force)
    steps = [k * STEP_MM for k in range(int(TALLEST_MM / STEP_MM) + 1)]
    found = [yoke_numbers(plan, spec, rods, steps[0], screws)]
    for taller in steps[1:]:
        if sound(found[-1], plan, spec, force):
            return found[-1]
        found.append(yoke_numbers(plan, spec, rods, taller, screws))
    strong = [one for one in found if _strong(stressed(one, plan, spec, force), spec)]
    if not strong:
        raise _too_weak(found[-1], plan, spec, force)
    gives = [stressed(one, plan, spec, force).gives_mm for one in strong]
    return next(one for one, mm in zip(strong, gives, strict=True) if mm <= NEARLY * min(gives))


def _as_it_is(plan: GatePlan, spec: GateBracketSpec, screws: int, force: float) -> YokePlan:
    """Where rails are fused on: they, not the bars, carry the thrust to the ears."""
    numbers = yoke_numbers(plan, spec, False, 0.0, screws)
    if not _strong(stressed(numbers, plan, spec, force), spec):
        raise _too_weak(numbers, plan, spec, force)
    return numbers


def sound(numbers: YokePlan, plan: GatePlan, spec: GateBracketSpec, force_n: float) -> bool:
    """Whether stress and movement are within their limits at this force."""
    found = stressed(numbers, plan, spec, force_n)
    return _strong(found, spec) and found.gives_mm <= GIVES_MM


def stressed(numbers: YokePlan, plan: GatePlan, spec: GateBracketSpec, force_n: float) -> Stressed:
    """Movement and stresses of this yoke under this force."""
    modulus = spec.material.modulus_mpa
    across_z, end_mpa, ear_mpa = _end(numbers, force_n)
    if not numbers.rods:
        return Stressed(across_z / modulus, end_mpa, ear_mpa)
    rail, grip = plan.frame.rail_x, grip_x(numbers, spec)
    arm, inside = abs(rail - grip), min(rail, grip)
    moment = force_n / 2 * arm
    window, bars = numbers.window.x[1], _bars_mm4(numbers)
    ends = 2 * numbers.half_high_mm * numbers.deep_mm**3 / 12
    middle = _middle_mm4(numbers, bars)
    bent = moment * arm * _over_stiffness(inside, grip, window, middle, bars, ends)
    bent += moment * arm * arm / 3 / min(bars if grip < window else ends, ends)
    weak = bars if inside < window or grip < window else ends
    return Stressed(
        (bent + across_z) / modulus,
        max(moment * numbers.deep_mm / 2 / weak, end_mpa),
        ear_mpa,
    )


def grip_x(numbers: YokePlan, spec: GateBracketSpec) -> float:
    """Where it is held, across: its screws, the body's sides, the arms of the saddle."""
    if numbers.saddle is not None:
        return numbers.saddle.half_wide
    if numbers.mount == "clamp":
        return spec.gate.body.width_mm / 2
    return max(abs(x) for ear in numbers.ears for x, _ in ear.holes)


def clamp_holds_n(numbers: YokePlan, spec: GateBracketSpec) -> float:
    """The grip of a clamp [N]: friction on both faces under what its screws keep of a hand-tight preload."""
    preload, gap = preload_n(spec.gate.mount.size), (numbers.gap_mm - spec.gate.body.thickness_mm) / 2
    held = []
    for ear in (ear for ear in numbers.ears if ear.up):
        z0, z1 = numbers.ear_z(ear)
        for _, y in ear.holes:
            long = numbers.plate.y[0] - y
            bends = bends_n(spec.material.modulus_mpa, ear.x[1] - ear.x[0], z1 - z0, long, gap)
            held.append(holds_n(preload, bends))
    return math.fsum(held)


def _clamp_screws(plan: GatePlan, spec: GateBracketSpec, rods: bool, force: float) -> int:
    """Screws on each side, one or two."""
    held = {n: clamp_holds_n(yoke_numbers(plan, spec, rods, 0.0, n), spec) for n in (1, 2)}
    for n, holds in held.items():
        if holds >= HOLDS * force:
            return n
    most = held[2] / HOLDS / force * spec.pressure_mpa
    raise RefusalError(
        "gate.clamp",
        f"a grip of {held[2]:.0f} N where {HOLDS:g} x the thrust of {force:.0f} N is asked for",
        f"pressure of {most * 10:.1f} bar or less, larger screws do not help by hand; or screws in place of clamp",
        "hand-tight screws on plastic do not hold the cylinder's thrust by friction",
    )


def _bars_mm4(numbers: YokePlan) -> float:
    return 2 * numbers.bar_mm * numbers.deep_mm**3 / 12


def _middle_mm4(numbers: YokePlan, bars: float) -> float:
    """Between a saddle's arms, where it is least deep: bar, the arm's walls and the ring as one section, both sides."""
    saddle = numbers.saddle
    if saddle is None:
        return bars
    ring, slit = saddle.centre_y + saddle.r_in, saddle.centre_y + saddle.r_band
    total = 0.0
    for z0 in saddle.z0:
        walls = (2 * saddle.lip, slit, saddle.pit_y)
        bar = (numbers.bar_mm, numbers.plate.y[0], numbers.plate.y[1])
        total += _together_mm4([walls, bar, (saddle.end_z - z0, ring, slit)])
    return total


def _together_mm4(parts: Sequence[tuple[float, float, float]]) -> float:
    """Second moment of rectangles (width, low, high) that bend as one, about their common middle (Steiner).

    >>> round(_together_mm4([(2.0, 0.0, 3.0), (2.0, 3.0, 6.0)]), 6) == 2.0 * 6.0**3 / 12
    True
    """
    areas = [wide * (high - low) for wide, low, high in parts]
    middle = math.fsum(a * (low + high) / 2 for a, (_, low, high) in zip(areas, parts, strict=True)) / math.fsum(areas)
    return math.fsum(
        a * ((high - low) ** 2 / 12 + ((low + high) / 2 - middle) ** 2)
        for a, (_, low, high) in zip(areas, parts, strict=True)
    )


def _over_stiffness(inside: float, grip: float, window: float, middle: float, bars: float, ends: float) -> float:
    """The integral of dx / I from the middle to `inside` [1/mm3]."""
    marks = sorted({0.0, *(m for m in (grip, window) if m < inside), inside})
    total = 0.0
    for a, b in itertools.pairwise(marks):
        at = (a + b) / 2
        total += (b - a) / (middle if at < grip and middle != bars else bars if at < window else ends)
    return total


def _end(numbers: YokePlan, force_n: float) -> tuple[float, float, float]:
    """One end as a beam from upper to lower ear: movement x modulus, stress in it, stress at an ear's root [MPa].

    Movement as with ends that may turn (more), the root's moment as with ends that are held (more).
    """
    bars = [(-numbers.half_high_mm, -numbers.window.z[1]), (numbers.window.z[1], numbers.half_high_mm)]
    lows = [numbers.ear_z(ear) for ear in numbers.ears] or bars
    span = max((a + b) / 2 for a, b in lows) - min((a + b) / 2 for a, b in lows)
    wide, deep = numbers.plate.x[1] - numbers.window.x[1], numbers.deep_mm
    full, weak, half = wide * deep**3 / 12, wide * deep**3 / 12, 0.0
    if numbers.rods:
        rod = numbers.rods[0]
        pocket, half = 2 * rod.pocket_af_mm / math.sqrt(3.0), rod.pocket_af_mm / 2
        weak = (wide - pocket) * deep**3 / 12 + pocket * (numbers.plate.y[1] - rod.floor_y) ** 3 / 12
    load, beside = force_n / 2, max(0.0, span / 2 - half)
    moves = load / 6 * (beside**3 / full + ((span / 2) ** 3 - beside**3) / weak)
    stress = load * span / 4 * deep / 2 / weak
    if not numbers.ears:
        return moves, stress, 0.0
    ear = min(numbers.ears, key=lambda e: e.x[1] - e.x[0])
    broad, (z0, z1) = ear.x[1] - ear.x[0], numbers.ear_z(ear)
    thick = z1 - z0 - max(one.relief_mm for one in numbers.ears)
    return moves, stress, load / 2 / (broad * thick) + load * span / 8 / (broad * thick**2 / 6)


def _strong(found: Stressed, spec: GateBracketSpec) -> bool:
    material = spec.material
    return found.in_layer_mpa <= material.lasting_mpa and found.across_mpa <= material.lasting_across_mpa


def _too_weak(numbers: YokePlan, plan: GatePlan, spec: GateBracketSpec, force: float) -> RefusalError:
    found, material = stressed(numbers, plan, spec, force), spec.material
    over = max(found.in_layer_mpa / material.lasting_mpa, found.across_mpa / material.lasting_across_mpa)
    return RefusalError(
        "pressure",
        f"{spec.pressure_mpa * 10:.1f} bar, which gives {force:.0f} N at stall",
        f"{spec.pressure_mpa * 10 / over:.1f} bar or less, a stronger material, or a smaller bore",
        f"the yoke of {material.name} would be stressed {over:.1f} times what lasts",
    )
