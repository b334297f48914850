"""Room for open spanners, by the width across the flats that they turn."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.errors import DataError

FITS_MM = 0.2
"""A spanner is taken for a hexagon up to this much smaller or larger than its size."""


@dataclass(frozen=True)
class SpannerRow:
    """An open spanner, mm: its head across the jaws (usual and greatest), the head's thickness, the whole length."""

    af_mm: float
    head_usual_mm: float
    head_greatest_mm: float
    head_thick_mm: float
    length_mm: float
    status: str
    note: str


def spanner(af_mm: float) -> SpannerRow:
    """The spanner for a hexagon so wide across flats [mm], 7 to 41; DataError where no spanner fits."""
    row = min(all_spanners(), key=lambda row: abs(row.af_mm - af_mm))
    if abs(row.af_mm - af_mm) > FITS_MM:
        sizes = ", ".join(f"{row.af_mm:g}" for row in all_spanners())
        raise DataError(f"no spanner fits {af_mm:g} mm across flats; there are {sizes}")
    return row


@cache
def all_spanners() -> tuple[SpannerRow, ...]:
    """Every spanner, small to large."""
    return tuple(_spanner_row(row) for row in tables.load("spanners").rows)


def _spanner_row(row: Row) -> SpannerRow:
    return SpannerRow(
        af_mm=row.required("af_mm"),
        head_usual_mm=row.required("head_usual_mm"),
        head_greatest_mm=row.required("head_greatest_mm"),
        head_thick_mm=row.required("head_thick_mm"),
        length_mm=row.required("length_mm"),
        status=row.status(),
        note=row.text("note"),
    )
