"""A worm-drive band round a hose on a tail: how hard it squeezes when it is turned tight, and what is left later."""

from __future__ import annotations

import math

from fitwright.physics.ring import POISSON, relaxed_share, under_band

BAND_N = 800.0
"""Tension of a worm-drive band of 13 mm that a hand turned tight with a screwdriver. Derived: 3 N m on the screw (an
engine's workshop manual, bands of 12 mm on a hose in use: 3.0 +- 0.5 N m), a worm of 3 mm a turn that gives 13 % of the
work to the band (common practice): 2 pi x 3 x 0.13 / 0.003 = 817 N."""
N_OF_NM = 817.0 / 3.0
"""Tension [N] that one N m on the screw gives, see above."""
BAND_THICK_MM = 0.7
"""A steel band for hose (0.6 to 0.9 mm, from memory)."""
BAND_MPA = 193000.0
"""Modulus of stainless steel 1.4301 (EN 10088-1: 200 GPa; cold rolled strip somewhat less, from memory)."""
HOSE_WALL_MM = 2.0
HOSE_MPA = 20.0
"""A soft hose between the ribs: 2 mm at 20 MPa (common practice, no source). The softer it is, the less relaxes."""


def kept_share(
    band_mm: float, d_mm: float, wall_mm: float, modulus_mpa: float, creep_share: float, poisson: float = POISSON
) -> float:
    """Share of the tension that is left once the tail has crept under the band to `creep_share` of its modulus.

    Tail, hose and band share one circumference: the screw does not turn back, so that the tail gives way only by what
    the hose springs back and the band shortens. Compliances in mm of circumference a newton of tension.
    """
    round_mm = math.pi * d_mm
    bears = under_band(band_mm, wall_mm, (d_mm - wall_mm) / 2, poisson)
    tail = bears * round_mm / (band_mm * wall_mm * modulus_mpa)
    steel = round_mm / (band_mm * BAND_THICK_MM * BAND_MPA)
    hose = 4.0 * math.pi * HOSE_WALL_MM / (band_mm * d_mm * HOSE_MPA)
    return relaxed_share(tail, steel + hose, creep_share)
