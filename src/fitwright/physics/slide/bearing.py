"""The pin in the blade's hole: bearing, tearing out, the net section, and the pin itself.

Lengths in mm, forces in N, stresses in MPa. Source: lugs and clevis pins as in Shigley's Mechanical Engineering Design
("Bolted joints in shear", from memory). Nominal stresses: no stress concentration is taken, the permitted ones are low.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

SHEAR_SHARE = 0.577
"""Shear strength over tensile strength (von Mises)."""
TENSION_FACTOR = 3.0
"""Strength over permitted stress for a plastic that is loaded now and then (common practice, no source)."""


@dataclass(frozen=True)
class BladeHole:
    """A hole near the blade's outer edge: `edge_mm` from the edge to its centre; `width_mm` of the blade."""

    hole_mm: float
    pin_mm: float
    edge_mm: float
    thickness_mm: float
    width_mm: float

    def bearing_mpa(self, force_n: float) -> float:
        """Pin on the hole's wall: F / (d t).

        >>> BladeHole(5, 4.5, 8, 3, 118).bearing_mpa(120.6).__round__(2)
        8.93
        """
        return force_n / (self.pin_mm * self.thickness_mm)

    def tear_out_mpa(self, force_n: float) -> float:
        """Shear along two planes from the hole to the edge: F / (2 t (edge - hole / 2)).

        >>> BladeHole(5, 4.5, 8, 3, 118).tear_out_mpa(120.6).__round__(2)
        3.65
        """
        return force_n / (2.0 * self.thickness_mm * (self.edge_mm - self.hole_mm / 2.0))

    @property
    def pulled_width_mm(self) -> float:
        """Width that carries the pull beside the hole: no more than 2 x edge distance (a lug as wide as it is long)."""
        return min(self.width_mm, 2.0 * self.edge_mm)

    def net_section_mpa(self, force_n: float) -> float:
        """Tension beside the hole: F / ((b - hole) t), b = `pulled_width_mm`.

        >>> BladeHole(5, 4.5, 8, 3, 118).net_section_mpa(120.6).__round__(2)
        3.65
        """
        return force_n / ((self.pulled_width_mm - self.hole_mm) * self.thickness_mm)

    def permitted_n(self, strength_mpa: float, factor: float = TENSION_FACTOR) -> float:
        """The greatest force [N] for a blade of a tensile strength [MPa]: the least of all three.

        >>> round(BladeHole(5, 4.5, 8, 3, 118).permitted_n(30.0))
        135
        """
        permitted = strength_mpa / factor
        return min(
            permitted / self.bearing_mpa(1.0),
            SHEAR_SHARE * permitted / self.tear_out_mpa(1.0),
            permitted / self.net_section_mpa(1.0),
        )

    def least_edge_mm(self, force_n: float, strength_mpa: float, factor: float = TENSION_FACTOR) -> float:
        """The least distance [mm] from hole's centre to edge: neither torn out nor pulled apart beside the hole.

        >>> round(BladeHole(5, 4.5, 8, 3, 118).least_edge_mm(120.6, 30.0), 2)
        5.98
        """
        permitted = strength_mpa / factor
        shear = force_n / (2.0 * self.thickness_mm * SHEAR_SHARE * permitted) + self.hole_mm / 2.0
        return max(shear, (force_n / (permitted * self.thickness_mm) + self.hole_mm) / 2.0)


def pin_shear_mpa(force_n: float, pin_mm: float) -> float:
    """Shear in a pin that a fork holds at both sides: F / (2 A).

    >>> round(pin_shear_mpa(120.6, 4.0), 1)
    4.8
    """
    return force_n / (2.0 * math.pi * pin_mm**2 / 4.0)


def pin_bending_mpa(force_n: float, pin_mm: float, blade_mm: float, slot_mm: float, cheek_mm: float) -> float:
    """Bending in a pin through a fork's cheeks (`cheek_mm` thick each) and a blade that stands in a slot.

    Each cheek presses with F / 2 in its middle, the blade evenly over its thickness:
    M = F / 2 (cheek / 2 + gap + blade / 4), gap = (slot - blade) / 2; stress = 32 M / (pi d^3). Cautious: a tight hole
    and a bolt that is done up bend less.

    >>> round(pin_bending_mpa(120.6, 4.0, 3.0, 3.4, 5.0), 1)
    33.1
    """
    arm = cheek_mm / 2.0 + (slot_mm - blade_mm) / 2.0 + blade_mm / 4.0
    return force_n / 2.0 * arm * 32.0 / (math.pi * pin_mm**3)
