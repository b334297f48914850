"""Where air enters a duct: coefficients on the duct's velocity pressure."""

from __future__ import annotations

from fitwright.physics.duct_band import Band
from fitwright.physics.duct_methods import Coefficient
from fitwright.physics.duct_tables import LossTables, named

AT_SPEED = Band(1.0, 1.0, 1.0)
"""The air comes from rest: its speed takes one velocity pressure of the fan's suction."""


def entry(name: str, tables: LossTables) -> Coefficient:
    """An entry by its name (`plain end`, `flanged end`, `bellmouth`, `grinder hood tapered`); DataError lists them."""
    row = named(tables.entries, name, "entry")
    return Coefficient(row.band, (row.source,), row.note)


def suction_behind(found: Coefficient) -> Coefficient:
    """The static suction behind an entry: the air's speed-up and the entry's loss, VP (1 + F) (ACGIH).

    >>> from fitwright.spec.air_losses import loss_tables
    >>> suction_behind(entry("grinder hood straight", loss_tables())).band.middle
    1.65
    """
    return Coefficient(AT_SPEED + found.band, found.sources, found.note)
