"""What goes with the part on paper: assembly and commissioning sheets, cut list, 1:1 templates."""

from __future__ import annotations

import math

from fitwright.drawing.face import Face
from fitwright.part import Body, Paper
from fitwright.parts.gate.alongside import alongside_guide
from fitwright.parts.gate.board_template import board_face, gate_face
from fitwright.parts.gate.paper_assembly import assembly
from fitwright.parts.gate.paper_commissioning import commissioning
from fitwright.parts.gate.paper_cut_list import cut_list
from fitwright.parts.gate.plan import GatePlan
from fitwright.physics.slide.bridge import Bridge
from fitwright.spec.gate_load import PRINTED_KG, gate_load
from fitwright.spec.models import GateBracketSpec


def gate_papers(plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...]) -> tuple[Paper, ...]:
    """Sheets that go with the part; `bodies`: all that is printed, for the weight of what moves."""
    moving = math.fsum(body.solid.Volume() for body in bodies if body.moving)
    printed = max(moving * spec.material.density_g_cm3 * 1e-6, PRINTED_KG)
    on = gate_load(spec, plan.ends.blade_open_mm, plan.blade_long_mm, printed, _toll(plan))
    return (assembly(plan, spec, bodies), commissioning(plan, spec, on), cut_list(plan, spec))


def _toll(plan: GatePlan) -> float:
    """Thrust over drag that a second guide asks for; 1 where there is none."""
    guide = alongside_guide(plan)
    if guide is None:
        return 1.0
    return Bridge(guide.offset_mm, guide.apart_mm, guide.bush_mm, guide.mu).thrust_over_drag


def gate_templates(plan: GatePlan, spec: GateBracketSpec) -> tuple[Face, ...]:
    """1:1 templates: the board's outline and holes, and the gate's screws."""
    on_board = plan.frame.kind == "board" and spec.layout == "in_line"
    board = [board_face(plan, spec)] if on_board else []
    gate = gate_face(plan, spec)
    return (*board, *([gate] if gate is not None else ()))
