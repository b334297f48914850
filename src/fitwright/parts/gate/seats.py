"""The faces that the chain of lengths hangs on, for the check `motion`."""

from __future__ import annotations

from fitwright.part import Seat
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def gate_seats(plan: GatePlan, spec: GateBracketSpec) -> tuple[Seat, ...]:
    """`nose face`, `fork floor`, `coupling back`, `sleeve begin`, `sleeve end`, ... on the bodies that have them."""
    return ()
