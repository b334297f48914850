"""The coupling: from blade to rod; a clamping jaw where the blade has no hole."""

from __future__ import annotations

import math
from dataclasses import replace

from cadquery import Solid, Vector

from fitwright.errors import RefusalError
from fitwright.frame import Frame
from fitwright.part import Body, Feature, Pose
from fitwright.parts.compensation import modelled
from fitwright.parts.gate.coupling_plan import ACROSS_MM, PAD_MM, STEP_MM, TIP_CLEAR_MM, CouplingPlan, pad_relief_mm
from fitwright.parts.gate.jaw import LYING, UPSIDE_DOWN, lower_piece, plate_piece
from fitwright.parts.gate.nut_pocket import Cut, nut_cuts, rod_hole
from fitwright.parts.gate.piece import ALONG, UPRIGHT, Piece, body_of, box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.refusals import at_most
from fitwright.shapes.solids import cut, outline_prism, prism
from fitwright.spec.gate_coupling import TILT_DEG
from fitwright.spec.models import GateBracketSpec
from fitwright.spec.part_base import Printer
from fitwright.tolerances import TOLERANCES
from fitwright.units import format_length

OVER = TOLERANCES.overshoot_mm
SIDE = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
"""For what runs across the blade: right = z, inward = x, up = y."""
ON_ITS_SIDE = (Pose("the nut's slot up", (-1.0, 0.0, 0.0)),)
"""Layers then lie along the pull, the blade's slot and the nut's stand upright, no roof is wider than a screw hole."""


def coupling_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The coupling, and what belongs to it; alongside it is bolted to the bridge."""
    shift = coupling_shift_mm(plan)
    _clear_of_body(plan, spec, shift)
    if plan.coupling.jaw is not None:
        lower = moved(lower_piece(plan.coupling, plan.coupling.jaw, spec), shift)
        upper = moved(plate_piece(plan.coupling, plan.coupling.jaw, spec), shift)
        both = ((lower, LYING), (upper, UPSIDE_DOWN))
        return tuple(body_of(piece, spec.wall_mm, poses, moving=True) for piece, poses in both)
    piece = moved(coupling_piece(plan.coupling, spec), shift)
    return (body_of(piece, spec.wall_mm, ON_ITS_SIDE, moving=True),)


def coupling_shift_mm(plan: GatePlan) -> float:
    """From the position of the plan (shut as measured) to that of the model (shut as driven)."""
    return plan.ends.blade_shut_mm - plan.coupling.edge_y


def _clear_of_body(plan: GatePlan, spec: GateBracketSpec, shift: float) -> None:
    """Refuses a blade that is driven so far in that the coupling meets the gate's body."""
    tip = plan.coupling.tip_y + shift
    if tip < TIP_CLEAR_MM - 1e-6:
        over, may = format_length(-shift, spec.units), at_most(plan.coupling.tip_y - TIP_CLEAR_MM, spec.units)
        why = "the coupling would meet the gate's body when the blade is driven beyond shut"
        raise RefusalError("stop", f"over_shut by {over}", f"over_shut by {may}, or sleeve", why)


def moved(piece: Piece, along_mm: float) -> Piece:
    """A piece shifted along y with all that was declared of it."""
    if abs(along_mm) < 1e-12:
        return piece
    by = Vector(0.0, along_mm, 0.0)
    features = tuple(Feature(f.name, f.kind, f.tool.translate(by)) for f in piece.features)
    holes = tuple(replace(h, start=(h.start[0], h.start[1] + along_mm, h.start[2])) for h in piece.holes)
    return replace(piece, solid=piece.solid.translate(by), features=features, holes=holes)


def coupling_piece(plan: CouplingPlan, spec: GateBracketSpec) -> Piece:
    """Fork, web and box, where the plan has them: a stepped bar, cut by slots and holes."""
    blank, volume = _blank(plan)
    cuts = [*_blade_slot(plan, spec.printer), _pin_slot(plan, spec.printer)]
    cuts += nut_cuts(plan, spec.printer, ALONG, plan.wide_mm / 2)
    solid = cut(blank, [tool for _, tool, _ in cuts], "coupling")
    return Piece(
        name="coupling",
        solid=solid,
        genus=3,  # the pin's slot through either jaw, the rod's bore into the nut's pocket
        volume_mm3=volume - math.fsum(taken for _, _, taken in cuts),
        features=tuple(Feature(name, "cut", tool) for name, tool, _ in cuts),
        holes=rod_hole(plan, spec.printer),
    )


def _blank(plan: CouplingPlan) -> tuple[Solid, float]:
    """The fork's height up to the step, then at 45 deg or steeper to the box's."""
    fork, high, wide = plan.fork_mm / 2, plan.box_mm / 2, plan.wide_mm
    run = min(high - fork, plan.nut_y0 - STEP_MM - plan.step_y)
    lower = [(-fork, plan.tip_y), (-high, plan.back_y)]
    if high - fork > 1e-6:
        slope = [(-fork, plan.step_y), (-high, plan.step_y + run)]
        lower[1:1] = slope
    outline = lower + [(-z, y) for z, y in reversed(lower)]
    area = 2 * (fork * (plan.step_y - plan.tip_y) + run * (fork + high) / 2 + high * (plan.back_y - plan.step_y - run))
    return prism(outline, SIDE, -wide / 2, wide / 2), area * wide


def _half_slot(plan: CouplingPlan, printer: Printer) -> float:
    return modelled(plan.slot_mm, "hole", printer) / 2


def _blade_slot(plan: CouplingPlan, printer: Printer) -> list[Cut]:
    """The slot, opening by TILT_DEG a side from behind the pin to the tip; its floor is set back beside the pad."""
    half, tilt, wide = _half_slot(plan, printer), math.tan(math.radians(TILT_DEG)), plan.wide_mm
    far = plan.flare_y - plan.tip_y
    open_half, beyond = half + far * tilt, half + (far + OVER) * tilt
    right = [(half, plan.floor_y), (half, plan.flare_y), (beyond, plan.tip_y - OVER)]
    slot = prism(right + [(-z, y) for z, y in reversed(right)], SIDE, -wide / 2 - OVER, wide / 2 + OVER)
    area = 2 * half * (plan.floor_y - plan.flare_y) + far * (half + open_half)
    cuts = [("blade slot", slot, area * wide)]
    deep, beside = pad_relief_mm(wide), wide / 2 - PAD_MM
    for name, sign in (("left", -1.0), ("right", 1.0)):
        x = sorted((sign * PAD_MM, sign * (wide / 2 + OVER)))
        tool = box((x[0], x[1]), (plan.floor_y - OVER, plan.floor_y + deep), (-half, half))
        cuts.append((f"floor set back {name}", tool, beside * deep * 2 * half))
    return cuts


def _pin_slot(plan: CouplingPlan, printer: Printer) -> Cut:
    """Square through both jaws, long across the blade. It lies in the flare: its middle counts (centroid of a plane).

    Its side towards the tip is where the plan has it: it pulls.
    """
    r, a = modelled(plan.pin_slot_mm, "hole", printer) / 2, ACROSS_MM / 2
    y, high = plan.pin_slot_y, plan.fork_mm / 2
    sides = (
        ((-a, r - y), None, (a, r - y)),
        ((a, r - y), (a + r, -y), (a, -r - y)),
        ((a, -r - y), None, (-a, -r - y)),
        ((-a, -r - y), (-a - r, -y), (-a, r - y)),
    )
    tool = outline_prism(sides, UPRIGHT, -high - OVER, high + OVER)
    slot = 2 * (_half_slot(plan, printer) + (plan.flare_y - y) * math.tan(math.radians(TILT_DEG)))
    return "pin slot", tool, (math.pi * r**2 + 4 * r * a) * (2 * high - slot)
