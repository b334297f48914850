"""Woods and boards by the names that people use, and the screws that go into them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Literal, cast

from fitwright.data import tables
from fitwright.data.fasteners import fastener
from fitwright.data.profiles import named
from fitwright.data.tables import Row
from fitwright.errors import DataError
from fitwright.units import plain_text

WoodKind = Literal["softwood", "hardwood", "board", "chipboard"]
ScrewKind = Literal["wood", "chipboard", "coach"]

OTHER_NAMES = {
    "ply": "plywood",
    "softwood plywood": "plywood",
    "particleboard": "chipboard",
    "oriented strand board": "OSB",
    "spruce-pine-fir": "framing timber",
    "spf": "framing timber",
    "joist": "framing timber",
    "stud": "framing timber",
    "timber": "framing timber",
    "softwood": "framing timber",
    "red oak": "oak",
    "fir": "Douglas fir",
    "hem-fir": "hemlock",
    "southern yellow pine": "southern pine",
}
"""What a row is called as well, in small letters."""


@dataclass(frozen=True)
class WoodRow:
    """A wood: specific gravity oven-dry; for boards what share of solid wood's withdrawal they hold, usual thickness.

    `board_mm` is None where it comes in any thickness.
    """

    name: str
    kind: WoodKind
    gravity: float
    withdrawal_share: float
    board_mm: float | None
    status: str
    note: str

    @property
    def needs_pilot(self) -> bool:
        """True where a wood screw splits it or breaks without a pilot (G above 0.5: NDS 2018, 12.1.5)."""
        return self.gravity > 0.5


@dataclass(frozen=True)
class WoodScrewRow:
    """A screw for wood, in mm and MPa: over the thread, at its root, the point without full thread (coach screws).

    `head_mm`, `hole_mm`, `washer_d2_mm`: of coach screws; those of the others stand in the tables of screws.
    """

    name: str
    kind: ScrewKind
    major_mm: float
    core_mm: float
    tip_mm: float
    tensile_mpa: float
    bending_mpa: float
    head_mm: float | None
    hole_mm: float | None
    washer_d2_mm: float | None
    status: str
    note: str


def wood(name: str) -> WoodRow:
    """The wood of this name (`framing timber`, `Douglas fir`, `ply`); DataError lists the known ones."""
    plain = " ".join(plain_text(name).split())
    return named(OTHER_NAMES.get(plain.casefold(), plain), woods(), "wood")


@cache
def woods() -> Mapping[str, WoodRow]:
    """Every wood by name."""
    return {row.text("name"): _wood_row(row) for row in tables.load("woods").rows}


def wood_screw(name: str) -> WoodScrewRow:
    """The wood screw of this name: `No. 8`, `4.5 mm`, `8 mm coach`, `1/4 in lag`; DataError lists the known ones."""
    text = " ".join(plain_text(name).casefold().split())
    rows = {row.name.casefold(): row for row in all_wood_screws()}
    if re.search(r"\b(coach|lag)\b", text):
        key = re.sub(r"\b(coach|lag|screw|bolt)s?\b", "", text).strip()
        key = re.sub(r"^([0-9]+)(?:\.0)?( ?mm)?$", r"\1 mm", key)
        key = re.sub(r"^([0-9]+/[0-9]+) ?(?:in|inch|\"|'')?$", r"\1 in", key)
        found = rows.get(f"{key} coach")
    else:
        found = rows.get(_fastener_name(name))
    if found is None:
        raise DataError(f"no wood screw is called {name!r}; known: {', '.join(row.name for row in all_wood_screws())}")
    return found


@cache
def all_wood_screws() -> tuple[WoodScrewRow, ...]:
    """Every screw for wood, kind by kind, thin to thick."""
    return tuple(_screw_row(row) for row in tables.load("wood_screws").rows)


def _fastener_name(name: str) -> str:
    try:
        return fastener(name).name.casefold()
    except DataError:
        return ""


def _wood_row(row: Row) -> WoodRow:
    return WoodRow(
        name=row.text("name"),
        kind=cast(WoodKind, row.text("kind")),
        gravity=row.required("gravity_ratio"),
        withdrawal_share=row.required("withdrawal_share_ratio"),
        board_mm=row.number("board_mm"),
        status=row.status(),
        note=row.text("note"),
    )


def _screw_row(row: Row) -> WoodScrewRow:
    number = row.number
    return WoodScrewRow(
        name=row.text("name"),
        kind=cast(ScrewKind, row.text("kind")),
        major_mm=row.required("major_mm"),
        core_mm=row.required("core_mm"),
        tip_mm=number("tip_mm") or 0.0,
        tensile_mpa=row.required("tensile_mpa"),
        bending_mpa=row.required("bending_mpa"),
        head_mm=number("head_mm"),
        hole_mm=number("hole_mm"),
        washer_d2_mm=number("washer_d2_mm"),
        status=row.status(),
        note=row.text("note"),
    )
