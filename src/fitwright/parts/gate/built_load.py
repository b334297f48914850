"""The forces of one bracket as it is built: report, sheets and checks say the same regulator setting."""

from __future__ import annotations

import math

from fitwright.part import Body
from fitwright.parts.gate.alongside import alongside_guide
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.gate_load import PRINTED_KG, Load, gate_load, guide_toll
from fitwright.spec.models import GateBracketSpec


def built_load(plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...]) -> Load:
    """The forces with the weight of what moves among these printed bodies, and a second guide's friction."""
    moving = math.fsum(body.solid.Volume() for body in bodies if body.moving)
    printed = max(moving * spec.material.density_g_cm3 * 1e-6, PRINTED_KG)
    toll = guide_toll(alongside_guide(plan))
    return gate_load(spec, plan.ends.blade_open_mm, plan.blade_long_mm, printed, toll)
