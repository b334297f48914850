"""Yoke and nose plate on two bought threaded rods."""

from __future__ import annotations

from fitwright.part import Body
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def rods_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The bodies; none where they are not asked for."""
    return ()
