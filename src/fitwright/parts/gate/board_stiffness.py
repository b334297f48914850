"""How far the cylinder's nose gives way on a board: the board bends below the thrust line, and both feet with it.

Lengths in mm, forces in N, moduli in MPa. By the unit-load theorem, the gate held at the thrust line. A force F on the
nose bends the gate foot by F d at d below the line, the board by F e all along (e from the line to its middle), and the
nose foot by F d. A unit force along the line meets the same moments; one square to it meets the distance from the nose
in the board and the whole length in the gate foot. So, with h the height of the line above the board:

along = F h^3 / 3EI of both feet + F e^2 L / EI + F L / EA of the board + shear;
aside = F e L^2 / 2EI of the board + L F h^2 / 2EI of the gate foot;  tilt = F e L / EI + F h^2 / 2EI of both feet.

A board wider than the nose foot takes part under 45 degrees from its edges on (common practice, no source).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.data.sheets import sheet
from fitwright.errors import DataError, RefusalError
from fitwright.parts.gate.blocks import Point
from fitwright.parts.gate.board_plan import BoardPlan, board_plan, wider
from fitwright.parts.gate.nose_hold import ThreadHold
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.support_plan import support_plan
from fitwright.physics.gravity import GRAVITY
from fitwright.physics.slide.frames import LIMIT_DEG, LIMIT_MM, POISSON, SHEAR_SHARE, Movement
from fitwright.physics.slide.sections import Rectangle, Section, composed
from fitwright.spec.gate_load import gate_load
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

MARGIN = 1.25
"""What is built gives so much less than the limits."""
SLICES = 24
WIDER_MM = tuple(10.0 * k for k in range(13))
THICKER_MM = (12, 15, 18, 21, 24, 30, 36, 40, 50, 60)
"""Thicknesses that boards are sold in, or are glued up to (common practice)."""
BEYOND_SUPPORT_MM = 5.0
COUPLING_SHARE = 0.6
"""Of the box round it, a coupling is so much print: for choosing a board."""


@dataclass(frozen=True)
class Slice:
    """A stretch of a foot from `d0` to `d1` below the thrust line, with its section."""

    d0: float
    d1: float
    section: Section


def settled_board(plan: GatePlan, spec: GateBracketSpec) -> BoardPlan:
    """The narrowest board that is stiff enough at the running force, with a margin; where none is, without one.

    RefusalError names the thickness that would do.
    """
    support = support_plan(plan, spec)
    far = support.y[1] + BEYOND_SUPPORT_MM if support is not None and support.on_board else 0.0
    narrow = board_plan(plan, spec, far)
    kg = _coupling_kg(plan, spec)
    force = gate_load(spec, plan.ends.blade_open_mm, plan.blade_long_mm, kg).force_n
    for margin, more in itertools.product((MARGIN, 1.0), WIDER_MM):
        if _within(moves(wider(narrow, more), plan, spec, force), margin):
            return wider(narrow, more)
    raise _too_soft(narrow, plan, spec, force)


def moves(board: BoardPlan, plan: GatePlan, spec: GateBracketSpec, force_n: float) -> Movement:
    """How the nose face gives way under this force, the cylinder's weight on the unsupported side counted."""
    modulus = spec.sized_for.lasting_modulus_mpa
    gate = foot_moves(gate_slices(board), force_n, modulus)
    nose = foot_moves(nose_slices(board, plan), force_n, modulus)
    long = _long_mm(board)
    bent = board_moves(board, long, board_modulus_mpa(spec), force_n, _weight_nmm(board, plan, spec))
    plate = Movement(along_mm=_plate_mm(board, plan, force_n, modulus))
    lifted = Movement(aside_mm=math.radians(gate.tilt_deg) * long)
    return gate + nose + bent + plate + lifted


def board_modulus_mpa(spec: GateBracketSpec) -> float:
    """Of the board's material; one that no table knows counts as MDF, the softest."""
    try:
        return sheet(spec.board_material).modulus_mpa
    except DataError:
        return sheet("MDF").modulus_mpa


def foot_moves(slices: list[Slice], force_n: float, modulus_mpa: float) -> Movement:
    """A foot held at its lower end, pushed at the thrust line: F (d1^3 - d0^3) / 3EI and so on, slice by slice.

    >>> from fitwright.physics.slide.sections import rectangle
    >>> one = foot_moves([Slice(0.0, 40.0, rectangle(60, 20))], 121, 1750)      # F h^3 / 3EI = 0.0369, shear 0.0075
    >>> round(one.along_mm, 3), round(one.tilt_deg, 3)
    (0.044, 0.079)
    """
    shear = modulus_mpa / (2.0 * (1.0 + POISSON)) * SHEAR_SHARE
    along = tilt = stress = 0.0
    for one in slices:
        bending = modulus_mpa * one.section.deep_mm4
        along += force_n * (one.d1**3 - one.d0**3) / (3.0 * bending)
        along += force_n * (one.d1 - one.d0) / (shear * one.section.area_mm2)
        tilt += force_n * (one.d1**2 - one.d0**2) / (2.0 * bending)
        stress = max(stress, force_n * one.d1 * one.section.fibre_deep_mm / one.section.deep_mm4)
    return Movement(along, 0.0, math.degrees(tilt), stress)


def board_moves(board: BoardPlan, long_mm: float, modulus_mpa: float, force_n: float, weight_nmm: float) -> Movement:
    """The board as a strip that widens from the nose foot on: curvature M / (E w t^3 / 12).

    With w = w0 + 2s up to the board's width: the integral of 1 / w is ln(w / w0) / 2, that of s / w is
    a / 2 - w0 / 4 ln(w / w0). `weight_nmm`: what the cylinder's weight adds to the moment all along (cautious).
    """
    off, thick, wide = board.up_mm + board.thick_mm / 2, board.thick_mm, board.wide_mm
    foot = min(2 * board.nose.wing_x[1], wide)
    spread = min((wide - foot) / 2, long_mm)
    log = math.log((foot + 2 * spread) / foot)
    once = log / 2 + (long_mm - spread) / wide
    twice = spread / 2 - foot / 4 * log + (long_mm**2 - spread**2) / (2 * wide)
    moment = force_n * off + weight_nmm
    curved = moment * 12.0 / (modulus_mpa * thick**3)
    tilt = curved * once
    along = off * tilt + force_n * once / (modulus_mpa * thick)
    stress = force_n / (foot * thick) + 6.0 * moment / (foot * thick**2)
    return Movement(along, curved * twice, math.degrees(tilt), stress)


def gate_slices(board: BoardPlan) -> list[Slice]:
    """Both legs; where the nuts are caught their pockets are missing."""
    foot = board.gate
    yoke = foot.yoke
    deep, wide = yoke.deep_mm, yoke.plate.x[1] - yoke.window.x[1]
    whole = composed([Rectangle(2 * wide, deep)])
    inner = foot.pocket_x[0] - yoke.window.x[1]
    ys = [y - (yoke.plate.y[0] + yoke.plate.y[1]) / 2 for _, y in foot.screws[: len(foot.screws) // 2]]
    half = foot.pocket_af_mm / 2
    edges = [-deep / 2, *(edge for y in ys for edge in (y - half, y + half)), deep / 2]
    left = [Rectangle(2 * inner, deep)] + [
        Rectangle(2 * (wide - inner), b - a, deep_at=(a + b) / 2) for a, b in zip(edges[::2], edges[1::2], strict=True)
    ]
    bottom, floor = board.up_mm, board.up_mm - (foot.floor_z - foot.bottom_z)
    pocket = floor - foot.pocket_high_mm
    return [Slice(0.0, pocket, whole), Slice(pocket, floor, composed(left)), Slice(floor, bottom, whole)]


def nose_slices(board: BoardPlan, plan: GatePlan) -> list[Slice]:
    """Tower, then tower and gussets, in slices of their middle's section."""
    return list(_nose_slices(board, plan))


def _nose_slices(board: BoardPlan, plan: GatePlan) -> Iterator[Slice]:
    step, wide = board.up_mm / SLICES, board.nose.wing_x[0] - board.nose.tower_x
    for k in range(SLICES):
        low, high = _crossed(board.nose.gusset, -(k + 0.5) * step)
        gussets = Rectangle(2 * wide, high - low, deep_at=(low + high) / 2 - board.nose.middle_y)
        yield Slice(k * step, (k + 1) * step, composed([*_tower(plan, (k + 0.5) * step), gussets]))


def _crossed(outline: Sequence[Point], z: float) -> tuple[float, float]:
    """Between which y a convex outline in (y, z) is at this height."""
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    met = [a[0] + (z - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) for a, b in pairs if min(a[1], b[1]) < z < max(a[1], b[1])]
    return min(met), max(met)


def _plate_mm(board: BoardPlan, plan: GatePlan, force_n: float, modulus_mpa: float) -> float:
    """The nose plate's own bending between the tower's ends; it goes on down to the board."""
    nose = plan.frame.nose
    return nose.gives(force_n, modulus_mpa).pinned_mm * nose.high / (nose.high / 2 + board.up_mm)


def _tower(plan: GatePlan, d: float) -> list[Rectangle]:
    """The nose plate's section at d below the line: web, chord, end walls; or solid, less its holes near the line."""
    nose = plan.frame.nose
    wide, deep = 2 * nose.ends.outer_x, nose.deep
    if not isinstance(nose.hold, ThreadHold):
        hole = nose.hold.hole_mm if d < nose.hold.hole_mm / 2 else 0.0
        return [Rectangle(wide - hole, deep)]
    opening = 2 * nose.open_x if d < nose.open_z else 0.0
    hole = nose.hold.hole_mm if d < nose.hold.hole_mm / 2 else 0.0
    ends = wide - 2 * nose.middle_x
    return [
        Rectangle(wide - hole, nose.web, deep_at=(deep - nose.web) / 2),
        Rectangle(wide - opening, nose.chord, deep_at=-(deep - nose.chord) / 2),
        Rectangle(ends, nose.bay, deep_at=(nose.chord - nose.web) / 2),
    ]


def _long_mm(board: BoardPlan) -> float:
    """From the middle of the gate foot's screws to the middle of the nose foot."""
    return board.nose.middle_y - sum(y for _, y in board.gate_holes) / len(board.gate_holes)


def _weight_nmm(board: BoardPlan, plan: GatePlan, spec: GateBracketSpec) -> float:
    """The cylinder's weight at the gate foot, where nothing else carries it."""
    if support_plan(plan, spec) is not None:
        return 0.0
    arm = plan.nose_face_mm + spec.cylinder.long_mm / 2 - sum(y for _, y in board.gate_holes) / len(board.gate_holes)
    return spec.cylinder.mass_kg * GRAVITY * arm


def _coupling_kg(plan: GatePlan, spec: GateBracketSpec) -> float:
    """About what the coupling weighs."""
    at = plan.coupling
    box = at.wide_mm * at.high_mm * (at.shoulder_y - at.tip_y)
    return COUPLING_SHARE * box * spec.material.density_g_cm3 * 1e-6


def _within(moved: Movement, margin: float = 1.0) -> bool:
    return moved.within(LIMIT_MM / margin, LIMIT_DEG / margin)


def _too_soft(narrow: BoardPlan, plan: GatePlan, spec: GateBracketSpec, force: float) -> RefusalError:
    """Names the thickness that would do on the widest board."""
    found = moves(wider(narrow, WIDER_MM[-1]), plan, spec, force)
    why = (
        f"under the running force ({force:.0f} N) the nose would move {found.moves_mm:.2f} mm and tilt "
        f"{found.tilt_deg:.2f} deg, even on a board {format_length(narrow.wide_mm + WIDER_MM[-1], spec.units)} wide"
    )
    for thick in THICKER_MM:
        other = spec.model_copy(update={"board_thick_mm": float(thick)})
        if thick > spec.board_thick_mm and _within(
            moves(wider(board_plan(plan, other), WIDER_MM[-1]), plan, other, force)
        ):
            allowed = f"{format_length(float(thick), spec.units)} or more"
            return RefusalError("board.thickness", format_length(spec.board_thick_mm, spec.units), allowed, why)
    return RefusalError("frame", "board", "rods: no board is stiff enough", why)
