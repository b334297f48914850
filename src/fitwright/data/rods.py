"""Threaded rod that is bought by the length, and what it bears."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.data.thread_words import thread_name, thread_named
from fitwright.errors import DataError


@dataclass(frozen=True)
class RodRow:
    """A threaded rod: thread as in the tables of threads, lengths in mm.

    `stress_area_mm2` is ISO 898-1's, `core_mm` the diameter at the thread's root, `proof_mpa` the proof stress of the
    weakest class that is sold (4.6); `sold_len_mm` how long it is sold (common practice).
    """

    thread: str
    stress_area_mm2: float
    core_mm: float
    proof_mpa: float
    sold_len_mm: float
    status: str
    source: str
    note: str

    @property
    def major_mm(self) -> float:
        """Outside diameter [mm]."""
        return thread_named(self.thread).major_mm

    @property
    def pitch_mm(self) -> float:
        """Pitch [mm]: what one turn of a nut moves."""
        return thread_named(self.thread).pitch_mm


def threaded_rod(thread: str) -> RodRow:
    """The rod with this thread (`M8`, `5/16-18`, `1/4 in`); DataError lists those there are."""
    name = thread_name(thread)
    for row in all_rods():
        if row.thread == name:
            return row
    raise DataError(f"no threaded rod {thread!r} is known; there are {', '.join(row.thread for row in all_rods())}")


@cache
def all_rods() -> tuple[RodRow, ...]:
    """Every rod, metric first, thin to thick."""
    table = tables.load("rods")
    return tuple(_rod_row(row, table.head["source"]) for row in table.rows)


def _rod_row(row: Row, source: str) -> RodRow:
    return RodRow(
        thread=row.text("thread"),
        stress_area_mm2=row.required("stress_area_mm2"),
        core_mm=row.required("core_mm"),
        proof_mpa=row.required("proof_mpa"),
        sold_len_mm=row.required("sold_len_mm"),
        status=row.status(),
        source=source,
        note=row.text("note"),
    )
