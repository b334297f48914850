"""Hexagon nuts by the thread they go on: thin (jam), full, with an insert, and the nose nuts of round cylinders."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import Literal

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.data.thread_words import thread_name, thread_named
from fitwright.errors import DataError

Kind = Literal["thin", "full", "insert", "nose"]
KINDS: tuple[Kind, ...] = ("thin", "full", "insert", "nose")
_CALLED = {"thin": "thin nut", "full": "full nut", "insert": "nut with insert", "nose": "nose nut"}


@dataclass(frozen=True)
class NutRow:
    """One hexagon nut, lengths in mm: greatest and least width across flats and height (None: not known).

    `thread` is a name of the tables of threads (`M10 x 1.25`, `5/16-24 UNF`).
    """

    kind: Kind
    thread: str
    af_mm: float
    af_least_mm: float | None
    m_mm: float
    m_least_mm: float | None
    status: str
    source: str
    note: str

    @property
    def major_mm(self) -> float:
        """The thread's diameter [mm]."""
        return thread_named(self.thread).major_mm

    @property
    def across_corners_mm(self) -> float:
        """Across sharp corners of the widest nut: no nut is wider [mm]."""
        return 2.0 * self.af_mm / math.sqrt(3.0)


def nut(thread: str, kind: Kind = "full") -> NutRow:
    """The nut of this kind for a thread (`M6 x 1`, `M6`, `m10x1.25`, `1/4-28`); DataError lists those there are.

    Where only the size is said (`M6`, `1/4 in`) the coarse thread is meant.
    """
    name = thread_name(thread)
    rows = [row for row in all_nuts() if row.kind == kind]
    for row in rows:
        if row.thread == name:
            return row
    raise DataError(
        f"no {_CALLED[kind]} is known for the thread {thread!r}; there are {', '.join(row.thread for row in rows)}"
    )


@cache
def all_nuts() -> tuple[NutRow, ...]:
    """Every nut, in the order of the tables."""
    names = [name for name in tables.NAMES if name.startswith("nuts/")]
    return tuple(_nut_row(row, tables.load(name).head["source"]) for name in names for row in tables.load(name).rows)


def _nut_row(row: Row, source: str) -> NutRow:
    kind = row.text("kind")
    if kind not in KINDS:
        raise DataError(f"{row.file}:{row.line}: kind is {kind!r}; allowed: {', '.join(KINDS)}")
    return NutRow(
        kind=kind,
        thread=row.text("thread"),
        af_mm=row.required("af_mm"),
        af_least_mm=row.number("af_least_mm"),
        m_mm=row.required("m_mm"),
        m_least_mm=row.number("m_least_mm"),
        status=row.status(),
        source=source,
        note=row.text("note"),
    )
