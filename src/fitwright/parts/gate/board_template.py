"""1:1 paper templates: the board with its holes and where the feet stand; the gate's screws.

Drawn as seen from above (z), right = x, up = away from the gate (y). Pages may be turned, so words go by the arrows and
the holes' numbers, never by the page's edges.
"""

from __future__ import annotations

from fitwright.data.fasteners import fastener
from fitwright.drawing.face import Face, FaceHole, FaceLine
from fitwright.parts.gate.blocks import Point, Span
from fitwright.parts.gate.board_plan import COACH_DRILL_MM, DRILL_MM, BoardPlan
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.support_plan import SupportPlan, support_plan
from fitwright.spec.models import GateBracketSpec

PILOT_MM = 2.5
"""Pilot for a wood screw of 5 mm in plywood or MDF, half its diameter (common practice, no source)."""
ABOVE = "as you look down on it from above"
AWAY = "away"
BELOW = "as you look at it from below"


def board_face(plan: GatePlan, spec: GateBracketSpec) -> Face:
    """The board: outline, holes to drill, feet dashed; its middle is the origin."""
    board, support = settled_board(plan, spec), support_plan(plan, spec)
    middle = (board.near_y + board.far_y) / 2

    def at(point: Point) -> Point:
        return point[0], point[1] - middle

    def box(name: str, x: Span, y: Span, dashed: bool = True) -> FaceLine:
        corners = ((x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1]))
        return FaceLine(name, points=tuple(at(one) for one in corners), style="hidden" if dashed else "edge")

    half = board.wide_mm / 2
    lines = [box("board", (-half, half), (board.near_y, board.far_y), dashed=False)]
    lines += [box(name, x, y) for name, x, y in _feet(board)]
    holes = [FaceHole(at(one), DRILL_MM, f"{board.screw.name} screw") for one in board.gate_holes]
    holes += [FaceHole(at(one), COACH_DRILL_MM, f"{board.screw.name} coach bolt") for one in board.nose_holes]
    if support is not None and support.on_board:
        lines.append(box("support", (-support.wing_x, support.wing_x), support.y))
        holes += [FaceHole(at(one), PILOT_MM, "wood screw, from above") for one in _pilots(support)]
    return Face("board", "board", tuple(lines), tuple(holes), _board_says(board, spec), ABOVE, BELOW, upwards=AWAY)


def gate_face(plan: GatePlan, spec: GateBracketSpec) -> Face | None:
    """The gate's screws and bore, from its edge where the blade comes out; None where it is held otherwise."""
    gate = spec.gate
    screws = gate.mount.screws
    if gate.mount.kind != "screws" or screws is None:
        return None
    half, port = gate.body.width_mm / 2, gate.port
    far = -(gate.body.length_mm or port.to_edge_mm + port.d_mm / 2)
    outline = ((-half, far), (half, far), (half, 0.0), (-half, 0.0))
    row = fastener(screws.size)
    holes = tuple(
        FaceHole((side * screws.across_mm / 2, -screws.from_edge_mm), row.hole_medium_mm, row.name) for side in (-1, 1)
    )
    lines = (
        FaceLine("gate body", points=outline, style="edge"),
        FaceLine("port", port.d_mm, centre=(0.0, -port.to_edge_mm), style="hidden"),
    )
    says = (
        "Lay it on the gate: the outline's edge along holes 1 and 2 on the body's edge where the blade comes out, "
        f'the arrow "{AWAY}" towards that edge.',
        "Screws and bore must lie under their marks, or the readings are off: read again before you print.",
    )
    return Face("gate", "the gate's screws", lines, holes, says, "as you look at its upper face", BELOW, upwards=AWAY)


def _feet(board: BoardPlan) -> list[tuple[str, Span, Span]]:
    """Where the feet stand."""
    foot, nose = board.gate, board.nose
    outer = foot.yoke.plate.x[1]
    y = (nose.middle_y - nose.half_y, nose.middle_y + nose.half_y)
    return [("gate foot", (-outer, outer), foot.yoke.plate.y), ("nose foot", (-nose.wing_x[1], nose.wing_x[1]), y)]


def _pilots(support: SupportPlan) -> list[Point]:
    return [(support.axis_x + side * support.bolt_x, support.middle_y) for side in (-1.0, 1.0)]


def _board_says(board: BoardPlan, spec: GateBracketSpec) -> tuple[str, ...]:
    """What to do with it, short: a line more may cost sheets. The cut list says lengths in the file's units."""
    return (
        f"Board of {spec.board_material}: see the cut list for its size. Dashed: where the feet stand.",
        f'Holes 1 to {len(board.gate_holes)} lie at the gate ("{AWAY}" points from it). '
        "Prick them, drill straight down, wood under it.",
    )
