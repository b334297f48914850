"""Simple solids of what is bought: gate, blade, cylinder with its ports and fittings, rods, screws and nuts.

All in the position shut, as driven. Nothing of it touches what it moves past: the slot is wider than the blade, the
barrel hollow for the rod, nuts are rings; so no zone need be left out where something moves.
"""

from __future__ import annotations

from fitwright.part import StandIn
from fitwright.parts.gate.alongside_things import alongside_things
from fitwright.parts.gate.board_things import board_things
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_cylinder import cylinder_things
from fitwright.parts.gate.stand_in_frame import coupling_things, rod_things, screw_things
from fitwright.parts.gate.stand_in_gate import gate_things
from fitwright.spec.models import GateBracketSpec


def gate_stand_ins(plan: GatePlan, spec: GateBracketSpec) -> tuple[StandIn, ...]:
    """All stand-ins, modelled in the position shut."""
    makers = (gate_things, cylinder_things, screw_things, coupling_things, rod_things, alongside_things, board_things)
    return tuple(thing for make in makers for thing in make(plan, spec))
