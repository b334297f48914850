"""What holds a gate's blade back: friction under the suction over the port, and the blade's own weight.

Forces in N, lengths in mm, suction in Pa, masses in kg.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, get_args

from fitwright.physics.gravity import GRAVITY

Mounted = Literal["blade_up", "blade_down", "sideways", "any"]
"""Which way the blade comes out: `blade_up` opens by going up; `any` is the worst of all."""

PA_PER_INCH_WATER = 249.08891
"""Conventional inch of water: 25.4 mm x 9.80665 N per mm of water and m2."""
FRICTION = 0.5
"""Plastic on plastic or on metal, dry, cautious: a stored data sheet gives plastic on plastic 0.44 moving and 0.76 at
rest, and the CRC Materials Science Handbook (2001, table 399) 0.1-0.5 for plastics on steel."""
DIRT = 2.0
"""What dust and resin in the slot make of it (common practice, no source)."""


@dataclass(frozen=True)
class Drag:
    """Forces along the travel [N]; a negative one means that the blade moves that way by itself."""

    friction_n: float
    weight_n: float
    mounted: Mounted

    @property
    def opening_n(self) -> float:
        """What opening the gate takes."""
        return self.friction_n + self.weight_n * (-1.0 if self.mounted == "blade_down" else 1.0)

    @property
    def shutting_n(self) -> float:
        """What shutting the gate takes."""
        return self.friction_n + self.weight_n * (-1.0 if self.mounted == "blade_up" else 1.0)

    @property
    def greatest_n(self) -> float:
        """The greater of the two."""
        return max(self.opening_n, self.shutting_n)


def suction_normal_n(suction_pa: float, port_mm: float) -> float:
    """Force [N] that presses the shut blade on its seat: suction x area of the port.

    Open, nothing is sucked against a hole; the shut gate is the worst position. Range: any suction >= 0.

    >>> round(suction_normal_n(10 * PA_PER_INCH_WATER, 101.6), 1)   # 4 in port, 10 in of water
    20.2
    >>> round(suction_normal_n(10 * PA_PER_INCH_WATER, 152.4), 1)   # 6 in port
    45.4
    """
    return suction_pa * math.pi * (port_mm / 1000.0) ** 2 / 4.0


def blade_mass_kg(width_mm: float, length_mm: float, thickness_mm: float, density_g_cm3: float) -> float:
    """Mass [kg] of a flat blade, without regard to its holes.

    >>> round(blade_mass_kg(118, 250, 3, 1.2), 3)
    0.106
    """
    return width_mm * length_mm * thickness_mm * density_g_cm3 * 1e-6


def blade_drag(
    suction_pa: float,
    port_mm: float,
    moving_kg: float = 0.0,
    mounted: Mounted = "any",
    mu: float = FRICTION,
    dirt: float = DIRT,
) -> Drag:
    """What it takes to move the blade [N]: mu x dirt x normal force, and the weight of all that moves.

    Up or down, the weight counts along the travel. Sideways it lies on an edge or a face of its slot and adds friction
    mu x dirt x W. At an angle a to the level it takes W (sin a + mu dirt cos a), whose greatest is W sqrt(1 + (mu
    dirt)^2): that is `any`, both ways. `moving_kg` is blade, coupling and rod together.

    >>> round(blade_drag(10 * PA_PER_INCH_WATER, 101.6).opening_n, 1)
    20.2
    >>> one = blade_drag(2490.9, 101.6, moving_kg=0.2, mounted="blade_up")
    >>> round(one.opening_n, 1), round(one.shutting_n, 1)
    (22.2, 18.2)
    """
    if mounted not in get_args(Mounted):
        raise ValueError(f"mounted is {mounted!r}; allowed: {', '.join(get_args(Mounted))}")
    weight, sliding = moving_kg * GRAVITY, mu * dirt
    friction = sliding * suction_normal_n(suction_pa, port_mm)
    if mounted == "sideways":
        return Drag(friction + sliding * weight, 0.0, mounted)
    if mounted == "any":
        return Drag(friction, weight * math.hypot(1.0, sliding), mounted)
    return Drag(friction, weight, mounted)


def weight_left_n(
    moving_kg: float, suction_pa: float, port_mm: float, mu_clean: float, holding_n: float = 0.0
) -> float:
    """Weight [N] that nothing holds when the air fails, the blade upright; 0 or less: it stays where it is.

    Held by friction at its least (a clean slot, `mu_clean`, about half of what drag reckons with; suction 0 where the
    collector is off) and by what the cylinder's seals drag, `holding_n`.

    >>> round(weight_left_n(0.2, 0.0, 101.6, 0.2, holding_n=5.0), 2)
    -3.04
    """
    return moving_kg * GRAVITY - mu_clean * suction_normal_n(suction_pa, port_mm) - holding_n
