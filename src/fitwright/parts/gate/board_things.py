"""Stand-ins of a bracket on a board: the board, drilled, and the wood screws of a second support."""

from __future__ import annotations

from collections.abc import Iterator

from cadquery import Shape, Solid

from fitwright.data.fasteners import fastener
from fitwright.part import StandIn
from fitwright.parts.gate.board_plan import (
    COACH_DRILL_MM,
    DRILL_MM,
    BoardPlan,
)
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.piece import box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_shapes import along_z, tube
from fitwright.parts.gate.support_plan import WASHER_OF, WING_MM, SupportPlan, support_plan
from fitwright.shapes.solids import bar, cut, cylinder, fused
from fitwright.spec.models import GateBracketSpec

SEAT_MM = 1.0
"""The feet stand on the board: so much of its top is their seat."""


def board_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """The board where there is one; the wood screws of a second support. Other screws: see `stand_in_frame`."""
    support = support_plan(plan, spec)
    if plan.frame.kind == "board" and spec.layout == "in_line":
        board = settled_board(plan, spec)
        yield StandIn("board", board_solid(board), "board", _seat(board))
    if support is not None:
        below = "board" if support.on_board else "support"
        for name, side in (("left", -1.0), ("right", 1.0)):
            yield StandIn(f"support screw {name}", _wood_screw(side, support), below, None)


def board_solid(board: BoardPlan) -> Solid:
    """Sawn and drilled."""
    half, low = board.wide_mm / 2, board.top_z - board.thick_mm
    plate = box((-half, half), (board.near_y, board.far_y), (low, board.top_z))
    drilled = [(x, y, DRILL_MM) for x, y in board.gate_holes] + [(x, y, COACH_DRILL_MM) for x, y in board.nose_holes]
    tools = [bar((x, y, low - 1.0), (0.0, 0.0, 1.0), d / 2, board.thick_mm + 2.0) for x, y, d in drilled]
    return cut(plate, tools, "board")


def _seat(board: BoardPlan) -> Shape:
    half, z = board.wide_mm / 2 + 1.0, (board.top_z - SEAT_MM, board.top_z + SEAT_MM)
    return box((-half, half), (board.near_y - 1.0, board.far_y + 1.0), z)


def _wood_screw(side: float, at: SupportPlan) -> Solid:
    """From above, a washer under its head."""
    row, washer = at.screw, fastener(WASHER_OF)
    top = at.foot_z + WING_MM
    axis, high = along_z(at.axis_x + side * at.bolt_x, at.middle_y, top, -1.0), washer.washer_h_mm or 0.0
    head = row.head_k_mm or 0.6 * row.major_mm
    pieces = [
        cylinder(axis, row.head_d_mm / 2, -high - head, -high),
        cylinder(axis, row.major_mm / 2, -high, at.screw_long_mm - high),
        tube(axis, washer.washer_d2_mm or row.head_d_mm, row.major_mm, -high, 0.0),
    ]
    return fused(pieces, "wood screw")
