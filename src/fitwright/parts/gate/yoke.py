"""The gate yoke: a plate in front of the gate's body edge, its window for blade and coupling, and what grips the gate.

It prints lying on its front face: window, rod holes and nut pockets are then upright and open upwards, the ears stand
as walls, nothing hangs. (On its edge the window's roof would span the whole blade.) The ears are then pulled across
the layers; the strength across layers is what they are judged by.
"""

from __future__ import annotations

import math

from cadquery import Shape, Solid

from fitwright.frame import Frame
from fitwright.part import Feature, HoleFit, Pose
from fitwright.parts.gate.blocks import Block, cells, hole_volume_mm3, prism_volume_mm3, volume_mm3
from fitwright.parts.gate.piece import Piece, box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_ears import Ear
from fitwright.parts.gate.yoke_plan import RodHole, YokePlan
from fitwright.parts.gate.yoke_saddle import added_mm3, saddle_bores, saddle_solids, saddle_tools
from fitwright.parts.gate.yoke_strength import yoke_plan
from fitwright.shapes.solids import bar, cut, fused, prism
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

POSES = (Pose("front face on the bed", (0.0, 1.0, 0.0)),)
OVER = TOLERANCES.overshoot_mm
_FACE = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))


def yoke_piece(plan: GatePlan, spec: GateBracketSpec, rods: bool) -> Piece:
    """The yoke on rods (holes, captive nuts), or without them, its ends square for rails to be fused on.

    RefusalError where something on the body leaves no room for what grips it.
    """
    return yoke_of(yoke_plan(plan, spec, rods), spec)


def yoke_of(numbers: YokePlan, spec: GateBracketSpec) -> Piece:
    """The yoke of these numbers."""
    solid = cut(_block(numbers.plate), [_block(b) for b in (numbers.window, *numbers.recesses)], "yoke")
    added = [*(numbers.ear_block(ear) for ear in numbers.ears), *numbers.feet]
    solid = fused([solid, *(_block(one) for one in added), *_arms(numbers)], "yoke")
    tools = [Feature(name, "cut", tool) for name, tool in _tools(numbers)]
    saddle = numbers.saddle
    tools += saddle_tools(saddle) if saddle else []
    return Piece(
        name="yoke",
        solid=cut(solid, [tool.tool for tool in tools], "yoke"),
        genus=1 + len(numbers.rods) + sum(len(ear.holes) for ear in numbers.ears) + (2 if saddle else 0),
        volume_mm3=closed_form_mm3(numbers),
        features=(Feature("window", "cut", _open_window(numbers)), *tools, *(saddle_bores(saddle) if saddle else [])),
        holes=_hole_fits(numbers),
    )


def _arms(numbers: YokePlan) -> list[Solid]:
    return [] if numbers.saddle is None else saddle_solids(numbers.saddle, numbers.plate.y)


def closed_form_mm3(numbers: YokePlan) -> float:
    """Boxes, less hexagons and circles through them."""
    left = cells(numbers.steps)
    y0, y1 = min(b.y[0] for b in left), numbers.plate.y[1]
    taken = [prism_volume_mm3(rod.outline, (y0, rod.floor_y), left) for rod in numbers.rods]
    taken += [math.pi * rod.d_mm**2 / 4 * (y1 - rod.floor_y) for rod in numbers.rods]
    grooves = [rod.outline for rod in numbers.rods]
    taken += [
        hole_volume_mm3(x, numbers.hole_d_mm, numbers.ear_z(ear), grooves, numbers.slot_mm)
        for ear in numbers.ears
        for x, _ in ear.holes
    ]
    saddle = numbers.saddle
    added = added_mm3(saddle, numbers.plate.y, numbers.half_high_mm) if saddle else 0.0
    return volume_mm3(left) + added - math.fsum(taken)


def _block(block: Block) -> Solid:
    return box(block.x, block.y, block.z)


def _open_window(numbers: YokePlan) -> Solid:
    """Of the window, what no ear fills."""
    return cut(_block(numbers.window), [_block(numbers.ear_block(ear)) for ear in numbers.ears], "window")


def _tools(numbers: YokePlan) -> list[tuple[str, Shape]]:
    found: list[tuple[str, Shape]] = [(f"relief {k + 1}", _block(r)) for k, r in enumerate(numbers.reliefs)]
    for rod in numbers.rods:
        found += _rod_tools(rod, numbers)
    for ear in numbers.ears:
        found += [(name, _ear_tool(x, y, ear, numbers)) for name, x, y in _named(ear)]
    return found


def _rod_tools(rod: RodHole, numbers: YokePlan) -> list[tuple[str, Shape]]:
    """The pocket's room goes on beyond the ears' tips: the nut comes in from there."""
    y1 = numbers.plate.y[1]
    behind = min([numbers.plate.y[0], *(ear.tip_y for ear in numbers.ears)]) - OVER
    hole = bar((rod.x_mm, rod.floor_y - OVER, 0.0), (0.0, 1.0, 0.0), rod.d_mm / 2, y1 - rod.floor_y + 2 * OVER)
    return [(f"{rod.name} hole", hole), (f"{rod.name} nut pocket", prism(rod.outline, _FACE, behind, rod.floor_y))]


def _ear_tool(x: float, y: float, ear: Ear, numbers: YokePlan) -> Shape:
    z, slot, r = numbers.ear_z(ear), numbers.slot_mm, numbers.hole_d_mm / 2
    low, long = z[0] - OVER, z[1] - z[0] + 2 * OVER
    if slot <= 0:
        return bar((x, y, low), (0.0, 0.0, 1.0), r, long)
    ends = [bar((x, y + move, low), (0.0, 0.0, 1.0), r, long) for move in (-slot, slot)]
    return fused([box((x - r, x + r), (y - slot, y + slot), (low, low + long)), *ends], f"{ear.name} slot")


def _named(ear: Ear) -> list[tuple[str, float, float]]:
    several = len(ear.holes) > 1
    return [(f"{ear.name} ear hole" + f" {k + 1}" * several, x, y) for k, (x, y) in enumerate(ear.holes)]


def _hole_fits(numbers: YokePlan) -> tuple[HoleFit, ...]:
    key = f"gate.{numbers.mount}.size"
    y1 = numbers.plate.y[1]
    found = [
        HoleFit(
            f"{rod.name} hole", (rod.x_mm, rod.floor_y, 0.0), (0.0, 1.0, 0.0), y1 - rod.floor_y, rod.d_mm, "rod_size"
        )
        for rod in numbers.rods
    ]
    for ear in numbers.ears:
        z = numbers.ear_z(ear)
        found += [
            HoleFit(name, (x, y, z[0]), (0.0, 0.0, 1.0), z[1] - z[0], numbers.hole_d_mm, key)
            for name, x, y in _named(ear)
            if not numbers.slot_mm
        ]
    return tuple(found)
