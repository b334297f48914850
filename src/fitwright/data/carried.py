"""What hoses weigh, by kind and inside diameter."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from fitwright.data import tables
from fitwright.data.profiles import named
from fitwright.errors import DataError
from fitwright.units import plain_text

OTHER_NAMES = {
    "pu": "light polyurethane",
    "light pu": "light polyurethane",
    "polyurethane": "light polyurethane",
    "pvc": "ribbed PVC",
    "wire pu": "heavy polyurethane",
    "heavy pu": "heavy polyurethane",
    "wire polyurethane": "heavy polyurethane",
    "vacuum hose": "vacuum cleaner hose",
    "vac hose": "vacuum cleaner hose",
}
"""What a kind is called as well, in small letters."""
HEAVIEST = "heaviest"
"""Where the kind is not said: the heaviest of the usual ones at that size is taken, heavy polyurethane left out."""


@dataclass(frozen=True)
class HoseWeight:
    """An empty hose's weight a metre, and how well it is known; `between` where no row has just this diameter."""

    kind: str
    inside_mm: float
    weight_kg_m: float
    status: str
    between: bool


def hose_kinds() -> tuple[str, ...]:
    """The kinds in the table."""
    return tuple(_curves())


def hose_weight(inside_mm: float, kind: str = HEAVIEST) -> HoseWeight:
    """What a hose of this inside diameter weighs.

    Between two rows on the straight between them, outside the rows in proportion to the diameter. `kind` as in the
    table, or what people say (`PU`, `PVC`); DataError lists the kinds. `heaviest`: see HEAVIEST.
    """
    if inside_mm <= 0.0:
        raise DataError(f"a hose of {inside_mm:g} mm inside does not exist")
    plain = " ".join(plain_text(kind).split())
    if plain.casefold() == HEAVIEST:
        usual = [each for each in hose_kinds() if not each.startswith("heavy")]
        made = [each for each in usual if each == usual[0] or inside_mm <= _curves()[each][-1][0]]
        return max((hose_weight(inside_mm, each) for each in made), key=lambda found: found.weight_kg_m)
    plain = OTHER_NAMES.get(plain.casefold(), plain)
    curve = named(plain, _curves(), "kind of hose")
    name = next(each for each in _curves() if each.casefold() == plain.casefold())
    return _on_curve(name, inside_mm, curve)


@cache
def _curves() -> Mapping[str, tuple[tuple[float, float, str], ...]]:
    """Kind -> (inside, weight, status), thin to thick."""
    found: dict[str, list[tuple[float, float, str]]] = {}
    for row in tables.load("carried").rows:
        entry = (row.required("inside_mm"), row.required("weight_kg_m"), row.status())
        found.setdefault(row.text("kind"), []).append(entry)
    return {kind: tuple(rows) for kind, rows in found.items()}


def _on_curve(kind: str, inside_mm: float, curve: tuple[tuple[float, float, str], ...]) -> HoseWeight:
    for size, weight, status in curve:
        if abs(size - inside_mm) < 2.0:
            return HoseWeight(kind, inside_mm, weight * max(1.0, inside_mm / size), status, False)
    below = [row for row in curve if row[0] < inside_mm]
    above = [row for row in curve if row[0] > inside_mm]
    if below and above:
        (x0, y0, _), (x1, y1, _) = below[-1], above[0]
        return HoseWeight(kind, inside_mm, y0 + (y1 - y0) * (inside_mm - x0) / (x1 - x0), "memory", True)
    size, weight, _ = below[-1] if below else above[0]
    return HoseWeight(kind, inside_mm, weight * inside_mm / size, "memory", True)
