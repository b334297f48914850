"""The coupling: from blade to rod; a clamping jaw where the blade has no hole."""

from __future__ import annotations

from fitwright.part import Body
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def coupling_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The coupling, and what belongs to it."""
    return ()
