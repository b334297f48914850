"""What a screw holds in wood when it is pulled: withdrawal, the steel, pilots, and pull and push aside together.

Lengths in mm, forces in N, stresses in MPa. `gravity` is the specific gravity of the oven-dry wood (0.31 to 0.73 are
the ends of the published tables). Withdrawal: D. R. Rammer, Fastenings, chapter 8 of the Wood Handbook (Forest Products
Laboratory, FPL-GTR-190, 2010; the same in FPL-GTR-282, 2021); the numbers of its equations are from memory but for
8-15. They are mean failure loads of dry wood: PERMITTED_SHARE of them may hang for good.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

Kind = Literal["wood", "lag"]
"""`wood`: wood and chipboard screws; `lag`: coach (lag) screws, with a hexagon head."""
Grain = Literal["side", "end"]

PERMITTED_SHARE = 0.25
"""What may hang for good over what pulls it out: the upper attachment of a hanger bears a quarter of its failure load
(a rule of pipe hanging, read second-hand; the Wood Handbook asks for about a fifth of a wood screw's)."""
ONCE_SHARE = 0.5
"""What may pull once over the mean that pulls it out: 95 of 100 screws bear 0.6 or more of the mean (see
`withdrawal_characteristic_n`); common practice, no source."""
END_GRAIN_SHARE = {"wood": 0.0, "lag": 0.75}
"""Withdrawal from end grain over side grain: NDS 2018 12.2.2 forbids wood screws (the Wood Handbook: at most 0.75, and
erratic); lag screws 0.75 (Wood Handbook, NDS 12.2.1, both read)."""
LEAST_GRAVITY, GREATEST_GRAVITY = 0.31, 0.73
"""The range of the published tables (NDS 2018, table 12.2A)."""
SHEAR_SHARE = 0.6
"""Shear strength of steel over tensile strength (common practice, EN 1993-1-8 for bolts up to class 8.8)."""


@dataclass(frozen=True)
class Screw:
    """A screw for wood: `major_mm` over its thread, `core_mm` at the thread's root, `tensile_mpa` of its steel.

    `bending_mpa` is what its core yields at when bent (NDS 2018 appendix I: 690 to 310, thin to thick).
    """

    kind: Kind
    major_mm: float
    core_mm: float
    tensile_mpa: float
    bending_mpa: float

    @property
    def core_mm2(self) -> float:
        """Area at the thread's root."""
        return math.pi / 4.0 * self.core_mm**2

    @property
    def steel_tension_n(self) -> float:
        """Tears the screw apart [N].

        >>> round(Screw("wood", 4.5, 2.8, 400.0, 620.0).steel_tension_n)
        2463
        """
        return self.tensile_mpa * self.core_mm2

    @property
    def steel_shear_n(self) -> float:
        """Shears it off at its thread's root [N]."""
        return SHEAR_SHARE * self.steel_tension_n


def withdrawal_n(kind: Kind, gravity: float, major_mm: float, thread_mm: float, grain: Grain = "side") -> float:
    """Mean load [N] that pulls a screw out of solid wood.

    Wood screws p = 108.25 G^2 D L (equation 8-10), lag screws p = 125.4 G^1.5 D^0.75 L (8-14), D over the thread, L the
    length of thread in the wood: without the tapered point for lag screws, with it for wood screws. ValueError outside
    the range of gravity. A wood screw in end grain gives 0: do not hang anything there.

    >>> round(withdrawal_n("wood", 0.42, 4.5, 40.0))
    3437
    """
    _check(gravity)
    if kind == "wood":
        side = 108.25 * gravity**2 * major_mm * thread_mm
    else:
        side = 125.4 * gravity**1.5 * major_mm**0.75 * thread_mm
    return side if grain == "side" else END_GRAIN_SHARE[kind] * side


@dataclass(frozen=True)
class Timber:
    """What a screw goes into: specific gravity, what share of solid wood's hold a board has, or chipboard."""

    gravity: float
    share: float = 1.0
    chipboard: bool = False


def pull_out_n(screw: Screw, timber: Timber, thread_mm: float, grain: Grain = "side") -> float:
    """Mean load [N] that pulls this screw out of this wood or board; `end` is the edge of a board.

    Chipboard has a formula of its own; from its edge, and from the edge of plywood, nothing may hang: 0.
    """
    if timber.chipboard:
        return 0.0 if grain == "end" else chipboard_withdrawal_n(timber.gravity, screw.major_mm, thread_mm)
    if timber.share < 1.0 and grain == "end":
        return 0.0
    return timber.share * withdrawal_n(screw.kind, timber.gravity, screw.major_mm, thread_mm, grain)


def chipboard_withdrawal_n(gravity: float, major_mm: float, thread_mm: float, edge: bool = False) -> float:
    """Mean load [N] that pulls a screw out of chipboard (particleboard), from its face or from its edge.

    F = K D^0.5 (L - D / 3)^1.25 G^2 with K 41.1 for the face, 31.8 for the edge (Wood Handbook chapter 8, equation
    8-12, after the National Particleboard Association, 1968; from memory). Holds for pilots of 0.85-0.9 x the core.

    >>> round(chipboard_withdrawal_n(0.65, 4.2, 16.0))
    1016
    """
    if thread_mm <= major_mm / 3.0:
        return 0.0
    factor = 31.8 if edge else 41.1
    return float(factor * major_mm**0.5 * (thread_mm - major_mm / 3.0) ** 1.25 * gravity**2)


def withdrawal_characteristic_n(
    density_kg_m3: float, major_mm: float, thread_mm: float, angle_deg: float = 90.0
) -> float:
    """The load [N] that 95 of 100 screws bear, by EN 1995-1-1:2004 + A1:2008, 8.38 to 8.40 (from memory).

    F = f d l k / (1.2 cos^2 + sin^2), f = 0.52 d^-0.5 l^-0.1 rho^0.8, k = min(d / 8, 1); `density_kg_m3` is the
    characteristic density (C16 310, C24 350), `angle_deg` the screw's to the grain (>= 30). For 6 <= d <= 12, a core
    of 0.6-0.75 d and at least 6 d of thread; ValueError elsewhere. A second opinion on `withdrawal_n`.

    >>> round(withdrawal_characteristic_n(350.0, 8.0, 80.0))
    8233
    """
    if not 6.0 <= major_mm <= 12.0 or thread_mm < 6.0 * major_mm or angle_deg < 30.0:
        raise ValueError("holds for screws of 6 to 12 mm, at least 6 diameters in, at 30 deg or more to the grain")
    strength = 0.52 * major_mm**-0.5 * thread_mm**-0.1 * density_kg_m3**0.8
    cosine2 = math.cos(math.radians(angle_deg)) ** 2
    slant = 1.2 * cosine2 + (1.0 - cosine2)
    return float(strength * major_mm * thread_mm * min(major_mm / 8.0, 1.0) / slant)


def pilot_mm(screw: Screw, gravity: float) -> tuple[float, float]:
    """Least and greatest pilot [mm] for the thread; (0, ...) where a wood screw needs none.

    NDS 2018 12.1.5 and Wood Handbook: wood screws 0.9 of the core in hard wood (G > 0.6), 0.7 in softer, none needed up
    to 0.5. Lag screws always (12.1.4, of the major diameter): 0.65-0.85, 0.60-0.75, 0.40-0.70.

    >>> pilot_mm(Screw("wood", 5.0, 3.1, 400.0, 550.0), 0.42)
    (0.0, 2.17)
    """
    hard, middle = gravity > 0.6, gravity > 0.5
    if screw.kind == "lag":
        low, high = (0.65, 0.85) if hard else (0.60, 0.75) if middle else (0.40, 0.70)
        return low * screw.major_mm, high * screw.major_mm
    share = 0.9 if hard else 0.7
    size = round(share * screw.core_mm, 2)
    return (size if middle else 0.0), size


@dataclass(frozen=True)
class Hold:
    """What one screw bears until something gives [N]: pulled out, torn apart; wood or plate crushed, sheared off."""

    withdrawal_n: float
    steel_tension_n: float
    side_n: float
    steel_shear_n: float
    head_n: float = float("inf")

    @property
    def tension_n(self) -> float:
        """The least of pulling out, tearing the screw, and pulling its head through the plate."""
        return min(self.withdrawal_n, self.steel_tension_n, self.head_n)

    @property
    def shear_n(self) -> float:
        """The lesser of the joint's yield aside and shearing the screw off."""
        return min(self.side_n, self.steel_shear_n)

    @property
    def gives_first(self) -> str:
        """What gives first when it is pulled, in words."""
        found = {
            "pulled out": self.withdrawal_n,
            "torn apart": self.steel_tension_n,
            "head pulled through": self.head_n,
        }
        return min(found, key=lambda word: found[word])

    @property
    def lasting_tension_n(self) -> float:
        """What may pull for good: PERMITTED_SHARE of what fails."""
        return PERMITTED_SHARE * self.tension_n

    @property
    def lasting_shear_n(self) -> float:
        """What may push aside for good: PERMITTED_SHARE of the yield (NDS takes 1 / 2.2 for ten years)."""
        return PERMITTED_SHARE * self.shear_n

    @property
    def once_tension_n(self) -> float:
        """What may pull once: ONCE_SHARE of the mean failure."""
        return ONCE_SHARE * self.tension_n

    @property
    def once_shear_n(self) -> float:
        """What may push aside once: up to the yield, which leaves 5 % of a diameter; ONCE_SHARE of shearing it off."""
        return min(self.side_n, ONCE_SHARE * self.steel_shear_n)

    def used(self, tension_n: float, shear_n: float, once: bool = False) -> float:
        """How much of what is permitted is used: T / permitted + S / permitted; 1 is the limit.

        The straight line is on the safe side of Hankinson's formula (NDS 2018, equation 12.4-1) at every angle. `once`:
        a snag; else for good.
        """
        if once:
            return _over(tension_n, self.once_tension_n) + _over(shear_n, self.once_shear_n)
        return _over(tension_n, self.lasting_tension_n) + _over(shear_n, self.lasting_shear_n)


def _over(load: float, permitted: float) -> float:
    if load <= 0.0:
        return 0.0
    return load / permitted if permitted > 0.0 else float("inf")


def _check(gravity: float) -> None:
    if not LEAST_GRAVITY <= gravity <= GREATEST_GRAVITY:
        raise ValueError(f"specific gravity {gravity:g} is outside {LEAST_GRAVITY:g} to {GREATEST_GRAVITY:g}")
