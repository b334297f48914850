"""Yoke and nose plate on two bought threaded rods."""

from __future__ import annotations

from dataclasses import replace

from fitwright.part import Body
from fitwright.parts.gate import nose, yoke
from fitwright.parts.gate.piece import body_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec


def rods_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """Yoke and nose plate; RefusalError where something on the gate leaves no room for the yoke."""
    return (
        body_of(yoke.yoke_piece(plan, spec, rods=True), spec.wall_mm, yoke.POSES),
        body_of(replace(nose.nose_piece(plan, spec, rods=True), name="nose_plate"), spec.wall_mm, nose.POSES),
    )
