"""The gate foot: the yoke's grip on the gate, on two legs that stand on the board beside its window."""

from __future__ import annotations

import math
from dataclasses import replace

from cadquery import Shape

from fitwright.part import Feature, HoleFit
from fitwright.parts.gate.board_plan import PAST_NUT_MM, GateFoot
from fitwright.parts.gate.piece import Piece, box
from fitwright.parts.gate.yoke import yoke_of
from fitwright.shapes.solids import bar, cut
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm


def gate_foot_piece(foot: GateFoot, spec: GateBracketSpec) -> Piece:
    """It prints as the yoke does, lying on its front face: legs and their pockets lie in that outline."""
    yoke = yoke_of(foot.yoke, spec)
    tools = [tool for k in range(len(foot.screws)) for tool in _screw_tools(foot, k)]
    return replace(
        yoke,
        name="gate_foot",
        solid=cut(yoke.solid, [tool for _, tool in tools], "gate foot"),
        genus=yoke.genus + len(foot.screws),
        volume_mm3=yoke.volume_mm3 - len(foot.screws) * _taken_mm3(foot),
        features=(*yoke.features, *(Feature(name, "cut", tool) for name, tool in tools)),
        holes=(*yoke.holes, *(_hole(foot, k) for k in range(len(foot.screws)))),
    )


def screw_name(foot: GateFoot, k: int) -> str:
    """`left board screw 1`: what the screws of both legs are called."""
    each = len(foot.screws) // 2
    return f"{('left', 'right')[k // each]} board screw" + (f" {k % each + 1}" if each > 1 else "")


def _screw_tools(foot: GateFoot, k: int) -> list[tuple[str, Shape]]:
    """From below up past the nut; the nut comes in from the leg's outside."""
    (x, y), side = foot.screws[k], 1.0 if foot.screws[k][0] > 0 else -1.0
    top = foot.floor_z + foot.pocket_high_mm + PAST_NUT_MM
    hole = bar((x, y, foot.bottom_z - OVER), (0.0, 0.0, 1.0), foot.hole_d_mm / 2, top - foot.bottom_z + OVER)
    x0, x1 = foot.pocket_x[0], foot.pocket_x[1] + OVER
    along = (x0, x1) if side > 0 else (-x1, -x0)
    half, z = foot.pocket_af_mm / 2, (foot.floor_z, foot.floor_z + foot.pocket_high_mm)
    return [
        (f"{screw_name(foot, k)} hole", hole),
        (f"{screw_name(foot, k)} nut pocket", box(along, (y - half, y + half), z)),
    ]


def _taken_mm3(foot: GateFoot) -> float:
    """A hole below and above its pocket, and the pocket."""
    area, floor = math.pi * foot.hole_d_mm**2 / 4, foot.floor_z - foot.bottom_z
    pocket = (foot.pocket_x[1] - foot.pocket_x[0]) * foot.pocket_af_mm * foot.pocket_high_mm
    return area * (floor + PAST_NUT_MM) + pocket


def _hole(foot: GateFoot, k: int) -> HoleFit:
    x, y = foot.screws[k]
    start = (x, y, foot.bottom_z)
    return HoleFit(screw_name(foot, k), start, (0.0, 0.0, 1.0), foot.floor_z - foot.bottom_z, foot.hole_d_mm, "board")
