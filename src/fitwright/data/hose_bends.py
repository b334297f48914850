"""How tightly hoses may be bent, by kind and inside diameter."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.carried import HEAVIEST, OTHER_NAMES
from fitwright.data.profiles import named
from fitwright.units import plain_text

OF_UNKNOWN = "light polyurethane"
"""Where the kind is not said: as light hose, which most dust hose is (common practice)."""


@dataclass(frozen=True)
class HoseBend:
    """The least radius [mm] of a hose's centreline, how well it is known, and of what kind it was taken."""

    kind: str
    radius_mm: float
    over_inside: float
    status: str


def least_bend(inside_mm: float, kind: str = HEAVIEST) -> HoseBend:
    """The least bend radius; the upper end of what is usual for the kind. DataError lists the kinds.

    >>> least_bend(100.0, "light polyurethane").radius_mm
    150.0
    """
    plain = " ".join(plain_text(kind).split())
    plain = OF_UNKNOWN if plain.casefold() == HEAVIEST else OTHER_NAMES.get(plain.casefold(), plain)
    times, status = named(plain, _kinds(), "kind of hose")
    return HoseBend(plain, times * inside_mm, times, status)


@cache
def _kinds() -> dict[str, tuple[float, str]]:
    return {row.text("kind"): (row.required("most_ratio"), row.status()) for row in tables.load("hose_bends").rows}
