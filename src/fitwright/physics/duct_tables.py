"""The handbook tables that a duct's losses are read from, as plain numbers (fitwright.data.duct_losses fills them)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from fitwright.errors import DataError
from fitwright.physics.duct_band import Band
from fitwright.physics.duct_grid import Curve, Field

SAME = Band(1.0, 1.0, 1.0)


@dataclass(frozen=True)
class LossTables:
    """Coefficients times the velocity pressure of the section named; angles in degrees, whole (included) for cones.

    `elbow` and `square_elbow` over R/D at 90 deg, one curve a source; `elbow_angle` their factor over the angle;
    `mitre` over the angle; `reynolds_mitre` and `reynolds_elbow` (square) the factors over Re. `offset` over L/D: two
    30 deg mitres; `z_offset` over L/H: two of 90 deg. On the small end: `diffuser` over (angle, A1/A), a field a
    Reynolds number [Re, field]; `pyramid`, the same for flat sides; `contraction` over (angle, A1/A);
    `contraction_cone` over the angle; `sudden_contraction` over A2/A1. By name: `entries` (on the duct's), `walls` and
    `hoses` (roughness, mm), `dusts` (transport velocity, m/s). `close_bend`: factor of a smooth bend that follows
    another closely.
    """

    elbow: tuple[Curve, ...]
    square_elbow: tuple[Curve, ...]
    elbow_angle: Curve
    mitre: Curve
    reynolds_mitre: Curve
    reynolds_elbow: Curve
    offset: Curve
    z_offset: Curve
    diffuser: tuple[tuple[float, Field], ...]
    pyramid: Field
    contraction: Field
    contraction_cone: Curve
    sudden_contraction: Curve
    entries: Mapping[str, Named]
    walls: Mapping[str, Named]
    hoses: Mapping[str, Named]
    close_bend: Named
    dusts: Mapping[str, Named]


@dataclass(frozen=True)
class Named:
    """One row that is found by its name: a band, its source, its status and what to know of it."""

    name: str
    band: Band
    source: str
    status: str
    note: str = ""
    factor: Band = SAME
    """On a hose's friction."""


def named(rows: Mapping[str, Named], name: str, what: str) -> Named:
    """The row of this name; DataError lists those there are."""
    if name not in rows:
        raise DataError(f"no {what} is called {name!r}; allowed: {', '.join(rows)}")
    return rows[name]
