"""The guard in numbers: two slotted plates, above and below, over everything between yoke and nose plate.

They rest on the rails, or by side walls on the rods, lap over yoke and nose plate by more than the setting, and cable
ties outside the rails draw them together: no tool goes on the moving side, and they are off again in a minute.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.parts.gate.blocks import Block, Span
from fitwright.parts.gate.frame_plan import fits_bed
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_strength import yoke_plan
from fitwright.physics.slide.gaps import TIP_MM
from fitwright.spec.models import GateBracketSpec

LAP_MM = 8.0
"""Over the yoke's plate."""
OVER_MM = 0.5
"""Between the guard and what it lies over."""
ABOVE_COUPLING_MM = 2.0
SLOT_MM, BAR_MM, SLOT_LONG_MM, BETWEEN_MM = 3.6, 4.4, 45.0, 6.0
"""Slots narrower than a finger's tip let dust through and show what moves; bars between them."""
RIM_MM = 8.0
SIDE_MM, ON_ROD_MM, OFF_NUT_MM = 3.0, 0.3, 4.0
TIE_MM = (5.4, 2.2)
"""A cable tie of 4.8 mm goes through (common practice, no source)."""
TIE_OFF_MM, TIE_EDGE_MM = 1.5, 3.0
END_WALL_MM = 2.5
PLATE_MM = 3.0
"""A plate at least so thick bears a hand at its middle: 50 N half-way between the rods."""
MOST_PIECES, APART_MM = 4, 0.4
"""Where the bed is too short for a guard in one; between its pieces."""


@dataclass(frozen=True)
class GuardPlan:
    """The upper plate, all in mm as printed; the lower one is its mirror image about z = 0.

    `walls`: side walls on the rods and end walls. `slots`, `ties`: cut through the plate.
    """

    plate: Block
    walls: tuple[Block, ...]
    slots: tuple[Block, ...]
    ties: tuple[Block, ...]


def guard_pieces(plan: GatePlan, spec: GateBracketSpec) -> tuple[GuardPlan, ...]:
    """The upper plate whole where it fits the bed, else in two to four pieces one behind the other, each with its ties.

    Whole where it fits in no number of pieces: the yoke, as wide as it, does not fit either.
    """
    whole = guard_plan(plan, spec)
    (x0, x1), (y0, y1), _ = whole.plate.spans
    for count in range(1, MOST_PIECES + 1):
        long = (y1 - y0) / count
        if fits_bed([(x0, 0.0), (x1, 0.0), (x1, long), (x0, long)], spec.printer.bed_x_mm, spec.printer.bed_y_mm):
            ends = [(y0 + k * long, y0 + (k + 1) * long) for k in range(count)]
            return (whole,) if count == 1 else tuple(_piece_of(whole, plan, end) for end in ends)
    return (whole,)


def _piece_of(whole: GuardPlan, plan: GatePlan, y: Span) -> GuardPlan:
    """What lies between two places along the rod, less the joint; slots and ties of its own."""
    (first, last), apart = whole.plate.y, APART_MM / 2
    y = (y[0] + (apart if y[0] > first + 1.0 else 0.0), y[1] - (apart if y[1] < last - 1.0 else 0.0))
    kept = [replace(wall, y=(max(wall.y[0], y[0]), min(wall.y[1], y[1]))) for wall in whole.walls]
    slotted = (y[0] + RIM_MM + LAP_MM * (y[0] == first), y[1] - RIM_MM - LAP_MM * (y[1] == last))
    return GuardPlan(
        replace(whole.plate, y=y),
        tuple(wall for wall in kept if wall.y[1] - wall.y[0] >= END_WALL_MM),
        _slots(plan.frame.rail_x - RIM_MM, slotted, whole.plate.z),
        _ties(_beside(plan), y, whole.plate.z),
    )


def _beside(plan: GatePlan) -> float:
    """The rails' or rods' outer side."""
    frame = plan.frame
    return frame.rail_x + (frame.rod_d_mm / 2 if frame.kind == "rods" else frame.rail_wide / 2)


def guard_plan(plan: GatePlan, spec: GateBracketSpec) -> GuardPlan:
    """The numbers for rods or one piece, in line: the upper plate in one."""
    frame, rods = plan.frame, plan.frame.kind == "rods"
    yoke = yoke_plan(plan, spec, rods).top_mm
    nose = frame.nose_high / 2
    if not rods:
        yoke = nose = max(yoke, nose, frame.yoke_high / 2)
    low = max(yoke, nose, plan.coupling.high_mm / 2 + ABOVE_COUPLING_MM) + OVER_MM
    half = _beside(plan) + TIE_OFF_MM + TIE_MM[1] + TIE_EDGE_MM
    y = (frame.yoke_y1 - LAP_MM, _far_y(plan, spec))
    plate = Block((-half, half), y, (low, low + max(spec.wall_mm, PLATE_MM)))
    walls = (*(_side_walls(plan, low) if rods else ()), *_end_walls(plan, y[1], yoke, nose, low))
    slotted = (y[0] + LAP_MM + RIM_MM, y[1] - LAP_MM - RIM_MM)
    slots = _slots(frame.rail_x - RIM_MM, slotted, plate.z)
    return GuardPlan(plate, walls, slots, _ties(_beside(plan), y, plate.z))


def _far_y(plan: GatePlan, spec: GateBracketSpec) -> float:
    """So far over the nose plate that it still laps over it when that is set furthest out."""
    face = plan.nose_face_mm
    return min(face, face - plan.frame.nose.deep + spec.setting_mm + LAP_MM)


def _side_walls(plan: GatePlan, low: float) -> tuple[Block, ...]:
    """From the plate down onto each rod, clear of the nuts at both ends wherever the setting leaves them."""
    frame = plan.frame
    nut = frame.rod_nut_m_mm + OFF_NUT_MM + 2.0
    y = (frame.yoke_y1 + nut, plan.nose_face_mm - frame.nose.deep - nut - 5.0)
    if y[1] - y[0] < 10.0:
        return ()
    z = (frame.rod_d_mm / 2 + ON_ROD_MM, low + 0.5)
    return tuple(Block((x - SIDE_MM / 2, x + SIDE_MM / 2), y, z) for x in (-frame.rail_x, frame.rail_x))


def _end_walls(plan: GatePlan, far_y: float, yoke: float, nose: float, low: float) -> tuple[Block, ...]:
    """Where the plate stands more than a finger's tip above what it laps over."""
    frame, found = plan.frame, []
    x = (-(frame.rail_x - RIM_MM / 2), frame.rail_x - RIM_MM / 2)
    if low - yoke > TIP_MM:
        y0 = frame.yoke_y1 - LAP_MM
        found.append(Block(x, (y0, y0 + END_WALL_MM), (yoke + OVER_MM, low + 0.5)))
    if low - nose > TIP_MM:
        found.append(Block(x, (far_y - END_WALL_MM, far_y), (nose + OVER_MM, low + 0.5)))
    return tuple(found)


def _slots(half: float, y: Span, z: Span) -> tuple[Block, ...]:
    """Rows of slots along y."""
    y0, y1 = y
    if y1 - y0 < 10.0:
        return ()
    across = int((2 * half + BAR_MM) // (SLOT_MM + BAR_MM))
    rows = max(1, math.ceil((y1 - y0 + BETWEEN_MM) / (SLOT_LONG_MM + BETWEEN_MM)))
    long = (y1 - y0 + BETWEEN_MM) / rows - BETWEEN_MM
    first = -(across * (SLOT_MM + BAR_MM) - BAR_MM) / 2
    found = []
    for i in range(across):
        x0 = first + i * (SLOT_MM + BAR_MM)
        for k in range(rows):
            start = y0 + k * (long + BETWEEN_MM)
            found.append(Block((x0, x0 + SLOT_MM), (start, start + long), z))
    return tuple(found)


def _ties(beside: float, y: Span, z: Span) -> tuple[Block, ...]:
    """Two slots outside each rail, near both ends."""
    off = min(LAP_MM + 20.0, (y[1] - y[0]) / 4)
    found = []
    for side in (-1.0, 1.0):
        x = sorted((side * (beside + TIE_OFF_MM), side * (beside + TIE_OFF_MM + TIE_MM[1])))
        for middle in (y[0] + off, y[1] - off):
            found.append(Block((x[0], x[1]), (middle - TIE_MM[0] / 2, middle + TIE_MM[0] / 2), z))
    return tuple(found)
