"""Rings, tubes and flat walls under pressure, in closed form: what a band's squeeze and a collector's suction do.

Symbols: E modulus, t wall, r mean radius, nu Poisson's ratio. Pressures and stresses in MPa, lengths in mm.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

POISSON = 0.36
"""Of printed plastic: 0.33 to 0.40 for the usual filaments (from memory)."""
FREE_END = 0.6
"""A tube clamped at one end and free at the other bears this share of one whose both ends are held round: EN 1993-1-6
annex D, table of the factors for external pressure (from memory)."""
WAVES = range(2, 41)
"""Numbers of lobes that are tried: thinner than 1/800 of its radius no tube is printed."""


@dataclass(frozen=True)
class Bending:
    """A flat wall under pressure: deflection at its middle [mm] and the greatest bending stress [MPa]."""

    deflection_mm: float
    stress_mpa: float


def long_tube_mpa(modulus_mpa: float, wall_mm: float, r_mm: float, poisson: float = POISSON) -> float:
    """Outside pressure at which a long tube or free ring of mean radius `r_mm` collapses to two lobes [MPa].

    p = E / (4 (1 - nu^2)) (t / r)^3: M. Bresse (1866), G. H. Bryan (1888); Timoshenko and Gere, Theory of Elastic
    Stability, 2nd ed., section 7.4. Thin walls (t < r / 5).
    """
    return modulus_mpa / (4.0 * (1.0 - poisson**2)) * (wall_mm / r_mm) ** 3


def tube_mpa(modulus_mpa: float, wall_mm: float, r_mm: float, length_mm: float, poisson: float = POISSON) -> float:
    """Outside pressure at which a tube collapses whose ends are held round, `length_mm` apart [MPa].

    R. von Mises (1929), in the form of D. F. Windenburg and C. Trilling, Trans. ASME 56 (1934), equation 6, and of
    PD 5500 section 3.6 (both from memory): the least over the number of lobes; a long tube gives `long_tube_mpa`.
    """
    z = (math.pi * r_mm / length_mm) ** 2

    def lobes(n: int) -> float:
        stretch = (z / (n * n + z)) ** 2
        bend = wall_mm**2 / (12.0 * r_mm**2 * (1.0 - poisson**2)) * (n * n - 1.0 + z) ** 2
        return modulus_mpa * wall_mm / r_mm * (stretch + bend) / (n * n - 1.0 + z / 2.0)

    return min(lobes(n) for n in WAVES)


def stub_mpa(modulus_mpa: float, wall_mm: float, r_mm: float, length_mm: float, poisson: float = POISSON) -> float:
    """The same of a tube with one stiff end (a tail's root) and a free mouth; a free ring's at the least [MPa]."""
    held = FREE_END * tube_mpa(modulus_mpa, wall_mm, r_mm, length_mm, poisson)
    return max(held, long_tube_mpa(modulus_mpa, wall_mm, r_mm, poisson))


def band_mpa(tension_n: float, band_mm: float, d_mm: float) -> float:
    """Pressure under a band that is pulled tight round a diameter [MPa]: p = 2 T / (b d)."""
    return 2.0 * tension_n / (band_mm * d_mm)


def under_band(band_mm: float, wall_mm: float, r_mm: float, poisson: float = POISSON) -> float:
    """Share of p r / t that a tube's wall bears in hoop in the middle of a band: the wall beside the band helps.

    1 - exp(-u) cos(u), u = lambda b / 2, lambda^4 = 3 (1 - nu^2) / (r t)^2: Timoshenko and Woinowsky-Krieger, Theory of
    Plates and Shells, 2nd ed., section 116 (a long cylinder pressed along a length b). Never more than 1.
    """
    half = (3.0 * (1.0 - poisson**2)) ** 0.25 / math.sqrt(r_mm * wall_mm) * band_mm / 2.0
    return min(1.0, 1.0 - math.exp(-half) * math.cos(half))


def band_edge_mpa(pressure_mpa: float, band_mm: float, wall_mm: float, r_mm: float, poisson: float = POISSON) -> float:
    """Greatest bending stress along a tube [MPa] that a band presses: in the band's middle, 6 M / t^2.

    M = p / (2 b^2) exp(-u) sin(u), u = b band / 2, b^4 = 3 (1 - nu^2) / (r t)^2: a long cylinder pressed along a length
    (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., section 116).

    >>> round(band_edge_mpa(1.237, 13.0, 3.2, 48.15), 1)
    11.0
    """
    b = (3.0 * (1.0 - poisson**2)) ** 0.25 / math.sqrt(r_mm * wall_mm)
    half = min(b * band_mm / 2.0, math.pi / 4.0)  # of a wider band the greatest moment stands beside its middle
    return float(3.0 * pressure_mpa / (b * wall_mm) ** 2 * math.exp(-half) * math.sin(half))


def hoop_mpa(pressure_mpa: float, r_out_mm: float, r_in_mm: float) -> float:
    """Greatest hoop stress of a ring pressed from outside [MPa], at its bore: G. Lame, 2 p ro^2 / (ro^2 - ri^2)."""
    return 2.0 * pressure_mpa * r_out_mm**2 / (r_out_mm**2 - r_in_mm**2)


def burst_mpa(pressure_mpa: float, r_out_mm: float, r_in_mm: float) -> float:
    """Greatest hoop stress of a ring pressed from inside [MPa], at its bore: G. Lame, p (ro^2 + ri^2) / (ro^2 - ri^2).

    Examples
    --------
    >>> round(burst_mpa(1.0, 20.0, 10.0), 3)
    1.667
    """
    return pressure_mpa * (r_out_mm**2 + r_in_mm**2) / (r_out_mm**2 - r_in_mm**2)


def relaxed_share(tail_mm_per_n: float, band_mm_per_n: float, modulus_share: float) -> float:
    """Share of a band's tension that is left when the tail under it has crept to `modulus_share` of its modulus.

    The screw stays where it was turned to, so that what tail, band and hose have given together stays the same:
    T1 (c_tail / share + c_band) = T0 (c_tail + c_band). Compliances in mm of circumference a newton.
    """
    return (tail_mm_per_n + band_mm_per_n) / (tail_mm_per_n / modulus_share + band_mm_per_n)


def clamped_disc(pressure_mpa: float, r_mm: float, wall_mm: float, modulus_mpa: float, nu: float = POISSON) -> Bending:
    """A disc held all round: w = q a^4 / (64 D), stress at the edge 3/4 q (a / t)^2 (Timoshenko, section 16)."""
    stiff = plate_n_mm(modulus_mpa, wall_mm, nu)
    return Bending(pressure_mpa * r_mm**4 / (64.0 * stiff), 0.75 * pressure_mpa * (r_mm / wall_mm) ** 2)


def resting_disc(pressure_mpa: float, r_mm: float, wall_mm: float, modulus_mpa: float, nu: float = POISSON) -> Bending:
    """A disc that only rests all round; stress in the middle 3 (3 + nu) / 8 q (a / t)^2 (Timoshenko, section 16)."""
    stiff = plate_n_mm(modulus_mpa, wall_mm, nu)
    w = (5.0 + nu) / (1.0 + nu) * pressure_mpa * r_mm**4 / (64.0 * stiff)
    return Bending(w, 3.0 * (3.0 + nu) / 8.0 * pressure_mpa * (r_mm / wall_mm) ** 2)


CLAMPED = (
    (1.0, 0.00126, 0.0513),
    (1.1, 0.00150, 0.0581),
    (1.2, 0.00172, 0.0639),
    (1.3, 0.00191, 0.0687),
    (1.4, 0.00207, 0.0726),
    (1.5, 0.00220, 0.0757),
    (1.6, 0.00230, 0.0780),
    (1.7, 0.00238, 0.0799),
    (1.8, 0.00245, 0.0812),
    (1.9, 0.00249, 0.0822),
    (2.0, 0.00254, 0.0829),
)
"""Longer over shorter side, deflection in q a^4 / D, moment at the longer edge in q a^2 (a the shorter side):
Timoshenko and Woinowsky-Krieger, 2nd ed., table 35, nu = 0.3 (from memory). A long strip: 1/384, 1/12."""


def clamped_rectangle(
    pressure_mpa: float, sides_mm: tuple[float, float], wall_mm: float, modulus_mpa: float, nu: float = POISSON
) -> Bending:
    """A rectangle held all round: the flat wall of a duct between two walls and two joints.

    The table is for nu = 0.3; deflection and edge moment of a clamped plate hardly depend on nu but by D.
    """
    short, long = sorted(sides_mm)
    w, m = _clamped(long / short)
    stress = 6.0 * m * pressure_mpa * (short / wall_mm) ** 2
    return Bending(w * pressure_mpa * short**4 / plate_n_mm(modulus_mpa, wall_mm, nu), stress)


def _clamped(ratio: float) -> tuple[float, float]:
    """Both factors at a ratio of sides, straight between the table's rows; over 2 the long strip's."""
    for (at, w0, m0), (to, w1, m1) in itertools.pairwise(CLAMPED):
        if ratio <= to:
            share = (ratio - at) / (to - at)
            return w0 + share * (w1 - w0), m0 + share * (m1 - m0)
    return 1.0 / 384.0, 1.0 / 12.0


def resting_rectangle(
    pressure_mpa: float, sides_mm: tuple[float, float], wall_mm: float, modulus_mpa: float, nu: float = POISSON
) -> Bending:
    """A rectangle that only rests on its four edges: Navier's double series (Timoshenko, section 28), to 1e-5."""
    a, b = sorted(sides_mm)
    w = m_x = 0.0
    for m in range(1, 60, 2):
        for n in range(1, 60, 2):
            sign = math.sin(m * math.pi / 2) * math.sin(n * math.pi / 2)
            share = sign / (m * n * ((m / a) ** 2 + (n / b) ** 2) ** 2)
            w += share
            m_x += share * ((m / a) ** 2 + nu * (n / b) ** 2)
    stiff = plate_n_mm(modulus_mpa, wall_mm, nu)
    moment = 16.0 * pressure_mpa / math.pi**4 * m_x
    return Bending(16.0 * pressure_mpa / (math.pi**6 * stiff) * w, 6.0 * moment / wall_mm**2)


def plate_n_mm(modulus_mpa: float, wall_mm: float, nu: float = POISSON) -> float:
    """Bending stiffness D of a plate [N mm]: E t^3 / (12 (1 - nu^2))."""
    return modulus_mpa * wall_mm**3 / (12.0 * (1.0 - nu**2))
