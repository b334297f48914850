"""A hand lever that swings on an arc and moves a blade in a line: the slot or link that lies between. Lengths in mm."""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Lever:
    """`arm_mm` from pivot to the pin at the blade, `travel_mm` of the blade, evenly to both sides of square."""

    arm_mm: float
    travel_mm: float

    def __post_init__(self) -> None:
        """An arm reaches no further than its own length to both sides."""
        if not 0.0 < self.travel_mm < 2.0 * self.arm_mm:
            raise ValueError(
                f"travel {self.travel_mm:g} mm with an arm of {self.arm_mm:g} mm; allowed: less than twice the arm"
            )

    @property
    def sagitta_mm(self) -> float:
        """How far the pin moves across the travel: r - sqrt(r^2 - (T / 2)^2).

        >>> round(Lever(200, 105.6).sagitta_mm, 2)
        7.1
        """
        return self.arm_mm - math.sqrt(self.arm_mm**2 - (self.travel_mm / 2.0) ** 2)

    @property
    def swing_deg(self) -> float:
        """From end to end.

        >>> round(Lever(200, 105.6).swing_deg, 1)
        30.6
        """
        return math.degrees(2.0 * math.asin(self.travel_mm / 2.0 / self.arm_mm))

    def slot_mm(self, pin_mm: float, play_mm: float = 0.5) -> float:
        """Length of a slot across the blade in which the lever's pin goes, end to end.

        >>> round(Lever(200, 105.6).slot_mm(6.0), 1)
        13.6
        """
        return self.sagitta_mm + pin_mm + play_mm

    def lever_slot_mm(self, pin_mm: float, play_mm: float = 0.5) -> float:
        """Length of a slot along the lever instead, the pin on the blade, `arm_mm` from pivot to the blade's line.

        There the pin's distance grows from r to sqrt(r^2 + (T / 2)^2).

        >>> round(Lever(200, 105.6).lever_slot_mm(6.0), 1)
        13.4
        """
        return math.hypot(self.arm_mm, self.travel_mm / 2.0) - self.arm_mm + pin_mm + play_mm

    def link_deg(self, link_mm: float) -> float:
        """How far a link between lever and blade leans, the blade's line halfway into the arc: asin(sagitta / 2 l).

        >>> round(Lever(200, 105.6).link_deg(40.0), 1)
        5.1
        """
        return math.degrees(math.asin(self.sagitta_mm / 2.0 / link_mm))

    def hand_n(self, blade_n: float, handle_mm: float) -> float:
        """Pull at the handle, `handle_mm` from the pivot, for a force at the blade; least where the arm is square.

        >>> Lever(200, 105.6).hand_n(40.0, 400.0)
        20.0
        """
        return blade_n * self.arm_mm / handle_mm
