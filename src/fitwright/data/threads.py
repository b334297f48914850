"""Screw threads: metric, unified inch and pipe, with what a caliper finds over their crests and in their bore."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.data.tables import Row
from fitwright.errors import DataError
from fitwright.units import MM_PER_INCH


@dataclass(frozen=True)
class ThreadRow:
    """One thread of one standard, all lengths in mm.

    `nominal` is its size without the pitch (`M8`, `5/16 in`, `G 1/4`); `major_mm`, `pitch_d_mm` and `minor_mm` are the
    basic ones, of a taper thread those at the gauge plane. `outside_mm` are the least and greatest diameter over the
    crests of a bolt (6g, 2A), `inside_mm` those between the crests of a nut (6H, 2B); None where the standard has no
    such thread. `taper` is the change of diameter along the length. `commonness` is relative to M8 x 1.25: common
    practice, no source.
    """

    name: str
    nominal: str
    series: str
    pitch_mm: float
    threads_per_in: float | None
    major_mm: float
    pitch_d_mm: float
    minor_mm: float
    outside_mm: tuple[float, float] | None
    inside_mm: tuple[float, float] | None
    taper: float
    gauge_mm: float | None
    useful_mm: float | None
    commonness: float
    status: str
    tolerance_status: str
    source: str
    note: str

    @property
    def is_pipe(self) -> bool:
        """True for threads of pipes and fittings, whose names do not say their diameter."""
        return self.series.endswith("pipe")

    @property
    def per_inch(self) -> float:
        """Threads per inch, of a metric thread as well."""
        return self.threads_per_in or MM_PER_INCH / self.pitch_mm


@cache
def all_threads() -> tuple[ThreadRow, ...]:
    """Every thread, in the order of the tables."""
    names = [name for name in tables.NAMES if name.startswith("threads/")]
    return tuple(_thread_row(row, tables.load(name).head["source"]) for name in names for row in tables.load(name).rows)


def screw_of(row: ThreadRow) -> FastenerRow | None:
    """The machine screw that a part's YAML knows by this thread's nominal size; None where it knows none."""
    if row.is_pipe:
        return None
    try:
        found = fastener(row.nominal)
    except DataError:
        return None
    return found if found.pitch_mm and abs(found.major_mm - row.major_mm) < 0.01 else None


def _thread_row(row: Row, source: str) -> ThreadRow:
    return ThreadRow(
        name=row.text("name"),
        nominal=row.text("nominal"),
        series=row.text("series"),
        pitch_mm=row.required("pitch_mm"),
        threads_per_in=row.number("threads_per_in"),
        major_mm=row.required("major_mm"),
        pitch_d_mm=row.required("pitch_d_mm"),
        minor_mm=row.required("minor_mm"),
        outside_mm=_limits(row, "outside"),
        inside_mm=_limits(row, "inside"),
        taper=row.required("taper_ratio"),
        gauge_mm=row.number("gauge_mm"),
        useful_mm=row.number("useful_mm"),
        commonness=row.required("prior_ratio"),
        status=row.status(),
        tolerance_status=row.status("tolerance_status"),
        source=source,
        note=row.text("note"),
    )


def _limits(row: Row, face: str) -> tuple[float, float] | None:
    least, greatest = row.number(f"{face}_least_mm"), row.number(f"{face}_greatest_mm")
    return None if least is None or greatest is None else (least, greatest)
