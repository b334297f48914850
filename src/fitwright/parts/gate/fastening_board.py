"""Screw joints of a bracket on a board and of a second support, and what is bought for them."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.fasteners import fastener
from fitwright.part import Bought, Fastening, Pocket, Turned
from fitwright.parts.gate.board_gate_foot import screw_name
from fitwright.parts.gate.board_nose_foot import bolt_names
from fitwright.parts.gate.board_plan import (
    BIG_WASHER_HIGH_MM,
    BIG_WASHER_MM,
    COACH_HEAD_D_MM,
    BoardPlan,
)
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.fastening_yoke import thread_of
from fitwright.parts.gate.lengths import needed_mm, sold_mm
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.support_plan import WASHER_OF, WING_MM, SupportPlan, support_plan
from fitwright.spec.models import GateBracketSpec

KEY = "board.thickness"


def board_fastenings(plan: GatePlan, spec: GateBracketSpec) -> tuple[Fastening, ...]:
    """Of the board where there is one, and of a second support."""
    found = list(_board(settled_board(plan, spec))) if _on_board(plan, spec) else []
    support = support_plan(plan, spec)
    return (*found, *(_support(support, spec) if support is not None else ()))


def board_bought(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bought]:
    """The board cut to size, its screws; the wood screws of a second support."""
    if _on_board(plan, spec):
        board = settled_board(plan, spec)
        screw = board.screw.name
        bolts, screws = len(board.nose_holes), len(board.gate_holes)
        what = f"board of {spec.board_material}, {board.thick_mm:g} mm thick, {board.wide_mm:g} mm wide"
        yield Bought(1, what, board.long_mm, cut=True, note="drilled by the paper template")
        yield Bought(screws, f"screw {screw}", board_screw_mm(board), note="gate foot, from below through the board")
        yield Bought(bolts, f"coach bolt {screw}", coach_bolt_mm(board), note="nose foot, from below through the board")
        yield Bought(screws + bolts, f"nut {screw}")
        yield Bought(screws, f"washer {screw}")
        yield Bought(bolts, f"large washer {screw}, {BIG_WASHER_MM:g} mm across", note="over the nose foot's slots")
    support = support_plan(plan, spec)
    if support is not None:
        note = "second support" if support.on_board else "second support; into wood, else what the surface takes"
        size = f"{support.screw.major_mm:g} x {support.screw_long_mm:g}"
        yield Bought(2, f"wood screw {size}, pan head", note=note)
        yield Bought(2, f"washer {WASHER_OF}")
        yield Bought(1, "cable tie, up to 7.6 mm wide", note="round cylinder and second support")


def board_screw_mm(board: BoardPlan) -> float:
    """Length of the gate foot's screws: board, print, washer, a full nut."""
    return sold_mm(board.screw, needed_mm(board.screw, board.grip_mm, washers=1), KEY)


def coach_bolt_mm(board: BoardPlan) -> float:
    """Length of the nose foot's coach bolts: board, wing, large washer, a full nut."""
    return sold_mm(board.screw, needed_mm(board.screw, board.grip_mm, washers=0) + BIG_WASHER_HIGH_MM, KEY)


def _on_board(plan: GatePlan, spec: GateBracketSpec) -> bool:
    return plan.frame.kind == "board" and spec.layout == "in_line"


def _board(board: BoardPlan) -> Iterator[Fastening]:
    row, low = board.screw, board.top_z - board.thick_mm
    for k, (x, y) in enumerate(board.gate.screws):
        side = 1.0 if x > 0 else -1.0
        yield Fastening(
            name=screw_name(board.gate, k),
            size=row.name,
            d_mm=row.major_mm,
            head=(x, y, low),
            direction=(0.0, 0.0, 1.0),
            grip_mm=board.thick_mm + board.gate.floor_z - board.gate.bottom_z,
            through=("board", "gate_foot"),
            key=KEY,
            long_mm=board_screw_mm(board),
            pocket=Pocket("gate_foot", (-side, 0.0, 0.0)),
            **{**thread_of(row), "washers": 1},
        )
    af = row.nut_af_mm or 2 * row.major_mm
    for name, (x, y) in zip(bolt_names(), board.nose.bolts, strict=True):
        large = {"washers": 1, "washer_d_mm": BIG_WASHER_MM, "washer_h_mm": BIG_WASHER_HIGH_MM}
        yield Fastening(
            name=name,
            size=row.name,
            d_mm=row.major_mm,
            head=(x, y, low),
            direction=(0.0, 0.0, 1.0),
            grip_mm=board.grip_mm,
            through=("board", "nose_foot"),
            key="setting",
            long_mm=coach_bolt_mm(board),
            slotted=board.nose.slot_mm > 0.0,
            turned=(Turned(af, board.grip_mm + BIG_WASHER_HIGH_MM, 1.0, f"{row.name} nut on the nose foot"),),
            **{**thread_of(row), **large, "head_d_mm": COACH_HEAD_D_MM},
        )


def _support(at: SupportPlan, spec: GateBracketSpec) -> Iterator[Fastening]:
    washer = fastener(WASHER_OF)
    for name, side in (("left", -1.0), ("right", 1.0)):
        yield Fastening(
            name=f"support screw {name}",
            size=at.screw.name,
            d_mm=at.screw.major_mm,
            head=(at.axis_x + side * at.bolt_x, at.middle_y, at.foot_z + WING_MM),
            direction=(0.0, 0.0, -1.0),
            grip_mm=WING_MM,
            through=("support",),
            key="support",
            long_mm=at.screw_long_mm,
            deep_mm=spec.board_thick_mm - 1.0 if at.on_board else at.screw_long_mm,
            thread_into="the board" if at.on_board else "what the support stands on",
            washers=1,
            washer_d_mm=washer.washer_d2_mm or at.screw.head_d_mm,
            washer_h_mm=washer.washer_h_mm or 0.0,
            head_d_mm=at.screw.head_d_mm - 0.5,
        )
