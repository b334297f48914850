"""The nested reducer: one sleeve, bored for end_a, its outside made for end_b; it fills the gap between the two."""

from __future__ import annotations

from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.frame import Frame
from fitwright.part import Part
from fitwright.parts.adapter_loads import loaded
from fitwright.parts.airway import nested_airway
from fitwright.parts.assembly import PlacedEnd, adapter_body, turned
from fitwright.parts.dimensions import main_dimensions
from fitwright.parts.ends import EndPlan, end_shape
from fitwright.parts.facts import CAUTIONS, assumed, describe, labels, passages_mm
from fitwright.parts.mouth_faces import mouth_faces
from fitwright.parts.pair import FRAME_A, plans
from fitwright.parts.slit import slit_cut, slit_facts
from fitwright.parts.stand_ins import stand_ins
from fitwright.shapes.joint import SKIN_MM, JointShape, Zone
from fitwright.shapes.profile import radius_at, reversed_from, tidy
from fitwright.spec.models import HoseTail, ReducerSpec, Socket, Spigot

LEAST_LINES = 3
"""A sleeve may be thinner than the usual wall, but not under three printed lines (common practice, no source)."""
STOP_MM = 2.0
"""Axial length of the lip behind the stop shoulder."""


def build_nested(spec: ReducerSpec) -> Part:
    """The sleeve as a Part; RefusalError where the gap between the two sizes leaves no wall."""
    _refuse_other_joints(spec)
    plan_a, plan_b = plans(spec, spec.wall_mm, spec.wall_mm)
    bore, skin = end_shape(plan_a, FRAME_A), end_shape(plan_b, FRAME_A)
    wall = _wall(spec, plan_a, bore, skin)
    plan_a, plan_b = (replace(p, wall_mm=min(wall, spec.wall_mm), root_wall_mm=wall) for p in (plan_a, plan_b))
    bore = end_shape(plan_a, FRAME_A)
    collar_to = _collar_end(skin)
    length = max(bore.engaged_mm + _stop(spec), collar_to) + STOP_MM
    frame_b = Frame((0.0, length, 0.0), (0.0, -1.0, 0.0), (-1.0, 0.0, 0.0))
    skin = end_shape(plan_b, frame_b)
    body_r = radius_at(skin.outer, skin.engaged_mm)
    outside = (*(p for p in skin.outer if p[0] <= collar_to + 1e-6), (length, body_r))
    passage = (*bore.inner[:-1], (length, bore.passage_r_mm))
    mouth_b = ((0.0, bore.passage_r_mm), (skin.root_mm, bore.passage_r_mm))
    lips = tuple(replace(z, r1_mm=min(z.r1_mm, body_r + SKIN_MM)) for z in bore.zones)  # a collar is no lip
    a = PlacedEnd(plan_a, replace(bore, zones=lips), FRAME_A)
    b = PlacedEnd(plan_b, replace(skin, inner=mouth_b, zones=_crests(skin, min(wall, spec.wall_mm))), frame_b)
    profiles = tidy(reversed_from(tidy(outside), length)), tidy(passage)
    slit = slit_cut(spec, (a, b), FRAME_A, *profiles)
    piece = turned(*profiles, FRAME_A, through=True)
    body = adapter_body(spec.name, [piece], (a, b), min(wall, spec.wall_mm), slit=slit)
    facts = describe(a, b, spec) | slit_facts(spec, slit)
    facts["sleeve wall"] = f"{wall:.2f} mm, {wall / spec.printer.line_mm:.1f} printed lines"
    thin = wall < spec.wall_mm - 1e-6
    cautions = (f"The sleeve's wall is only {wall:.2f} mm: print it slowly, handle it gently.",) if thin else ()
    part = Part(
        name=spec.name,
        family="reducer",
        bodies=(body,),
        stand_ins=stand_ins((a, b), spec.envelope),
        dimensions=main_dimensions(a, b, (1.0, 0.0, 0.0)),
        labels=labels(a, b),
        templates=mouth_faces(a, b, spec),
        facts=facts,
        passages_mm=passages_mm(a, b),
        airway=nested_airway(a, length, b),
        assumed=assumed(spec, length=f"{length:.2f} mm (the longer of the two joints)"),
        cautions=(*cautions, *CAUTIONS),
    )
    return loaded(part, spec, (a, b))


def _refuse_other_joints(spec: ReducerSpec) -> None:
    joint_a, joint_b = spec.end_a.joint, spec.end_b.joint
    if not isinstance(joint_a, Socket) or joint_a.clamp or joint_a.cord_mm or joint_a.screws or joint_a.ridge:
        why = "a nested sleeve is bored for end_a"
        raise RefusalError("end_a", spec.end_a.kind, "a bare socket (no clamp, cord, screws or ridge)", why)
    if not isinstance(joint_b, Spigot | HoseTail) or (
        isinstance(joint_b, Spigot) and (joint_b.cord_mm or joint_b.screws)
    ):
        raise RefusalError(
            "end_b", spec.end_b.kind, "a bare spigot or a hose_tail", "a nested sleeve's outside is end_b"
        )
    if isinstance(joint_b, HoseTail) and joint_b.bond:
        raise RefusalError("end_b.hose_tail.bond", "a bonding lug", "none", "a nested sleeve has no root to carry it")
    if spec.length_mm is not None or spec.eccentricity is not None:
        key = "length" if spec.length_mm is not None else "eccentricity"
        raise RefusalError(key, "a value", "none", "a nested sleeve takes its length from its joints and is coaxial")


def _stop(spec: ReducerSpec) -> float:
    joint = spec.end_a.joint
    return joint.stop_mm if isinstance(joint, Socket) else 0.0


def _wall(spec: ReducerSpec, plan_a: EndPlan, bore: JointShape, skin: JointShape) -> float:
    """What the gap leaves between the widest bore and the narrowest outside [mm]."""
    assert bore.fit is not None and skin.fit is not None
    left = (min(skin.fit[1], skin.fit[3]) - max(bore.fit[1], bore.fit[3])) / 2
    least = LEAST_LINES * spec.printer.line_mm
    if left < least or ("wall" not in spec.defaulted and left < spec.wall_mm):
        need = max(least, 0.0 if "wall" in spec.defaulted else spec.wall_mm)
        raise RefusalError(
            f"{plan_a.key}.socket",
            f"{left:.2f} mm left for the wall",
            f"{need:.2f} mm or more",
            "the two sizes are too close for a sleeve",
        )
    return left


def _crests(skin: JointShape, wall: float) -> tuple[Zone, ...]:
    """The outside's zones without its mouth lip: there the sleeve is thicker by the stop, not thinner."""
    crests = (z for z in skin.zones if not z.name.endswith("mouth lip"))
    return tuple(replace(z, limit_mm=min(z.limit_mm, wall)) for z in crests)


def _collar_end(skin: JointShape) -> float:
    """Where the stop collar behind the outside's joint has come down again."""
    body_r = radius_at(skin.outer, skin.engaged_mm)
    above = [s for s, r in skin.outer if r > body_r + 1e-6 and s > skin.engaged_mm]
    return (
        max([s for s, r in skin.outer if s > max(above, default=skin.engaged_mm)], default=skin.root_mm)
        if above
        else skin.root_mm
    )
