"""What an air cylinder gives, at which pressure it is run, how much air it takes and how long it travels.

Pressures are gauge pressures in bar (1 bar = 0.1 N/mm2), forces in N, lengths in mm, air in litres of free air.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Way = Literal["in", "out"]
"""The way the rod moves."""
MPA_PER_BAR = 0.1
ATMOSPHERE_BAR = 1.01325
EFFICIENCY = 0.85
"""What seals and bearing leave of the thrust: two stored pages give 0.85 efficiency and 0.7 as share of load."""
MARGIN = 2.0
"""Thrust over drag, dirt already counted (common practice, no source)."""
STALL_LIMIT = 6.0
"""A stalled cylinder pushes with no more than this times the drag; more only breaks things (common practice)."""
LEAST_WORKING_BAR = 1.5
"""Below this small cylinders move by jerks; makers state 1 to 2 bar (common practice, no source)."""
REGULATOR_STEP_BAR = 0.5
"""What one sets and reads on a small regulator."""
END_SPEED = 1.4
"""Speed at the end over mean speed of a stroke (from memory)."""


@dataclass(frozen=True)
class Cylinder:
    """A double-acting cylinder; with springs given it is single-acting.

    `spring_n`: force of the spring where it is weakest and where it is strongest. `spring_moves` is the way it moves
    the rod when there is no air.
    """

    bore_mm: float
    rod_mm: float
    stroke_mm: float
    spring_n: tuple[float, float] | None = None
    spring_moves: Way = "in"

    @property
    def push_area_mm2(self) -> float:
        """Piston area, rod moving out: pi D^2 / 4."""
        return math.pi * self.bore_mm**2 / 4.0

    @property
    def pull_area_mm2(self) -> float:
        """Piston area less the rod, rod moving in: pi (D^2 - d^2) / 4."""
        return math.pi * (self.bore_mm**2 - self.rod_mm**2) / 4.0

    def area_mm2(self, way: Way) -> float:
        """The area that moves the rod `way`."""
        return self.push_area_mm2 if way == "out" else self.pull_area_mm2

    def stall_n(self, way: Way, bar: float) -> float:
        """Greatest thrust [N], the rod held: no loss is taken off. Springs act where there are some.

        >>> round(Cylinder(50, 20, 100).stall_n("out", 6.0), 1)     # 1178 N in a published data row
        1178.1
        >>> round(Cylinder(16, 6, 125).stall_n("in", 6.0), 1)
        103.7
        """
        if self.spring_n is None:
            return bar * MPA_PER_BAR * self.area_mm2(way)
        if way == self.spring_moves:
            return max(self.spring_n)
        return bar * MPA_PER_BAR * self.area_mm2(way) - min(self.spring_n)

    def usable_n(self, way: Way, bar: float, efficiency: float = EFFICIENCY) -> float:
        """Thrust [N] that is left for the blade anywhere in the stroke: efficiency x p x A, less the strongest spring.

        By a spring alone, the weakest spring x efficiency.

        >>> round(Cylinder(16, 6, 125).usable_n("out", 6.0), 1)
        102.5
        >>> one = Cylinder(16, 6, 50, spring_n=(10.0, 20.0))
        >>> round(one.usable_n("out", 6.0), 1), round(one.usable_n("in", 6.0), 1)
        (82.5, 8.5)
        """
        if self.spring_n is None:
            return efficiency * bar * MPA_PER_BAR * self.area_mm2(way)
        if way == self.spring_moves:
            return efficiency * min(self.spring_n)
        return efficiency * bar * MPA_PER_BAR * self.area_mm2(way) - max(self.spring_n)

    def least_bar(self, way: Way, need_n: float, efficiency: float = EFFICIENCY) -> float:
        """Least pressure [bar] at which `usable_n` reaches `need_n`; for a spring 0 or, where it is too weak, inf.

        >>> round(Cylinder(16, 6, 125).least_bar("in", 2 * 20.2), 2)
        2.75
        """
        need = max(need_n, 0.0)
        if self.spring_n is not None and way == self.spring_moves:
            return 0.0 if self.usable_n(way, 0.0, efficiency) >= need else math.inf
        spring = max(self.spring_n) if self.spring_n is not None else 0.0
        return (need + spring) / (efficiency * MPA_PER_BAR * self.area_mm2(way))

    def greatest_bar(self, way: Way, permitted_n: float) -> float:
        """Greatest pressure [bar] at which the stalled cylinder stays at or under `permitted_n`.

        A spring's own thrust does not hang on the pressure: inf where it stays under, 0 where it does not.

        >>> round(Cylinder(32, 12, 125).greatest_bar("out", 6 * 20.2), 2)
        1.51
        """
        if self.spring_n is not None and way == self.spring_moves:
            return math.inf if max(self.spring_n) <= permitted_n else 0.0
        spring = min(self.spring_n) if self.spring_n is not None else 0.0
        return max(0.0, permitted_n + spring) / (MPA_PER_BAR * self.area_mm2(way))

    def air_litres(self, bar: float, stroke_mm: float | None = None) -> float:
        """Free air [litres] for one double stroke: both swept volumes x (p + 1.013) / 1.013, at the room's temperature.

        A single-acting one takes air one way only. Tubes come on top: `tube_litres`.

        >>> round(Cylinder(16, 6, 125).air_litres(3.0), 3)
        0.185
        """
        stroke = self.stroke_mm if stroke_mm is None else stroke_mm
        area = self.push_area_mm2 + self.pull_area_mm2
        if self.spring_n is not None:
            area = self.area_mm2("out" if self.spring_moves == "in" else "in")
        return area * stroke * 1e-6 * free_air_ratio(bar)

    def flow_l_min(self, way: Way, bar: float, seconds: float, stroke_mm: float | None = None) -> float:
        """Free air [litres a minute] that fills the moving side in `seconds`, at a steady speed.

        >>> round(Cylinder(32, 12, 125).flow_l_min("out", 1.5, 2.0), 2)
        7.48
        """
        stroke = self.stroke_mm if stroke_mm is None else stroke_mm
        return self.area_mm2(way) * stroke * 1e-6 * free_air_ratio(bar) * 60.0 / seconds

    def seconds(self, way: Way, bar: float, flow_l_min: float, stroke_mm: float | None = None) -> float:
        """Time [s] of one stroke at a flow of free air [litres a minute]: the reverse of `flow_l_min`.

        >>> round(Cylinder(32, 12, 125).seconds("out", 1.5, 7.48), 2)
        2.0
        """
        return self.flow_l_min(way, bar, 1.0, stroke_mm) / flow_l_min


def free_air_ratio(bar: float) -> float:
    """Litres of free air in a litre at `bar` gauge pressure.

    >>> round(free_air_ratio(6.0), 2)
    6.92
    """
    return (bar + ATMOSPHERE_BAR) / ATMOSPHERE_BAR


def tube_litres(inner_mm: float, length_mm: float, bar: float) -> float:
    """Free air [litres] that is blown off with each stroke out of the tube between valve and cylinder.

    >>> round(tube_litres(4.0, 2000.0, 3.0), 3)
    0.074
    """
    return math.pi * inner_mm**2 / 4.0 * length_mm * 1e-6 * bar / ATMOSPHERE_BAR


def end_energy_j(
    moving_kg: float, stroke_mm: float, seconds: float, pushing_n: float = 0.0, buffer_mm: float = 0.0
) -> float:
    """Energy [J] at the end of the stroke: that of the moving mass, and what the thrust does over the buffer's way.

    Speed at the end = 1.4 x mean (from memory).

    >>> round(end_energy_j(0.3, 125.0, 1.0), 4)
    0.0046
    """
    speed = END_SPEED * stroke_mm / 1000.0 / seconds
    return moving_kg * speed**2 / 2.0 + pushing_n * buffer_mm / 1000.0
