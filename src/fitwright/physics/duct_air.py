"""Air in a duct: density, viscosity, velocity, velocity pressure, Reynolds number."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.errors import DataError

STANDARD_DENSITY = 1.204
"""Air at 20 °C and 101.325 kPa [kg/m3] (ASHRAE duct design; 0.075 lb/ft3 is 1.201)."""
STANDARD_VISCOSITY = 1.82e-5
"""Air at 20 °C [Pa s] (Sutherland's law gives 1.814e-5, the ISA's constants)."""


@dataclass(frozen=True)
class Air:
    """Density [kg/m3] and dynamic viscosity [Pa s]; as it stands, air of 20 °C at sea level."""

    density_kg_m3: float = STANDARD_DENSITY
    viscosity_pa_s: float = STANDARD_VISCOSITY

    def __post_init__(self) -> None:
        _positive("the air's density", self.density_kg_m3, "kg/m3")
        _positive("the air's viscosity", self.viscosity_pa_s, "Pa s")


def velocity_m_s(flow_m3_s: float, area_mm2: float) -> float:
    """Mean velocity [m/s] of a flow [m3/s, 0 or more] through an area [mm2, above 0].

    >>> f"{velocity_m_s(0.1647, 8107.3):.2f}"
    '20.32'
    """
    if not (math.isfinite(flow_m3_s) and flow_m3_s >= 0.0):
        raise DataError(f"a flow of {flow_m3_s:g} m3/s; allowed: 0 or more")
    return flow_m3_s / (_positive("an area", area_mm2, "mm2") * 1e-6)


def velocity_pressure_pa(velocity: float, density_kg_m3: float = STANDARD_DENSITY) -> float:
    """rho v^2 / 2 [Pa] (v m/s).

    The trade's (V/4005)^2, V in ft/min and the pressure in inches of water, is the same with 0.075 lb/ft3.

    >>> round(velocity_pressure_pa(20.0), 1)
    240.8
    """
    return 0.5 * density_kg_m3 * velocity * velocity


def round_mm(area_mm2: float) -> float:
    """The diameter [mm] of the circle with this area [mm2]."""
    return math.sqrt(4.0 * _positive("an area", area_mm2, "mm2") / math.pi)


def reynolds(velocity: float, diameter_mm: float, air: Air) -> float:
    """rho v D / mu."""
    return air.density_kg_m3 * velocity * diameter_mm * 1e-3 / air.viscosity_pa_s


def _positive(what: str, value: float, unit: str) -> float:
    if not (math.isfinite(value) and value > 0.0):
        raise DataError(f"{what} of {value:g} {unit}; allowed: above 0")
    return value
