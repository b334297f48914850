"""Yoke, rails and nose plate in one piece: a U seen from above, all of one height about the thrust line.

It lies flat on the bed. The bars above and below the blade, which a yoke on rods has, are left out here: the upper one
would hang free over the whole blade, and the gate's body itself ties both cheeks together. Open above and below, it
drops its dust and lets hand and spanner in.
"""

from __future__ import annotations

from dataclasses import replace

from cadquery import Shape

from fitwright.errors import RefusalError
from fitwright.part import Body, Feature
from fitwright.parts.gate.blocks import Block, cells, volume_mm3
from fitwright.parts.gate.frame_plan import not_at_all
from fitwright.parts.gate.nose import POSES, nose_piece
from fitwright.parts.gate.piece import Piece, body_of, box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke import yoke_piece
from fitwright.parts.gate.yoke_plan import YokePlan
from fitwright.parts.gate.yoke_strength import yoke_plan
from fitwright.shapes.solids import fused
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm


def one_piece_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The bracket; RefusalError where it is asked for and would bend too far."""
    if against := not_at_all(plan.frame, spec):
        raise RefusalError("frame", "one_piece", "rods", against)
    return (body_of(bracket_piece(plan, spec), spec.wall_mm, POSES),)


def bracket_piece(plan: GatePlan, spec: GateBracketSpec) -> Piece:
    """Cheeks with their ears, two rails, the nose plate: fused."""
    numbers = yoke_plan(plan, spec, rods=False)
    level = levelled(plan, 2 * numbers.half_high_mm)
    yoke, nose = yoke_piece(level, spec, rods=False), nose_piece(level, spec, rods=False)
    middle = middle_block(numbers)
    cheeks = yoke.solid.cut(box(*middle.spans)).Solids()
    rails = rail_blocks(level, numbers)
    solid = fused([*cheeks, *(box(*rail.spans) for rail in rails), nose.solid], "bracket")
    window = Feature("way for the blade", "cut", _way(level, numbers))
    return Piece(
        name="bracket",
        solid=solid,
        genus=sum(len(ear.holes) for ear in numbers.ears) + nose.genus,
        volume_mm3=yoke.volume_mm3 - bars_mm3(numbers, middle) + volume_mm3(rails) + nose.volume_mm3,
        features=(*(f for f in yoke.features if f.name != "window"), *nose.features, window),
        holes=(*yoke.holes, *nose.holes),
        wall_zones=(*yoke.wall_zones, *nose.wall_zones),
        rounds=(*yoke.rounds, *nose.rounds),
    )


def levelled(plan: GatePlan, high_mm: float) -> GatePlan:
    """The same, its nose plate as high as all the rest."""
    nose = replace(plan.frame.nose, high=high_mm)
    return replace(plan, frame=replace(plan.frame, nose=nose, nose_high=high_mm, yoke_high=high_mm))


def rail_blocks(plan: GatePlan, numbers: YokePlan) -> list[Block]:
    """Left and right, from the yoke's front face to the nose plate's."""
    frame, z = plan.frame, numbers.half_high_mm
    y = (numbers.plate.y[1], frame.nose_face - frame.nose.deep)
    half = frame.rail_wide / 2
    return [Block((side * frame.rail_x - half, side * frame.rail_x + half), y, (-z, z)) for side in (-1.0, 1.0)]


def middle_block(numbers: YokePlan) -> Block:
    """What is left out of the yoke: from the left ears to the right ones, no wider than the window."""
    half = min([numbers.window.x[1], *(min(abs(x) for x in ear.x) for ear in numbers.ears)])
    y0 = min([numbers.plate.y[0], *(ear.tip_y for ear in numbers.ears)])
    return Block(
        (-half, half),
        (y0 - OVER, numbers.plate.y[1] + OVER),
        (-numbers.half_high_mm - OVER, numbers.half_high_mm + OVER),
    )


def bars_mm3(numbers: YokePlan, middle: Block) -> float:
    """What leaving the bars out takes."""
    return volume_mm3(cells(numbers.steps)) - volume_mm3(cells([*numbers.steps, (middle, False)]))


def _way(plan: GatePlan, numbers: YokePlan) -> Shape:
    """What must be free between the rails."""
    (left, right), z = rail_blocks(plan, numbers), numbers.half_high_mm + OVER
    return box((left.x[1], right.x[0]), left.y, (-z, z))
