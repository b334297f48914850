"""What a metre of the carried hose or pipe weighs: its own, weighed or by table, and the dust that lies in it."""

from __future__ import annotations

from fitwright.data.carried import HEAVIEST, hose_weight
from fitwright.errors import DataError
from fitwright.physics.carried import DUST_OF_KG_M3, PIPE_DENSITY_KG_M3, dust_kg_m, pipe_kg_m
from fitwright.spec.hanger import Carried, Dust
from fitwright.units import format_number

WALL_OF_PIPE = 3.2 / 110.0
"""Wall of a plastic pipe over its outside where nobody said it: 110 x 3.2 (EN 1401)."""
WALL_OF_HOSE = 0.92
"""Inside of a ribbed hose over its outside where only the ribs were read (common practice, no source)."""
SETTLED = {"chips": "chips", "shavings": "dust and shavings", "fine": "fine dust"}


def inside_mm(carried: Carried) -> float:
    """As read, or a usual share of the outside."""
    if carried.inside_mm is not None:
        return carried.inside_mm
    outside = carried.size.greatest_mm
    return outside - 2 * WALL_OF_PIPE * outside if carried.kind == "pipe" else WALL_OF_HOSE * outside


def empty_kg_m(carried: Carried) -> tuple[float, str]:
    """Its own weight a metre [kg], in words how it is known."""
    outside, inside = carried.size.greatest_mm, inside_mm(carried)
    if carried.kind == "pipe":
        density = PIPE_DENSITY_KG_M3[carried.pipe_of]
        own, words = pipe_kg_m(outside, (outside - inside) / 2, density), f"{carried.pipe_of} pipe {outside:.0f} mm"
    else:
        own, words = _hose_kg_m(carried, inside)
    return (own, words) if carried.kg_per_m is None else (carried.kg_per_m, f"{words} as weighed")


def weight_kg_m(carried: Carried, dust: Dust = "shavings") -> tuple[float, str]:
    """What hangs on a metre [kg], half full of what settles in it."""
    own, words = empty_kg_m(carried)
    settled = dust_kg_m(inside_mm(carried), density_kg_m3=DUST_OF_KG_M3[dust])
    return own + settled, f"{words}, half full of {SETTLED[dust]}"


def _hose_kg_m(carried: Carried, inside: float) -> tuple[float, str]:
    """By the table; the heaviest of those that are sold so large where its kind is not."""
    try:
        found = hose_weight(inside, carried.hose_kind)
    except DataError:
        found = hose_weight(inside, HEAVIEST)
    return found.weight_kg_m, f"{found.kind.removesuffix(' hose')} hose {format_number(inside, 1)} mm inside"
