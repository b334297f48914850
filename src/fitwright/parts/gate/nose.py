"""The plate that holds the cylinder's nose, between the rods or rails at the height of the thrust line.

Seen from above it is a beam of two chords with windows between them, so that it prints lying flat: every window, and
the bay for the nose nut, is upright then, thrust and bending lie in the layers. What goes along the thrust is a lying
hole; where it is wide its roof comes to a point at 45 deg.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from cadquery import Shape, Solid

from fitwright.frame import Frame
from fitwright.part import Feature, HoleFit, Pose, RoundSize
from fitwright.parts.compensation import placed, small_hole
from fitwright.parts.gate.nose_clamp import ClampBlock, clamp_block
from fitwright.parts.gate.nose_hold import ClampHold, SquareHold, ThreadHold
from fitwright.parts.gate.nose_plan import ROOF_MM, NosePlan
from fitwright.parts.gate.piece import ALONG, Piece, box
from fitwright.parts.gate.plan import GatePlan
from fitwright.shapes.solids import bar, cut, fused, outline_prism, prism
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

POSES = (Pose("lying flat", (0.0, 0.0, -1.0)), Pose("lying flat, upside down", (0.0, 0.0, 1.0)))
OVER = TOLERANCES.overshoot_mm
ROUND_MM = 14.0
"""A lying hole no wider than this is left round: its roof spans 0.71 of it."""
KEY = "cylinder"


@dataclass(frozen=True)
class Place:
    """From the plate's own measures to the part's: u right of the thrust line, v from the mounting face to the body."""

    axis_x: float
    face_y: float
    way: float

    def box(self, u: tuple[float, float], v: tuple[float, float], z: tuple[float, float]) -> Solid:
        """A box, v low to high."""
        x = (self.axis_x + u[0], self.axis_x + u[1])
        return box(x, self.y(v), z)

    def y(self, v: tuple[float, float]) -> tuple[float, float]:
        """The stretch along y, low then high."""
        a, b = (self.face_y + self.way * w for w in v)
        return min(a, b), max(a, b)


@dataclass(frozen=True)
class Drilled:
    """A cut with its tool, what it takes from the plate [mm3], and its size where it is round."""

    name: str
    tool: Shape
    takes_mm3: float
    genus: int = 1
    hole: HoleFit | None = None
    round: RoundSize | None = None


def nose_place(plan: GatePlan) -> Place:
    """Where the nose plate stands in the part."""
    return Place(plan.axis_x_mm, plan.nose_face_mm, plan.way)


def nose_piece(plan: GatePlan, spec: GateBracketSpec, rods: bool, down_mm: float | None = None) -> Piece:
    """The nose plate, with holes for the rods or its ends square for rails to be fused on.

    `down_mm`: how far it goes down from the thrust line, windows and all; None: as far as it goes up.
    """
    nose, at = plan.frame.nose, nose_place(plan)
    outer, z = nose.ends.outer_x, (-nose.high / 2 if down_mm is None else -down_mm, nose.high / 2)
    plate = at.box((-outer, outer), (-nose.deep, 0.0), z)
    volume = 2.0 * outer * nose.deep * (z[1] - z[0])
    block = _block(nose, at, spec, down_mm)
    drilled = [*_windows(nose, at, z), *_held(nose, at, spec), *(_rods(plan, spec, at) if rods else [])]
    solid = cut(
        plate if block is None else fused([plate, block.solid], "nose plate"), _tools(drilled, block), "nose plate"
    )
    return Piece(
        name="nose",
        solid=solid,
        genus=sum(one.genus for one in drilled) + (block.genus if block else 0),
        volume_mm3=volume - math.fsum(one.takes_mm3 for one in drilled) + (block.volume_mm3 if block else 0.0),
        features=tuple(Feature(one.name, "cut", one.tool) for one in drilled) + (block.features if block else ()),
        holes=tuple(one.hole for one in drilled if one.hole) + (block.holes if block else ()),
        rounds=tuple(one.round for one in drilled if one.round),
    )


def _block(nose: NosePlan, at: Place, spec: GateBracketSpec, down_mm: float | None) -> ClampBlock | None:
    if not isinstance(nose.hold, ClampHold):
        return None
    hold = nose.hold if down_mm is None else replace(nose.hold, down_mm=down_mm)
    return clamp_block(hold, (at.axis_x, at.face_y, at.way), spec)


def _tools(drilled: list[Drilled], block: ClampBlock | None) -> list[Shape]:
    return [*(one.tool for one in drilled), *(feature.tool for feature in (block.features if block else ()))]


def _windows(nose: NosePlan, at: Place, z: tuple[float, float]) -> list[Drilled]:
    """The bay for the nut and the windows beside it, upright through the plate."""
    spans = [(-nose.middle_x, nose.middle_x)] if isinstance(nose.hold, ThreadHold) else []
    names = ["nut bay"] * len(spans)
    for k, (x0, x1) in enumerate(nose.windows):
        spans += [(-x1, -x0), (x0, x1)]
        names += [f"left window {k + 1}", f"right window {k + 1}"]
    v, high = (nose.chord - nose.deep, -nose.web), z[1] - z[0]
    return [
        Drilled(name, at.box(u, v, (z[0] - OVER, z[1] + OVER)), (u[1] - u[0]) * nose.bay * high)
        for name, u in zip(names, spans, strict=True)
    ]


def _held(nose: NosePlan, at: Place, spec: GateBracketSpec) -> list[Drilled]:
    """What goes through the plate along the thrust line."""
    hold = nose.hold
    if isinstance(hold, ThreadHold):
        through = _lying("nose hole", (0.0, 0.0), small_hole(hold.hole_mm, spec.printer), (-nose.web, 0.0), at)
        return [through, _opening(nose, at)]
    name = "boss hole" if spec.cylinder.boss_d_mm else "rod hole"
    all_through = (-nose.deep, 0.0)
    found = [_lying(name, (0.0, 0.0), small_hole(hold.hole_mm, spec.printer), all_through, at)]
    if isinstance(hold, SquareHold):
        half, d = placed(hold.apart_mm / 2, spec.printer), small_hole(hold.screw_hole_mm, spec.printer)
        for word, z in (("lower", -hold.apart_mm / 2), ("upper", hold.apart_mm / 2)):
            for side, u in (("left", -half), ("right", half)):
                found.append(_lying(f"{word} {side} cover screw hole", (u, z), d, all_through, at, "cylinder.square"))
    return found


def _opening(nose: NosePlan, at: Place) -> Drilled:
    """The opening in the front chord: upright sides, a floor and a roof that narrow at 45 deg to what prints clean."""
    half, top = nose.open_x, nose.open_z
    flat = min(half, ROOF_MM / 2)
    side = top - (half - flat)
    outline = [(half, -side), (half, side), (flat, top), (-flat, top), (-half, side), (-half, -side), (-flat, -top)]
    outline.append((flat, -top))
    area = 4.0 * (half * top - (half - flat) ** 2 / 2)
    y = at.y((-nose.deep - OVER, nose.chord - nose.deep + OVER))
    tool = prism([(at.axis_x + x, z) for x, z in _distinct(outline)], ALONG, *y)
    return Drilled("front opening", tool, area * nose.chord)


def _distinct(outline: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Without corners that fall together."""
    return [p for k, p in enumerate(outline) if math.dist(p, outline[k - 1]) > 1e-9]


def _rods(plan: GatePlan, spec: GateBracketSpec, at: Place) -> list[Drilled]:
    d, x = small_hole(plan.frame.rod_hole_mm, spec.printer), placed(plan.frame.rail_x, spec.printer)
    v = (-plan.frame.nose.deep, 0.0)
    return [
        _lying(f"nose {name} rod hole", (side * x, 0.0), d, v, at, "rod_size")
        for name, side in (("left", -1.0), ("right", 1.0))
    ]


def _lying(
    name: str, centre: tuple[float, float], d: float, v: tuple[float, float], at: Place, key: str = KEY
) -> Drilled:
    """A hole along the thrust; round, or with a roof at 45 deg where it is wide."""
    y, long = at.y(v), v[1] - v[0]
    start = (at.axis_x + centre[0], y[0], centre[1])
    r = d / 2
    if d <= ROUND_MM:
        tool = bar((start[0], y[0] - OVER, start[2]), (0.0, 1.0, 0.0), r, long + 2 * OVER)
        hole = HoleFit(name, start, (0.0, 1.0, 0.0), long, d, key)
        return Drilled(name, tool, math.pi * r * r * long, hole=hole)
    frame = Frame(start, (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    tool = roofed_bar(frame, r, -OVER, long + OVER)
    size = RoundSize(name, frame, "hole", 0.0, long, d, key)
    return Drilled(name, tool, roofed_mm2(r) * long, round=size)


def roofed_bar(frame: Frame, r: float, s0: float, s1: float) -> Solid:
    """A round bar with a roof: two planes that leave it at 45 deg and meet above."""
    c = r / math.sqrt(2.0)
    sides = [((-c, c), (0.0, -r), (c, c)), ((c, c), None, (0.0, 2 * c)), ((0.0, 2 * c), None, (-c, c))]
    return outline_prism(sides, frame, s0, s1)


def roofed_mm2(r: float) -> float:
    """Three quarters of the circle, and the square on its radius.

    >>> round(roofed_mm2(10.0), 3)
    335.619
    """
    return 0.75 * math.pi * r * r + r * r
