"""Strut channel and T-slot profiles that a hanger is bolted to, and large washers."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal, cast

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.errors import DataError

ChannelKind = Literal["strut", "T-slot"]
SLOT_WITHIN_MM = 0.5
"""A slot is taken for one of the table that is so much narrower or wider."""


@dataclass(frozen=True)
class ChannelRow:
    """A channel [mm]: its slot, outside, where its nut bears below its face, how deep the slot is, the nut's height."""

    name: str
    kind: ChannelKind
    slot_mm: float
    wide_mm: float
    high_mm: float
    lip_mm: float
    deep_mm: float
    nut_m_mm: float
    thread: str
    status: str


def strut_channel(name: str = "strut 41 x 41") -> ChannelRow:
    """The strut of this name; DataError lists those there are."""
    return _found(name, "strut")


def slot_channel(slot_mm: float) -> ChannelRow:
    """The T-slot profile with a slot of this width as measured; DataError lists the widths that are known."""
    rows = [row for row in all_channels() if row.kind == "T-slot"]
    row = min(rows, key=lambda one: abs(one.slot_mm - slot_mm))
    if abs(row.slot_mm - slot_mm) > SLOT_WITHIN_MM:
        known = ", ".join(f"{one.slot_mm:g}" for one in rows)
        raise DataError(f"no T-slot is known of {slot_mm:g} mm; there are {known} mm")
    return row


@cache
def all_channels() -> tuple[ChannelRow, ...]:
    """Every channel, strut first."""
    return tuple(_channel_row(row) for row in tables.load("channels").rows)


def large_washer(major_mm: float) -> tuple[float, float]:
    """Outside diameter and thickness [mm] of the large washer (ISO 7093) for a screw so thick over its thread."""
    for row in tables.load("large_washers").rows:
        if row.required("major_mm") >= major_mm - 0.3:
            return row.required("d2_mm"), row.required("h_mm")
    raise DataError(f"no large washer is known for a screw of {major_mm:g} mm")


def _found(name: str, kind: ChannelKind) -> ChannelRow:
    rows = [row for row in all_channels() if row.kind == kind]
    for row in rows:
        if row.name == name:
            return row
    raise DataError(f"no {kind} is called {name!r}; there are {', '.join(row.name for row in rows)}")


def _channel_row(row: Row) -> ChannelRow:
    return ChannelRow(
        name=row.text("name"),
        kind=cast(ChannelKind, row.text("kind")),
        slot_mm=row.required("slot_mm"),
        wide_mm=row.required("wide_mm"),
        high_mm=row.required("high_mm"),
        lip_mm=row.required("lip_mm"),
        deep_mm=row.required("deep_mm"),
        nut_m_mm=row.required("nut_m_mm"),
        thread=row.text("thread"),
        status=row.status(),
    )
