"""How thick the arms are, and how wide a throat they let a pipe through: a snag at the lip, and the filament's strain.

The curved arm itself is reckoned in physics/arm.py; here are its ends and its limits.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from fitwright.errors import RefusalError
from fitwright.parts.hanger.neck_need import SAFE, neck_mm
from fitwright.parts.hanger.necks import roots_deg
from fitwright.physics.arm import HELD_SHARE, Arm, least_thickness_mm
from fitwright.physics.by_hand import SNAG_N
from fitwright.spec.hanger import HoseHangerSpec

LEAST_ARM_MM = 5.0
"""Its ends are then rounded by more than 2 mm."""
HALF_CAP_DEG = 90.0
"""A clamp's ring is closed: from where it is pulled at, each of two quarters bears half to its screw, or the neck."""
CLAMP_SAFE, BAND_SAFE = 2.5, 3.2
"""As SAFE, of a clamp's half beside its neck, where a snag along the hose twists it: the elements find 1.6 times; and
2.1 times where a band's tunnel takes a third of its width there."""
STEP_MM = 0.5
WIDEST_MM = 150.0
MOST_OF_R = 0.9
"""An arm thicker than this share of the bore's radius is no arm."""


@dataclass(frozen=True)
class Bent:
    """The two arms of an open ring: half the angle of the opening, and from the opening to each root [deg]."""

    bore_r: float
    arm: float
    wide: float
    lip_deg: float
    roots: tuple[float, float]

    def each(self) -> tuple[Arm, Arm]:
        """The arms, as physics has them."""
        mid, force = self.bore_r + self.arm / 2, 90.0 - self.lip_deg
        one, other = (Arm(mid, self.arm, self.wide, max(1.0, root - self.lip_deg), force) for root in self.roots)
        return one, other

    def opens_mm(self, strain: float) -> float:
        """How far the throat opens until the more strained arm reaches a strain; the same force is on both."""
        arms = self.each()
        gives = [one.gives * one.radius_mm**3 / one.second_moment_mm4 for one in arms]
        most = min(one.opens_mm(strain) / give for one, give in zip(arms, gives, strict=True))
        return most * math.fsum(gives)


def arm_of(spec: HoseHangerSpec, bore_r: float, opens: tuple[float, float], axis: float = 0.0) -> float:
    """Thickness of the arms [mm]; RefusalError where what is asked for is too thin, or none is thick enough."""
    need = max(LEAST_ARM_MM, _snag_arm(spec, bore_r, opens, spec.width_mm, axis))
    if need > MOST_OF_R * bore_r and need > LEAST_ARM_MM:
        raise _too_narrow(spec, bore_r, opens)
    if spec.arm_mm is not None and spec.arm_mm < need - 1e-6:
        where = "on its cap" if spec.style == "clamp" else "at the lip"
        why = f"a snag of {SNAG_N:.0f} N {where} would break arms so thin, {spec.width_mm:g} mm wide"
        raise RefusalError("arm", f"{spec.arm_mm:g}", f"{_up(need):g} mm or more", why)
    return _up(need) if spec.arm_mm is None else spec.arm_mm


def _up(mm: float) -> float:
    return math.ceil(mm / STEP_MM - 1e-9) * STEP_MM


def _snag_arm(spec: HoseHangerSpec, bore_r: float, opens: tuple[float, float], wide: float, axis: float = 0.0) -> float:
    """The thinnest arm that bears a snag at its lip; with the neck where it would be for that thickness."""
    if spec.style == "clamp":
        permitted = spec.material.strength_mpa / (BAND_SAFE if spec.clamp.kind == "band" else CLAMP_SAFE)
        return least_thickness_mm(SNAG_N / 2, permitted, bore_r, wide, HALF_CAP_DEG, True)
    permitted = spec.material.strength_mpa / SAFE
    lip, thick = 60.0 if spec.style == "hook" else 90.0, LEAST_ARM_MM
    for _ in range(6):
        neck = neck_mm(spec, bore_r, thick, opens, axis)
        sweep = max(roots_deg(bore_r, thick, opens, neck)) - lip
        found = least_thickness_mm(SNAG_N, permitted, bore_r, wide, sweep, True)
        if math.isinf(found) or abs(found - thick) < 0.01:
            return found
        thick = found
    return thick


def _too_narrow(spec: HoseHangerSpec, bore_r: float, opens: tuple[float, float]) -> RefusalError:
    wide = spec.width_mm
    while wide < WIDEST_MM and _snag_arm(spec, bore_r, opens, wide) > MOST_OF_R * bore_r:
        wide += 5.0
    why = f"arms of {spec.material.name} round a bore of {2 * bore_r:.1f} mm break under a snag of {SNAG_N:.0f} N"
    works = f"{wide:g} mm or more" if wide < WIDEST_MM else "a clamp, or a stronger filament"
    return RefusalError("width", f"{spec.width_mm:g}", works, why)


def snap_mm(spec: HoseHangerSpec, bent: Bent) -> float:
    """How far the arms open for a pipe that snaps in [mm], at the filament's strain limit."""
    return bent.opens_mm(spec.material.strain_limit)


def pipe_throat_mm(spec: HoseHangerSpec, opens_by_mm: float, works: Callable[[], str]) -> float:
    """The throat that a pipe just passes and that still holds it; RefusalError where there is none.

    `works`: finds what would do instead, in words.
    """
    out = spec.carried.size
    least, most = out.greatest_mm - opens_by_mm, out.nominal_mm * (1.0 - HELD_SHARE)
    limit = f"{spec.material.strain_limit:.2%} strain, the limit of {spec.material.name}"
    if least > most:
        why = f"the arms open {opens_by_mm:.1f} mm at {limit}: too little for the pipe to snap in and be held"
        raise RefusalError("width", f"{spec.width_mm:g}", works(), why)
    asked = spec.throat_mm
    if asked is not None and asked < least - 1e-6:
        why = f"the arms open {opens_by_mm:.1f} mm at {limit}: the pipe does not snap in"
        fits = f"{math.ceil(10 * least) / 10:.1f} to {math.floor(10 * most) / 10:.1f} mm"
        raise RefusalError("hook.throat", f"{asked:g}", fits, why)
    return least if asked is None else asked
