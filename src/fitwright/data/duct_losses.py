"""The handbooks' tables of a duct's losses as rows of plain numbers; fitwright.spec.air_losses makes curves of them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.tables import Row, Table


@dataclass(frozen=True)
class BandRow:
    """One row with a low, a middle and a high value, found by its name.

    A hose's `factor` (low, middle, high) multiplies its friction; 1 elsewhere.
    """

    name: str
    low: float
    middle: float
    high: float
    source: str
    status: str
    note: str
    factor: tuple[float, float, float] = (1.0, 1.0, 1.0)


@dataclass(frozen=True)
class CurveRows:
    """y over x."""

    source: str
    x: tuple[float, ...]
    y: tuple[float, ...]


@dataclass(frozen=True)
class FieldRows:
    """z over x (within a row) and y (row by row)."""

    source: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    z: tuple[tuple[float, ...], ...]


@cache
def curve(name: str, x: str, y: str) -> CurveRows:
    """The columns `x` and `y` of the table `air/duct_NAME`; rows where y is empty are left out."""
    table = tables.load(f"air/duct_{name}")
    rows = [row for row in table.rows if row.number(y) is not None]
    return CurveRows(_short(table), tuple(row.required(x) for row in rows), tuple(row.required(y) for row in rows))


@cache
def elbows(section: str) -> tuple[CurveRows, ...]:
    """Smooth elbows of 90 deg, `round` or `square`: a curve over radius / bore for each table."""
    rows = [row for row in tables.load("air/duct_elbows").rows if row.text("section") == section]
    names = dict.fromkeys(row.text("table") for row in rows)
    return tuple(_of_table(name, [row for row in rows if row.text("table") == name]) for name in names)


@cache
def field(name: str) -> FieldRows:
    """Coefficient over whole angle and area ratio of the table `air/duct_NAME`."""
    table = tables.load(f"air/duct_{name}")
    return _field(_short(table), list(table.rows))


@cache
def diffusers() -> tuple[tuple[float, FieldRows], ...]:
    """The round diffuser's field for each Reynolds number."""
    table = tables.load("air/duct_diffusers")
    numbers = sorted({row.required("reynolds") for row in table.rows})
    return tuple(
        (number, _field(_short(table), [row for row in table.rows if row.required("reynolds") == number]))
        for number in numbers
    )


@cache
def entries() -> tuple[BandRow, ...]:
    """Where air enters a duct: coefficients on the duct's velocity pressure."""
    return tuple(_band(row, "entry", "") for row in tables.load("air/duct_entries").rows)


@cache
def walls() -> tuple[BandRow, ...]:
    """Roughness of walls [mm]."""
    return tuple(_band(row, "wall", "_mm") for row in tables.load("air/duct_walls").rows)


@cache
def hoses() -> tuple[BandRow, ...]:
    """Roughness of hoses [mm] and the factor on their friction."""
    return tuple(_band(row, "hose", "_mm") for row in tables.load("air/duct_hoses").rows)


@cache
def dusts() -> tuple[BandRow, ...]:
    """Transport velocities [m/s]."""
    return tuple(_band(row, "dust", "_m_s") for row in tables.load("air/duct_dusts").rows)


@cache
def close_bends() -> tuple[BandRow, ...]:
    """Factors of a bend that follows another closely."""
    return tuple(_band(row, "pair", "") for row in tables.load("air/duct_close_bends").rows)


def _short(table: Table) -> str:
    """What reports call the table: its head's `short`, else the whole source."""
    return table.head.get("short", table.head["source"])


def _band(row: Row, name: str, unit: str) -> BandRow:
    factor = (1.0, 1.0, 1.0)
    if "factor_low" in row.cells:
        factor = (row.required("factor_low"), row.required("factor_middle"), row.required("factor_high"))
    return BandRow(
        name=row.text(name),
        low=row.required(f"low{unit}"),
        middle=row.required(f"middle{unit}"),
        high=row.required(f"high{unit}"),
        source=row.text("table"),
        status=row.status(),
        note=row.text("note"),
        factor=factor,
    )


def _of_table(name: str, rows: list[Row]) -> CurveRows:
    radii = tuple(row.required("radius_on_bore") for row in rows)
    return CurveRows(name, radii, tuple(row.required("coefficient") for row in rows))


def _field(source: str, rows: list[Row]) -> FieldRows:
    ratios = tuple(sorted({row.required("area_ratio") for row in rows}))
    angles = tuple(sorted({row.required("whole_angle_deg") for row in rows}))
    cells = {(row.required("area_ratio"), row.required("whole_angle_deg")): row.required("coefficient") for row in rows}
    return FieldRows(source, angles, ratios, tuple(tuple(cells[ratio, angle] for angle in angles) for ratio in ratios))
