"""What gaskets are cut from: density, and the thickness that is taken where none is said."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.profiles import named

OTHER_NAMES = {
    "closed cell foam": "foam rubber",
    "epdm": "foam rubber",
    "foam": "foam rubber",
    "sponge rubber": "foam rubber",
    "neoprene": "rubber",
    "nbr": "rubber",
    "cork rubber": "cork",
    "cardboard": "paper",
}
"""What a row is called as well, in small letters."""


@dataclass(frozen=True)
class GasketRow:
    """A gasket sheet: density [g/cm3], usual thickness [mm]."""

    name: str
    density_g_cm3: float
    thickness_mm: float
    status: str
    note: str


def gasket_sheet(name: str) -> GasketRow:
    """The gasket sheet of this name, capitals or not; DataError lists the known ones."""
    plain = " ".join(name.split())
    return named(OTHER_NAMES.get(plain.casefold(), plain), gasket_sheets(), "gasket sheet")


@cache
def gasket_sheets() -> Mapping[str, GasketRow]:
    """Every gasket sheet by name."""
    return {
        row.text("name"): GasketRow(
            row.text("name"),
            row.required("density_g_cm3"),
            row.required("thickness_mm"),
            row.status(),
            row.text("note"),
        )
        for row in tables.load("gaskets").rows
    }
