"""What goes with the part on paper: assembly and commissioning sheets, cut list, 1:1 templates."""

from __future__ import annotations

from fitwright.drawing.face import Face
from fitwright.part import Body, Paper
from fitwright.parts.gate.board_template import board_face, gate_face
from fitwright.parts.gate.paper_assembly import assembly
from fitwright.parts.gate.paper_commissioning import commissioning
from fitwright.parts.gate.paper_cut_list import cut_list
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec


def gate_papers(plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...], on: Load) -> tuple[Paper, ...]:
    """Sheets that go with the part; `bodies`: all that is printed, `on`: its forces."""
    return (assembly(plan, spec, bodies), commissioning(plan, spec, on), cut_list(plan, spec))


def gate_templates(plan: GatePlan, spec: GateBracketSpec) -> tuple[Face, ...]:
    """1:1 templates: the board's outline and holes, and the gate's screws."""
    on_board = plan.frame.kind == "board" and spec.layout == "in_line"
    board = [board_face(plan, spec)] if on_board else []
    gate = gate_face(plan, spec)
    return (*board, *([gate] if gate is not None else ()))
