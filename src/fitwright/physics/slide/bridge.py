"""A cylinder beside the gate that works the blade over a bridge: what a guide rod bears, and what the bare rod does.

Lengths in mm, forces in N, stresses in MPa. The bridge is stiff against its rods. Everything is reckoned across the
travel in the plane of the blade, from the piston rod: the blade at `blade_at_mm` (> 0), the guide rod at `guide_at_mm`,
positive on the blade's side of the piston rod, negative on the other.

The equilibrium. The blade holds with D at e. The bush on the guide rod, length B, leans on both its ends with N,
opposite ways, and drags with 2 mu N at g. Moments about the piston rod's axis, which only pushes: D e + 2 mu N g = N B.
So N = D e / (B - 2 mu g), and the thrust is T = D + 2 mu N. With the guide on the blade's side it jams at 2 mu g = B,
whatever the thrust; on the other side the drag of the bush holds against the turning and it never does.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.slide.frames import Movement
from fitwright.physics.steel import STEEL_MPA

BUSH_FRICTION = 0.2
"""Plain bush, plastic or bronze, dry on steel (from memory: 0.1-0.2)."""
JAM_MARGIN = 2.0
"""A bush is made this much longer than what jams (common practice, no source)."""
SIDE_SHARE = 0.05
"""Side load that a cylinder's nose takes, over its thrust: a few per cent (common practice, no source)."""


@dataclass(frozen=True)
class Bridge:
    """Where blade and guide rod stand from the piston rod, and the bush on the guide rod."""

    blade_at_mm: float
    guide_at_mm: float
    bush_mm: float
    mu_bush: float = BUSH_FRICTION

    @property
    def jam_ratio(self) -> float:
        """2 mu g / B; 1 or more jams, 0 or less cannot.

        >>> Bridge(85, 170, 30).jam_ratio.__round__(2), Bridge(85, -30, 30).jam_ratio
        (2.27, -0.4)
        """
        return 2.0 * self.mu_bush * self.guide_at_mm / self.bush_mm

    @property
    def jams(self) -> bool:
        """True where no thrust moves the bridge."""
        return self.jam_ratio >= 1.0

    @property
    def least_bush_mm(self) -> float:
        """The bush's least length [mm], twice what jams; 0 where it cannot.

        >>> Bridge(85, 25, 30).least_bush_mm
        20.0
        """
        return max(0.0, JAM_MARGIN * 2.0 * self.mu_bush * self.guide_at_mm)

    def bush_n(self, drag_n: float) -> float:
        """Force [N] on each end of the bush; inf where it jams.

        >>> round(Bridge(85, 25, 30).bush_n(20.2), 1)
        85.8
        """
        room = self.bush_mm - 2.0 * self.mu_bush * self.guide_at_mm
        return drag_n * self.blade_at_mm / room if room > 0.0 else math.inf

    @property
    def thrust_over_drag(self) -> float:
        """Thrust that it takes over the blade's drag: 1 + 2 mu e / (B - 2 mu g).

        >>> round(Bridge(85, 25, 30).thrust_over_drag, 2)
        2.7
        """
        return 1.0 + 2.0 * self.mu_bush * self.bush_n(1.0)

    def couple_nmm(self, drag_n: float) -> float:
        """What the guide rod is bent by [N mm]: N x B."""
        return self.bush_n(drag_n) * self.bush_mm

    def stuck_drag_n(self, stall_n: float) -> float:
        """What a stuck blade feels [N] when the cylinder stalls; the bush takes the rest."""
        return stall_n / self.thrust_over_drag


def bent_guide(couple_nmm: float, rod_mm: float, free_mm: float, span_mm: float | None = None) -> Movement:
    """How a guide rod gives way at its bush, bent by the couple alone: aside, tilt, stress.

    Held at one end (`span_mm` None), the bush `free_mm` from the fixing: aside M x^2 / 2 EI, tilt M x / EI. Held at
    both ends (cautious: free to turn there), x and y = span - x to either side: tilt M (x^2 - x y + y^2) / (3 EI span),
    aside M x y (y - x) / (3 EI span), the moment M x / span or M y / span.

    >>> one = bent_guide(2574, 8.0, 120)
    >>> round(one.aside_mm, 2), round(one.tilt_deg, 2), round(one.stress_mpa)
    (0.45, 0.43, 51)
    """
    bending, fibre = STEEL_MPA * math.pi * rod_mm**4 / 64.0, 32.0 / (math.pi * rod_mm**3)
    if span_mm is None:
        angle = couple_nmm * free_mm / bending
        return Movement(0.0, angle * free_mm / 2.0, math.degrees(angle), couple_nmm * fibre)
    x, y = free_mm, span_mm - free_mm
    angle = couple_nmm * (x * x - x * y + y * y) / (3.0 * bending * span_mm)
    aside = couple_nmm * x * y * abs(y - x) / (3.0 * bending * span_mm)
    return Movement(0.0, aside, math.degrees(angle), couple_nmm * max(x, y) / span_mm * fibre)


@dataclass(frozen=True)
class SharedCouple:
    """How piston rod and guide rod share the couple [N mm], and by how much the bridge tilts [deg]."""

    piston_nmm: float
    guide_nmm: float
    tilt_deg: float


def shared_couple(
    couple_nmm: float, piston_nmm_rad: float, guide_nmm_rad: float, play_mm: float, bush_mm: float
) -> SharedCouple:
    """A piston rod that is screwed fast to the bridge bends first, through the bush's play, and then both do.

    `piston_nmm_rad`, `guide_nmm_rad`: what turns each of them by one radian (a rod held at one end: EI / length); 0 for
    a piston rod with a joint that lets the bridge turn. `play_mm`: of the bush on its rod, on the diameter.

    >>> EI = lambda d: 205000 * math.pi * d**4 / 64
    >>> one = shared_couple(1717, EI(6) / 147, EI(8) / 120, play_mm=0.1, bush_mm=30)
    >>> round(one.piston_nmm), round(one.guide_nmm), round(one.tilt_deg, 2)
    (587, 1130, 0.38)
    """
    free = play_mm / bush_mm
    angle = (couple_nmm + guide_nmm_rad * free) / (piston_nmm_rad + guide_nmm_rad)
    if angle < free:
        angle = couple_nmm / piston_nmm_rad
    piston = piston_nmm_rad * angle
    return SharedCouple(piston, couple_nmm - piston, math.degrees(angle))


def bare_rod(rod_mm: float, out_mm: float, couple_nmm: float = 0.0, side_n: float = 0.0) -> Movement:
    """A piston rod that nothing else guides, out of its nose by `out_mm`: how its end gives way, and its stress there.

    A thrust T at e beside it is a couple T e. Cantilever: C a^2 / 2 EI + S a^3 / 3 EI aside, C a / EI + S a^2 / 2 EI
    tilt.

    >>> drag = bare_rod(6, 147, couple_nmm=20.2 * 53)
    >>> round(drag.aside_mm, 2), round(drag.tilt_deg, 2), round(drag.stress_mpa)
    (0.89, 0.69, 50)
    >>> stall = bare_rod(6, 147, couple_nmm=120.6 * 53)
    >>> round(stall.aside_mm, 1), round(stall.tilt_deg, 1), round(stall.stress_mpa)
    (5.3, 4.1, 301)
    """
    bending = STEEL_MPA * math.pi * rod_mm**4 / 64.0
    aside = couple_nmm * out_mm**2 / (2.0 * bending) + side_n * out_mm**3 / (3.0 * bending)
    angle = couple_nmm * out_mm / bending + side_n * out_mm**2 / (2.0 * bending)
    stress = (couple_nmm + side_n * out_mm) * 32.0 / (math.pi * rod_mm**3)
    return Movement(0.0, aside, math.degrees(angle), stress)


def forced_rod_n(rod_mm: float, out_mm: float, aside_mm: float, tilt_deg: float = 0.0, fixed: bool = True) -> float:
    """Side load [N] on a rod whose end is forced aside and tilted: 12 EI d / a^3 - 6 EI t / a^2.

    `fixed` False: its end turns freely in a joint, 3 EI d / a^3. Tilt counts positive where it goes with the push
    aside.

    >>> round(forced_rod_n(6, 147, 0.5, fixed=False), 1)
    6.2
    """
    bending = STEEL_MPA * math.pi * rod_mm**4 / 64.0
    if not fixed:
        return 3.0 * bending * aside_mm / out_mm**3
    return 12.0 * bending * aside_mm / out_mm**3 - 6.0 * bending * math.radians(tilt_deg) / out_mm**2


def permitted_side_n(thrust_n: float) -> float:
    """Side load [N] that a cylinder may carry at its rod's end: 5 % of the thrust (common practice, no source).

    >>> round(permitted_side_n(120.6), 1)
    6.0
    """
    return SIDE_SHARE * thrust_n


def equal_side_n(couple_nmm: float, out_mm: float) -> float:
    """The side load [N] at the rod's end that turns the nose as much as a couple does.

    >>> round(equal_side_n(20.2 * 53, 147), 1)
    7.3
    """
    return couple_nmm / out_mm
