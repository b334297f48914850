"""The nose foot: the nose plate carried down to the board, wings with slots beside it, gussets along the thrust."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from cadquery import Shape, Solid

from fitwright.frame import Frame
from fitwright.part import Feature
from fitwright.parts.gate.board_plan import FLOOR_MM, NoseFoot
from fitwright.parts.gate.nose import nose_piece
from fitwright.parts.gate.piece import Piece, box
from fitwright.parts.gate.plan import GatePlan
from fitwright.shapes.solids import bar, cut, fused, prism
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm


def nose_foot_piece(foot: NoseFoot, plan: GatePlan, spec: GateBracketSpec) -> Piece:
    """It prints standing on the board's side: all of it grows upwards, gussets and wings get smaller."""
    up = plan.frame.board_up
    tower = nose_piece(plan, spec, rods=False, down_mm=up)
    solid = fused([tower.solid, *_beside(foot, up)], "nose foot")
    slots = [(f"{name} slot", _slot(x, y, foot, up)) for name, (x, y) in zip(bolt_names(), foot.bolts, strict=True)]
    wings = 2 * (foot.wing_x[1] - foot.wing_x[0]) * 2 * foot.half_y * FLOOR_MM
    gussets = 2 * (foot.wing_x[0] - foot.tower_x) * _area_mm2(foot)
    slot = math.pi * foot.hole_d_mm**2 / 4 + 2 * foot.slot_mm * foot.hole_d_mm
    return replace(
        tower,
        name="nose_foot",
        solid=cut(solid, [tool for _, tool in slots], "nose foot"),
        genus=tower.genus + len(slots),
        volume_mm3=tower.volume_mm3 + wings + gussets - len(slots) * slot * FLOOR_MM,
        features=(*tower.features, *(Feature(name, "cut", tool) for name, tool in slots)),
    )


def bolt_names() -> tuple[str, ...]:
    """In the order of `NoseFoot.bolts`."""
    return tuple(f"{side} {where} nose foot bolt" for side in ("left", "right") for where in ("inner", "outer"))


def _beside(foot: NoseFoot, up: float) -> Iterator[Solid]:
    """Gussets against the tower's sides, wings against the gussets."""
    y = (foot.middle_y - foot.half_y, foot.middle_y + foot.half_y)
    (x0, x1), z = foot.wing_x, (-up, -up + FLOOR_MM)
    yield box((x0, x1), y, z)
    yield box((-x1, -x0), y, z)
    across = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    outline = [(a, b * _up_sign(across)) for a, b in foot.gusset]
    for s0, s1 in ((foot.tower_x, x0), (-x0, -foot.tower_x)):
        yield prism(outline, across, s0, s1)


def _up_sign(frame: Frame) -> float:
    """Whether the frame's `up` is z or -z."""
    return frame.point(0.0, 0.0, 1.0)[2]


def _area_mm2(foot: NoseFoot) -> float:
    """Of a gusset's outline."""
    pairs = zip(foot.gusset, (*foot.gusset[1:], foot.gusset[0]), strict=True)
    return abs(math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


def _slot(x: float, y: float, foot: NoseFoot, up: float) -> Shape:
    low, long, r = -up - OVER, FLOOR_MM + 2 * OVER, foot.hole_d_mm / 2
    if foot.slot_mm <= 0.0:
        return bar((x, y, low), (0.0, 0.0, 1.0), r, long)
    ends = [bar((x, y + move, low), (0.0, 0.0, 1.0), r, long) for move in (-foot.slot_mm, foot.slot_mm)]
    middle = box((x - r, x + r), (y - foot.slot_mm, y + foot.slot_mm), (low, low + long))
    return fused([middle, *ends], "slot")
