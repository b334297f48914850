"""Nuts that slide in strut channel and in T-slot profiles, and what pulls them out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, cast

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.errors import DataError

ChannelKind = Literal["strut", "T-slot"]


@dataclass(frozen=True)
class ChannelNutRow:
    """A nut in a channel: its slot's width [mm], what it bears square to the channel and along it before it slips [N].

    `pull_n`, `slip_n` are design loads as printed, which contain `factor`; `torque_nm` is how tight [N m].
    """

    name: str
    kind: ChannelKind
    thread: str
    slot_mm: float
    pull_n: float
    slip_n: float
    torque_nm: float
    factor: float
    status: str
    note: str

    @property
    def failure_n(self) -> float:
        """What pulls it out at least [N]: the printed load and the factor that is in it."""
        return self.pull_n * self.factor

    @property
    def slips_n(self) -> float:
        """From what on it slips along the channel at least [N]."""
        return self.slip_n * self.factor


def strut_nut(thread: str) -> ChannelNutRow:
    """The nut in 41 mm strut for this thread (`M6`, `M8`, `M10`); DataError lists those there are."""
    return _found(thread, [row for row in all_channel_nuts() if row.kind == "strut"], "41 mm strut")


def slot_nut(thread: str, slot_mm: float) -> ChannelNutRow:
    """The T-slot nut for this thread in a slot of this width: of the widest slot in the table that is no wider.

    `slot_mm`: the gap at the profile's face [mm] as measured, half a millimetre below a row still counts as that row.
    """
    rows = [row for row in all_channel_nuts() if row.kind == "T-slot"]
    widths = [row.slot_mm for row in rows if row.slot_mm <= slot_mm + 0.5]
    if not widths:
        least = min(row.slot_mm for row in rows)
        raise DataError(f"no T-slot nut is known for a slot of {slot_mm:g} mm; the narrowest is {least:g} mm")
    width = max(widths)
    return _found(thread, [row for row in rows if row.slot_mm == width], f"a {slot_mm:g} mm T-slot")


@cache
def all_channel_nuts() -> tuple[ChannelNutRow, ...]:
    """Every nut, strut first."""
    return tuple(_nut_row(row) for row in tables.load("channel_nuts").rows)


def _found(thread: str, rows: list[ChannelNutRow], where: str) -> ChannelNutRow:
    for row in rows:
        if row.thread.casefold() == thread.strip().casefold():
            return row
    raise DataError(f"no {thread} nut is known for {where}; there are {', '.join(row.thread for row in rows)}")


def _nut_row(row: Row) -> ChannelNutRow:
    return ChannelNutRow(
        name=row.text("name"),
        kind=cast(ChannelKind, row.text("kind")),
        thread=row.text("thread"),
        slot_mm=row.required("slot_mm"),
        pull_n=row.required("pull_n"),
        slip_n=row.required("slip_n"),
        torque_nm=row.required("torque_nm"),
        factor=row.required("factor_ratio"),
        status=row.status(),
        note=row.text("note"),
    )
