"""Outlines that are one full circle, so that they may be drawn as one."""

from __future__ import annotations

import math

from fitwright.outline import Outline, Point

_SAME_MM = 1e-6


def whole_circle(line: Outline) -> tuple[Point, float] | None:
    """Centre and radius [mm] where the outline is one full circle, else None."""
    if any(side.via is None for side in line.sides):
        return None
    centre, radius = line.sides[0].centre, line.sides[0].radius_mm
    same = all(
        math.dist(side.centre, centre) < _SAME_MM and abs(side.radius_mm - radius) < _SAME_MM for side in line.sides
    )
    turned = math.fsum(side.sweep_rad for side in line.sides)
    return (centre, radius) if same and abs(abs(turned) - math.tau) < 1e-9 else None
