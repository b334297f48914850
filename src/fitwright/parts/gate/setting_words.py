"""What the setting is done by, in words: which way it goes depends on frame, mount and side of the cylinder."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


@dataclass(frozen=True)
class SetBy:
    """`means` follows a length ("12 mm either way, ..."); `order` tells the hand what to do, "until ..." follows."""

    means: str
    order: str


ROD = SetBy("by turning the rod in its nut", "turn the rod in its nut")
CLAMP = SetBy(
    "along the body's edges, between the clamp's ears",
    "slide the bracket along the gate's body, its clamp screws loose,",
)
FRAMES = {
    "rods": SetBy(
        "by the nuts at the nose plate", "move the nose plate by the nuts on both its sides, both rods alike,"
    ),
    "one_piece": SetBy("along the slots at the gate", "slide the bracket along its slots at the gate"),
    "board": SetBy("along the slots of the nose foot", "slide the nose foot along its slots"),
}


def set_by(plan: GatePlan, spec: GateBracketSpec) -> SetBy:
    """What takes up the difference between readings and things."""
    if plan.way < 0.0:
        return ROD
    if plan.frame.kind == "one_piece" and spec.gate.mount.kind == "clamp":
        return CLAMP
    return FRAMES[plan.frame.kind]
