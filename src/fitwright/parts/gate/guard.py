"""The guard over gaps that a finger gets into: a slotted plate above, its mirror image below, held by cable ties."""

from __future__ import annotations

import math
from collections.abc import Iterator

from cadquery import Compound, Solid

from fitwright.errors import RefusalError
from fitwright.part import Body, Bought, Feature, Pose
from fitwright.parts.gate.blocks import Block
from fitwright.parts.gate.guard_plan import GuardPlan, guard_pieces
from fitwright.parts.gate.piece import Piece, body_of, box
from fitwright.parts.gate.plan import GatePlan
from fitwright.shapes.solids import cut, fused
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm


def guard_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """`guard_up` and `guard_down`, each in pieces (`guard_up_1` next to the gate) where the bed is too short for one.

    None where they are not wanted, or the frame has no rails to rest on.
    """
    if not guarded(plan, spec):
        return ()
    pieces = guard_pieces(plan, spec)
    return tuple(
        body_of(_piece(name + called, one, sign), spec.wall_mm, (Pose("its flat face on the bed", (0.0, 0.0, sign)),))
        for name, sign in (("guard_up", 1.0), ("guard_down", -1.0))
        for called, one in zip(_called(len(pieces)), pieces, strict=True)
    )


def _called(count: int) -> list[str]:
    return [""] if count == 1 else [f"_{k + 1}" for k in range(count)]


def guarded(plan: GatePlan, spec: GateBracketSpec) -> bool:
    """Whether a guard is made. In line the sleeve always closes on the cylinder's nose: `auto` means yes.

    RefusalError where one is asked for and there are no rails that it could rest on.
    """
    rails = spec.layout == "in_line" and plan.frame.kind != "board"
    if spec.guard == "yes" and not rails:
        why = "a printed guard rests on rails or rods: beside the gate and over a board there are none"
        raise RefusalError("guard", "yes", "auto, or frame: rods or one_piece in line", why)
    return spec.guard != "no" and rails


def guard_bought(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bought]:
    """Four cable ties a pair of plates, each round both."""
    if guarded(plan, spec):
        pieces = guard_pieces(plan, spec)
        round_both = 4 * (pieces[0].plate.z[1] + 10.0)
        yield Bought(
            4 * len(pieces), "cable tie 4.8 mm wide", math.ceil(max(150.0, round_both) / 50.0) * 50.0, note="the guard"
        )


def _piece(name: str, numbers: GuardPlan, sign: float) -> Piece:
    """Plate and walls fused, slots cut."""
    solids = [_solid(block, sign) for block in (numbers.plate, *numbers.walls)]
    holes = [*numbers.slots, *numbers.ties]
    tools = [_solid(_through(block), sign) for block in holes]
    features = []
    if numbers.slots:
        features.append(
            Feature(f"{name} slots", "cut", Compound.makeCompound(tools[: len(numbers.slots)]), by_mesh=True)
        )
    ties = Compound.makeCompound(tools[len(numbers.slots) :])
    features.append(Feature(f"{name} tie slots", "cut", ties, by_mesh=True))
    return Piece(
        name=name,
        solid=cut(fused(solids, name), tools, name),
        genus=len(holes),
        volume_mm3=_volume_mm3(numbers),
        features=tuple(features),
    )


def _volume_mm3(numbers: GuardPlan) -> float:
    """Boxes; a wall counts below the plate, and end walls end at the side walls, which they do not meet."""
    low = numbers.plate.z[0]
    walls = math.fsum(_mm3(Block(w.x, w.y, (w.z[0], low))) for w in numbers.walls)
    return _mm3(numbers.plate) + walls - math.fsum(_mm3(b) for b in (*numbers.slots, *numbers.ties))


def _mm3(block: Block) -> float:
    return math.prod(high - low for low, high in block.spans)


def _through(block: Block) -> Block:
    return Block(block.x, block.y, (block.z[0] - OVER, block.z[1] + OVER))


def _solid(block: Block, sign: float) -> Solid:
    z = sorted((sign * block.z[0], sign * block.z[1]))
    return box(block.x, block.y, (z[0], z[1]))
