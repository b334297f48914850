"""The guard over the gaps that a finger gets into."""

from __future__ import annotations

from fitwright.part import Body
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def guard_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The bodies; none where they are not asked for."""
    return ()
