"""Nuts by the thread that they go on, as the plan needs them."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.data.fasteners import fastener
from fitwright.errors import DataError


@dataclass(frozen=True)
class NutSize:
    """A nut: thread diameter, across flats, height [mm]."""

    d_mm: float
    af_mm: float
    m_mm: float


_THIN = {4: 2.2, 5: 2.7, 6: 3.2, 8: 4.0, 10: 5.0, 12: 6.0, 16: 8.0, 20: 10.0, 27: 13.5}
_LARGE = {16: (24.0, 14.8), 20: (30.0, 18.0), 27: (41.0, 23.8)}


def full_nut(thread: str) -> NutSize:
    """The ordinary nut of a thread named as `M10 x 1.25` or `M6`."""
    d = _metric(thread)
    if int(d) in _LARGE:
        return NutSize(d, *_LARGE[int(d)])
    row = fastener(f"M{d:g}")
    return NutSize(d, row.nut_af_mm or 0.0, row.nut_m_mm or 0.0)


def thin_nut(thread: str) -> NutSize:
    """The thin (jam) nut."""
    full = full_nut(thread)
    return NutSize(full.d_mm, full.af_mm, _THIN[int(full.d_mm)])


def _metric(thread: str) -> float:
    size = thread.split("x")[0].strip()
    if not size.startswith("M"):
        raise DataError(f"no nut is known for the thread {thread!r}")
    return float(size[1:])


def sold_strokes() -> tuple[float, ...]:
    """Strokes that cylinders are sold with [mm]."""
    return (25.0, 50.0, 80.0, 100.0, 125.0, 160.0, 200.0, 250.0, 320.0, 400.0, 500.0)
