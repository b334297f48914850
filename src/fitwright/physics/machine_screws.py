"""Machine screws and rods that hold a print: tension, a rod bent aside, heads pulled through, holes crushed.

Lengths in mm, forces in N, stresses in MPa. Sources: ISO 898-1 (stress area, strength of property classes); the rest
is nominal stress over area as in any handbook of machine design. Strengths of the print are given by the caller.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

STRENGTH_MPA = {"4.6": 400.0, "4.8": 400.0, "5.8": 500.0, "8.8": 800.0, "A2-70": 700.0}
"""Tensile strength of property classes: ISO 898-1 (first number x 100), ISO 3506-1 for A2-70."""
PRINT_SHEAR_SHARE = 0.5
"""Shear strength of a print through its layers over its tensile strength in them (common practice, no source)."""


def stress_area_mm2(major_mm: float, pitch_mm: float) -> float:
    """Area that carries tension: pi / 4 (d - 0.9382 P)^2, ISO 898-1.

    >>> round(stress_area_mm2(8.0, 1.25), 1)
    36.6
    """
    return math.pi / 4.0 * (major_mm - 0.9382 * pitch_mm) ** 2


def rod_tension_n(area_mm2: float, property_class: str = "4.6") -> float:
    """What tears a rod or a screw [N]; unmarked rod from a shop is 4.6.

    >>> round(rod_tension_n(36.6))
    14640
    """
    return STRENGTH_MPA[property_class] * area_mm2


def rod_bending_mpa(force_n: float, long_mm: float, core_mm: float) -> float:
    """Bending at the top of a rod that is held fast there and pulled aside at its lower end: 32 F L / (pi d^3).

    A drop rod that cannot swing is bent by every snag: 150 N on 300 mm of M8 is six times its yield. Brace it, keep it
    short, or let it swing.

    >>> round(rod_bending_mpa(150.0, 300.0, 6.466))
    1696
    """
    return 32.0 * force_n * long_mm / (math.pi * core_mm**3)


def longest_stiff_rod_mm(force_n: float, core_mm: float, yield_mpa: float = 240.0) -> float:
    """The longest rod [mm] that a force aside does not bend for good (class 4.6 yields at 240 MPa).

    >>> round(longest_stiff_rod_mm(150.0, 6.466))
    42
    """
    return yield_mpa * math.pi * core_mm**3 / (32.0 * force_n)


@dataclass(frozen=True)
class HeadOnPrint:
    """A head or washer of `outer_mm` over a hole of `hole_mm` in `thickness_mm` of print."""

    outer_mm: float
    hole_mm: float
    thickness_mm: float

    @property
    def bearing_mm2(self) -> float:
        """The ring that presses on the print."""
        return math.pi / 4.0 * (self.outer_mm**2 - self.hole_mm**2)

    def bearing_mpa(self, force_n: float) -> float:
        """Pressure under it.

        >>> round(HeadOnPrint(16.0, 9.0, 8.0).bearing_mpa(1000.0), 2)
        7.28
        """
        return force_n / self.bearing_mm2

    def punching_mpa(self, force_n: float) -> float:
        """Shear round its rim: F / (pi d t)."""
        return force_n / (math.pi * self.outer_mm * self.thickness_mm)

    def pulls_through_n(self, strength_mpa: float, shear_share: float = PRINT_SHEAR_SHARE) -> float:
        """What pulls it through [N]: crushed under the ring or sheared round its rim, the lesser.

        `strength_mpa`: the print's tensile strength in the direction that counts (its compressive one is higher).

        >>> round(HeadOnPrint(16.0, 9.0, 8.0).pulls_through_n(20.0))
        2749
        """
        crushed = strength_mpa * self.bearing_mm2
        sheared = shear_share * strength_mpa * math.pi * self.outer_mm * self.thickness_mm
        return min(crushed, sheared)


@dataclass(frozen=True)
class HoleInPrint:
    """A hole that a screw of `screw_mm` presses on from within; `edge_mm` from its centre to the edge it pushes at."""

    screw_mm: float
    hole_mm: float
    edge_mm: float
    thickness_mm: float

    def bearing_mpa(self, force_n: float) -> float:
        """Screw on the hole's wall: F / (d t).

        >>> HoleInPrint(5.0, 5.5, 12.0, 8.0).bearing_mpa(400.0)
        10.0
        """
        return force_n / (self.screw_mm * self.thickness_mm)

    def tears_out_n(self, strength_mpa: float, shear_share: float = PRINT_SHEAR_SHARE) -> float:
        """What pushes the screw out of the edge, by two planes of shear, or crushes the wall [N].

        >>> round(HoleInPrint(5.0, 5.5, 12.0, 8.0).tears_out_n(20.0))
        800
        """
        sheared = shear_share * strength_mpa * 2.0 * self.thickness_mm * (self.edge_mm - self.hole_mm / 2.0)
        return max(0.0, min(strength_mpa * self.screw_mm * self.thickness_mm, sheared))
