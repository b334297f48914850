"""How stiff a hose is, told by how far it droops over the edge of a bench.

Laid level, held down on the bench, with a length L jutting out, its end hangs y below. With s counted from the end in
units of c = (E I / w)^(1/3), the slope obeys f'' = -s cos f, f'(0) = 0 (W. G. Bickley, The heavy elastica, 1934), so
that y / L tells L / c. F. T. Peirce, The handle of cloth as a measurable quantity, Journal of the Textile Institute 21,
1930, has the same test for cloth, and c for its "bending length": at 41.5 deg below level from edge to end, L = 2 c
(ASTM D1388). Nobody publishes E I of dust hoses.
"""

from __future__ import annotations

import math
from functools import cache

LEAST_JUT, MOST_JUT = 6.0, 12.0
"""Outside diameters of an empty hose that jut out where its end lies 41.5 deg below the edge: from a soft to a stiff
one (common practice, no source). E I goes with the third power: a factor of eight."""
HANDS_NMM = 25_000.0
"""With more moment than that nobody bends a hose by hand: 25 N m, 50 N on half a metre (common practice, no source)."""
PEIRCE = 2.0
"""L / c at 41.5 deg."""
DOUBT = 1.25
"""A hose that was measured is so much stiffer or softer on a cold or a warm day (common practice, no source)."""
LEAST_SHARE, MOST_SHARE = 0.02, 0.90
"""y / L that tells something: less is within the hose's own curl, more hangs straight down."""
_STEP = 0.01


def usual_stiffness_n_mm2(over_mm: float, empty_n_mm: float, radius_mm: float) -> tuple[float, float]:
    """From the softest to the stiffest of usual hoses so thick and heavy, that hands can bend to their least radius."""
    by_hand = HANDS_NMM * radius_mm
    soft, stiff = (min(empty_n_mm * (jut * over_mm / PEIRCE) ** 3, by_hand) for jut in (LEAST_JUT, MOST_JUT))
    return soft, stiff


def measured_stiffness_n_mm2(juts_mm: float, hangs_mm: float, empty_n_mm: float) -> tuple[float, float]:
    """E I by a hose of that weight that juts out so far and whose end hangs so much lower, with its doubt both ways.

    >>> soft, stiff = measured_stiffness_n_mm2(600.0, 300.0, 3.6e-3)
    >>> round((soft * stiff) ** 0.5, -2)
    153500.0
    """
    stiff = empty_n_mm * (juts_mm / jut_for(hangs_mm / juts_mm)) ** 3
    return stiff / DOUBT, stiff * DOUBT


@cache
def jut_for(share: float) -> float:
    """L / c at which the end hangs y / L = share below the edge, 0 < share < 1."""
    low, high = 0.0, math.pi / 2
    for _ in range(50):
        slope = (low + high) / 2
        long, hangs = _drooped(slope)
        low, high = (slope, high) if hangs < share * long else (low, slope)
    return _drooped((low + high) / 2)[0]


def _drooped(slope: float) -> tuple[float, float]:
    """L / c and y / c of the droop whose end slopes down so far [rad]: from the end to where it lies level."""
    along, turn, hangs = 0.0, 0.0, 0.0
    while slope > 0.0:
        before = along, slope, hangs
        half_turn = turn - along * math.cos(slope) * _STEP / 2
        middle = slope + turn * _STEP / 2
        turn_next = turn - (along + _STEP / 2) * math.cos(middle) * _STEP
        slope_next = slope + half_turn * _STEP
        hangs += math.sin((slope + slope_next) / 2) * _STEP
        along, slope, turn = along + _STEP, slope_next, turn_next
    share = before[1] / (before[1] - slope)
    return before[0] + share * _STEP, before[2] + share * (hangs - before[2])
