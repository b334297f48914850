"""Stand-ins of what a hanger carries: the hose or pipe, and the strap over it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from cadquery import Shape

from fitwright.frame import Frame
from fitwright.outline import Outline
from fitwright.part import StandIn
from fitwright.parts.hanger.placed import PROFILE
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.saddle import EAR_MM
from fitwright.parts.hanger.shapes_uv import sector_uv, turned_box
from fitwright.shapes.solids import fused, outline_prism, ring
from fitwright.spec.models import HoseHangerSpec

BEYOND_MM = 45.0
"""The hose is drawn so far before and behind the hanger."""
HOSE_WALL_MM = 4.0
"""Of a hose or pipe whose inside is not known: drawn so thick."""
TOUCH_MM = 0.5
"""A clamp's halves press on a pipe: so much of its skin is not held against them (fit.result judges it)."""
LEG_MM = 6.0
"""A strap's ends stand so far out of their slots."""


def carried_things(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[StandIn, ...]:
    """Hoses or pipes, and straps, where they lie when all is fitted."""
    return (*_hoses(plan, spec), *(_straps(plan, spec) if spec.style == "saddle" else ()))


def named(spec: HoseHangerSpec, k: int) -> str:
    """`hose`, or `hose 2` of several."""
    return spec.carried.kind if spec.count == 1 else f"{spec.carried.kind} {k}"


def axis_frame(plan: HangerPlan, u: float) -> Frame:
    """Frame of a hose's axis: its inward runs along the hose, its right is x."""
    x, z = plan.placed.xz(u, plan.placed.axis_mm)
    return Frame((x, 0.0, z), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))


def _hoses(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    size, wide = spec.carried.size, plan.sizes.wide
    out = min(size.nominal_mm / 2, plan.sizes.bore_r) if spec.style != "clamp" else size.nominal_mm / 2
    inside = (spec.carried.inside_mm or size.nominal_mm - 2 * HOSE_WALL_MM) / 2
    for k, u in enumerate(plan.sizes.axes_u, start=1):
        frame = axis_frame(plan, u)
        zone: Shape | None = None
        if spec.style == "clamp":
            zone = _tube(frame, out - TOUCH_MM, out + TOUCH_MM, -1.0, wide + 1.0)
        yield StandIn(named(spec, k), _tube(frame, inside, out, -BEYOND_MM, wide + BEYOND_MM), named(spec, k), zone)


def _tube(frame: Frame, r_in: float, r_out: float, s0: float, s1: float) -> Shape:
    return ring([(s0, r_in), (s0, r_out), (s1, r_out), (s1, r_in)], frame)


def _straps(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    """Round the open half of each hose and down through the slots of both ears."""
    thick, wide = spec.strap.thick_mm, spec.strap.wide_mm
    sizes = plan.sizes
    y = (sizes.wide - wide) / 2
    low, high = sizes.out_r + 0.5, sizes.out_r + 0.5 + thick
    for k, u in enumerate(sizes.axes_u, start=1):
        at, alpha = (u, plan.placed.axis_mm), sizes.opens_deg
        over = sector_uv(at, low, high, alpha - 90.0, 180.0)
        legs = [turned_box(at, alpha, (-EAR_MM - LEG_MM, 1.0), s) for s in ((low, high), (-high, -low))]
        drawn = [_prism(plan, one, y, y + wide) for one in (over, *legs)]
        yield StandIn(f"strap of {named(spec, k)}", fused(drawn, "strap"), named(spec, k), None)


def _prism(plan: HangerPlan, drawn: Outline, y0: float, y1: float) -> Shape:
    sides = [(s.start, s.via, s.end) for s in plan.placed.outline(drawn).sides]
    return outline_prism(sides, PROFILE, y0, y1)


def turn_of(plan: HangerPlan) -> float:
    """Where it opens to, clockwise from up seen along the hose [deg]."""
    x, _, z = plan.placed.direction(*plan.sizes.opens)
    return math.degrees(math.atan2(x, z)) % 360.0
