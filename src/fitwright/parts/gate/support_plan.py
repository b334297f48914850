"""A second support under a heavy cylinder in numbers: a saddle near its rear end. Part coordinates, mm, as printed."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.errors import RefusalError
from fitwright.parts.gate.blocks import Span
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_cylinder import port_in_mm
from fitwright.physics.slide.frames import gate_moment_nm
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

HEAVY_KG, HEAVY_NM = 0.3, 1.0
"""Over one of these a cylinder wants a second support (common practice, no source)."""
GAP_MM = 0.3
"""Round the barrel: it lies in the saddle and is not forced; a strip of card under it takes up what is left."""
LONG_MM, LEAST_LONG_MM = 24.0, 12.0
CHEEK_MM = 6.0
WING_MM = 6.0
"""Thickness of the feet with the screws."""
TIE_WIDE_MM, TIE_HIGH_MM = 9.0, 4.0
"""A tunnel under the saddle for a cable tie of up to 7.6 mm."""
OVER_TIE_MM = 3.0
TALLEST_MM = 150.0
SCREW = "5.0 mm"
WASHER_OF = "M5"
WOOD_SCREWS_MM = (16, 20, 25, 30, 35, 40, 45, 50)
"""Lengths that chipboard screws are sold in (common practice)."""
TIP_MM = 2.0
"""A wood screw stays so far from the board's other face (common practice, no source)."""
IN_WOOD = 3.0
"""A wood screw that holds something down goes in by so many diameters (common practice, no source)."""


@dataclass(frozen=True)
class SupportPlan:
    """`y`: along the cylinder; `foot_z`: what it stands on; `half_mm`: of barrel and gap (radius, half side).

    `bolt_x`: a screw's axis from the cylinder's; `wing_x`: its foot's outer end. `on_board`: it stands on the board.
    """

    y: Span
    axis_x: float
    foot_z: float
    round: bool
    half_mm: float
    cheek_x: float
    bolt_x: float
    wing_x: float
    tie_z: Span
    screw: FastenerRow
    screw_long_mm: float
    on_board: bool

    @property
    def middle_y(self) -> float:
        """Where its screws are."""
        return (self.y[0] + self.y[1]) / 2


def heavy(plan: GatePlan, spec: GateBracketSpec) -> bool:
    """Whether the cylinder is over 0.3 kg, or over 1 N m about the gate's edge."""
    cylinder = spec.cylinder
    arm = abs(plan.nose_face_mm + plan.way * cylinder.long_mm / 2)
    return cylinder.mass_kg > HEAVY_KG or gate_moment_nm(cylinder.mass_kg, arm) > HEAVY_NM


def support_plan(plan: GatePlan, spec: GateBracketSpec) -> SupportPlan | None:
    """None where the cylinder is light, nothing is there to stand on, or its barrel is too short to lie in a saddle.

    RefusalError where what it stands on is too near, or too far for a print.
    """
    down = spec.support_down_mm or plan.frame.board_up
    y = _along(plan, spec)
    if not heavy(plan, spec) or down <= 0.0 or y is None:
        return None
    half = spec.cylinder.body_mm / 2 + GAP_MM
    _reachable(down, half, spec)
    row, washer = fastener(SCREW), fastener(WASHER_OF)
    cheek = half + CHEEK_MM
    room = (washer.washer_d2_mm or row.head_d_mm) / 2 + 2.0
    on_board = spec.support_down_mm is None
    return SupportPlan(
        y=y,
        axis_x=plan.axis_x_mm,
        foot_z=-down,
        round=spec.cylinder.body_round_mm is not None,
        half_mm=half,
        cheek_x=cheek,
        bolt_x=cheek + room,
        wing_x=cheek + room + max(1.5 * row.major_mm, room) + 0.5,
        tie_z=(-half - OVER_TIE_MM - TIE_HIGH_MM, -half - OVER_TIE_MM),
        screw=row,
        screw_long_mm=_screw_long_mm(row, washer, spec, on_board),
        on_board=on_board,
    )


def _along(plan: GatePlan, spec: GateBracketSpec) -> Span | None:
    """Before the rear cover and its fitting, wherever the cylinder is set to; not over the front one."""
    cylinder = spec.cylinder
    cover = 2 * port_in_mm(cylinder) + spec.setting_mm + 1.0
    s1 = cylinder.long_mm - cover
    s0 = max(cover, s1 - LONG_MM)
    if s1 - s0 < LEAST_LONG_MM:
        return None
    a, b = plan.nose_face_mm + plan.way * s0, plan.nose_face_mm + plan.way * s1
    return min(a, b), max(a, b)


def _reachable(down: float, half: float, spec: GateBracketSpec) -> None:
    least = half + OVER_TIE_MM + TIE_HIGH_MM + WING_MM
    if least <= down <= TALLEST_MM:
        return
    found, (low, high) = format_length(down, spec.units), (format_length(mm, spec.units) for mm in (least, TALLEST_MM))
    if down < least:
        why = "the saddle under the barrel finds no room"
        raise RefusalError("support.down", found, f"{low} or more, or no support", why)
    why = "so tall a print sways: put a batten or a block there and give the distance to its top"
    raise RefusalError("support.down", found, f"{high} or less", why)


def _screw_long_mm(row: FastenerRow, washer: FastenerRow, spec: GateBracketSpec, on_board: bool) -> float:
    """The longest that stays in the board; on another surface IN_WOOD diameters deep."""
    used = WING_MM + (washer.washer_h_mm or 0.0)
    if not on_board:
        return float(next(one for one in WOOD_SCREWS_MM if one - used >= IN_WOOD * row.major_mm))
    fits = [one for one in WOOD_SCREWS_MM if row.major_mm <= one - used <= spec.board_thick_mm - TIP_MM]
    if not fits:
        need = WOOD_SCREWS_MM[0] - used + TIP_MM
        why = f"the shortest {row.name} wood screw would come out of the board under the second support"
        raise RefusalError(
            "board.thickness",
            format_length(spec.board_thick_mm, spec.units),
            f"{format_length(need, spec.units)} or more",
            why,
        )
    return float(min(max(fits), used + 2 * IN_WOOD * row.major_mm))
