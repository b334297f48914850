"""A second support under a heavy cylinder: a saddle that it lies in, with feet to screw down and a tunnel for a tie.

It carries and does not clamp: 0.3 mm of air all round, and the cylinder slides in it when it is set.
"""

from __future__ import annotations

import math

from cadquery import Shape

from fitwright.part import Body, Feature, HoleFit, Pose
from fitwright.parts.compensation import modelled, placed, small_hole
from fitwright.parts.gate.piece import Piece, body_of, box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.support_plan import TIE_HIGH_MM, TIE_WIDE_MM, WING_MM, SupportPlan, support_plan
from fitwright.shapes.solids import bar, cut, fused
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

STANDING = (Pose("standing", (0.0, 0.0, -1.0)),)
OVER = TOLERANCES.overshoot_mm


def support_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The saddle; none where none is needed or nothing is there to stand on."""
    at = support_plan(plan, spec)
    return () if at is None else (body_of(support_piece(at, spec), spec.wall_mm, STANDING),)


def support_piece(at: SupportPlan, spec: GateBracketSpec) -> Piece:
    """Block and feet, less the barrel's groove (open above), the tie's tunnel and two screw holes."""
    x, half = at.axis_x, modelled(2 * at.half_mm, "hole", spec.printer) / 2
    block = box((x - at.cheek_x, x + at.cheek_x), at.y, (at.foot_z, 0.0))
    feet = box((x - at.wing_x, x + at.wing_x), at.y, (at.foot_z, at.foot_z + WING_MM))
    tools = [("barrel groove", _groove(at, half)), ("tie tunnel", _tunnel(at))]
    holes = _holes(at, spec)
    tools += [(one.name, _drill(one)) for one in holes]
    solid = cut(fused([block, feet], "support"), [tool for _, tool in tools], "support")
    return Piece(
        name="support",
        solid=solid,
        genus=3,
        volume_mm3=_closed_form_mm3(at, half, holes[0].d_mm),
        features=tuple(Feature(name, "cut", tool) for name, tool in tools),
        holes=holes,
    )


def _groove(at: SupportPlan, half: float) -> Shape:
    y = (at.y[0] - OVER, at.y[1] + OVER)
    above = box((at.axis_x - half, at.axis_x + half), y, (0.0 if at.round else -half, OVER))
    if not at.round:
        return above
    return fused([bar((at.axis_x, y[0], 0.0), (0.0, 1.0, 0.0), half, y[1] - y[0]), above], "groove")


def _tunnel(at: SupportPlan) -> Shape:
    """Across, below the groove."""
    x = (at.axis_x - at.cheek_x - OVER, at.axis_x + at.cheek_x + OVER)
    return box(x, (at.middle_y - TIE_WIDE_MM / 2, at.middle_y + TIE_WIDE_MM / 2), at.tie_z)


def _holes(at: SupportPlan, spec: GateBracketSpec) -> tuple[HoleFit, ...]:
    d, x = small_hole(at.screw.hole_medium_mm, spec.printer), placed(at.bolt_x, spec.printer)
    starts = {name: (at.axis_x + side * x, at.middle_y, at.foot_z) for name, side in (("left", -1.0), ("right", 1.0))}
    up = (0.0, 0.0, 1.0)
    return tuple(HoleFit(f"{name} support screw", at, up, WING_MM, d, "support") for name, at in starts.items())


def _drill(hole: HoleFit) -> Shape:
    x, y, z = hole.start
    return bar((x, y, z - OVER), hole.direction, hole.d_mm / 2, hole.length_mm + 2 * OVER)


def _closed_form_mm3(at: SupportPlan, half: float, hole_d: float) -> float:
    long, high = at.y[1] - at.y[0], -at.foot_z
    groove = math.pi * half**2 / 2 if at.round else 2 * half**2
    block = 2 * at.cheek_x * high - groove
    tunnel = 2 * at.cheek_x * TIE_WIDE_MM * TIE_HIGH_MM
    feet = 2 * (at.wing_x - at.cheek_x) * WING_MM
    return (block + feet) * long - tunnel - 2 * math.pi * hole_d**2 / 4 * WING_MM
