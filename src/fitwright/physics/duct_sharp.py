"""The same joint made sharp, to compare with: what the cones and bends are worth."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from fitwright.airway import Leg
from fitwright.physics.duct_legs import same_area


def sharp(legs: Iterable[Leg]) -> tuple[Leg, ...]:
    """The legs with every cone a sudden step and every bend a mitre of the same angle; all else as it is.

    A cone between equal areas (a change of shape alone) stays: no table tells what its corners would cost.

    A mitre's corner is where the bend's two straights meet, R tan(angle / 2) beyond each of its ends: so much straight
    belongs to it on either side (`length_mm`), and lies between it and the bend before it.
    """
    made = tuple(legs)
    return tuple(_sharp(leg, _before(made, number)) for number, leg in enumerate(made))


def _sharp(leg: Leg, before: Leg | None) -> Leg:
    if leg.kind == "cone" and not same_area(leg):
        facing = leg.area_mm2[1] < leg.area_mm2[0]
        return replace(leg, kind="step", length_mm=0.0, half_angle_deg=0.0, facing=facing)
    if leg.kind == "bend":
        apart = leg.follows_mm
        if apart is not None:
            apart += _tangent(leg) + (_tangent(before) if before else 0.0)
        return replace(leg, kind="mitre", length_mm=2.0 * _tangent(leg), radius_mm=0.0, follows_mm=apart)
    return leg


def _before(legs: tuple[Leg, ...], number: int) -> Leg | None:
    """The bend before this leg."""
    return next((leg for leg in reversed(legs[:number]) if leg.kind in ("bend", "mitre")), None)


def _tangent(leg: Leg) -> float:
    """From a bend's end to where its straights meet [mm]; 0 for a mitre, and no more than 10 R near a U-turn."""
    return min(10.0, math.tan(math.radians(min(leg.angle_deg, 179.0)) / 2.0)) * leg.radius_mm
