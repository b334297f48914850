"""The frame, bridge and bush where the cylinder lies beside the gate."""

from __future__ import annotations

from fitwright.part import Body
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def alongside_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The bodies; none where they are not asked for."""
    return ()
