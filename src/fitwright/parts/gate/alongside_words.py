"""What the report says of a cylinder beside its gate: where it lies, how it goes together, what its guide does."""

from __future__ import annotations

from collections.abc import Mapping

from fitwright.parts.gate.alongside_bridge_plan import FLOAT_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length


def alongside_facts(plan: GatePlan, spec: GateBracketSpec) -> Mapping[str, str]:
    """Lines for the report; none in line."""
    if plan.beside is None:
        return {}
    guide, say = plan.beside.guide, spec.units
    where = f"{format_length(-plan.axis_x_mm, say)} left of the blade's middle, seen from the gate outwards; turn the "
    found = {"cylinder": where + "gate over and it lies on the other side"}
    if guide is None:
        found["on the rod"] = "captive nut and jam nut are tightened against each other: the piston rod alone guides"
        return found
    found["on the rod"] = (
        "jam nut up to the end of the thread, then turn the rod into the captive nut until the bridge is free by "
        f"{format_length(FLOAT_MM, say)}: tightened, two guides bind"
    )
    found["second guide"] = (
        f"plain bar {format_length(guide.d_mm, say)}, {format_length(guide.y1 - guide.y0, say)} long, pushed through "
        "the bush up to the gate's body after the nose nut is tight, then pressed into its V by both set screws"
    )
    found["bush"] = "glued into the bridge with the bar through it, so that it comes in line; grease the bar thinly"
    return found
