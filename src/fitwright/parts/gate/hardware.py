"""What is bought for the bracket: screw joints as they were meant, and the list to buy and cut."""

from __future__ import annotations

from fitwright.part import Bought, Fastening
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def gate_fastenings(plan: GatePlan, spec: GateBracketSpec) -> tuple[Fastening, ...]:
    """Every screw, stud and rod joint."""
    return ()


def gate_hardware(plan: GatePlan, spec: GateBracketSpec) -> tuple[Bought, ...]:
    """The list, with bought and cut lengths."""
    return ()
