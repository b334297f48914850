"""Where the strap of a saddle that opens downwards pulls: the far side of its ears, beside the slots."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadFace
from fitwright.parts.hanger.cuts import Window
from fitwright.parts.hanger.declared import BODY
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.saddle import CORNER_R_MM, EAR_END_MM, EAR_MM
from fitwright.spec.hanger import HoseHangerSpec

SEAT = "strap seat"
DOWNWARDS = -0.7
FLAT_MM = EAR_END_MM - CORNER_R_MM
"""What is flat of an ear beyond its slot."""
ALONG: Vec = (0.0, 1.0, 0.0)


def strap_seats(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[LoadFace]:
    """Two a saddle; none where the print carries the hose itself, or where neighbours share a slot."""
    slots = [_slots(plan, k) for k in range(len(plan.carrier))]
    if not _carries(plan, spec) or any(len(some) != 2 for some in slots):
        return
    v = plan.placed.axis_mm - EAR_MM * plan.sizes.opens[1]
    frame = Frame(plan.placed.point(0.0, 0.0, v), plan.placed.direction(*plan.sizes.opens), ALONG)
    both = [(axis_u, slot) for axis_u, some in zip(plan.sizes.axes_u, slots, strict=True) for slot in some]
    for number, (axis_u, slot) in enumerate(both, start=1):
        low, _, high, _ = slot.drawn.bounds_mm
        ends = (high, high + FLAT_MM) if (low + high) / 2 > axis_u else (low - FLAT_MM, low)
        ups = sorted(_dot(frame.up, plan.placed.direction(u, 0.0)) for u in ends)
        yield LoadFace(f"{SEAT} {number}", BODY, "flat", frame, (slot.y0, slot.y1), (ups[0], ups[1]))


def _carries(plan: HangerPlan, spec: HoseHangerSpec) -> bool:
    """Whether the hose hangs in the strap."""
    return spec.style == "saddle" and plan.placed.direction(*plan.sizes.opens)[2] < DOWNWARDS


def _slots(plan: HangerPlan, k: int) -> list[Window]:
    return [one for one in plan.carrier[k].cuts if isinstance(one, Window) and one.name.startswith("strap slot")]


def _dot(one: Vec, other: Vec) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))
