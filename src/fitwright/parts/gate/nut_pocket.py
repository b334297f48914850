"""The rod's end in the coupling: a pocket that its nut drops into and cannot turn in, and the bore for the rod."""

from __future__ import annotations

import math

from cadquery import Solid

from fitwright.frame import Frame
from fitwright.part import HoleFit
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.shapes.solids import bar, fused, prism
from fitwright.spec.part_base import Printer
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm
WIDEST_ROOF_MM = 10.0
ROUND_ROOF = math.sqrt(0.5)
"""A lying hole's roof, where it is flatter than 45 deg, in diameters."""

Cut = tuple[str, Solid, float]
"""What it is called, its tool, the volume it takes [mm3]."""


def nut_cuts(plan: CouplingPlan, printer: Printer, frame: Frame, reach_mm: float) -> list[Cut]:
    """The nut's pocket, open towards the frame's right (`reach_mm` from its axis), and the rod's bore to the back.

    The pocket's floor is two of the nut's flats: the nut falls to the rod's axis, and cannot turn.
    """
    af = modelled(plan.pocket_af_mm, "hole", printer)
    corner, deep = af / math.sqrt(3.0), plan.nut_y1 - plan.nut_y0
    far = reach_mm + OVER
    outline = [(-corner, 0.0), (-corner / 2, -af / 2), (far, -af / 2), (far, af / 2), (-corner / 2, af / 2)]
    pocket = prism(outline, frame, plan.nut_y0, plan.nut_y1)
    cuts = [("nut pocket", pocket, (af * corner / 4 + af * (reach_mm + corner / 2)) * deep)]
    d = small_hole(plan.rod_hole_mm, printer)
    start = frame.point(0.0, plan.nut_y1 - OVER, 0.0)
    bore = bar(start, frame.inward, d / 2, plan.wall_mm + 2 * OVER)
    area = math.pi * d**2 / 4
    if teardrop(d):
        r = d / 2 * ROUND_ROOF
        roof = [(0.0, 0.0), (r, -r), (2 * r, 0.0), (r, r)]
        bore = fused([bore, prism(roof, frame, plan.nut_y1 - OVER, plan.back_y + OVER)], "rod bore")
        area += d**2 / 4 * (1 - math.pi / 4)
    return [*cuts, ("rod bore", bore, area * plan.wall_mm)]


def teardrop(d_mm: float) -> bool:
    """Whether a lying hole is so large that its roof would sag: it gets a roof of 45 deg."""
    return ROUND_ROOF * d_mm > WIDEST_ROOF_MM


def rod_hole(plan: CouplingPlan, printer: Printer) -> tuple[HoleFit, ...]:
    """The bore as a size to be found on the mesh; none where it is no round (its features tell then)."""
    d = small_hole(plan.rod_hole_mm, printer)
    if teardrop(d):
        return ()
    start = (0.0, plan.nut_y1, 0.0)
    return (HoleFit("rod bore", start, (0.0, 1.0, 0.0), plan.wall_mm, d, "cylinder.rod_thread"),)
