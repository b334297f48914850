"""The split block that holds a cylinder's body by friction: a bore with a roof at 45 deg, a slit up from there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Shape, Solid

from fitwright.frame import Frame
from fitwright.part import Feature, HoleFit
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.gate.nose_hold import SLIT_MM, ClampHold
from fitwright.parts.gate.piece import box
from fitwright.shapes.solids import bar, fused, outline_prism, prism
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

OVER = TOLERANCES.overshoot_mm


@dataclass(frozen=True)
class ClampBlock:
    """The block without its cuts, and the cuts; `volume_mm3` is what it adds with them, `genus` what they add."""

    solid: Solid
    features: tuple[Feature, ...]
    holes: tuple[HoleFit, ...]
    volume_mm3: float
    genus: int


def clamp_block(hold: ClampHold, at: tuple[float, float, float], spec: GateBracketSpec) -> ClampBlock:
    """The block on the plate's face; `at`: x of the axis, y of the mounting face, which way the body lies."""
    x, face, way = at
    half, off, long = hold.half_mm, hold.off_mm, hold.off_mm + hold.band_mm
    r = modelled(hold.bore_mm, "hole", spec.printer) / 2
    cover = modelled(hold.cover_mm, "hole", spec.printer) / 2
    block = box((x - half, x + half), _along(at, off, long), (-hold.down_mm, hold.up_mm))
    neck = box((x - half, x + half), _along(at, 0.0, off), (-hold.down_mm, -hold.side_mm))
    y0, y1 = _along(at, off, long + OVER)
    frame = Frame((x, y0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    area, apex = _bore_area(hold.round, r)
    slit = box((x - SLIT_MM / 2, x + SLIT_MM / 2), (y0, y1), (0.0, hold.up_mm + OVER))
    room = _room(hold.round, cover, x, _along(at, 0.0, off))
    d = small_hole(hold.screw_hole_mm, spec.printer)
    screws = [_screw(k, face + way * (off + v), hold.screw_z_mm, x, half, d) for k, v in enumerate(hold.screw_v_mm)]
    tools = (("clamp bore", _bore(hold.round, r, frame, y1 - y0)), ("clamp slit", slit), ("room for the cover", room))
    taken = (area + SLIT_MM * (hold.up_mm - apex + SLIT_MM / 4)) * hold.band_mm
    taken += 2 * math.pi * d * d / 4 * (2 * half - SLIT_MM) + _room_mm2(hold, cover) * off
    whole = 2 * half * ((hold.down_mm + hold.up_mm) * hold.band_mm + (hold.down_mm - hold.side_mm) * off)
    return ClampBlock(
        fused([neck, block], "clamp block"),
        tuple(Feature(name, "cut", tool) for name, tool in (*tools, *((hole.name, tool) for hole, tool in screws))),
        tuple(hole for hole, _ in screws),
        whole - taken,
        4,
    )


def _room_mm2(hold: ClampHold, r: float) -> float:
    """Of the room for the cover, what lies below the neck's upper face: a segment, or a rectangle."""
    side = hold.side_mm
    if side >= r:
        return 0.0
    return r * r * math.acos(side / r) - side * math.sqrt(r * r - side * side) if hold.round else 2 * r * (r - side)


def _room(is_round: bool, r: float, x: float, y: tuple[float, float]) -> Solid:
    """What the front cover needs in the neck."""
    if is_round:
        frame = Frame((x, y[0], 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
        return outline_prism([((-r, 0.0), (0.0, -r), (r, 0.0)), ((r, 0.0), None, (-r, 0.0))], frame, 0.0, y[1] - y[0])
    return box((x - r, x + r), y, (-r, 0.0))


def _along(at: tuple[float, float, float], v0: float, v1: float) -> tuple[float, float]:
    """The stretch along y between two distances from the plate's face, low then high."""
    a, b = at[1] + at[2] * v0, at[1] + at[2] * v1
    return min(a, b), max(a, b)


def _bore_area(is_round: bool, r: float) -> tuple[float, float]:
    """Of the bore with its roof [mm2], and its apex above the axis [mm]."""
    return (0.75 * math.pi * r * r + r * r, math.sqrt(2.0) * r) if is_round else (5.0 * r * r, 2.0 * r)


def _bore(is_round: bool, r: float, frame: Frame, long: float) -> Solid:
    """A circle or a square under a roof at 45 deg."""
    if is_round:
        c = r / math.sqrt(2.0)
        sides = [((-c, c), (0.0, -r), (c, c)), ((c, c), None, (0.0, 2 * c)), ((0.0, 2 * c), None, (-c, c))]
        return outline_prism(sides, frame, 0.0, long)
    return prism([(-r, -r), (r, -r), (r, r), (0.0, 2 * r), (-r, r)], frame, 0.0, long)


def _screw(k: int, y: float, z: float, x: float, half: float, d: float) -> tuple[HoleFit, Shape]:
    name = f"clamp screw hole {k + 1}"
    tool = bar((x - half - OVER, y, z), (1.0, 0.0, 0.0), d / 2, 2 * (half + OVER))
    start = (x - half, y, z)
    return HoleFit(name, start, (1.0, 0.0, 0.0), 2 * half, d, "cylinder.body"), tool
