"""The printed base of a swivel: flat, lying on the face that the carrier turns on, its recess open upwards."""

from __future__ import annotations

from fitwright.part import Body, Pose
from fitwright.parts.hanger.body import profile_body
from fitwright.parts.hanger.plan import HangerPlan

BASE = "base"


def swivel_bodies(plan: HangerPlan, wall_mm: float) -> tuple[Body, ...]:
    """The base as a body of its own; nothing where the hanger does not turn."""
    one = plan.base.swivel
    if one is None:
        return ()
    down = Pose("flat, on the face that turns", plan.placed.direction(0.0, 1.0))
    wide = one.y1 - one.y0
    return (profile_body(BASE, one.profile, one.cuts, plan.placed, wide, wall_mm, one.genus, y0=one.y0, pose=down),)
