"""The bodies where the cylinder lies beside the gate: the yoke with its arm, the coupling, the bridge, the bush."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.part import Body, Guide, Seat
from fitwright.parts.gate.alongside_bridge import LYING, STANDING, bridge_piece, bush_piece
from fitwright.parts.gate.alongside_guide import BUSH_FRICTION
from fitwright.parts.gate.alongside_plan import AlongsidePlan
from fitwright.parts.gate.alongside_yoke import arm_piece
from fitwright.parts.gate.piece import body_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke import POSES
from fitwright.spec.models import GateBracketSpec

BUSH_WALL_MM = 2.5
BESIDE_MM = 1.0


def alongside_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The bodies; the sleeve is made as in line."""
    beside, axis = beside_of(plan), plan.axis_x_mm
    fixed = body_of(arm_piece(beside, axis, spec), spec.wall_mm, POSES)
    bridge = body_of(bridge_piece(beside.bridge, beside.guide, axis, spec), spec.wall_mm, LYING, moving=True)
    if beside.guide is None:
        return (fixed, bridge)
    wall = min(spec.wall_mm, BUSH_WALL_MM)
    return (fixed, bridge, body_of(bush_piece(beside.guide), wall, STANDING, moving=True))


def beside_of(plan: GatePlan) -> AlongsidePlan:
    """What is more, alongside."""
    assert plan.beside is not None
    return plan.beside


def alongside_seats(plan: GatePlan) -> Iterator[Seat]:
    """Where the rod's jam nut bears on the bridge; the coupling's own seats and the nose's are made as in line."""
    bridge = beside_of(plan).bridge
    beside = plan.axis_x_mm - bridge.rod.rod_hole_mm / 2 - BESIDE_MM
    yield Seat("coupling back", "bridge", (beside, bridge.near_y, 0.0), (0.0, -1.0, 0.0))


def alongside_guide(plan: GatePlan) -> Guide | None:
    """The second guide in numbers, for the checks; None where there is none."""
    if plan.beside is None or plan.beside.guide is None:
        return None
    guide = plan.beside.guide
    return Guide(
        offset_mm=guide.offset_mm,
        apart_mm=guide.apart_mm,
        bush_mm=guide.bush_mm,
        d_mm=guide.d_mm,
        free_mm=guide.free_mm(plan.moved_mm),
        root_deg=plan.beside.statics.root_deg,
        mu=BUSH_FRICTION,
    )
