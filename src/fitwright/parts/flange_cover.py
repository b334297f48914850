"""A flange that covers a bought hole: its size, what is declared to the check, its try-piece, the report's words."""

from __future__ import annotations

from cadquery import Shape

from fitwright.frame import Frame
from fitwright.part import Cover
from fitwright.parts.compensation import placed
from fitwright.parts.ends import PlacedEnd
from fitwright.shapes.flange import FlangeSizes
from fitwright.shapes.solids import cylinder, ring
from fitwright.spec.models import AdapterSpec, Flange
from fitwright.units import format_length

SHOWN_MM = 4.0
"""The try-piece's rim shows this much of what is covered."""


def cover_of(end: PlacedEnd) -> Cover | None:
    """What this end must cover, for the check on the finished part."""
    joint, key = end.plan.end.joint, end.plan.key
    if not isinstance(joint, Flange) or joint.covers is None:
        return None
    larger = placed(1.0, end.plan.printer)  # the plate is measured as it is modelled
    covered, margin = joint.covers.mapped(larger), larger * joint.margin_mm
    return Cover(f"{end.plan.name} flange", end.frame, covered, margin, f"{key}.flange.covers")


def rim_tool(sizes: FlangeSizes, joint: Flange, frame: Frame, thick_mm: float) -> Shape:
    """For the try-print: the plate's rim, from a little inside what is covered outwards, bolt holes and all."""
    assert joint.covers is not None
    far = 2 * max(joint.covers.reach_mm, sizes.round_d, sizes.width, sizes.height) + 50.0
    far = max(far, 2 * sizes.outline.reach_mm) if sizes.outline else far
    inside = joint.covers.inside_by_mm((0.0, 0.0)) - SHOWN_MM
    if inside <= sizes.opening_d / 2 + SHOWN_MM:
        return cylinder(frame, far, -0.1, thick_mm)
    return ring([(-0.1, inside), (-0.1, far), (thick_mm, far), (thick_mm, inside)], frame)


def blank_words(joint: Flange, spec: AdapterSpec) -> str:
    """How a flange without bolts is held and sealed."""
    margin = format_length(joint.margin_mm, spec.units)
    rim = f"its rim overlaps the hole by {margin} or more all round"
    seal = "the foam cord in its groove seals it when it is pressed on" if joint.gasket_cord_mm else "that seals it too"
    return f"no bolts: glue, tape or clamp it down ({rim}); {seal}"
