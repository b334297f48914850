"""Stand-ins of what closes split clamps: screws with washers and nuts, the lines of their drivers, or bands."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.frame import Frame
from fitwright.part import StandIn
from fitwright.parts.gate.stand_in_shapes import joint, square_to
from fitwright.parts.hanger.clamp_band import GROOVE_MM
from fitwright.parts.hanger.clamp_screws import DRIVER_MM
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.shapes.solids import cylinder, ring
from fitwright.spec.hanger import HoseHangerSpec

GROUP = "clamp"
OFF_MM = 0.01
"""A band is drawn so far off the ground of its groove."""
BAND_THICK_MM = 1.0
"""Of a band of steel (common practice: 0.6 to 1.0 mm)."""


def clamp_things(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    """All of them, where they lie when the clamp is closed."""
    for carrier in plan.carrier:
        for one in carrier.fastenings:
            yield StandIn(one.name, joint(one), GROUP, None)
            frame = Frame(one.head, one.direction, square_to(one.direction))
            above = one.washer_h_mm + 2 * one.d_mm
            line = cylinder(frame, one.head_d_mm / 2, -above - DRIVER_MM, -above)
            yield StandIn(f"{one.name} driver line", line, GROUP, None, room_only=True)
    if spec.style == "clamp" and spec.clamp.kind == "band":
        yield from _bands(plan, spec)


def _bands(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    low = plan.sizes.out_r - GROOVE_MM + OFF_MM
    y0, y1 = (plan.sizes.wide + k * spec.clamp.band_mm for k in (-1.0, 1.0))
    for k, u in enumerate(plan.sizes.axes_u, start=1):
        x, z = plan.placed.xz(u, plan.placed.axis_mm)
        about = Frame((x, 0.0, z), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
        high = low + BAND_THICK_MM
        band = ring([(y0 / 2, low), (y0 / 2, high), (y1 / 2, high), (y1 / 2, low)], about)
        yield StandIn("band" if spec.count == 1 else f"band {k}", band, GROUP, None)
