"""What is bought for the bracket: screw joints as they were meant, and the list to buy and cut."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.part import Bought, Fastening
from fitwright.parts.gate.fastening_alongside import alongside_bought, alongside_fastenings
from fitwright.parts.gate.fastening_board import board_bought, board_fastenings
from fitwright.parts.gate.fastening_coupling import coupling_bought, coupling_fastenings
from fitwright.parts.gate.fastening_nose import nose_bought, nose_fastenings
from fitwright.parts.gate.fastening_yoke import yoke_bought, yoke_fastenings
from fitwright.parts.gate.guard import guard_bought
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def gate_fastenings(plan: GatePlan, spec: GateBracketSpec) -> tuple[Fastening, ...]:
    """Every screw, stud and rod joint."""
    shared = (*yoke_fastenings(plan, spec), *nose_fastenings(plan, spec), *board_fastenings(plan, spec))
    return (*shared, *coupling_fastenings(plan, spec), *alongside_fastenings(plan))


def gate_hardware(plan: GatePlan, spec: GateBracketSpec) -> tuple[Bought, ...]:
    """The list, with bought and cut lengths; first what is there already."""
    makers = (yoke_bought, nose_bought, board_bought, coupling_bought, alongside_bought, guard_bought)
    return (*_there(spec), *(line for make in makers for line in make(plan, spec)))


def _there(spec: GateBracketSpec) -> Iterator[Bought]:
    yield Bought(1, "manual slide gate, as measured", needed=False)
    yield Bought(1, f"air cylinder {spec.cylinder.name}", needed=False)
