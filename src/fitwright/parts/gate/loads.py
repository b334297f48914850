"""What every body of a gate bracket bears, on which of its faces, and how it is held meanwhile.

Action and reaction: the thrust that the nose plate gets from the cylinder it hands on to the rods or rails, the yoke to
the gate, the gate to the blade, the blade to coupling and rod. Each body is looked at by itself, with that force on
the face where it comes in and springs where it goes out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.data.sheets import sheet
from fitwright.errors import DataError
from fitwright.frame import Vec
from fitwright.part import Body
from fitwright.parts.gate.alongside import beside_of
from fitwright.parts.gate.board_stiffness import moves as board_gives
from fitwright.parts.gate.board_stiffness import settled_board
from fitwright.parts.gate.fastening_yoke import gate_yoke_numbers
from fitwright.parts.gate.load_beside import arm_bears, bridge_bears, bush_bears
from fitwright.parts.gate.load_board import board_kg, gate_foot_bears, nose_foot_bears
from fitwright.parts.gate.load_cases import FALLS, Bears, Hung, together
from fitwright.parts.gate.load_coupling import coupling_bears, sleeve_bears
from fitwright.parts.gate.load_nose import clamp_supports, cylinder_hung, nose_faces, nose_plate_bears, on_nose
from fitwright.parts.gate.load_small import guard_bears, support_bears
from fitwright.parts.gate.load_yoke import grip, held_names, rods_yoke_bears
from fitwright.parts.gate.nose_stiffness import LASTING, LIMIT_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_strength import stressed
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec

LEAST_LIMIT_MM = 0.1


def gate_bears(plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...], load: Load) -> Bears:
    """All faces, supports and cases of a bracket."""
    falls = FALLS[spec.mounted]
    parts = [*_frame(plan, spec, bodies, load, falls), coupling_bears(plan, spec, load), sleeve_bears(plan, spec, load)]
    return together([*parts, support_bears(plan, spec, falls), *guard_bears(plan, spec)])


def _frame(
    plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...], load: Load, falls: tuple[Vec, ...]
) -> Iterator[Bears]:
    if plan.beside is not None:
        beside = beside_of(plan)
        yield arm_bears(plan, spec, load, beside, falls, LIMIT_MM)
        yield bridge_bears(plan, spec, load, beside)
        yield bush_bears(plan, beside, load)
    elif plan.frame.kind == "one_piece":
        yield _bracket(plan, spec, load, falls)
    elif plan.frame.kind == "board":
        yield from _on_board(plan, spec, bodies, load, falls)
    else:
        yield from _on_rods(plan, spec, bodies, load, falls)


def _bracket(plan: GatePlan, spec: GateBracketSpec, load: Load, falls: tuple[Vec, ...]) -> Bears:
    """One piece from gate to cylinder."""
    held_by = grip(gate_yoke_numbers(plan, spec), spec, "bracket")
    faces = nose_faces(plan, spec, "bracket")
    held = held_names(held_by)
    cases = (*held_by.cases, *on_nose(plan, spec, load, faces, held, falls, LIMIT_MM))
    return Bears((*held_by.faces, *faces.all), (*held_by.supports, *clamp_supports(plan, faces)), cases)


def _on_rods(
    plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...], load: Load, falls: tuple[Vec, ...]
) -> Iterator[Bears]:
    """Of the nose's limit, what the yoke takes by its closed form is taken off."""
    numbers = gate_yoke_numbers(plan, spec)
    taken = stressed(numbers, plan, spec, load.force_n).gives_mm / LASTING
    yield nose_plate_bears(plan, spec, load, falls, _left_mm(taken))
    carried = cylinder_hung(plan, spec, falls).and_kg(_kg(bodies, "nose_plate", spec))
    yield rods_yoke_bears(plan, spec, load, numbers, carried)


def _on_board(
    plan: GatePlan, spec: GateBracketSpec, bodies: tuple[Body, ...], load: Load, falls: tuple[Vec, ...]
) -> Iterator[Bears]:
    """Of the nose's limit, what board and gate foot take by their closed forms is taken off."""
    board = settled_board(plan, spec)
    try:
        density = sheet(spec.board_material).density_g_cm3
    except DataError:
        density = sheet("MDF").density_g_cm3
    kg = spec.cylinder.mass_kg + _kg(bodies, "nose_foot", spec) + board_kg(board, density)
    middle: Vec = (0.0, (board.near_y + board.far_y) / 2, board.top_z - board.thick_mm / 2)
    yield gate_foot_bears(plan, spec, load, board, Hung(kg, middle, falls))
    rest = board_gives(board, plan, spec, load.force_n).moves_mm - _foot_mm(plan, spec, load)
    yield nose_foot_bears(plan, spec, load, board, falls, _left_mm(max(0.0, rest)))


def _foot_mm(plan: GatePlan, spec: GateBracketSpec, load: Load) -> float:
    """What the nose foot itself takes by its closed form."""
    from fitwright.parts.gate.board_stiffness import foot_moves, nose_slices

    board = settled_board(plan, spec)
    return foot_moves(nose_slices(board, plan), load.force_n, LASTING * spec.material.modulus_mpa).along_mm


def _left_mm(taken_mm: float) -> float:
    """What is left of the nose's limit."""
    return max(LEAST_LIMIT_MM, LIMIT_MM - taken_mm)


def _kg(bodies: tuple[Body, ...], name: str, spec: GateBracketSpec) -> float:
    """Of a printed body, as if it were full."""
    volume = math.fsum(one.solid.Volume() for one in bodies if one.name == name)
    return volume * spec.material.density_g_cm3 * 1e-6
