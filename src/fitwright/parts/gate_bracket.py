"""The gate bracket: an air cylinder on a manual slide gate, moved from shut to open."""

from __future__ import annotations

from fitwright.part import Body, Motion, Part
from fitwright.parts.gate.alongside import alongside_bodies, alongside_guide
from fitwright.parts.gate.built_load import built_load
from fitwright.parts.gate.coupling import coupling_bodies
from fitwright.parts.gate.frame_board import board_bodies
from fitwright.parts.gate.frame_one_piece import one_piece_bodies
from fitwright.parts.gate.frame_rods import rods_bodies
from fitwright.parts.gate.guard import guard_bodies
from fitwright.parts.gate.hardware import gate_fastenings, gate_hardware
from fitwright.parts.gate.loads import gate_bears
from fitwright.parts.gate.papers import gate_papers, gate_templates
from fitwright.parts.gate.plan import GatePlan, gate_plan
from fitwright.parts.gate.seats import gate_seats
from fitwright.parts.gate.sleeve import sleeve_bodies
from fitwright.parts.gate.stand_ins import gate_stand_ins
from fitwright.parts.gate.support import support_bodies
from fitwright.parts.gate.words import gate_assumed, gate_cautions, gate_dimensions, gate_facts
from fitwright.spec.models import GateBracketSpec

_FRAMES = {"rods": rods_bodies, "one_piece": one_piece_bodies, "board": board_bodies}


def build_gate_bracket(spec: GateBracketSpec) -> Part:
    """The part; RefusalError names the key, and where the stroke is at fault the stroke to buy."""
    plan = gate_plan(spec)
    bodies = gate_bodies(plan, spec)
    load = built_load(plan, spec, bodies)
    bears = gate_bears(plan, spec, bodies, load)
    return Part(
        name=spec.name,
        family=spec.part,
        bodies=bodies,
        stand_ins=gate_stand_ins(plan, spec),
        dimensions=gate_dimensions(plan, spec),
        section_across=(1.0, 0.0, 0.0),
        facts=gate_facts(plan, spec, load),
        assumed=gate_assumed(plan, spec),
        cautions=gate_cautions(plan, spec),
        motion=Motion((0.0, 1.0, 0.0), plan.moved_mm),
        seats=gate_seats(plan, spec),
        hardware=gate_hardware(plan, spec),
        fastenings=gate_fastenings(plan, spec),
        guide=alongside_guide(plan),
        load_faces=bears.faces,
        loads=bears.cases,
        supports=bears.supports,
        papers=gate_papers(plan, spec, bodies, load),
        templates=gate_templates(plan, spec),
    )


def gate_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """All printed bodies: the frame, then what moves, then what protects."""
    frame = alongside_bodies if spec.layout == "alongside" else _FRAMES[plan.frame.kind]
    makers = (frame, coupling_bodies, sleeve_bodies, guard_bodies, support_bodies)
    return tuple(body for make in makers for body in make(plan, spec))
