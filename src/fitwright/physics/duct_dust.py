"""How fast the air must go to carry a dust along."""

from __future__ import annotations

from fitwright.physics.duct_band import Band
from fitwright.physics.duct_tables import LossTables, named


def transport(dust: str, tables: LossTables) -> Band:
    """The transport velocity [m/s] of a dust by its name; DataError lists the names.

    Below `low` it settles; `high` carries it in a run that is not ideal.
    """
    return named(tables.dusts, dust, "dust").band
