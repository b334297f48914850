"""Simple solids of what is bought: gate, blade, cylinder with its ports and fittings, rods, nuts, spanners' swing."""

from __future__ import annotations

from fitwright.part import StandIn
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def gate_stand_ins(plan: GatePlan, spec: GateBracketSpec) -> tuple[StandIn, ...]:
    """All stand-ins, modelled in the position shut."""
    return ()
