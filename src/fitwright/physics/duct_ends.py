"""Where air enters a duct and leaves it, and gates in it: coefficients on the duct's velocity pressure."""

from __future__ import annotations

import math

from fitwright.errors import DataError
from fitwright.physics.duct_grid import Curve
from fitwright.physics.duct_methods import Answer, Coefficient, together
from fitwright.physics.duct_tables import LossTables, named

PLAIN_EXIT = 1.0
"""What leaves a plain end is lost whole (exact for an even flow; SMACNA A13J)."""


def entry(name: str, tables: LossTables) -> Coefficient:
    """An entry by its name (`plain end`, `flanged end`, `bellmouth`, `grinder hood tapered`); DataError lists them."""
    row = named(tables.entries, name, "entry")
    return Coefficient(row.band, (row.source,), row.note)


def tapered_hood(whole_angle_deg: float, tables: LossTables, flat_sided: bool = False) -> Coefficient:
    """A hood that tapers to the duct, 0 to 180 deg between its walls (0: a plain end).

    >>> from fitwright.spec.air_losses import loss_tables
    >>> tapered_hood(60.0, loss_tables()).band.middle
    0.09
    """
    curve = tables.hood_flat if flat_sided else tables.hood
    return together([Answer(curve.source, _within(curve, whole_angle_deg, "a hood's angle", "deg"))])


def bellmouth(radius_on_bore: float, tables: LossTables, in_wall: bool = False) -> Coefficient:
    """A rounded entry; beyond a radius of 0.2 bores its last value holds."""
    if not radius_on_bore >= 0.0:
        raise DataError(f"a bellmouth's radius of {radius_on_bore:g} bores; allowed: 0 or more")
    curve = tables.bellmouth_in_wall if in_wall else tables.bellmouth
    return together([Answer(curve.source, curve.at(radius_on_bore))])


def conical_exit(whole_angle_deg: float, area_ratio: float, tables: LossTables) -> Coefficient:
    """A cone that ends in the open, with what leaves its mouth; on the small end; 14 to 90 deg, mouth / duct 1 to 16.

    Below an area ratio of 2 straight towards the plain end's 1.
    """
    if not 14.0 <= whole_angle_deg <= 90.0:
        raise DataError(f"an exit cone's angle of {whole_angle_deg:g} deg; the table goes from 14 to 90")
    if not 1.0 <= area_ratio <= 16.0:
        raise DataError(f"an exit cone's area ratio of {area_ratio:g}; the table goes from 1 to 16")
    value = tables.conical_exit.at(whole_angle_deg, area_ratio)
    if area_ratio < 2.0:
        value = PLAIN_EXIT + (area_ratio - 1.0) * (value - PLAIN_EXIT)
    return together([Answer(tables.conical_exit.source, value)])


def gate(open_share: float, tables: LossTables) -> Coefficient:
    """A slide gate partly open, 0.2 to 1 of its travel; 0 where it is open. The values are from memory."""
    if not 0.2 <= open_share <= 1.0:
        raise DataError(f"a gate open by {open_share:g} of its travel; the table goes from 0.2 to 1")
    ends = Curve(tables.gate.source, (*tables.gate.x, 1.0), (*tables.gate.y, 0.0))
    return together([Answer(ends.source, ends.at(open_share))], "from memory: no table was read")


def hood_suction_pa(velocity_pressure_pa: float, entry_coefficient: float) -> float:
    """Static suction behind an entry [Pa]: the air's speed-up and the entry's loss, VP (1 + F) (ACGIH).

    >>> hood_suction_pa(100.0, 0.65)
    165.0
    """
    return velocity_pressure_pa * (1.0 + entry_coefficient)


def entry_efficiency(entry_coefficient: float) -> float:
    """Ce = sqrt(VP / suction) = 1 / sqrt(1 + F) (ACGIH).

    >>> f"{entry_efficiency(0.93):.2f}"
    '0.72'
    """
    return 1.0 / math.sqrt(1.0 + entry_coefficient)


def _within(curve: Curve, x: float, what: str, unit: str) -> float:
    if not curve.covers(x):
        raise DataError(f"{what} of {x:g} {unit}; {curve.source} goes from {curve.x[0]:g} to {curve.x[-1]:g}")
    return curve.at(x)
