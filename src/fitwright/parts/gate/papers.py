"""The commissioning sheet and the cut list."""

from __future__ import annotations

from fitwright.drawing.face import Face
from fitwright.part import Paper
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def gate_papers(plan: GatePlan, spec: GateBracketSpec) -> tuple[Paper, ...]:
    """Sheets that go with the part."""
    return ()


def gate_templates(plan: GatePlan, spec: GateBracketSpec) -> tuple[Face, ...]:
    """1:1 templates: the gate's screws, and the board's holes."""
    return ()
