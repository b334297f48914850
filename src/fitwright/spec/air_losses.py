"""The tables of a duct's losses, made ready for physics: the one place that knows both."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from fitwright.data import duct_losses
from fitwright.data.duct_losses import BandRow, CurveRows, FieldRows
from fitwright.physics.duct_band import Band
from fitwright.physics.duct_grid import Curve, Field
from fitwright.physics.duct_tables import LossTables, Named

ORIFICE = "orifice"
"""Its coefficient is on the velocity pressure in its own hole."""


@cache
def loss_tables() -> LossTables:
    """Every table that a duct's losses are read from, as fitwright.physics.duct takes them."""
    return LossTables(
        elbow=tuple(_curve(rows) for rows in duct_losses.elbows("round")),
        square_elbow=tuple(_curve(rows) for rows in duct_losses.elbows("square")),
        elbow_angle=_read("elbow_angles", "angle_deg", "factor"),
        mitre=_read("mitres", "angle_deg", "coefficient"),
        reynolds_mitre=_read("reynolds", "reynolds", "mitres"),
        reynolds_elbow=_read("reynolds", "reynolds", "elbows"),
        offset=_read("offsets", "apart_on_bore", "coefficient"),
        z_offset=_read("z_offsets", "apart_on_height", "coefficient"),
        diffuser=tuple((number, _field(rows)) for number, rows in duct_losses.diffusers()),
        pyramid=_field(duct_losses.field("pyramids")),
        contraction=_field(duct_losses.field("contractions")),
        contraction_cone=_read("contraction_cones", "whole_angle_deg", "coefficient"),
        sudden_contraction=_read("sudden_contractions", "area_share", "coefficient"),
        entries=_named(duct_losses.entries()),
        walls=_named(duct_losses.walls()),
        hoses=_named(duct_losses.hoses()),
        close_bend=_named(duct_losses.close_bends())["smooth"],
        dusts=_named(duct_losses.dusts()),
    )


def dust_names() -> tuple[str, ...]:
    """The dusts that have a transport velocity, lightest first."""
    return tuple(row.name for row in duct_losses.dusts())


def hose_names() -> tuple[str, ...]:
    """The hoses that have a friction, smoothest first."""
    return tuple(row.name for row in duct_losses.hoses())


def entry_names() -> tuple[str, ...]:
    """The entries whose coefficient is on the duct's velocity pressure."""
    return tuple(row.name for row in duct_losses.entries() if row.name != ORIFICE)


def _read(name: str, x: str, y: str) -> Curve:
    return _curve(duct_losses.curve(name, x, y))


def _curve(rows: CurveRows) -> Curve:
    return Curve(rows.source, rows.x, rows.y)


def _field(rows: FieldRows) -> Field:
    return Field(rows.source, rows.x, rows.y, rows.z)


def _named(rows: Iterable[BandRow]) -> dict[str, Named]:
    return {
        row.name: Named(
            row.name, Band(row.low, row.middle, row.high), row.source, row.status, row.note, Band(*row.factor)
        )
        for row in rows
    }
