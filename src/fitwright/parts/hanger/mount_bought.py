"""What is bought for a mount: how many of what, how long."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator

from fitwright.part import Bought
from fitwright.parts.hanger.plan import FixingPoint, HangerPlan
from fitwright.parts.hanger.saddle import EAR_MM
from fitwright.spec.hanger import HoseHangerSpec

FOLD_MM = 80.0
"""What is folded back at each end of a strap, to close on (common practice, no source)."""


def hanger_hardware(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[Bought, ...]:
    """The list: the mount's screws with washers and nuts, swivel's bolt, what mount and carriers add, straps."""
    own = (line for carrier in plan.carrier for line in carrier.bought)
    straps = (*_straps(plan, spec), *_line(plan))
    return (*_screws(plan.base.points), *_swivel(plan), *plan.base.bought, *own, *straps)


def _screws(points: tuple[FixingPoint, ...]) -> Iterator[Bought]:
    bought = [p for p in points if p.fixing is not None and p.into in ("wood", "channel", "slot", "thread")]
    for (name, long, into), count in Counter((p.fixing.name, p.long_mm, p.into) for p in bought if p.fixing).items():
        note = "" if long else "the ones that were there, longer by plate and washer"
        yield Bought(count, name, long or None, note=note, needed=bool(long))
        if into == "channel":
            yield Bought(count, f"channel nut {bought[0].row.name} for 41 mm strut", note="with spring")
        if into == "slot":
            yield Bought(count, f"T-slot nut {bought[0].row.name}")
    for (name, wide), count in Counter((p.row.name, p.washer_d) for p in bought if p.washer_d).items():
        yield Bought(count, f"washer for {name}, {wide:g} mm wide")


def _swivel(plan: HangerPlan) -> Iterator[Bought]:
    one = plan.base.swivel
    if one is None:
        return
    yield Bought(1, f"hexagon bolt {one.row.name}", one.long_mm, note="the swivel's")
    yield Bought(2, f"washer {one.row.name}")
    yield Bought(1, f"locking nut {one.row.name}", note="tighten, then back off a quarter turn")


def _straps(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[Bought]:
    """One a hose: over its open half, through both slots, and folded back."""
    if spec.style != "saddle":
        return
    round_mm = math.pi * (plan.sizes.out_r + spec.strap.thick_mm) + 2 * (EAR_MM + FOLD_MM)
    note = "or longer, with hook-and-loop or a buckle"
    yield Bought(spec.count, f"strap {spec.strap.wide_mm:g} mm wide", 10 * math.ceil(round_mm / 10), note=note)


def _line(plan: HangerPlan) -> Iterator[Bought]:
    """What goes through the eye."""
    if any(carrier.eyes for carrier in plan.carrier):
        yield Bought(1, "steel cable 3 mm or chain, with clamps or a quick link", note="through the eye")
        yield Bought(1, "screw eye", note="into another joist or board than the hanger's own screws, for that line")
