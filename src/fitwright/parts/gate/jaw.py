"""A blade without a hole: the coupling with a lower jaw, and the jaw plate that is screwed down on the blade."""

from __future__ import annotations

from fitwright.part import Body
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.parts.gate.jaw_plan import JawPlan
from fitwright.spec.models import GateBracketSpec


def jaw_bodies(plan: CouplingPlan, jaw: JawPlan, spec: GateBracketSpec, shift_mm: float) -> tuple[Body, ...]:
    """The two bodies."""
    return ()
