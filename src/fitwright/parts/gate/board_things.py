"""Stand-ins of a bracket on a board: the board with its holes, its screws and coach bolts, the support's wood screws."""

from __future__ import annotations

from collections.abc import Iterator

from cadquery import Shape, Solid

from fitwright.data.fasteners import fastener
from fitwright.part import StandIn
from fitwright.parts.gate.board_gate_foot import screw_name
from fitwright.parts.gate.board_nose_foot import bolt_names
from fitwright.parts.gate.board_plan import (
    BIG_WASHER_HIGH_MM,
    BIG_WASHER_MM,
    COACH_DRILL_MM,
    COACH_HEAD_D_MM,
    COACH_HEAD_K_MM,
    DRILL_MM,
    BoardPlan,
)
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.fastening_board import board_screw_mm, coach_bolt_mm
from fitwright.parts.gate.piece import box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_shapes import along_z, corners_mm, nut, tube
from fitwright.parts.gate.support_plan import WASHER_OF, WING_MM, SupportPlan, support_plan
from fitwright.shapes.solids import bar, cut, cylinder, fused
from fitwright.spec.models import GateBracketSpec

SEAT_MM = 1.0
"""The feet stand on the board: so much of its top is their seat."""


def board_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """The board and its screws where there is one; the screws of a second support."""
    support = support_plan(plan, spec)
    if plan.frame.kind == "board" and spec.layout == "in_line":
        board = settled_board(plan, spec)
        yield StandIn("board", board_solid(board), "board", _seat(board))
        for k, (x, y) in enumerate(board.gate_holes):
            yield StandIn(screw_name(k), _screw(x, y, board, spec), "board", None)
        for name, (x, y) in zip(bolt_names(), board.nose_holes, strict=True):
            yield StandIn(f"board {name}", _coach_bolt(x, y, board, spec), "board", None)
    if support is not None:
        for name, side in (("left", -1.0), ("right", 1.0)):
            yield StandIn(f"support screw {name}", _wood_screw(side, support), "support", _sunk(side, support))


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


def _screw(x: float, y: float, board: BoardPlan, spec: GateBracketSpec) -> Solid:
    """From below, a washer under its head; its nut in the leg's pocket, drawn as wide as its flats."""
    row, low = board.screw, board.top_z - board.thick_mm
    axis, high = along_z(x, y, low), row.washer_h_mm or 0.0
    af, m = row.nut_af_mm or 2 * row.major_mm, row.nut_m_mm or row.major_mm
    pieces = [
        cylinder(axis, row.head_d_mm / 2, -high - (row.head_k_mm or row.major_mm), -high),
        cylinder(axis, row.major_mm / 2, -high, board_screw_mm(board) - high),
        tube(axis, row.washer_d2_mm or 2 * row.major_mm, row.major_mm, -high, 0.0),
        tube(axis, af, row.major_mm, board.grip_mm, board.grip_mm + m),
    ]
    return fused(pieces, "board screw")


def _coach_bolt(x: float, y: float, board: BoardPlan, spec: GateBracketSpec) -> Solid:
    """From below, its head on the board; large washer and nut on the nose foot's wing."""
    row, low = board.screw, board.top_z - board.thick_mm
    axis, grip = along_z(x, y, low), board.grip_mm
    corners = corners_mm(row.nut_af_mm or 2 * row.major_mm)
    pieces = [
        cylinder(axis, COACH_HEAD_D_MM / 2, -COACH_HEAD_K_MM, 0.0),
        cylinder(axis, row.major_mm / 2, 0.0, coach_bolt_mm(board)),
        tube(axis, BIG_WASHER_MM, row.major_mm, grip, grip + BIG_WASHER_HIGH_MM),
        nut(axis, corners, row.major_mm - 0.2, grip + BIG_WASHER_HIGH_MM, row.nut_m_mm or row.major_mm),
    ]
    return fused(pieces, "coach bolt")


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


def _sunk(side: float, at: SupportPlan) -> Shape:
    """What goes into the wood."""
    x, r = at.axis_x + side * at.bolt_x, at.screw.major_mm
    return box((x - r, x + r), (at.middle_y - r, at.middle_y + r), (at.foot_z - at.screw_long_mm, at.foot_z))
