"""The curved arm of an open hook: what opens its throat, what that strains, and what a snag at its tip does.

Lengths in mm, forces in N, stresses and moduli in MPa, angles in deg. The arm is an arc of mid radius R, thickness t
in the plane of the arc, width W along the hose, held fast at its root and free at its tip, `sweep_deg` between (0 to
330). A force at the tip in the plane of the arc has a direction: 0 straight outwards from the arc's centre, 90 along
the arc back towards the root. Then, at beta from the tip, M = P R (sin a + sin(beta - a)).

Movement: Castigliano's theorem, bending alone (S. Timoshenko, Strength of Materials, part 1, "Deflection of curved
bars"; a quarter circle gives pi / 4 and 1 / 2 of P R^3 / E I). Pull, shear and the bar's thickness add less than 3 %
for t / R up to 0.2 and sweeps over 90 deg (tested). Stress: Winkler's curved bar (J. E. Shigley, Mechanical
Engineering Design, "Curved beams in bending"), which is within 1 % of the exact solution for t / R up to 0.5 (tested).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

SQUEEZED_SHARE = 0.10
"""How far a hose lets itself be squeezed between two fingers, over its outside (common practice, no source)."""
HELD_SHARE = 0.05
"""How much narrower than what it holds a throat must be, or it falls out (common practice, no source)."""
FRICTION = 0.4
"""Hose or pipe on a printed lip (from memory: 0.3 to 0.5 for plastics)."""
GREATEST_SWEEP_DEG = 330.0
_STEPS = 180


@dataclass(frozen=True)
class Arm:
    """An arc that is held at its root; `force_deg` is the direction square to the throat (see the module).

    For a hook that is alike on both sides with its throat between two tips, `throat_deg` apart as seen from the arc's
    centre, it is 90 - throat_deg / 2.
    """

    radius_mm: float
    thickness_mm: float
    width_mm: float
    sweep_deg: float
    force_deg: float = 45.0

    def __post_init__(self) -> None:
        if not 0.0 < self.sweep_deg <= GREATEST_SWEEP_DEG:
            raise ValueError(
                f"an arm sweeps more than 0 and at most {GREATEST_SWEEP_DEG:g} deg, not {self.sweep_deg:g}"
            )
        if not 0.0 < self.thickness_mm < 2.0 * self.radius_mm or self.width_mm <= 0.0:
            raise ValueError("an arm is thicker than 0, thinner than twice its radius and has a width")

    @property
    def second_moment_mm4(self) -> float:
        """W t^3 / 12."""
        return self.width_mm * self.thickness_mm**3 / 12.0

    @property
    def gives(self) -> float:
        """Movement of the tip along the force, over P R^3 / E I.

        >>> round(Arm(50.0, 4.0, 40.0, 90.0, 0.0).gives, 6) == round(math.pi / 4, 6)
        True
        """
        phi, a = math.radians(self.sweep_deg), math.radians(self.force_deg)
        out = phi / 2.0 - math.sin(2.0 * phi) / 4.0
        both = 1.0 - math.cos(phi) - math.sin(phi) ** 2 / 2.0
        back = 1.5 * phi - 2.0 * math.sin(phi) + math.sin(2.0 * phi) / 4.0
        return math.cos(a) ** 2 * out + 2.0 * math.sin(a) * math.cos(a) * both + math.sin(a) ** 2 * back

    @property
    def lever_mm(self) -> float:
        """The greatest moment over the force: at the root, or where the arc lies furthest from the force's line."""
        phi, a = math.radians(self.sweep_deg), math.radians(self.force_deg)
        turns = (a + math.pi * (k + 0.5) for k in range(-3, 4))
        places = [phi, *(place for place in turns if 0.0 < place < phi)]
        return self.radius_mm * max(abs(math.sin(a) + math.sin(place - a)) for place in places)

    def force_n(self, opened_mm: float, modulus_mpa: float) -> float:
        """Force at the tip that opens it so far.

        >>> round(Arm(53.0, 6.0, 40.0, 200.0).force_n(8.0, 2000.0), 1)
        13.5
        """
        return opened_mm * modulus_mpa * self.second_moment_mm4 / (self.gives * self.radius_mm**3)

    def strain(self, opened_mm: float) -> float:
        """Greatest strain, on the inside, when the tip is opened so far: K t lever / (2 gives R^3) x opened.

        A short, slender arm becomes the straight cantilever of the snap-fit handbooks, 1.5 t y / L^2.
        """
        per_mm = self.thickness_mm * self.lever_mm / (2.0 * self.gives * self.radius_mm**3)
        return curve_factor(self.radius_mm, self.thickness_mm) * per_mm * opened_mm

    def opens_mm(self, strain_limit: float) -> float:
        """How far the tip opens at a strain.

        >>> round(Arm(53.0, 6.0, 40.0, 200.0).opens_mm(0.005), 1)
        15.1
        """
        return strain_limit / self.strain(1.0)

    def energy_nmm(self, opened_mm: float, modulus_mpa: float) -> float:
        """What opening it stores [N mm]: P y / 2."""
        return self.force_n(opened_mm, modulus_mpa) * opened_mm / 2.0

    def snag_mpa(self, force_n: float) -> float:
        """Greatest stress for a force at the tip from any direction in the plane of the arc.

        On the inside at beta both parts of the force sum to P sqrt(a^2 + b^2 - 2 a b cos beta) with b = R k, a = b +
        1 / A, k = (r_n - r_i) / (A e r_i): the worst is at the root, or opposite the tip where the arm goes further.
        """
        k, area = _winkler(self.radius_mm, self.thickness_mm, self.width_mm)
        furthest = min(math.radians(self.sweep_deg), math.pi)
        b = self.radius_mm * k
        a = b + 1.0 / area
        return force_n * math.sqrt(a * a + b * b - 2.0 * a * b * math.cos(furthest))

    def sideways_mpa(self, force_n: float) -> float:
        """Greatest equivalent stress (von Mises) for a force at the tip along the hose.

        Bending P R sin(beta) over t W^2 / 6, twist P R (1 - cos(beta)) over W t^2 / (3 + 1.8 t / W) (W. C. Young,
        Roark's Formulas, torsion of a rectangle, W >= t; from memory), each where it is greatest along the arc.
        """
        long, short = max(self.width_mm, self.thickness_mm), min(self.width_mm, self.thickness_mm)
        bend = 6.0 / (self.thickness_mm * self.width_mm**2)
        twist = (3.0 + 1.8 * short / long) / (long * short**2)
        phi = math.radians(self.sweep_deg)
        worst = 0.0
        for step in range(1, _STEPS + 1):
            beta = phi * step / _STEPS
            sigma, tau = bend * math.sin(beta), twist * (1.0 - math.cos(beta))
            worst = max(worst, math.hypot(sigma, math.sqrt(3.0) * tau))
        return force_n * self.radius_mm * worst


def straight_strain(opened_mm: float, thickness_mm: float, long_mm: float) -> float:
    """Strain at the root of a straight arm of even thickness: 1.5 t y / L^2, as the snap-fit handbooks have it.

    >>> round(straight_strain(2.0, 3.0, 30.0), 4)
    0.01
    """
    return 1.5 * thickness_mm * opened_mm / long_mm**2


def curve_factor(radius_mm: float, thickness_mm: float) -> float:
    """Stress on the inside of a curved bar over 6 M / (W t^2).

    >>> round(curve_factor(53.0, 6.0), 3)
    1.039
    """
    k, _ = _winkler(radius_mm, thickness_mm, 1.0)
    return k * thickness_mm**2 / 6.0


def push_in_n(force_n: float, lip_deg: float, friction: float = FRICTION) -> float:
    """Push that slides lips apart: P (mu + tan a) / (1 - mu tan a), as the snap-fit handbooks have it.

    `force_n`: what opens the throat; `lip_deg`: the lip's slope against the push. inf where it locks itself. The same
    with the slope of the back of the lip is what pulls it out again.

    >>> round(push_in_n(10.0, 30.0, 0.4), 1)
    12.7
    """
    slope = math.tan(math.radians(lip_deg))
    if lip_deg >= 90.0 or friction * slope >= 1.0:
        return math.inf
    return force_n * (friction + slope) / (1.0 - friction * slope)


@dataclass(frozen=True)
class Throat:
    """Between which widths the throat of a hook lies [mm]: passes what it holds, and keeps it."""

    least_mm: float
    greatest_mm: float
    opens_mm: float

    @property
    def possible(self) -> bool:
        """False where no width does both: a longer or thinner arm, a hose that gives more."""
        return self.least_mm <= self.greatest_mm


def throat(outside_mm: float, opens_mm: float, squeezed: float | None = None, held: float = HELD_SHARE) -> Throat:
    """The throat for a hose or pipe of this outside (over its ribs).

    `opens_mm`: by how much all arms together may open it; `squeezed`: how far it may be pressed in over its outside
    (a reading; None: SQUEEZED_SHARE of a hose; 0 for a pipe). Least: outside x (1 - squeezed) - opens.

    >>> one = throat(110.0, 6.0)
    >>> round(one.least_mm, 1), round(one.greatest_mm, 1), one.possible
    (93.0, 104.5, True)
    """
    share = SQUEEZED_SHARE if squeezed is None else squeezed
    return Throat(max(0.0, outside_mm * (1.0 - share) - opens_mm), outside_mm * (1.0 - held), opens_mm)


@dataclass(frozen=True)
class RoundInThroat:
    """A stiff round thing of `outside_mm` between the lips of a throat: how hard it is to get in or out.

    `arms`: 1 where one lip gives, 2 where both do. The round thing itself is the wedge: where it touches the lips,
    opened to w between them, its slope is acos(w / outside); both lips drag. A hose gives too and goes more easily.
    """

    arm: Arm
    modulus_mpa: float
    outside_mm: float
    throat_mm: float
    arms: int = 1
    friction: float = FRICTION

    @property
    def opens_mm(self) -> float:
        """By how much each arm is opened at most."""
        return max(0.0, self.outside_mm - self.throat_mm) / self.arms

    def force_n(self, share: float) -> float:
        """Push or pull along the throat when the lips are opened to this share of the way (0 to 1)."""
        wide = self.throat_mm + share * (self.outside_mm - self.throat_mm)
        if wide >= self.outside_mm:
            slope = 0.0
        else:
            slope = math.degrees(math.acos(wide / self.outside_mm))
        return 2.0 * push_in_n(self.arm.force_n(share * self.opens_mm, self.modulus_mpa), slope, self.friction)

    @property
    def greatest_n(self) -> float:
        """The force that gets it in or out; 0 where the throat is as wide as it.

        This is also all that the tips can feel of a snag that pulls it out: then it goes.

        >>> one = Arm(58.0, 6.0, 40.0, 200.0, 50.0)
        >>> round(RoundInThroat(one, 2000.0, 110.0, 102.0).greatest_n, 1)
        9.6
        """
        if self.opens_mm <= 0.0:
            return 0.0
        return max(self.force_n(step / _STEPS) for step in range(_STEPS + 1))


def least_thickness_mm(
    force_n: float, permitted_mpa: float, inside_mm: float, width_mm: float, sweep_deg: float, sideways: bool = False
) -> float:
    """The thinnest arm about a radius of `inside_mm` whose tip bears a force from any direction in its plane.

    `sideways`: along the hose too. By bisection; inf where one as thick as the radius would not do.

    >>> round(least_thickness_mm(150.0, 15.0, 50.0, 40.0, 200.0), 1)
    13.7
    """

    def stress(thick: float) -> float:
        arm = Arm(inside_mm + thick / 2.0, thick, width_mm, sweep_deg)
        return max(arm.snag_mpa(force_n), arm.sideways_mpa(force_n) if sideways else 0.0)

    low, high = 0.05, inside_mm
    if stress(high) > permitted_mpa:
        return math.inf
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if stress(middle) > permitted_mpa else (low, middle)
    return high


def _winkler(radius_mm: float, thickness_mm: float, width_mm: float) -> tuple[float, float]:
    """Stress on the inside over the moment [1 / mm3], and the area [mm2]."""
    inner, outer = radius_mm - thickness_mm / 2.0, radius_mm + thickness_mm / 2.0
    area = width_mm * thickness_mm
    slender = thickness_mm / (2.0 * radius_mm)
    if slender < 1e-3:
        return 6.0 / (width_mm * thickness_mm**2) * (1.0 + 2.0 * slender / 3.0), area
    neutral = thickness_mm / math.log(outer / inner)
    return (neutral - inner) / (area * (radius_mm - neutral) * inner), area
