"""Yoke and nose plate on two bought threaded rods."""

from __future__ import annotations

from fitwright.part import Body
from fitwright.parts.gate.piece import body_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke import POSES, yoke_piece
from fitwright.spec.models import GateBracketSpec


def rods_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The yoke; RefusalError where something on the gate leaves no room for it."""
    return (body_of(yoke_piece(plan, spec, rods=True), spec.wall_mm, POSES),)
