"""What blades and boards are made of: stiffness, density, what a hole's side takes, friction in a guide."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.profiles import named
from fitwright.data.tables import Row

OTHER_NAMES = {
    "aluminum": "aluminium",
    "galvanised steel": "steel",
    "galvanized steel": "steel",
    "mild steel": "steel",
    "ply": "plywood",
    "pmma": "acrylic",
    "polycarbonate": "PC",
    "polyethylene": "HDPE",
    "sheet metal": "steel",
    "stainless steel": "stainless",
}
"""What a row is called as well, in small letters."""


@dataclass(frozen=True)
class SheetRow:
    """A sheet: density [g/cm3], modulus in bending [MPa], bearing stress that a hole's side may take for good [MPa].

    `splits`: it cracks or splits from a hole near its edge. `friction` is that of a clean, dry blade in its guide.
    `*_status` says how well each value is known.
    """

    name: str
    density_g_cm3: float
    density_status: str
    modulus_mpa: float
    modulus_status: str
    bearing_mpa: float
    bearing_status: str
    friction: float
    friction_status: str
    splits: bool
    status: str
    note: str


def sheet(name: str) -> SheetRow:
    """The material of this name, capitals or not (`plastic`, `ABS`, `aluminum`); DataError lists the known ones."""
    plain = " ".join(name.split())
    return named(OTHER_NAMES.get(plain.casefold(), plain), sheets(), "sheet material")


@cache
def sheets() -> Mapping[str, SheetRow]:
    """Every sheet material by name."""
    return {row.text("name"): _sheet_row(row) for row in tables.load("sheets").rows}


def _sheet_row(row: Row) -> SheetRow:
    return SheetRow(
        name=row.text("name"),
        density_g_cm3=row.required("density_g_cm3"),
        density_status=row.status("density_status"),
        modulus_mpa=row.required("modulus_mpa"),
        modulus_status=row.status("modulus_status"),
        bearing_mpa=row.required("bearing_mpa"),
        bearing_status=row.status("bearing_status"),
        friction=row.required("friction_ratio"),
        friction_status=row.status("friction_status"),
        splits=row.text("splits") == "yes",
        status=row.status(),
        note=row.text("note"),
    )
