"""The hose hanger: a profile round hose or pipe, on a joist, wall, strut, rail, bar or rod."""

from __future__ import annotations

from fitwright.part import Part
from fitwright.parts.hanger.body import caps_of, profile_body
from fitwright.parts.hanger.mount_bought import hanger_hardware
from fitwright.parts.hanger.mount_fastenings import hanger_fastenings
from fitwright.parts.hanger.mount_things import mount_things
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hanger.swivel_body import swivel_bodies
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
        bodies=(body, *swivel_bodies(plan, spec.wall_mm), *caps_of(plan, spec.wall_mm)),
        stand_ins=tuple(mount_things(plan, spec)),
        section_across=(1.0, 0.0, 0.0),
        facts=_facts(plan),
        cautions=tuple(dict.fromkeys(words for carrier in plan.carrier for words in carrier.cautions)),
        assumed=plan.base.assumed,
        fastenings=hanger_fastenings(plan, spec),
        hardware=hanger_hardware(plan, spec),
    )


def _facts(plan: HangerPlan) -> dict[str, str]:
    """What base and carriers say of themselves."""
    own = {name: words for one in plan.carrier for name, words in one.facts.items()}
    return {**plan.base.facts, **own}
