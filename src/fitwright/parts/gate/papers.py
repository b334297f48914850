"""What goes with the part on paper: commissioning sheet, cut list, 1:1 templates."""

from __future__ import annotations

import math

from fitwright.drawing.face import Face
from fitwright.part import Body, Paper
from fitwright.parts.gate.board_template import board_face, gate_face
from fitwright.parts.gate.paper_commissioning import commissioning
from fitwright.parts.gate.paper_cut_list import cut_list
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def gate_papers(plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...]) -> tuple[Paper, ...]:
    """Sheets that go with the part; `bodies`: all that is printed, for the weight of what moves."""
    moving = math.fsum(body.solid.Volume() for body in bodies if body.moving)
    printed_kg = moving * spec.material.density_g_cm3 * 1e-6
    return (commissioning(plan, spec, printed_kg), cut_list(plan, spec))


def gate_templates(plan: GatePlan, spec: GateBracketSpec) -> tuple[Face, ...]:
    """1:1 templates: the board's outline and holes, and the gate's screws."""
    on_board = plan.frame.kind == "board" and spec.layout == "in_line"
    board = [board_face(plan, spec)] if on_board else []
    gate = gate_face(plan, spec)
    return (*board, *([gate] if gate is not None else ()))
