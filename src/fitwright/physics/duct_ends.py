"""Where air enters a duct: coefficients on the duct's velocity pressure."""

from __future__ import annotations

from fitwright.physics.duct_band import Band
from fitwright.physics.duct_methods import Coefficient
from fitwright.physics.duct_tables import LossTables, named

AT_SPEED = Band(1.0, 1.0, 1.0)
"""Exact, by Bernoulli, for an even flow."""


def entry(name: str, tables: LossTables) -> Coefficient:
    """An entry by its name (`plain end`, `flanged end`, `bellmouth`, `grinder hood tapered`); DataError lists them."""
    row = named(tables.entries, name, "entry")
    return Coefficient(row.band, (row.source,), row.note)


def from_rest() -> Coefficient:
    """What it takes to bring the air from rest to its speed: one velocity pressure of a fan's static suction.

    Behind an entry stands the suction of both, VP (1 + F) (ACGIH).
    """
    return Coefficient(AT_SPEED, ("ACGIH, Industrial Ventilation: VP (1 + F)",))
