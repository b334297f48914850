"""The blade over the port: how far it laps shut, what it leaves in the bore when open. Lengths in mm, areas as shares.

Measured along the travel from the body's edge, outwards positive: the port's middle lies at -`port_in_mm`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

STEPS = 2000


@dataclass(frozen=True)
class PortAndBlade:
    """A round port and a blade at least as wide; `blade_mm` from its outer edge to its tip.

    `tip_radius_mm`: None for a straight tip, else the radius of a round one, not under half the bore.
    """

    bore_mm: float
    port_in_mm: float
    blade_mm: float
    tip_radius_mm: float | None = None

    def lap_mm(self, sticks_out_mm: float) -> float:
        """How far the tip stands beyond the far edge of the bore; negative: that much of a slit is open.

        >>> PortAndBlade(101.6, 75, 150).lap_mm(20.0).__round__(2)
        4.2
        """
        return -self.port_in_mm - self.bore_mm / 2.0 - self._tip_mm(sticks_out_mm)

    def left_mm(self, sticks_out_mm: float) -> float:
        """How far the tip still stands in the bore, from its near edge; 0: the bore is free.

        >>> PortAndBlade(101.6, 75, 150).left_mm(123.0).__round__(2)
        2.8
        """
        return min(self.bore_mm, max(0.0, -self.port_in_mm + self.bore_mm / 2.0 - self._tip_mm(sticks_out_mm)))

    def covered_share(self, sticks_out_mm: float) -> float:
        """Share of the bore's area that is covered: a circle's segment; with a round tip, by strips across the blade.

        >>> PortAndBlade(101.6, 75, 150).covered_share(123.0).__round__(4)
        0.0077
        """
        if self.tip_radius_mm is None:
            return segment_share(self.left_mm(sticks_out_mm), self.bore_mm)
        return self._round_share(sticks_out_mm, self.tip_radius_mm)

    def least_out_mm(self) -> float:
        """How far the blade must stick out for a free bore.

        >>> PortAndBlade(101.6, 75, 150).least_out_mm().__round__(1)
        125.8
        """
        return self.blade_mm - self.port_in_mm + self.bore_mm / 2.0

    def _tip_mm(self, sticks_out_mm: float) -> float:
        return sticks_out_mm - self.blade_mm

    def _round_share(self, sticks_out_mm: float, tip_mm: float) -> float:
        """Strips along the travel at x = r sin(a), each as long as the blade reaches into the bore."""
        radius = self.bore_mm / 2.0
        middle = self._tip_mm(sticks_out_mm) + tip_mm + self.port_in_mm
        total = 0.0
        for step in range(STEPS):
            angle = math.pi * ((step + 0.5) / STEPS - 0.5)
            x, half = radius * math.sin(angle), radius * math.cos(angle)
            reach = half - (middle - math.sqrt(max(0.0, tip_mm**2 - x**2)))
            total += min(2.0 * half, max(0.0, reach)) * half
        return total * math.pi / STEPS / (math.pi * radius**2)


def segment_share(height_mm: float, bore_mm: float) -> float:
    """Share of a circle's area in a segment of a height: (r^2 acos((r - h) / r) - (r - h) sqrt(2 r h - h^2)) / pi r^2.

    >>> segment_share(50.8, 101.6)
    0.5
    """
    r, h = bore_mm / 2.0, min(max(height_mm, 0.0), bore_mm)
    return (r * r * math.acos((r - h) / r) - (r - h) * math.sqrt(2.0 * r * h - h * h)) / (math.pi * r * r)


def travel_needed_mm(bore_mm: float, lap_mm: float) -> float:
    """Travel [mm] that frees a bore which the shut blade laps by `lap_mm`: 2 to 5 mm are common (no source).

    >>> travel_needed_mm(101.6, 4.0)
    105.6
    """
    return bore_mm + lap_mm
