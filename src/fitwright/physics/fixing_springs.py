"""How far what holds a hanger gives way: wood screws, steel bolts, cable ties and bands as springs [N/mm].

Lengths in mm, moduli in MPa. What a spring is matters little for the stress of a print that is held at two places or
more, and not at all for one that is held at one (its forces are those of equilibrium); within a factor of two is good
enough, so common practice is told as such.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.steel import STEEL_MPA

NYLON_MPA = 1500.0
"""Of a cable tie of polyamide 66 that has taken up moisture: 1200 to 1700 (from memory)."""
MOISTURE = 0.12
"""Of wood that is dry as it stands in a building."""
CORE = 1.226869
"""Core of a metric thread: d - 1.226869 P (ISO 724)."""


@dataclass(frozen=True)
class Springs:
    """Along the fastener's axis and across it [N/mm], of the whole face that it bears on."""

    axial_n_mm: float
    lateral_n_mm: float


def mean_density_kg_m3(gravity: float) -> float:
    """Density of wood at 12 % moisture, of its specific gravity oven-dry: 1000 G (1 + m) / (1 + 0.009 G M).

    National Design Specification for Wood Construction, supplement, section 3.1.3 (from memory), M in percent.

    >>> round(mean_density_kg_m3(0.42))
    450
    """
    return 1000.0 * gravity * (1.0 + MOISTURE) / (1.0 + 0.009 * gravity * 100.0 * MOISTURE)


def wood_screw(gravity: float, d_mm: float, thread_mm: float) -> Springs:
    """A screw of `d_mm` with so much thread in the wood.

    Across: EN 1995-1-1:2004, table 7.1, screws: K_ser = rho_m^1.5 d / 23 for each shear plane (from memory). Along: the
    standard has none; approvals of screws for softwood give 25 d l (from memory).

    >>> wood_screw(0.42, 5.0, 35.0).axial_n_mm, round(wood_screw(0.42, 5.0, 35.0).lateral_n_mm)
    (4375.0, 2075)
    """
    return Springs(25.0 * d_mm * max(thread_mm, d_mm), mean_density_kg_m3(gravity) ** 1.5 * d_mm / 23.0)


def steel_bolt(d_mm: float, pitch_mm: float, long_mm: float) -> Springs:
    """A steel bolt stretched and bent between its head and the nut or thread `long_mm` away.

    Along: E A / L with the stress area of ISO 898-1. Across: a bar held from turning at both ends, 12 E I / L^3, with
    the core, but no stiffer than along.

    >>> round(steel_bolt(8.0, 1.25, 15.5).axial_n_mm / 1000), round(steel_bolt(8.0, 1.25, 15.5).lateral_n_mm / 1000)
    (484, 57)
    """
    area = math.pi / 4.0 * (d_mm - 0.9382 * pitch_mm) ** 2
    second = math.pi / 64.0 * (d_mm - CORE * pitch_mm) ** 4
    axial = STEEL_MPA * area / long_mm
    return Springs(axial, min(axial, 12.0 * STEEL_MPA * second / long_mm**3))


def strap_round(modulus_mpa: float, section_mm2: float, round_mm: float) -> float:
    """A tie or band round something, `round_mm` long altogether, pulled away from it: both its strands give way.

    2 E A / (L / 2); its friction on what it goes round is left out.

    >>> round(strap_round(1500.0, 7.6 * 1.9, 120.0))
    722
    """
    return 2.0 * modulus_mpa * section_mm2 / (round_mm / 2.0)
