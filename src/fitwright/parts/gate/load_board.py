"""What both feet of a bracket on a board bear.

Gate, gate foot, board, nose foot and cylinder are one hook: whatever is cut through bears the thrust along the thrust
line. So the gate foot is held at the gate and gets the thrust from the board on its soles, through the thrust line;
the nose foot is held by the board, which presses, and its bolts, which pull.
"""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.gate.board_gate_foot import screw_name
from fitwright.parts.gate.board_nose_foot import bolt_names
from fitwright.parts.gate.board_plan import BIG_WASHER_MM, FLOOR_MM, BoardPlan, GateFoot, nut_pull_n
from fitwright.parts.gate.load_cases import ASIDE, Bears, Hung, hand, hung, stalled, thrusts
from fitwright.parts.gate.load_faces import UP, disc, minus, patch
from fitwright.parts.gate.load_nose import clamp_supports, nose_faces, on_nose
from fitwright.parts.gate.load_springs import in_board_n_mm, in_wood_n_mm
from fitwright.parts.gate.load_yoke import grip, held_names
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec


def gate_foot_bears(plan: GatePlan, spec: GateBracketSpec, load: Load, board: BoardPlan, what: Hung) -> Bears:
    """Held at the gate; `what` hangs on it: board, nose foot and cylinder, where only the gate is held by its pipes."""
    foot, body = board.gate, "gate_foot"
    held_by, sole = grip(foot.yoke, spec, body), _sole(foot)
    held, middle = held_names(held_by), sum(foot.yoke.plate.y) / 2
    cases = [*held_by.cases]
    for one in thrusts(load, plan.way):
        cases += stalled(one, sole, held, (0.0, middle, 0.0))
    cases += hung(what, sole, held, "the board with all that stands on it")
    cases.append(
        hand(sole, held, "a hand that takes hold of the board", ASIDE, (0.0, what.at[1], sole.frame.origin[2]))
    )
    nuts = _leg_nuts(foot)
    cases += [case for one in nuts for case in _pulled(one, sole, plan, load)]
    supports = (*held_by.supports, Support(sole.name, "seat"))
    return Bears((*held_by.faces, sole, *nuts), supports, tuple(cases))


def _sole(foot: GateFoot) -> LoadFace:
    """Both legs' lower ends."""
    outer, y = foot.yoke.plate.x[1], foot.yoke.plate.y
    return patch("gate foot sole", "gate_foot", UP, foot.bottom_z, (-outer, outer), y)


def _leg_nuts(foot: GateFoot) -> list[LoadFace]:
    """What each caught nut bears on."""
    return [
        disc(f"{screw_name(foot, k)} nut", "gate_foot", (x, y, foot.floor_z), minus(UP), foot.pocket_af_mm)
        for k, (x, y) in enumerate(foot.screws)
    ]


def _pulled(face: LoadFace, sole: LoadFace, plan: GatePlan, load: Load) -> Iterator[LoadCase]:
    """What the thrust that turns the foot pulls on a nut, while the board presses below it."""
    way = thrusts(load, plan.way)[0]
    for word, thrust, lasting in (("running", way.running_n, True), ("greatest", way.most_n, False)):
        yield LoadCase(
            f"{word} thrust pulls on {face.name}",
            face.body,
            face.name,
            nut_pull_n(plan, thrust),
            (face.frame.inward,),
            (sole.name,),
            lasting=lasting,
            why=f"the thrust of {thrust:.0f} N, which turns the foot",
            key="frame",
        )


def nose_foot_bears(
    plan: GatePlan,
    spec: GateBracketSpec,
    load: Load,
    board: BoardPlan,
    falls: tuple[tuple[float, float, float], ...],
    limit_mm: float,
) -> Bears:
    """Held on the board."""
    body, foot, row = "nose_foot", board.nose, board.screw
    faces, level = nose_faces(plan, spec, body), -plan.frame.board_up
    y = foot.middle_y - foot.half_y, foot.middle_y + foot.half_y
    sole = patch("nose foot sole", body, UP, level, (-foot.wing_x[1], foot.wing_x[1]), y)
    bolts = [
        disc(f"{name} washer", body, (x, at, level + FLOOR_MM), minus(UP), BIG_WASHER_MM)
        for name, (x, at) in zip(bolt_names(), foot.bolts, strict=True)
    ]
    axial = in_board_n_mm(row, board.grip_mm, board.thick_mm, BIG_WASHER_MM)
    lateral = in_wood_n_mm(row, spec.board_material)
    supports = [Support(one.name, "washer", axial, lateral) for one in bolts]
    held = (sole.name, *(one.name for one in bolts))
    return Bears(
        (*faces.all, sole, *bolts),
        (Support(sole.name, "seat"), *supports, *clamp_supports(plan, faces)),
        tuple(on_nose(plan, spec, load, faces, held, falls, limit_mm)),
    )


def board_kg(board: BoardPlan, density_g_cm3: float) -> float:
    """What the board weighs."""
    return board.long_mm * board.wide_mm * board.thick_mm * density_g_cm3 * 1e-6
