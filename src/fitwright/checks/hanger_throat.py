"""Findings on the opening of a hook: does the hose or pipe go in, does the filament bear that, does it stay in."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
import trimesh

from fitwright.checks.hanger_ligament import arm_mm
from fitwright.checks.hanger_rays import LIPS_MM, opening
from fitwright.checks.hanger_say import Of, say
from fitwright.finding import Finding
from fitwright.hanging import Cradle, Hanging, Throat
from fitwright.physics.arm import SQUEEZED_SHARE, Arm, push_in_n, throat
from fitwright.spec.hanger import HoseHangerSpec
from fitwright.spec.printed import as_printed
from fitwright.tolerances import TOLERANCES

INSIDE_RIM = 0.8
"""The lips are measured over so much of the width: beyond it their rims fall away."""
BY_HAND_N = 150.0
"""More than this nobody pushes in overhead (common practice, no source)."""
DOWNWARDS, UPWARDS = -0.5, 0.7
"""A way out that points down by more than this (30 deg below level) lets the weight press it out."""
LEAST_ARM_DEG, STEPS, ROUNDS = 5.0, 60, 30


@dataclass(frozen=True)
class Arms:
    """Both arms of a hook as they are on the mesh."""

    both: tuple[Arm, Arm]

    def opens_mm(self, strain: float) -> float:
        """How far both together open at this strain of the one that strains most."""
        return self._per_newton() * min(arm.force_n(arm.opens_mm(strain), 1.0) for arm in self.both)

    def force_n(self, opened_mm: float, modulus_mpa: float) -> float:
        """The force that opens the throat by so much: both arms feel it."""
        return opened_mm * modulus_mpa / self._per_newton()

    def cut_back(self, from_mm: float, to_mm: float) -> Arms:
        """The arms that a throat of another width leaves."""
        one, other = (self._left(arm, from_mm, to_mm) for arm in self.both)
        return Arms((one, other))

    def _left(self, arm: Arm, from_mm: float, to_mm: float) -> Arm:
        angles = [math.degrees(math.asin(min(1.0, w / 2 / arm.radius_mm))) for w in (from_mm, to_mm)]
        sweep = max(LEAST_ARM_DEG, arm.sweep_deg + angles[0] - angles[1])
        return replace(arm, sweep_deg=sweep, force_deg=arm.force_deg + angles[0] - angles[1])

    def push_n(self, opened_mm: float, wide_mm: float, modulus_mpa: float) -> float:
        """What pushes a round thing through: it is the wedge itself, its slope acos(w / outside) where it is w wide."""
        outside, most = wide_mm + opened_mm, 0.0
        for step in range(STEPS + 1):
            opened = opened_mm * step / STEPS
            slope = math.degrees(math.acos(min(1.0, (wide_mm + opened) / max(outside, 1e-9))))
            most = max(most, 2.0 * push_in_n(self.force_n(opened, modulus_mpa), slope))
        return most

    def _per_newton(self) -> float:
        """Opening for 1 N at a modulus of 1 MPa."""
        return math.fsum(1.0 / arm.force_n(1.0, 1.0) for arm in self.both)


def throats(hanging: Hanging, meshes: dict[str, trimesh.Trimesh], spec: HoseHangerSpec) -> Iterator[Finding]:
    """Findings on every hook's opening."""
    for one in hanging.throats:
        mesh = meshes[one.body]
        cradle = _nearest(one, hanging.cradles)
        at, across, out = (np.array(v, dtype=float) for v in (one.at, one.across, one.out))
        found = None if cradle is None else opening(mesh, at, across, out, *_searched(one, cradle))
        if cradle is None or found is None:
            message = "its two lips were not found: not checked"
            yield say("throat", "fail", Of(one.key, one.body), message, "This is a fault of the build: report it.")
            continue
        wide = as_printed(found.wide_mm, "hole", spec.printer)
        if abs(found.wide_mm - one.wide_mm) > 4 * TOLERANCES.fit_mm and abs(wide - one.wide_mm) > 4 * TOLERANCES.fit_mm:
            message = f"its lips stand {wide:.1f} mm apart, {one.wide_mm:.1f} mm was meant"
            of = Of(one.key, one.body, wide, one.wide_mm)
            yield say("throat", "fail", of, message, "This is a fault of the build: report it.")
        yield from _judged(one, wide, arms_of(one, cradle, mesh), spec)


def _searched(one: Throat, cradle: Cradle) -> tuple[float, float]:
    """Half the width along the lips, and how far inwards: not past the bore's middle."""
    inwards = float(np.dot(np.subtract(one.at, cradle.frame.origin), one.out))
    return INSIDE_RIM * cradle.wide_mm / 2, min(LIPS_MM, max(0.0, inwards))


def arms_of(one: Throat, cradle: Cradle, mesh: trimesh.Trimesh) -> Arms:
    """The arms, their thickness as measured."""
    thick = arm_mm(cradle, mesh) or one.arm_mm
    mid = cradle.r_mm + thick / 2
    half = math.degrees(math.asin(min(1.0, one.wide_mm / 2 / mid)))
    made = [Arm(mid, thick, cradle.wide_mm, max(LEAST_ARM_DEG, deg), 90.0 - half) for deg in one.arm_deg]
    return Arms((made[0], made[1]))


def works_mm(arms: Arms, wide_mm: float, passes_mm: float, strain: float) -> float:
    """The throat [mm] that works, to the next half: a wider one leaves shorter arms, which give less."""
    works = wide_mm
    for _ in range(ROUNDS):
        works = min(passes_mm, passes_mm - arms.cut_back(wide_mm, works).opens_mm(strain))
    return math.ceil(2.0 * works + 0.5) / 2.0


def _nearest(one: Throat, cradles: tuple[Cradle, ...]) -> Cradle | None:
    """The bore that an opening leads to."""
    own = [c for c in cradles if c.body == one.body]
    return min(own, key=lambda c: math.dist(c.frame.origin, one.at), default=None)


def _judged(one: Throat, wide: float, arms: Arms, spec: HoseHangerSpec) -> Iterator[Finding]:
    carried = spec.carried
    outside, what = carried.size.greatest_mm, carried.kind
    share = 0.0 if what == "pipe" else SQUEEZED_SHARE
    read = carried.kind == "hose" and carried.squeezed_mm is not None
    if carried.squeezed_mm is not None and read:
        share = max(0.0, 1.0 - carried.squeezed_mm / outside)
    limit = spec.material.strain_limit
    gives = arms.opens_mm(limit)
    allowed = throat(outside, gives, share)
    squeezed = "" if what == "pipe" else f", which goes down to {outside * (1.0 - share):.1f} mm "
    squeezed += "" if what == "pipe" else ("as read" if read else f"(assumed: {share:.0%}; press it and read it)")
    arm = f"the arms give {gives:.1f} mm at {limit:.2%} strain of {spec.material.name}"
    if wide < allowed.least_mm - TOLERANCES.fit_mm:
        message = f"the {what} of {outside:.1f} mm{squeezed} does not go through {wide:.1f} mm: {arm}"
        works = works_mm(arms, wide, outside * (1.0 - share), limit)
        advice = f"Make `{one.key}` {works:.1f} mm or more"
        most = (
            f" (up to {allowed.greatest_mm:.1f} mm keeps it in)."
            if works <= allowed.greatest_mm
            else ": no width keeps it in too."
        )
        advice += most
        yield say("throat", "fail", Of(one.key, one.body, wide, allowed.least_mm), message, advice)
        return
    yield from _stays(one, wide, allowed.greatest_mm, spec)
    need = max(0.0, outside * (1.0 - share) - wide)
    yield from _pushed(one, wide, need, arms, spec, f"{outside:.1f} mm{squeezed}", allowed.least_mm)


def _stays(one: Throat, wide: float, most: float, spec: HoseHangerSpec) -> Iterator[Finding]:
    """Too wide to hold it in."""
    if wide <= most + TOLERANCES.fit_mm:
        return
    down = one.out[2] < DOWNWARDS
    carried = spec.carried
    message = f"an opening of {wide:.1f} mm does not keep in a {carried.kind} of {carried.size.least_mm:.1f} mm"
    up = one.out[2] > UPWARDS
    held = ": only gravity holds it, and a snag lifts it out" if up else ": a snag pulls it out"
    message += ": its weight presses it out" if down else held
    of = Of(one.key, one.body, wide, most)
    yield say("throat", "fail" if down else "warn", of, message, f"Make `{one.key}` {most:.1f} mm or less.")


def _pushed(
    one: Throat, wide: float, need: float, arms: Arms, spec: HoseHangerSpec, of_what: str, least: float
) -> Iterator[Finding]:
    """What pushes it in, and out again."""
    push = arms.push_n(need, wide, spec.material.modulus_mpa)
    of = Of(one.key, one.body, wide, least)
    how = f"the arms open by {need:.1f} mm, pushed in with about {push:.0f} N" if need > 0.0 else "pressed in by hand"
    how += f", or squeezed to {wide:.1f} mm with less" if need > 0.0 and spec.carried.kind == "hose" else ""
    message = f"the {spec.carried.kind} of {of_what} goes through {wide:.1f} mm: {how}"
    if push > BY_HAND_N and spec.carried.kind == "pipe":
        advice = f"A wider `{one.key}`, or thinner arms (`arm`); it needs {least:.1f} mm at the least."
        yield say("throat", "warn", of, f"{message}: hard to do overhead", advice)
        return
    yield say("throat", "pass", of, message)
