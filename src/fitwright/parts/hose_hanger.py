"""The hose hanger: a profile round hose or pipe, on a joist, wall, strut, rail, bar or rod."""

from __future__ import annotations

from fitwright.part import Part
from fitwright.parts.hanger.body import profile_body
from fitwright.parts.hanger.hangs import hanging_of
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.spec.models import HoseHangerSpec


def build_hose_hanger(spec: HoseHangerSpec) -> Part:
    """The part; RefusalError names the key that has to change."""
    plan = hanger_plan(spec)
    body = profile_body("hanger", plan.profile, plan.cuts, plan.placed, plan.sizes.wide, spec.wall_mm, plan.holes)
    return Part(
        name=spec.name,
        family=spec.part,
        bodies=(body,),
        section_across=(1.0, 0.0, 0.0),
        hanging=hanging_of(plan, spec),
    )
