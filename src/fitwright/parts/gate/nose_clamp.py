"""The split block that holds a cylinder's body by friction: a bore with a roof at 45 deg, a slit up from there."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Shape, Solid

from fitwright.frame import Frame
from fitwright.part import Feature, HoleFit
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.gate.nose_hold import CLAMP_OFF_MM, SLIT_MM, ClampHold
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
    half, long = hold.half_mm, CLAMP_OFF_MM + hold.band_mm
    r = modelled(hold.bore_mm, "hole", spec.printer) / 2
    lower = box((x - half, x + half), _along(at, 0.0, long), (-hold.down_mm, 0.0))
    upper = box((x - half, x + half), _along(at, CLAMP_OFF_MM, long), (0.0, hold.up_mm))
    y0, y1 = _along(at, 0.0, long + OVER)
    frame = Frame((x, y0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    below, above, apex = _areas(hold.round, r)
    slit = box((x - SLIT_MM / 2, x + SLIT_MM / 2), (y0, y1), (0.0, hold.up_mm + OVER))
    d = small_hole(hold.screw_hole_mm, spec.printer)
    screws = [
        _screw(k, face + way * (CLAMP_OFF_MM + v), hold.screw_z_mm, x, half, d) for k, v in enumerate(hold.screw_v_mm)
    ]
    tools = (("clamp bore", _bore(hold.round, r, frame, y1 - y0)), ("clamp slit", slit))
    free = above + SLIT_MM * (hold.up_mm - apex + SLIT_MM / 4)
    taken = below * long + free * hold.band_mm + 2 * math.pi * d * d / 4 * (2 * half - SLIT_MM)
    whole = 2 * half * (hold.down_mm * long + hold.up_mm * hold.band_mm)
    return ClampBlock(
        fused([lower, upper], "clamp block"),
        tuple(Feature(name, "cut", tool) for name, tool in (*tools, *((hole.name, tool) for hole, tool in screws))),
        tuple(hole for hole, _ in screws),
        whole - taken,
        4,
    )


def _along(at: tuple[float, float, float], v0: float, v1: float) -> tuple[float, float]:
    """The stretch along y between two distances from the plate's face, low then high."""
    a, b = at[1] + at[2] * v0, at[1] + at[2] * v1
    return min(a, b), max(a, b)


def _areas(is_round: bool, r: float) -> tuple[float, float, float]:
    """Of the bore below and above the axis [mm2], and its apex above the axis [mm]."""
    if is_round:
        return math.pi * r * r / 2, math.pi * r * r / 4 + r * r, math.sqrt(2.0) * r
    return 2 * r * r, 3 * r * r, 2 * r


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
