"""Where the strap of a saddle pulls: the far side of its ears, beside the slots."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadFace
from fitwright.parts.hanger.cuts import Window
from fitwright.parts.hanger.declared import BODY
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.saddle import CORNER_R_MM, EAR_END_MM, EAR_MM, ear_mm, to_surface
from fitwright.parts.hanger.shapes_uv import axes_uv
from fitwright.spec.hanger import HoseHangerSpec

SEAT = "strap seat"
DOWNWARDS = -0.7
FLAT_MM = EAR_END_MM - CORNER_R_MM
"""What is flat of an ear beyond its slot."""
ALONG: Vec = (0.0, 1.0, 0.0)


def strap_seats(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[LoadFace]:
    """One an ear; none where neighbours share a slot, nor at an ear that the neck is behind."""
    if spec.style != "saddle" or any(len(_slots(plan, k)) != 2 for k in range(len(plan.carrier))):
        return
    number = 0
    for k, axis_u in enumerate(plan.sizes.axes_u):
        for sign in (1.0, -1.0):
            if not to_surface(plan.sizes, sign):
                number += 1
                yield _seat(plan, spec, axis_u, sign, _slots(plan, k)[0], number)


def hangs_in_strap(plan: HangerPlan, spec: HoseHangerSpec) -> bool:
    """Whether the hose hangs in the strap, and not on the print."""
    return spec.style == "saddle" and plan.placed.direction(*plan.sizes.opens)[2] < DOWNWARDS


def _seat(plan: HangerPlan, spec: HoseHangerSpec, axis_u: float, sign: float, slot: Window, number: int) -> LoadFace:
    """On the ear of that side: its flat beyond the slot."""
    at, sizes = plan.placed, plan.sizes
    end = sign * (sizes.bore_r + ear_mm(sizes, spec) - CORNER_R_MM - FLAT_MM / 2)
    u, v = axes_uv((axis_u, at.axis_mm), sizes.opens_deg)(-EAR_MM, end)
    frame, half = Frame(at.point(u, 0.0, v), at.direction(*sizes.opens), ALONG), FLAT_MM / 2
    return LoadFace(f"{SEAT} {number}", BODY, "flat", frame, (slot.y0, slot.y1), (-half, half))


def _slots(plan: HangerPlan, k: int) -> list[Window]:
    return [one for one in plan.carrier[k].cuts if isinstance(one, Window) and one.name.startswith("strap slot")]
