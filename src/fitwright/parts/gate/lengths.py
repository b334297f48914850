"""Lengths that screws are sold in, and lines of the list to buy made from screw joints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from fitwright.data.fasteners import FastenerRow
from fitwright.errors import RefusalError
from fitwright.part import Bought, Fastening
from fitwright.spec.models import GateBracketSpec

SOLD_MM = (10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100, 110, 120, 130, 140, 150)
"""Lengths that screws are sold in (ISO 4762, table of lengths)."""
SOLD_IN = tuple(n / 8 for n in (3, 4, 5, 6, 7, 8, 10, 12, 14, 16, 18, 20, 22, 24, 28, 32, 36, 40, 48))
"""The same of inch screws (common practice)."""


def length_words(mm: float, spec: GateBracketSpec) -> str:
    """`22.2 mm`; in files of inches `22.22 mm`, so that the report's 7/8 in is 0.875."""
    return f"{mm:.2f} mm" if spec.units == "in" else f"{mm:.1f} mm"


def sold_mm(row: FastenerRow, least_mm: float, key: str) -> float:
    """The shortest screw sold that is no shorter; RefusalError where none is."""
    sold = SOLD_MM if row.name.startswith("M") else tuple(25.4 * one for one in SOLD_IN)
    found = next((float(one) for one in sold if one >= least_mm - 1e-6), None)
    if found is None:
        why = f"no {row.name} screw is sold that long"
        raise RefusalError(key, f"{least_mm:.0f} mm", f"{sold[-1]:.0f} mm or less", why)
    return found


def needed_mm(row: FastenerRow, grip_mm: float, washers: int = 2) -> float:
    """Under the head: what is clamped, washers, a full nut, and one pitch more."""
    washer, nut = row.washer_h_mm or 0.0, row.nut_m_mm or row.major_mm
    return grip_mm + washers * washer + nut + (row.pitch_mm or 1.0)


def bought_of(fastenings: Iterable[Fastening], note: str = "") -> Iterator[Bought]:
    """Screws, nuts and washers of these joints, equal ones in one line."""
    joints = list(fastenings)
    for (size, long), count in Counter((one.size, one.long_mm) for one in joints if one.long_mm).items():
        yield Bought(count, f"screw {size}", long, note=note)
    for size, count in _summed((one.size, 1 if one.long_mm else 0) for one in joints if one.nut_m_mm):
        yield Bought(count, f"nut {size}")
    for size, count in _summed((one.size, one.washers if one.washer_d_mm else 0) for one in joints):
        yield Bought(count, f"washer {size}")


def _summed(counts: Iterable[tuple[str, int]]) -> list[tuple[str, int]]:
    total: Counter[str] = Counter()
    for name, count in counts:
        total[name] += count
    return [(name, count) for name, count in total.items() if count]
