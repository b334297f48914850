"""The hose hanger: a profile round hose or pipe, on a joist, wall, strut, rail, bar or rod."""

from __future__ import annotations

from fitwright.part import Part
from fitwright.parts.hanger.body import caps_of, profile_body
from fitwright.parts.hanger.hangs import hanging_of
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.spec.models import HoseHangerSpec


def build_hose_hanger(spec: HoseHangerSpec) -> Part:
    """The part; RefusalError names the key that has to change."""
    plan = hanger_plan(spec)
    rounds = tuple(one for carrier in plan.carrier for one in carrier.rounds)
    body = profile_body(
        "hanger", plan.profile, plan.cuts, plan.placed, plan.sizes.wide, spec.wall_mm, plan.holes, rounds
    )
    return Part(
        name=spec.name,
        family=spec.part,
        bodies=(body, *caps_of(plan, spec.wall_mm)),
        section_across=(1.0, 0.0, 0.0),
        facts={name: words for carrier in plan.carrier for name, words in carrier.facts.items()},
        cautions=tuple(dict.fromkeys(words for carrier in plan.carrier for words in carrier.cautions)),
        fastenings=tuple(one for carrier in plan.carrier for one in carrier.fastenings),
        hardware=tuple(one for carrier in plan.carrier for one in carrier.bought),
        hanging=hanging_of(plan, spec),
    )
