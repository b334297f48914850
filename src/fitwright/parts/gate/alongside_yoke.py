"""The yoke with an arm beside the gate: the web that holds the cylinder's nose, and the seat of the guide rod.

It prints lying on its front face like every yoke: the web lies on the bed, seat and nut slot stand upright.
"""

from __future__ import annotations

import math
from dataclasses import replace

from cadquery import Shape

from fitwright.errors import RefusalError
from fitwright.part import Feature, HoleFit
from fitwright.parts.compensation import placed, small_hole
from fitwright.parts.gate.alongside_collar import Collar
from fitwright.parts.gate.alongside_guide import GuidePlan
from fitwright.parts.gate.alongside_plan import AlongsidePlan, ArmPlan
from fitwright.parts.gate.blocks import Block, cells, prism_volume_mm3
from fitwright.parts.gate.nose_hold import SquareHold
from fitwright.parts.gate.nut_pocket import Cut
from fitwright.parts.gate.piece import ALONG, Piece, box
from fitwright.parts.gate.yoke import yoke_of
from fitwright.shapes.solids import bar, cut, fused, prism
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm


def arm_piece(plan: AlongsidePlan, axis_x: float, spec: GateBracketSpec) -> Piece:
    """The yoke, its arm and what is cut from it; RefusalError where something stands in the seat's place."""
    base = yoke_of(plan.arm.yoke, spec)
    holes = _nose_holes(plan.arm, axis_x, spec)
    cuts = [*_collar_cuts(plan.arm.collar), *(_drilled(hole) for hole in holes)]
    if plan.guide is not None:
        _seat_is_free(plan.guide, plan.arm, spec)
        cuts += _seat_cuts(plan.guide, plan.arm, spec)
        holes += _screw_holes(plan.guide, plan.arm, spec)
    solid = fused([base.solid, *(block_solid(one) for one in plan.arm.blocks)], "yoke")
    added = math.fsum(math.prod(b - a for a, b in one.spans) for one in plan.arm.blocks)
    return replace(
        base,
        solid=cut(solid, [tool for _, tool, _ in cuts], "yoke"),
        genus=base.genus + _through(plan),
        volume_mm3=base.volume_mm3 + added - math.fsum(taken for _, _, taken in cuts),
        features=(*base.features, *(Feature(name, "cut", tool) for name, tool, _ in cuts)),
        holes=(*base.holes, *holes),
    )


def block_solid(one: Block) -> Shape:
    """Its solid."""
    return box(one.x, one.y, one.z)


def _through(plan: AlongsidePlan) -> int:
    """The holes for the nose; the guide's seat, and each of its screws from above into the slot and on to the seat."""
    nose = 5 if isinstance(plan.arm.hold, SquareHold) else 1
    return nose + (5 if plan.guide is not None else 0)


def _nose_holes(arm: ArmPlan, axis: float, spec: GateBracketSpec) -> list[HoleFit]:
    """For the nose or the boss, and the front cover's screws."""
    hold, y = arm.hold, arm.web.y
    long, out = y[1] - y[0], (0.0, 1.0, 0.0)
    name = "nose hole" if not isinstance(hold, SquareHold) else "boss hole"
    found = [HoleFit(name, (axis, y[0], 0.0), out, long, small_hole(hold.hole_mm, spec.printer), "cylinder")]
    if isinstance(hold, SquareHold):
        half, d = placed(hold.apart_mm / 2, spec.printer), small_hole(hold.screw_hole_mm, spec.printer)
        for number, (x, z) in enumerate(((-half, -half), (half, -half), (-half, half), (half, half)), start=1):
            start = (axis + x, y[0], z)
            found.append(HoleFit(f"cover screw hole {number}", start, out, long, d, "cylinder.square"))
    return found


def _collar_cuts(collar: Collar | None) -> list[Cut]:
    """The pocket for the cylinder's front, open behind, and the slot for its fitting, open behind and outwards."""
    if collar is None:
        return []
    y0, slot = collar.block.y[0], collar.slot
    pocket = bar((collar.axis, y0 - OVER, 0.0), (0.0, 1.0, 0.0), collar.r, collar.deep_mm + OVER)
    x, z = slot.x, slot.z
    if collar.way == "left":
        x = (x[0] - OVER, x[1])
    else:
        z = (z[0], z[1] + OVER) if collar.way == "up" else (z[0] - OVER, z[1])
    fitting = box(x, (y0 - OVER, slot.y[1]), z)
    return [("cylinder pocket", pocket, collar.pocket_mm3), ("fitting slot", fitting, collar.slot_mm3)]


def _drilled(hole: HoleFit) -> Cut:
    x, y, z = hole.start
    a, b, c = hole.direction
    start = (x - OVER * a, y - OVER * b, z - OVER * c)
    tool = bar(start, hole.direction, hole.d_mm / 2, hole.length_mm + 2 * OVER)
    return hole.name, tool, math.pi * hole.d_mm**2 / 4 * hole.length_mm


def _seat_cuts(guide: GuidePlan, arm: ArmPlan, spec: GateBracketSpec) -> list[Cut]:
    """The V along the plate, the slot for both nuts, and the screws' holes."""
    plate, left = arm.yoke.plate, cells([*arm.yoke.steps, *((one, True) for one in arm.blocks)])
    seat = prism(guide.seat, ALONG, plate.y[0], plate.y[1] + OVER)  # behind the plate there may be an ear
    deep = (guide.slot_x[1] - guide.slot_x[0]) * (guide.slot_z[1] - guide.slot_z[0])
    slot = box(guide.slot_x, (guide.slot_y[0], guide.slot_y[1] + OVER), guide.slot_z)
    return [
        ("guide seat", seat, prism_volume_mm3(guide.seat, plate.y, left)),
        ("guide nut slot", slot, deep * (guide.slot_y[1] - guide.slot_y[0])),
        *(_drilled(hole) for hole in _screw_holes(guide, arm, spec)),
    ]


def _screw_holes(guide: GuidePlan, arm: ArmPlan, spec: GateBracketSpec) -> list[HoleFit]:
    """From the top into the nuts' slot, and from there to the seat."""
    d, top = small_hole(guide.screw.hole_medium_mm, spec.printer), arm.yoke.half_high_mm
    ceiling = max(z for _, z in guide.seat)
    found = []
    for number, y in enumerate(guide.screws_y, start=1):
        for word, z0, z1 in (("", guide.slot_z[1], top), (" end", ceiling, guide.slot_z[0])):
            start = (guide.x_mm, y, z0)
            found.append(HoleFit(f"guide screw hole {number}{word}", start, (0.0, 0.0, 1.0), z1 - z0, d, "guide_rod"))
    return found


def _seat_is_free(guide: GuidePlan, arm: ArmPlan, spec: GateBracketSpec) -> None:
    """Refuses what stands proud of the body where the yoke holds the guide rod."""
    x = [x for x, _ in guide.seat]
    z = [z for _, z in guide.seat]
    there = Block((min(x) - 2.0, max(x) + 2.0), arm.yoke.plate.y, (min(z) - 2.0, arm.yoke.half_high_mm))
    for relief in arm.yoke.reliefs:
        if relief.meets(there):
            label = next((p.label for p in spec.gate.proud if abs(p.x_mm - guide.x_mm) < p.across_mm), "an obstacle")
            why = "it stands where the yoke holds the second guide"
            raise RefusalError("gate.proud", label, "taken off, or the gate turned over (left becomes right)", why)
