"""A blade that is pushed shut as a strut: at which thrust it bows out, and whether rod and blade fold at their joint.

Lengths in mm, forces in N, moduli and strengths in MPa.

Source: Euler's column formula; J. B. Johnson's parabola for short struts, as in Shigley's Mechanical Engineering
Design, "Columns" (from memory). Factor 2 is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.steel import STEEL_MPA

FACTOR = 2.0
"""Critical load over permitted load."""


@dataclass(frozen=True)
class Strut:
    """A flat blade under thrust along its length.

    `free_mm` is what sticks out of its guides where the pushing starts (the gate open); `end_factor` is Euler's K: 1,
    the end in the guides and the end at the rod both free to turn and held aside (the guides' clearance lets it turn).
    """

    width_mm: float
    thickness_mm: float
    free_mm: float
    modulus_mpa: float
    strength_mpa: float = math.inf
    end_factor: float = 1.0

    @property
    def slenderness(self) -> float:
        """K L / r with r = t / sqrt(12), the blade bowing across its thickness."""
        return self.end_factor * self.free_mm * math.sqrt(12.0) / self.thickness_mm

    @property
    def limit_slenderness(self) -> float:
        """Above it Euler holds: there the stress at buckling is half of the strength or less. 0 where none is given."""
        return math.sqrt(2.0 * math.pi**2 * self.modulus_mpa / self.strength_mpa)

    @property
    def critical_n(self) -> float:
        """Thrust [N] at which it gives way: Euler where slender, Johnson where short.

        Euler: pi^2 E b t^3 / 12 / (K L)^2. Johnson: A S (1 - S s^2 / (4 pi^2 E)); both meet at `limit_slenderness`.

        >>> round(Strut(118, 3, 125.6, 2000).critical_n)
        332
        >>> round(Strut(170, 3, 181.6, 2000).critical_n)
        229
        >>> round(Strut(118, 3, 10, 2000, strength_mpa=40).critical_n)      # short: it is crushed at 14160
        13204
        """
        slender, area = self.slenderness, self.width_mm * self.thickness_mm
        if slender <= self.limit_slenderness:
            return (
                area * self.strength_mpa * (1.0 - self.strength_mpa * (slender / math.pi) ** 2 / 4.0 / self.modulus_mpa)
            )
        return math.pi**2 * self.modulus_mpa * area / slender**2

    @property
    def permitted_n(self) -> float:
        """What the cylinder may push with when it stalls: half of `critical_n`.

        >>> round(Strut(118, 3, 125.6, 2000).permitted_n)
        166
        """
        return self.critical_n / FACTOR


def least_thickness_mm(thrust_n: float, width_mm: float, free_mm: float, modulus_mpa: float) -> float:
    """The least thickness [mm] that bears a thrust with the factor of 2, by Euler (K = 1).

    >>> round(least_thickness_mm(120.6, 118, 125.6, 2000), 2)       # bore 16 at 6 bar, 4 in blade
    2.7
    """
    second_moment = FACTOR * thrust_n * (free_mm / math.pi) ** 2 / modulus_mpa
    return math.cbrt(12.0 * second_moment / width_mm)


def rod_and_blade_critical_n(rod_mm: float, rod_out_mm: float, free_mm: float, modulus_mpa: float = STEEL_MPA) -> float:
    """Thrust [N] at which rod and blade fold at a joint between them that turns freely.

    K = 1 for the blade supposes that the rod holds the joint aside. The rod is a cantilever of length a out of its
    nose, with second moment I; the blade a stiff link of length L that turns at the slot. Then
    EI y'' = P (v - y) + P v (a - x) / L with y(0) = y'(0) = 0 and y(a) = v gives tan(k a) = k (a + L), P = k^2 EI,
    and for a stocky rod P = 3 EI L / a^3.

    Holds where the blade is hardly held by its guides (open). Shut, the blade stands deep in them and is no link.

    >>> round(rod_and_blade_critical_n(6, 42, 125.6))                # in line, open: the rod is short
    14341
    >>> round(rod_and_blade_critical_n(6, 147, 125.6))               # alongside, open: the rod is long
    761
    """
    stiffness = modulus_mpa * math.pi * rod_mm**4 / 64.0
    ratio = 1.0 + free_mm / rod_out_mm
    low, high = 1e-9, math.pi / 2.0 - 1e-12
    for _ in range(200):
        middle = (low + high) / 2.0
        low, high = (middle, high) if math.tan(middle) < ratio * middle else (low, middle)
    return (low / rod_out_mm) ** 2 * stiffness
