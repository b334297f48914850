"""The block that holds a cylinder's body by friction: a bore, open above, whose cheeks two screws draw together.

Round, the bore reaches round the body up to 45 deg beside the top, where it leans over no further than prints clean.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Shape, Solid

from fitwright.frame import Frame
from fitwright.part import Feature, HoleFit
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.gate.nose_hold import ClampHold
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
    neck = box((x - hold.neck_half_mm, x + hold.neck_half_mm), _along(at, 0.0, off), (-hold.down_mm, -hold.side_mm))
    y0, y1 = _along(at, off, long + OVER)
    frame = Frame((x, y0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    room = _room(hold.round, cover, x, _along(at, 0.0, off))
    d = small_hole(hold.screw_hole_mm, spec.printer)
    screws = [_screw(k, face + way * (off + v), hold.screw_z_mm, x, half, d) for k, v in enumerate(hold.screw_v_mm)]
    tools = (("clamp bore", _bore(hold, r, frame, y1 - y0)), ("room for the cover", room))
    taken, opening = _bore_mm2(hold, r) * hold.band_mm, 2 * _opens(hold, r)[0]
    taken += 2 * math.pi * d * d / 4 * (2 * half - opening) + _room_mm2(hold, cover) * off
    whole = 2 * half * (hold.down_mm + hold.up_mm) * hold.band_mm
    whole += 2 * hold.neck_half_mm * (hold.down_mm - hold.side_mm) * off
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


def _opens(hold: ClampHold, r: float) -> tuple[float, float]:
    """Half width of the opening above, as modelled, and where it begins above the axis."""
    at = r / math.sqrt(2.0) if hold.round else r
    return at, at


def _bore_mm2(hold: ClampHold, r: float) -> float:
    """Of the bore with its opening: three quarters of a circle and two triangles, or a square, and what is above."""
    half, begins = _opens(hold, r)
    whole = 0.75 * math.pi * r * r + 0.5 * r * r if hold.round else 4.0 * r * r
    return whole + 2 * half * (hold.up_mm - begins)


def _bore(hold: ClampHold, r: float, frame: Frame, long: float) -> Solid:
    """Three quarters of a circle, or a square, open upwards."""
    top, (c, _) = hold.up_mm + OVER, _opens(hold, r)
    if not hold.round:
        return prism([(-r, -r), (r, -r), (r, top), (-r, top)], frame, 0.0, long)
    sides = [((-c, c), (0.0, -r), (c, c)), ((c, c), None, (c, top)), ((c, top), None, (-c, top))]
    return outline_prism([*sides, ((-c, top), None, (-c, c))], frame, 0.0, long)


def _screw(k: int, y: float, z: float, x: float, half: float, d: float) -> tuple[HoleFit, Shape]:
    name = f"clamp screw hole {k + 1}"
    tool = bar((x - half - OVER, y, z), (1.0, 0.0, 0.0), d / 2, 2 * (half + OVER))
    start = (x - half, y, z)
    return HoleFit(name, start, (1.0, 0.0, 0.0), 2 * half, d, "cylinder.body"), tool
