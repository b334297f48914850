"""The bridge from the piston rod to the coupling on the blade, and the bush in it that slides on the guide rod."""

from __future__ import annotations

import math

from fitwright.frame import Frame
from fitwright.part import Feature, HoleFit, Pose, RoundSize
from fitwright.parts.compensation import small_hole
from fitwright.parts.gate.alongside_bridge_plan import BridgePlan
from fitwright.parts.gate.alongside_guide import GuidePlan
from fitwright.parts.gate.alongside_yoke import block_solid
from fitwright.parts.gate.blocks import cells, volume_mm3
from fitwright.parts.gate.nose import roofed_bar, roofed_mm2
from fitwright.parts.gate.nut_pocket import Cut, nut_cuts
from fitwright.parts.gate.piece import Piece
from fitwright.shapes.solids import bar, cut, cylinder, fused
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm
LYING = (Pose("lying flat, the nut's pocket up", (0.0, 0.0, -1.0)),)
"""Layers lie along thrust and bending; pocket and outline stand upright; the bush's bore has a roof at 45 deg."""
STANDING = (Pose("standing", (0.0, -1.0, 0.0)),)
OUT = (0.0, 1.0, 0.0)


def bridge_piece(plan: BridgePlan, guide: GuidePlan | None, axis: float, spec: GateBracketSpec) -> Piece:
    """A flat plate with a pocket for the rod's nut, a hole for the coupling's bolt, a bore for the bush."""
    cuts = [*_rod_cuts(plan, axis, spec), _bolt(plan)]
    rounds: tuple[RoundSize, ...] = ()
    if guide is not None:
        bore, size = _bush_bore(plan, guide)
        cuts.append(bore)
        rounds = (size,)
    solid = fused([block_solid(one) for one in plan.blocks], "bridge")
    whole = volume_mm3(cells([(one, True) for one in plan.blocks]))
    back = plan.head.y[0]
    d = small_hole(plan.rod.rod_hole_mm, spec.printer)
    return Piece(
        name="bridge",
        solid=cut(solid, [tool for _, tool, _ in cuts], "bridge"),
        genus=3 + len(rounds),  # bolt; the rod into its nut's pocket, and out of it
        volume_mm3=whole - math.fsum(taken for _, _, taken in cuts),
        features=tuple(Feature(name, "cut", tool) for name, tool, _ in cuts),
        holes=(
            HoleFit("bolt hole", (0.0, back, 0.0), OUT, plan.outer_y - back, plan.bolt_hole_mm, "gate.blade"),
            HoleFit("rod bore", (axis, plan.near_y, 0.0), OUT, plan.wall_mm, d, "cylinder.rod_thread"),
        ),
        rounds=rounds,
    )


def _rod_cuts(plan: BridgePlan, axis: float, spec: GateBracketSpec) -> list[Cut]:
    """The nut's pocket, open above, the bore to the near face, and one to the outer face: the rod's end shows."""
    from_outer = Frame((axis, plan.outer_y, 0.0), (0.0, -1.0, 0.0), (0.0, 0.0, 1.0))
    cuts = nut_cuts(plan.rod, spec.printer, from_outer, plan.high_mm / 2)
    d, long = small_hole(plan.rod.rod_hole_mm, spec.printer), plan.rod.nut_y0
    tool = bar((axis, plan.outer_y - long - OVER, 0.0), OUT, d / 2, long + 2 * OVER)
    return [*cuts, ("rod end bore", tool, math.pi * d * d / 4 * long)]


def _bolt(plan: BridgePlan) -> Cut:
    back, r = plan.head.y[0], plan.bolt_hole_mm / 2
    long = plan.outer_y - back
    return "bolt hole", bar((0.0, back - OVER, 0.0), OUT, r, long + 2 * OVER), math.pi * r * r * long


def _bush_bore(plan: BridgePlan, guide: GuidePlan) -> tuple[Cut, RoundSize]:
    """Through housing and arm."""
    assert plan.housing is not None
    y0, y1, r = plan.housing.y[0], max(plan.housing.y[1], plan.outer_y), guide.bore_mm / 2
    frame = Frame((guide.x_mm, y0, 0.0), OUT, (1.0, 0.0, 0.0))
    tool = roofed_bar(frame, r, -OVER, y1 - y0 + OVER)
    size = RoundSize("bush bore", frame, "hole", 0.0, y1 - y0, 2 * r, "guide_rod")
    return ("bush bore", tool, roofed_mm2(r) * (y1 - y0)), size


def bush_piece(guide: GuidePlan) -> Piece:
    """A plain tube, glued into the bridge; when it is worn, another is printed."""
    frame = Frame((guide.x_mm, guide.bush_y[0], 0.0), OUT, (1.0, 0.0, 0.0))
    long, r, bore = guide.bush_mm, guide.bush_out_mm / 2, guide.bush_in_mm
    tool = cylinder(frame, bore / 2, -OVER, long + OVER)
    start = (guide.x_mm, guide.bush_y[0], 0.0)
    return Piece(
        name="bush",
        solid=cut(cylinder(frame, r, 0.0, long), [tool], "bush"),
        genus=1,
        volume_mm3=math.pi * (r * r - bore * bore / 4) * long,
        features=(Feature("bush bore", "cut", tool),),
        holes=(HoleFit("bush bore", start, OUT, long, bore, "guide_rod"),),
        rounds=(RoundSize("bush outside", frame, "shaft", 0.0, long, 2 * r, "guide_rod"),),
    )
