"""How far bought screws, rods and wood give way where a bracket hangs on them: springs in N/mm.

A screw or rod along its axis is E A / L over its stress area; across it is a beam. What it goes through gives way too.
"""

from __future__ import annotations

import math

from fitwright.data.fasteners import FastenerRow
from fitwright.data.sheets import sheet
from fitwright.errors import DataError
from fitwright.physics.slide.sections import round_bar, stress_diameter_mm
from fitwright.physics.steel import STEEL_MPA

GATE_MPA = 2000.0
"""Of the gate's body round its screws: plastic where no more is known (common practice); sheet metal is stiffer."""
ACROSS_GRAIN_MPA = 370.0
"""Wood and plywood square to their face, under a washer (EN 338, class C24, mean of E 90; from memory)."""
SLIDES_N_MM = 20.0
"""What lies against something and is only pressed: so little across that it carries nothing, and still does not float
away in the reckoning."""
HARD_N_MM = 200_000.0
"""A steel nut, or a blade's edge, that it is pressed against."""


def axial_n_mm(row: FastenerRow, long_mm: float) -> float:
    """A steel screw or threaded rod along its axis: E A / L.

    >>> from fitwright.data.fasteners import fastener
    >>> round(axial_n_mm(fastener("M8"), 167.0))
    44939
    """
    return STEEL_MPA * _bar(row)[0] / max(long_mm, 1.0)


def aside_n_mm(row: FastenerRow, long_mm: float) -> float:
    """A threaded rod pushed aside at one end, both ends kept from turning by their nuts: 12 E I / L^3.

    >>> from fitwright.data.fasteners import fastener
    >>> round(aside_n_mm(fastener("M8"), 167.0), 1)
    56.3
    """
    return 12.0 * STEEL_MPA * _bar(row)[1] / max(long_mm, 1.0) ** 3


def bedded_n_mm(row: FastenerRow, bed_mpa: float = GATE_MPA) -> float:
    """A screw pushed aside where it stands in a body: a long beam on an elastic bed, pushed at its end: 2 E I a^3.

    a = (k / 4 E I)^1/4 (M. Hetenyi, Beams on Elastic Foundation, 1946; from memory); the bed's k [N/mm2] is taken as
    the body's modulus (common practice, no source).

    >>> from fitwright.data.fasteners import fastener
    >>> round(bedded_n_mm(fastener("M5")), -2)
    9000.0
    """
    bending = STEEL_MPA * _bar(row)[1]
    a = (bed_mpa / (4.0 * bending)) ** 0.25
    return float(2.0 * bending * a**3)


def in_board_n_mm(row: FastenerRow, grip_mm: float, thick_mm: float, head_mm: float) -> float:
    """A screw through a board along its axis: the steel, and the wood under its head, one after the other.

    The wood is a frustum that widens under 45 deg: its area is taken at half the thickness (common practice, no
    source).
    """
    wide = head_mm + thick_mm
    wood = ACROSS_GRAIN_MPA * math.pi / 4.0 * (wide**2 - row.major_mm**2) / thick_mm
    return 1.0 / (1.0 / axial_n_mm(row, grip_mm) + 1.0 / wood)


def in_wood_n_mm(row: FastenerRow, material: str) -> float:
    """A bolt or screw through wood pushed aside: rho^1.5 d / 23 (EN 1995-1-1, table 7.1; from memory).

    >>> from fitwright.data.fasteners import fastener
    >>> round(in_wood_n_mm(fastener("M6"), "plywood"), -1)
    3830.0
    """
    try:
        density = sheet(material).density_g_cm3
    except DataError:
        density = sheet("MDF").density_g_cm3
    return float((1000.0 * density) ** 1.5 * row.major_mm / 23.0)


def pin_n_mm(d_mm: float, span_mm: float) -> float:
    """A pin between two jaws, pulled in its middle: 48 E I / L^3."""
    return 48.0 * STEEL_MPA * math.pi * d_mm**4 / 64.0 / span_mm**3


def _bar(row: FastenerRow) -> tuple[float, float]:
    """Area and second moment at the stress diameter."""
    bar = round_bar(stress_diameter_mm(row.major_mm, row.pitch_mm or 1.0))
    return bar.area_mm2, bar.deep_mm4
