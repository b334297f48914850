"""The bolt that joins coupling and bridge where the cylinder lies alongside: it takes the place of the rod's thread."""

from __future__ import annotations

from dataclasses import replace

from fitwright.parts.gate.coupling_plan import CouplingPlan, coupling_plan
from fitwright.spec.models import GateBracketSpec

BOLT, BOLT_THREAD = "M6", "M6 x 1"
BOLT_MM = 6.0
REACH_MM = 16.0
"""From the nut pocket's inner face to where a rod's shoulder would stand: nut, wall, and room for a jam nut."""


DEEPER_MM = 1.0
"""The nut's pocket is so much deeper: the bolt goes through its nut."""


def bolt_coupling(spec: GateBracketSpec) -> CouplingPlan:
    """The coupling's numbers with the bolt in place of the rod."""
    plan = coupling_plan(bolted(spec))
    return replace(
        plan,
        long_mm=plan.long_mm + DEEPER_MM,
        nut_y1=plan.nut_y1 + DEEPER_MM,
        back_y=plan.back_y + DEEPER_MM,
        shoulder_y=plan.shoulder_y + DEEPER_MM,
    )


def bolted(spec: GateBracketSpec) -> GateBracketSpec:
    """The same, but for a rod with the bolt's thread: what the coupling is made for."""
    rod = {"rod_thread": BOLT_THREAD, "rod_thread_long_mm": REACH_MM, "rod_mm": BOLT_MM}
    return spec.model_copy(update={"cylinder": spec.cylinder.model_copy(update=rod)})
