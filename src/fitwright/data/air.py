"""The air side of a cylinder: room for its elbow fittings with flow control, and how tightly the tube bends."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.data.thread_words import thread_name
from fitwright.errors import DataError


@dataclass(frozen=True)
class TubeRow:
    """A polyurethane tube, mm, named by its outside."""

    tube_mm: float
    inside_mm: float
    bend_radius_mm: float
    status: str
    source: str


@dataclass(frozen=True)
class FittingRow:
    """The room that an elbow with flow control takes at a port, mm: remembered only.

    `above_mm` from the port's face to the top of its screw, `reach_mm` from the port's axis to where the tube goes in,
    `body_mm` its greatest diameter round the port's axis.
    """

    port: str
    tube_mm: float
    above_mm: float
    reach_mm: float
    body_mm: float
    status: str
    source: str
    note: str


def tube(tube_mm: float) -> TubeRow:
    """The tube of this outside diameter [mm]; DataError lists those there are."""
    for row in all_tubes():
        if abs(row.tube_mm - tube_mm) < 1e-6:
            return row
    raise DataError(f"no air tube {tube_mm:g} mm; there are {', '.join(f'{row.tube_mm:g}' for row in all_tubes())} mm")


def fitting(port: str, tube_mm: float | None = None) -> FittingRow:
    """The fitting for a port (`M5`, `G1/8`) and tube [mm]; without a tube the usual, smallest one.

    DataError lists the ports, or the port's tubes.
    """
    rows = [row for row in all_fittings() if row.port == thread_name(port)]
    if not rows:
        ports = ", ".join(dict.fromkeys(row.port for row in all_fittings()))
        raise DataError(f"no fitting is known for the port {port!r}; there are {ports}")
    for row in rows:
        if tube_mm is None or abs(row.tube_mm - tube_mm) < 1e-6:
            return row
    tubes = ", ".join(f"{row.tube_mm:g}" for row in rows)
    raise DataError(f"no fitting {rows[0].port} takes a tube of {tube_mm:g} mm; there are {tubes} mm")


@cache
def all_tubes() -> tuple[TubeRow, ...]:
    """Every tube, thin to thick."""
    table = tables.load("air/tubes")
    return tuple(_tube_row(row, table.head["source"]) for row in table.rows)


@cache
def all_fittings() -> tuple[FittingRow, ...]:
    """Every fitting, by port, then tube."""
    table = tables.load("air/fittings")
    return tuple(_fitting_row(row, table.head["source"]) for row in table.rows)


def _tube_row(row: Row, source: str) -> TubeRow:
    return TubeRow(
        tube_mm=row.required("tube_mm"),
        inside_mm=row.required("inside_mm"),
        bend_radius_mm=row.required("bend_radius_mm"),
        status=row.status(),
        source=source,
    )


def _fitting_row(row: Row, source: str) -> FittingRow:
    return FittingRow(
        port=row.text("port"),
        tube_mm=row.required("tube_mm"),
        above_mm=row.required("above_mm"),
        reach_mm=row.required("reach_mm"),
        body_mm=row.required("body_mm"),
        status=row.status(),
        source=source,
        note=row.text("note"),
    )
