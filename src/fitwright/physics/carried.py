"""What hangs on a hanger for good: hose or pipe and the dust that settles in it; how far apart, and how far it sags.

Lengths in mm (spacing in m where it says so), forces in N, weights in kg/m, densities in kg/m3.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.gravity import GRAVITY

DUST_KG_M3 = 250.0
"""Settled dust and shavings. Planer shavings of Douglas fir are 134 loose and 171 compacted when dry, 176 and 219 wet
(D. G. Briggs, Forest Products Measurements and Conversion Factors, 1994, table 7-2); fine sawdust is said to be 80 to
400; 250 is the usual figure (common practice)."""
DUST_OF_KG_M3 = {"chips": DUST_KG_M3, "shavings": DUST_KG_M3, "fine": 400.0}
"""By what settles: fine dust packs to the upper end of what is said of sawdust (common practice)."""
HALF_FULL = 0.5
"""Supports allow for half of the pipe filled (a rule of dust collection, read second-hand)."""
SPACING_M = 1.2
"""Where the YAML says nothing: the ADC's 4 ft, rounded down."""
PIPE_DENSITY_KG_M3 = {"PVC": 1400.0, "ABS": 1050.0, "PP": 905.0, "PE": 950.0, "steel": 7850.0, "aluminium": 2700.0}
"""What pipe is made of (from memory, but for steel and aluminium which every handbook has)."""


@dataclass(frozen=True)
class SupportRule:
    """A rule for hanging: the greatest distance between hangers [m], sag a metre [mm/m], the least saddle [mm]."""

    name: str
    spacing_m: float
    sag_mm_m: float | None
    saddle_mm: float | None
    words: str


FLEXIBLE_ADC = SupportRule(
    "ADC",
    1.219,
    41.7,
    38.0,
    "ADC Flexible Duct Performance & Installation Standards, 5th edition, 4.6: flexible hose at most 4 ft apart, sag at"
    " most 1/2 in a foot between, saddles at least 1 1/2 in wide",
)
FLEXIBLE_SMACNA = SupportRule(
    "SMACNA",
    3.048,
    41.7,
    25.4,
    "SMACNA HVAC Duct Construction Standards, 1995, S3.36: as the hose's maker says, at least every 10 ft, sag at most"
    " 1/2 in a foot, saddles at least 1 in wide",
)
RIGID_PIPE = SupportRule(
    "pipe",
    2.4,
    None,
    None,
    "plastic pipe every 8 to 12 ft and within 2 ft of an elbow (common practice); thin plastic pipe 8 ft",
)
ELBOW_MM = 600.0
"""A support stands within 2 ft of an elbow (common practice)."""


def pipe_kg_m(outside_mm: float, wall_mm: float, density_kg_m3: float = PIPE_DENSITY_KG_M3["PVC"]) -> float:
    """An empty pipe: density x pi (D - t) t.

    >>> round(pipe_kg_m(110.0, 3.2), 2)
    1.5
    """
    return density_kg_m3 * math.pi * (outside_mm - wall_mm) * wall_mm * 1e-6


def dust_kg_m(inside_mm: float, fill: float = HALF_FULL, density_kg_m3: float = DUST_KG_M3) -> float:
    """Dust that lies in it.

    >>> [round(dust_kg_m(d), 1) for d in (100.0, 110.0, 160.0)]
    [1.0, 1.2, 2.5]
    """
    return density_kg_m3 * fill * math.pi / 4.0 * inside_mm**2 * 1e-6


def lasting_n(weight_kg_m: float, spacing_m: float = SPACING_M) -> float:
    """What one hanger of a row carries [N]: the weight of one spacing.

    The first hanger beside a free end that hangs down, or beside a machine that holds nothing, carries more: give its
    own length.

    >>> round(lasting_n(0.7 + 0.98), 1)
    19.8
    """
    return weight_kg_m * GRAVITY * spacing_m


def permitted_sag_mm(spacing_m: float, rule: SupportRule = FLEXIBLE_ADC) -> float:
    """How far a hose may sag between two hangers; inf where the rule has no limit.

    >>> round(permitted_sag_mm(1.2), 1)
    50.0
    """
    return math.inf if rule.sag_mm_m is None else rule.sag_mm_m * spacing_m
