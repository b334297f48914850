"""Printer and filament profiles that come with Fitwright."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from typing import TypeVar

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.errors import DataError

T = TypeVar("T")
SMALL_HOLE_MM = 10.0
"""Round holes below this print small, and are opened by the printer's figure (common practice, no source)."""


@dataclass(frozen=True)
class PrinterRow:
    """A printer: bed and settings in mm; a printed diameter scatters by +-(scatter_rel x d + scatter_abs_mm).

    `scale_xy`, `hole_offset_mm`, `outside_offset_mm` are its calibration (1, 0, 0: not calibrated);
    pilots and bolt holes below SMALL_HOLE_MM are opened by `small_hole_add_mm`, or by what `hole_offset_mm` asks where
    that is more, common practice.
    """

    name: str
    bed_x_mm: float
    bed_y_mm: float
    bed_z_mm: float
    nozzle_mm: float
    line_mm: float
    layer_mm: float
    scatter_rel: float
    scatter_abs_mm: float
    scale_xy: float
    hole_offset_mm: float
    outside_offset_mm: float
    small_hole_add_mm: float
    status: str


@dataclass(frozen=True)
class MaterialRow:
    """A filament as printed: strength in the layer and across layers, `strain_limit` the hoop strain allowed for good.

    `service_c` is the warmest place that it may stay in, `*_at_service` the share that is left of modulus and strengths
    there; at `softening_c` it sags. `creeps`: not for loads that stay. `soft`: it stretches over a pipe and comes back,
    and `strain_limit` is the stretch that it keeps without going slack. `*_status` says how well each value is known.
    """

    name: str
    density_g_cm3: float
    density_status: str
    modulus_mpa: float
    modulus_status: str
    poisson: float
    poisson_status: str
    strength_mpa: float
    strength_status: str
    strength_across_mpa: float
    strength_across_status: str
    softening_c: float
    softening_status: str
    service_c: float
    service_status: str
    modulus_at_service: float
    modulus_at_service_status: str
    strength_at_service: float
    strength_at_service_status: str
    creeps: bool
    creeps_status: str
    strain_limit: float
    strain_limit_status: str
    soft: bool
    soft_status: str
    status: str
    note: str
    heat_note: str


def printer(name: str) -> PrinterRow:
    """The printer profile of this name, capitals or not; DataError lists the known ones."""
    return named(name, printers(), "printer")


OTHER_NAMES = {"tpu 95a": "TPU", "tpu95a": "TPU", "tpu85a": "TPU 85A"}
"""What a row is called as well, in small letters."""


def material(name: str) -> MaterialRow:
    """The filament of this name, capitals or not; DataError lists the known ones."""
    return named(OTHER_NAMES.get(name.strip().casefold(), name), materials(), "material")


def soft_materials() -> tuple[str, ...]:
    """Names of the filaments that stretch over a pipe and come back."""
    return tuple(name for name, row in materials().items() if row.soft)


@cache
def printers() -> Mapping[str, PrinterRow]:
    """Every printer profile by name."""
    return {row.text("name"): _printer_row(row) for row in tables.load("printers").rows}


@cache
def materials() -> Mapping[str, MaterialRow]:
    """Every filament by name."""
    heat = {row.text("name"): row for row in tables.load("materials_heat").rows}
    return {row.text("name"): _material_row(row, heat) for row in tables.load("materials").rows}


def named(name: str, rows: Mapping[str, T], kind: str) -> T:
    """The row of this name, capitals or not; DataError lists the known ones and the nearest."""
    for known, row in rows.items():
        if known.casefold() == name.strip().casefold():
            return row
    near = get_close_matches(name.casefold(), [known.casefold() for known in rows], n=1)
    meant = next((f"; did you mean {known}?" for known in rows if near and known.casefold() == near[0]), "")
    raise DataError(f"no {kind} is called {name!r}; known: {', '.join(rows)}{meant}")


def _printer_row(row: Row) -> PrinterRow:
    return PrinterRow(
        name=row.text("name"),
        bed_x_mm=row.required("bed_x_mm"),
        bed_y_mm=row.required("bed_y_mm"),
        bed_z_mm=row.required("bed_z_mm"),
        nozzle_mm=row.required("nozzle_mm"),
        line_mm=row.required("line_mm"),
        layer_mm=row.required("layer_mm"),
        scatter_rel=row.required("scatter_rel_ratio"),
        scatter_abs_mm=row.required("scatter_abs_mm"),
        scale_xy=row.required("scale_xy_ratio"),
        hole_offset_mm=row.required("hole_offset_mm"),
        outside_offset_mm=row.required("outside_offset_mm"),
        small_hole_add_mm=row.required("small_hole_add_mm"),
        status=row.status(),
    )


def _material_row(row: Row, warm: Mapping[str, Row]) -> MaterialRow:
    name = row.text("name")
    if name not in warm:
        raise DataError(f"{row.file}:{row.line}: data/materials_heat.csv has no row {name!r}")
    heat = warm[name]
    return MaterialRow(
        name=name,
        density_g_cm3=row.required("density_g_cm3"),
        density_status=row.status("density_status"),
        modulus_mpa=row.required("modulus_mpa"),
        modulus_status=row.status("modulus_status"),
        poisson=row.required("poisson_ratio"),
        poisson_status=row.status("poisson_status"),
        strength_mpa=row.required("strength_mpa"),
        strength_status=row.status("strength_status"),
        strength_across_mpa=row.required("strength_across_mpa"),
        strength_across_status=row.status("strength_across_status"),
        softening_c=heat.required("softening_c"),
        softening_status=heat.status("softening_status"),
        service_c=heat.required("service_c"),
        service_status=heat.status("service_status"),
        modulus_at_service=heat.required("modulus_at_service_ratio"),
        modulus_at_service_status=heat.status("modulus_at_service_status"),
        strength_at_service=heat.required("strength_at_service_ratio"),
        strength_at_service_status=heat.status("strength_at_service_status"),
        creeps=heat.text("creeps") == "yes",
        creeps_status=heat.status("creeps_status"),
        strain_limit=row.required("strain_limit_ratio"),
        strain_limit_status=row.status("strain_limit_status"),
        soft=row.text("soft") == "yes",
        soft_status=row.status("soft_status"),
        status=row.status(),
        note=row.text("note"),
        heat_note=heat.text("note"),
    )
