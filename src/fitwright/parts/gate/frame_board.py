"""Gate foot and nose foot on a bought board."""

from __future__ import annotations

from fitwright.part import Body, Pose
from fitwright.parts.gate.board_gate_foot import gate_foot_piece
from fitwright.parts.gate.board_nose_foot import nose_foot_piece
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.piece import body_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke import POSES
from fitwright.spec.models import GateBracketSpec

STANDING = (Pose("standing on its foot", (0.0, 0.0, -1.0)),)


def board_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """Gate foot and nose foot.

    RefusalError where something on the gate leaves no room, the board's screws could not hold the thrust, or
    no board is stiff enough.
    """
    board = settled_board(plan, spec)
    return (
        body_of(gate_foot_piece(board.gate, spec), spec.wall_mm, POSES),
        body_of(nose_foot_piece(board.nose, plan, spec), spec.wall_mm, STANDING),
    )
