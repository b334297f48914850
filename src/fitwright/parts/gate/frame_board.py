"""Gate foot and nose foot on a bought board."""

from __future__ import annotations

from fitwright.part import Body
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def board_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The bodies; none where they are not asked for."""
    return ()
