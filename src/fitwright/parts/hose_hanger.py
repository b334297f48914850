"""The hose hanger: a profile round hose or pipe, on a joist, wall, strut, rail, bar or rod."""

from __future__ import annotations

import math
from dataclasses import replace

from fitwright.part import Body, Motion, Part, StandIn
from fitwright.parts.hanger.body import caps_of, profile_body
from fitwright.parts.hanger.clamp_things import clamp_things
from fitwright.parts.hanger.hangs import hanging_of
from fitwright.parts.hanger.loads import load_cases, load_faces
from fitwright.parts.hanger.mount_bought import hanger_hardware
from fitwright.parts.hanger.mount_fastenings import hanger_fastenings
from fitwright.parts.hanger.mount_things import mount_things
from fitwright.parts.hanger.papers import hanger_templates, slice_of
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hanger.supports import supports_of
from fitwright.parts.hanger.swivel_body import swivel_bodies
from fitwright.parts.hanger.things import carried_things
from fitwright.parts.hanger.words import (
    hanger_assumed,
    hanger_cautions,
    hanger_dimensions,
    hanger_facts,
    hanger_labels,
)
from fitwright.spec.models import HoseHangerSpec

NO_END = ("surface", "joist")
"""Nobody knows how far these go on: they are drawn, but not held against what a riding hanger must keep clear of."""


def build_hose_hanger(spec: HoseHangerSpec) -> Part:
    """The part; RefusalError names the key that has to change."""
    plan = hanger_plan(spec)
    part = Part(
        name=spec.name,
        family=spec.part,
        bodies=hanger_bodies(plan, spec),
        stand_ins=hanger_stand_ins(plan, spec),
        dimensions=hanger_dimensions(plan, spec),
        section_at_mm=plan.sizes.wide / 2,
        labels=hanger_labels(plan, spec),
        facts=hanger_facts(plan, spec),
        assumed={**hanger_assumed(plan, spec), **plan.base.assumed},
        cautions=hanger_cautions(spec),
        templates=hanger_templates(plan, spec),
        fastenings=hanger_fastenings(plan, spec),
        hardware=hanger_hardware(plan, spec),
    )
    return riding(loaded(part, plan, spec), spec)


def hanger_bodies(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[Body, ...]:
    """All printed bodies, the hanger itself first; a slice of that one is the try-print."""
    rounds = tuple(one for carrier in plan.carrier for one in carrier.rounds)
    wide, wall = plan.sizes.wide, spec.wall_mm
    lugs = tuple(one for carrier in plan.carrier for one in carrier.lugs)
    body = profile_body("hanger", plan.profile, plan.cuts, plan.placed, wide, wall, plan.holes, rounds, lugs=lugs)
    slice_ = slice_of(plan, body, (spec.printer.bed_x_mm, spec.printer.bed_y_mm))
    return replace(body, tries=(slice_,)), *swivel_bodies(plan, wall), *caps_of(plan, wall)


def hanger_stand_ins(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[StandIn, ...]:
    """Hose and strap, what the hanger is held by, and what closes its clamps."""
    held = [replace(one, before=spec.carried.kind if one.room_only else "") for one in mount_things(plan, spec)]
    return (*carried_things(plan, spec), *held, *clamp_things(plan, spec))


def loaded(part: Part, plan: HangerPlan, spec: HoseHangerSpec) -> Part:
    """With what it declares of itself for the checks, and what it bears."""
    hanging = hanging_of(plan, spec)
    faces = load_faces(plan, spec, hanging, part.fastenings)
    facts = {**part.facts, **hanging.facts}
    supports = supports_of(plan, spec, faces, part.fastenings)
    cases = load_cases(plan, spec, hanging, faces)
    return replace(part, facts=facts, hanging=hanging, load_faces=faces, loads=cases, supports=supports)


def riding(part: Part, spec: HoseHangerSpec) -> Part:
    """A hanger that rides on a machine: it and all that is on it move along, and are held against what stands still."""
    if spec.travel_mm is None:
        return part
    long = math.hypot(*spec.travel_mm)
    x, y, z = (one / long for one in spec.travel_mm)
    return replace(
        part,
        motion=Motion((x, y, z), long, "at one end", "at the other end"),
        bodies=tuple(replace(one, moving=True) for one in part.bodies),
        stand_ins=tuple(replace(one, moving=True) for one in part.stand_ins if one.name not in NO_END),
    )
