"""How thick a hose tail's wall is under its band where the file does not say: it bears a band that is turned tight."""

from __future__ import annotations

from fitwright.physics.hose_band import BAND_N
from fitwright.physics.ring import band_edge_mpa, band_mpa
from fitwright.spec.part_base import Material

TAIL_WALL_MM, MOST_MM, STEP_MM = 3.2, 8.0, 0.1
SAFE = 1.7
"""Strength between the layers over the bending that the long cylinder has: the elements find a tenth more in a tail,
whose mouth is free, and 1.5 is wanted."""


def tail_wall_mm(d_mm: float, band_mm: float, least_mm: float, material: Material) -> float:
    """Wall [mm] of a tail `d_mm` outside: 3.2 or `least_mm`, or more where the filament, warm as it is, asks it.

    A tail stands on the bed, so the bending along it pulls between its layers. Soft ones give way and get no more.

    >>> from fitwright.spec.grammar.profiles import DEFAULT_MATERIAL, read_material
    >>> from fitwright.spec.grammar.values import Context
    >>> petg = read_material(DEFAULT_MATERIAL, Context())
    >>> tail_wall_mm(99.5, 13.0, 2.52, petg), tail_wall_mm(99.5, 13.0, 2.52, petg.at(65.0))
    (3.2, 4.2)
    """
    wall = max(TAIL_WALL_MM, least_mm)
    if material.soft or band_mm <= 0.0:
        return wall
    press, limit = band_mpa(BAND_N, band_mm, d_mm), material.strength_across_mpa / SAFE
    while wall < MOST_MM and band_edge_mpa(press, band_mm, wall, d_mm / 2 - wall / 2, material.poisson) > limit:
        wall = round(wall + STEP_MM, 6)
    return wall
