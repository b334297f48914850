"""The cut list: what is sawn and cut to length, what is drilled, what is bought."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from fitwright.part import Bought, Paper
from fitwright.parts.gate.blocks import Point
from fitwright.parts.gate.board_plan import COACH_DRILL_MM, DRILL_MM, BoardPlan
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.board_template import PILOT_MM
from fitwright.parts.gate.hardware import gate_hardware
from fitwright.parts.gate.lengths import length_words
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.sleeve import sleeve_sizes
from fitwright.parts.gate.support_plan import SupportPlan, support_plan
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

Section = tuple[str, tuple[str, ...]]


def cut_list(plan: GatePlan, spec: GateBracketSpec) -> Paper:
    """Everything that is not printed, in the order of the bench."""
    lines = gate_hardware(plan, spec)
    sections: list[Section] = [
        ("Saw and cut", tuple(_cuts(lines, plan, spec))),
        ("Drill", tuple(_drill(plan, spec))),
        ("Buy", tuple(_bought(one) for one in lines if one.needed and not one.cut)),
        ("There already", tuple(_bought(one) for one in lines if not one.needed)),
    ]
    return Paper("cut_list", f"Cut list: {spec.name}", tuple(one for one in sections if one[1]))


def _cuts(lines: tuple[Bought, ...], plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    for one in lines:
        if one.cut and one.long_mm is not None:
            note = f" ({one.note})" if one.note else ""
            yield f"[ ] {one.count} x {one.what}, cut to {length_words(one.long_mm, spec)}{note}. Break the edges."
    sizes = sleeve_sizes(plan, spec)
    if sizes is not None:
        yield (
            f"[ ] The printed sleeve, {length_words(sizes.long_mm, spec)} long, last of all: to the gap found (see the "
            "commissioning sheet). Saw it square and file it flat, or make up what it lacks with washers."
        )


def _drill(plan: GatePlan, spec: GateBracketSpec) -> Iterator[str]:
    if plan.frame.kind == "board" and spec.layout == "in_line":
        board, support = settled_board(plan, spec), support_plan(plan, spec)
        yield from _board(board, spec)
        if support is not None and support.on_board:
            yield _pilots(support, board, spec)
    if spec.gate.mount.kind == "screws":
        yield "Nothing in the gate: its own screw holes serve. Try the paper template on it before you print."


def _board(board: BoardPlan, spec: GateBracketSpec) -> Iterator[str]:
    yield (
        f"The board, by {spec.name}_template.pdf, printed at 100 % (measure its check bar) and taped down with its "
        "edges on the board's. Prick each centre, drill straight down with waste wood under it."
    )
    for points, d, what in (
        (board.gate_holes, DRILL_MM, f"{board.screw.name} screws"),
        (board.nose_holes, COACH_DRILL_MM, f"{board.screw.name} coach bolts (their square necks pull into the wood)"),
    ):
        yield f"[ ] {len(points)} holes {_drill_size(d, spec)} for {what}: {_from_edge(points, board)}."
    proud = (board.screw.head_k_mm or board.screw.major_mm) + (board.screw.washer_h_mm or 0.0)
    yield (
        f"Screw heads stand {proud:.1f} mm proud below. Where the board is to lie on something, put it on two battens."
    )


def _from_edge(points: tuple[Point, ...], board: BoardPlan) -> str:
    """`12.0 mm and 27.0 mm from the edge at the gate, 67.0 mm left and right of the middle`."""
    ys = sorted({round(y - board.near_y, 1) for _, y in points})
    x = max(x for x, _ in points)
    return (
        f"{' and '.join(f'{y:.1f} mm' for y in ys)} from the edge at the gate, {x:.1f} mm left and right of the middle"
    )


def _pilots(support: SupportPlan, board: BoardPlan, spec: GateBracketSpec) -> str:
    points = tuple((support.axis_x + side * support.bolt_x, support.middle_y) for side in (-1.0, 1.0))
    return (
        f"[ ] 2 pilots {_drill_size(PILOT_MM, spec)} for the support's wood screws, best through the support as "
        f"it lies under the cylinder: {_from_edge(points, board)}."
    )


def _as_sold(one: Bought, mm: float) -> str:
    """A metric screw's length is a size, and stays in millimetres; an inch screw's (`No. 8`) in inches."""
    last = one.what.split()[-1]
    if last.startswith("M"):
        return f"{mm:.0f}"
    return format_length(mm, "in") if one.what.startswith("screw ") else f"{mm:.1f} mm"


def _drill_size(d_mm: float, spec: GateBracketSpec) -> str:
    """`7 mm`, or the next drill of a 64th of an inch."""
    if spec.units == "mm":
        return f"{d_mm:g} mm"
    return f"{Fraction(math.ceil(d_mm / 25.4 * 64 - 0.05), 64)} in"


def _bought(one: Bought) -> str:
    long = "" if one.long_mm is None else f" x {_as_sold(one, one.long_mm)}"
    note = f" ({one.note})" if one.note else ""
    return f"{one.count} x {one.what}{long}{note}"
