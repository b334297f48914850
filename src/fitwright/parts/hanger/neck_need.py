"""How wide the neck between what is round the hose and the base has to be: a snag from any direction."""

from __future__ import annotations

import math

from fitwright.parts.hanger.base_plate import PLATE_MM
from fitwright.parts.hanger.necks import widest_mm
from fitwright.physics.by_hand import SNAG_N
from fitwright.spec.hanger import HoseHangerSpec

SAFE = 2.2
"""The filament's strength over the stress allowed: the elements find 1.4 times as much where neck meets ring."""
ARMS = 2.0
"""It is no thinner than so many arms: both of them run into it."""
STAND_MM = 40.0
"""From the arms' outside to the surface, at the most, until the mount has said how far it is."""
NOTCH_MM = 3.0
"""Beside the neck there is so much between ring and base: no narrower notch is left."""
STRAP_SLACK_MM, BAND_SLACK_MM = 2.0, 1.0
STEP_MM = 0.5
LEAST_SOLID_MM = 4.0
TURNING_MM = 22.0
"""Half the foot of a swivel: no neck on it is wider, and no plate bends beside it."""
SCREW_MM, EAR_MM = 9.0, 14.0
"""From what stands beside it to a screw's axis, and how far a clamp's ears reach, about."""


def neck_mm(spec: HoseHangerSpec, bore_r: float, arm: float, opens: tuple[float, float], axis: float = 0.0) -> float:
    """The neck's width along u [mm]; `axis`: from the surface to the hose's axis, where that is known.

    A snag pulls at the lip that is furthest from the surface: sideways it bends the neck in the profile's plane, along
    the hose it bends it the other way and twists it; and the plate beside it bends up to its screws. Where the screws
    are under the hose the plate has to bear what tips it, and the neck stays as wide as the ring lets it.
    """
    most = widest_mm(bore_r, arm, opens)
    if under_hose(spec):
        return most
    out = bore_r + arm
    lever = max(axis, spec.mount.axis_mm or 0.0, out + STAND_MM) + out
    wide = max(ARMS * arm, 0.0 if abs(opens[0]) > 0.5 else 2 * math.sqrt(NOTCH_MM * (2 * out - NOTCH_MM)))
    limit, solid = spec.material.strength_mpa / SAFE, _solid_mm(spec, opens)
    while wide < most and stress_mpa(SNAG_N, wide, solid, lever, out) > limit:
        wide += STEP_MM
    away, half = out + _beside_mm(spec), 2.0 if abs(opens[0]) < 0.5 else 1.0
    if spec.swivel:
        return min(wide, most, half * TURNING_MM)
    while wide < most and plate_mpa(SNAG_N, wide / half, spec.width_mm, lever - out, away) > limit:
        wide += STEP_MM
    return min(wide, most)


def plate_mpa(force_n: float, edge: float, along: float, lever: float, screw: float) -> float:
    """Stress [MPa] in the plate at the neck's edge, `edge` from the axis, its screw `screw` from it on the same side.

    A force at the axis, `lever` from the surface, tips the neck about its other edge, and the plate bends up to the
    screw that holds it down: T = F lever / (screw + edge), M = T (screw - edge), over along t^2 / 6.
    """
    pulled = force_n * lever / (screw + edge)
    return 6.0 * pulled * max(0.0, screw - edge) / (along * PLATE_MM**2)


def _beside_mm(spec: HoseHangerSpec) -> float:
    """From the arms' outside to a screw beside them."""
    return SCREW_MM + (EAR_MM if spec.style == "clamp" and spec.clamp.kind == "screws" else 0.0)


def stress_mpa(force_n: float, wide: float, along: float, lever: float, off: float) -> float:
    """Greatest stress [MPa] in a neck of `wide` x `along` the hose for a force at `lever` from it and `off` its middle.

    Bending 6 F L / (b h^2) in the profile's plane; along the hose the same with b and h changed, and with it the twist
    F off over b t^2 / (3 + 1.8 t / b) (W. C. Young, Roark's Formulas, torsion of a rectangle; from memory).
    """
    if along <= 0.0:
        return math.inf
    inside = 6.0 * force_n * lever / (along * wide**2)
    bent = 6.0 * force_n * lever / (wide * along**2)
    long, short = max(wide, along), min(wide, along)
    twist = force_n * off * (3.0 + 1.8 * short / long) / (long * short**2)
    return max(inside, math.hypot(bent, math.sqrt(3.0) * twist))


def under_hose(spec: HoseHangerSpec) -> bool:
    """Whether what holds the base may lie under the hose: its edges are all that keeps it from tipping."""
    mount = spec.mount
    if spec.swivel:
        return False
    if mount.kind in ("joist_underside", "strut", "t_slot"):
        return mount.along
    return mount.kind in ("rod", "cable_tie", "holes")


def _solid_mm(spec: HoseHangerSpec, opens: tuple[float, float]) -> float:
    """What is there of the width where a strap or a band passes through the neck; who leaves less is refused there."""
    return max(LEAST_SOLID_MM, _left_mm(spec, opens))


def _left_mm(spec: HoseHangerSpec, opens: tuple[float, float]) -> float:
    if spec.style == "saddle" and abs(opens[0]) > 0.5:
        return spec.width_mm - spec.strap.wide_mm - STRAP_SLACK_MM
    if spec.style == "clamp" and spec.clamp.kind == "band":
        return spec.width_mm - spec.clamp.band_mm - BAND_SLACK_MM
    return spec.width_mm
