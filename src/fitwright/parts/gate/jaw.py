"""A blade without a hole: the coupling with a lower jaw, and the jaw plate that is screwed down on the blade."""

from __future__ import annotations

import math

from cadquery import Solid

from fitwright.frame import Frame
from fitwright.part import Feature, HoleFit, Pose
from fitwright.parts.compensation import small_hole
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.parts.gate.jaw_plan import BITE_MM, CLEAR_MM, HEEL_MM, JawPlan
from fitwright.parts.gate.nut_pocket import nut_cuts, rod_hole
from fitwright.parts.gate.piece import Piece, box
from fitwright.shapes.solids import bar, cut, fused
from fitwright.spec.models import GateBracketSpec
from fitwright.spec.part_base import Printer
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm
FROM_ABOVE = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
"""The nut's pocket is open upwards: right = z, inward = y."""
LYING = (Pose("lying flat", (0.0, 0.0, -1.0)),)
UPSIDE_DOWN = (Pose("the blade's side up", (0.0, 0.0, 1.0)),)


def lower_piece(plan: CouplingPlan, jaw: JawPlan, spec: GateBracketSpec) -> Piece:
    """The lower jaw, a lug with a heel's ledge on either side, between them the box round the rod's nut."""
    half, edge = spec.gate.blade.thickness_mm / 2, plan.edge_y
    outer, inner, low = jaw.wide_mm / 2, jaw.box_wide_mm / 2, jaw.low_mm
    ledge = half - BITE_MM
    floor, lug = ledge - CLEAR_MM, outer - inner
    solids = [
        box((-outer, outer), (jaw.tip_y, edge), (-low, -half)),
        box((-inner, inner), (edge, plan.back_y), (-low, jaw.box_top_mm)),
    ]
    for x in ((-outer, -inner), (inner, outer)):
        solids.append(box(x, (edge, jaw.heel_y), (-low, floor)))
        solids.append(box(x, (jaw.heel_y - HEEL_MM, jaw.heel_y), (floor, ledge)))
    volume = jaw.wide_mm * (edge - jaw.tip_y) * (low - half)
    volume += jaw.box_wide_mm * (plan.back_y - edge) * (low + jaw.box_top_mm)
    volume += 2 * lug * ((jaw.heel_y - edge) * (low + floor) + HEEL_MM * CLEAR_MM)
    cuts = nut_cuts(plan, spec.printer, FROM_ABOVE, jaw.box_top_mm)
    screws, holes, taken = _screw_holes(jaw, spec.printer, -low, floor)
    solid = cut(fused(solids, "coupling"), [tool for _, tool, _ in cuts] + [f.tool for f in screws], "coupling")
    return Piece(
        name="coupling",
        solid=solid,
        genus=3,  # two screws, the rod's bore into the nut's pocket
        volume_mm3=volume - taken - math.fsum(gone for _, _, gone in cuts),
        features=(*(Feature(name, "cut", tool) for name, tool, _ in cuts), *screws),
        holes=(*rod_hole(plan, spec.printer), *holes),
    )


def plate_piece(plan: CouplingPlan, jaw: JawPlan, spec: GateBracketSpec) -> Piece:
    """The upper jaw: a bar on the blade, and a lug beside the box on either side, its heel on the coupling's ledge."""
    half, edge = spec.gate.blade.thickness_mm / 2, plan.edge_y - CLEAR_MM
    outer, inner, top = jaw.wide_mm / 2, jaw.box_wide_mm / 2 + CLEAR_MM, half + jaw.thick_mm
    solids = [box((-outer, outer), (jaw.tip_y, edge), (half, top))]
    solids += [box(x, (edge, jaw.heel_y), (half, top)) for x in ((-outer, -inner), (inner, outer))]
    screws, holes, taken = _screw_holes(jaw, spec.printer, half, top)
    area = jaw.wide_mm * (edge - jaw.tip_y) + 2 * (outer - inner) * (jaw.heel_y - edge)
    return Piece(
        name="jaw",
        solid=cut(fused(solids, "jaw"), [f.tool for f in screws], "jaw"),
        genus=2,
        volume_mm3=area * jaw.thick_mm - taken,
        features=screws,
        holes=holes,
    )


def _screw_holes(
    jaw: JawPlan, printer: Printer, z0: float, z1: float
) -> tuple[tuple[Feature, ...], tuple[HoleFit, ...], float]:
    """Both clearance holes from z0 to z1, as cuts and as sizes, and the volume that they take."""
    d = small_hole(jaw.hole_mm, printer)
    features: list[Feature] = []
    holes: list[HoleFit] = []
    for side, x in (("left", -jaw.screw_x), ("right", jaw.screw_x)):
        tool: Solid = bar((x, jaw.screw_y, z0 - OVER), (0.0, 0.0, 1.0), d / 2, z1 - z0 + 2 * OVER)
        features.append(Feature(f"jaw screw hole {side}", "cut", tool))
        start = (x, jaw.screw_y, z0)
        holes.append(HoleFit(f"jaw screw hole {side}", start, (0.0, 0.0, 1.0), z1 - z0, d, "gate.blade.hole"))
    return tuple(features), tuple(holes), 2 * math.pi * d**2 / 4 * (z1 - z0)
