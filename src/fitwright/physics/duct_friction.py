"""Friction along a wall: Darcy's factor for smooth and rough walls, and for ribbed hose."""

from __future__ import annotations

import math

from fitwright.airway import Leg
from fitwright.errors import DataError
from fitwright.physics.duct_air import Air, reynolds
from fitwright.physics.duct_band import Band

COLEBROOK = "Darcy-Weisbach with Colebrook's factor (Clamond's solution in fluids)"


def friction_factor(reynolds_number: float, roughness_mm: float, diameter_mm: float) -> float:
    """Darcy's friction factor: 64/Re where laminar, else Colebrook's (Clamond 2009, within 1e-12).

    Roughness 0 to 0.1 of the diameter: beyond that Colebrook's sand grains mean nothing.
    """
    if not (math.isfinite(reynolds_number) and reynolds_number > 0.0):
        raise DataError(f"a Reynolds number of {reynolds_number:g}; allowed: above 0")
    if not 0.0 <= roughness_mm <= 0.1 * diameter_mm:
        raise DataError(f"a roughness of {roughness_mm:g} mm in {diameter_mm:g} mm; allowed: 0 to a tenth of it")
    import fluids

    return float(fluids.friction_factor(Re=reynolds_number, eD=roughness_mm / diameter_mm))


def friction_coefficient(leg: Leg, speed_m_s: float, air: Air, roughness_mm: Band) -> Band:
    """f L / D of a leg at the speed given, for the least, the likely and the greatest roughness [mm]."""
    diameter_mm = 0.5 * (leg.hydraulic_mm[0] + leg.hydraulic_mm[1])
    number = reynolds(speed_m_s, diameter_mm, air)
    if number == 0.0:
        return Band(0.0, 0.0, 0.0)
    along = leg.length_mm / diameter_mm
    low, middle, high = (
        friction_factor(number, min(rough, 0.1 * diameter_mm), diameter_mm) * along
        for rough in (roughness_mm.low, roughness_mm.middle, roughness_mm.high)
    )
    return Band(low, middle, high)
