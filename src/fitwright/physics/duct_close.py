"""A bend that follows another closely: the second of the two costs less or more than by itself."""

from __future__ import annotations

from fitwright.physics.duct_band import Band
from fitwright.physics.duct_bends import Turn, single_mitre
from fitwright.physics.duct_grid import between
from fitwright.physics.duct_methods import Coefficient
from fitwright.physics.duct_tables import LossTables

LONG_SPACING = 10.0
"""Diameters between two bends beyond which each is taken by itself (their mixing length; common practice)."""


def close_factor(turn: Turn, apart_mm: float, tables: LossTables) -> Coefficient | None:
    """The factor of the second of two bends this far apart [mm, end of the one to beginning of the other].

    Two mitres that make an offset have been measured at 30 deg (round) and at 90 deg (square duct): between them the
    factor goes straight with the angle, level below 30. The band goes from there to 1. For smooth bends no table was
    found: from what mitres show at the same angle to the table's highest. None where they are far apart.
    """
    along = apart_mm / turn.diameter_mm
    if along >= LONG_SPACING:
        return None
    seen = second_mitre(turn, along, tables)
    if turn.radius_mm <= 0.0:
        band = Band(min(seen, 1.0), seen, max(seen, 1.0))
        sources = (tables.offset.source, tables.z_offset.source)
        return Coefficient(band, sources, "two mitres close together, taken as an offset")
    row = tables.close_bend
    low = min(row.band.low, seen)
    band = Band(low, 0.5 * (low + row.band.middle), row.band.high)
    return Coefficient(band, (row.source,), row.note)


def second_mitre(turn: Turn, along: float, tables: LossTables) -> float:
    """What the second mitre of an offset adds, as a share of a single one: 0 or more."""
    thirty = _added(tables.offset.at(along), 30.0, turn, tables)
    right = _added(tables.z_offset.at(along), 90.0, turn, tables)
    return max(0.0, between((30.0, 90.0), (thirty, right), turn.angle_deg))


def _added(pair: float, angle: float, turn: Turn, tables: LossTables) -> float:
    """(pair - one) / one, both with the same factor for the Reynolds number, which falls out."""
    one = single_mitre(Turn(angle, turn.diameter_mm, 0.0, 1e9), tables)
    return pair / one - 1.0
