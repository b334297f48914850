"""A flange with a round opening: plate, neck, bolt holes, washer seats, nut pockets, gussets, gasket groove."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid

from fitwright.frame import Frame
from fitwright.outline import Outline
from fitwright.shapes.forms import ROUND, Form
from fitwright.shapes.joint import OVERSHOOT_MM, Hole, JointShape, Tool, to_root
from fitwright.shapes.profile import Point, upper_envelope
from fitwright.shapes.solids import cylinder, hexagon, outline_prism, prism, rectangle

SEAT_DEPTH_MM = 0.4
NECK_CHAMFER_MM = 3.0
GUSSET_EDGE_MM = 2.0
"""Gussets end this far inside the outline, with an upright face this high."""
GUSSET_WIDE = 1.5
"""Thickness of a gusset in walls."""
NUT_SLACK_MM = 0.3
"""A printed nut pocket is this much wider across flats than the nut (common practice, no source)."""


@dataclass(frozen=True)
class BoltSizes:
    """Bolt pattern [mm]: hole centres as (right, up), hole, washer and nut sizes. 0 leaves seats or pockets out."""

    points: tuple[Point, ...]
    hole_d: float
    seat_d: float = 0.0
    nut_af: float = 0.0
    nut_depth: float = 0.0


@dataclass(frozen=True)
class FlangeSizes:
    """All in mm. Round: `round_d` > 0; or any `outline`; else `width` x `height`. `gusset_deg`: clock angles."""

    opening_d: float
    thickness: float
    wall: float
    root_wall: float
    bolts: BoltSizes
    round_d: float = 0.0
    width: float = 0.0
    height: float = 0.0
    corner: float = 0.0
    gusset_deg: tuple[float, ...] = ()
    gusset_mm: float = 0.0
    groove_d: float = 0.0
    groove_w: float = 0.0
    groove_depth: float = 0.0
    outline: Outline | None = None

    @property
    def neck_r(self) -> float:
        """Outside radius of the neck above the plate."""
        return self.opening_d / 2 + self.wall


def outline_reach(sizes: FlangeSizes, deg: float) -> float:
    """Distance [mm] from the axis to the outline at this clock angle (corner rounding left out)."""
    if sizes.round_d:
        return sizes.round_d / 2
    if sizes.outline:
        return sizes.outline.reach_at_mm(deg)
    a = math.radians(deg)
    reach = [sizes.width / 2 / abs(math.sin(a))] if abs(math.sin(a)) > 1e-9 else []
    reach += [sizes.height / 2 / abs(math.cos(a))] if abs(math.cos(a)) > 1e-9 else []
    return min(reach)


def gusset_tip(sizes: FlangeSizes, deg: float) -> float:
    """How far out [mm] a gusset at this clock angle may stand: both its flanks end inside the outline."""
    reach = outline_reach(sizes, deg)
    if sizes.outline:
        reach = min(reach, *(sizes.outline.reach_at_mm(deg, k * GUSSET_WIDE * sizes.wall / 2) for k in (-1, 1)))
    return reach - GUSSET_EDGE_MM


def flange(sizes: FlangeSizes, frame: Frame, name: str, form: Form = ROUND) -> JointShape:
    """Plate (mouth face at s = 0), 45 deg neck foot, straight neck as tall as the gussets."""
    r, th, neck = sizes.opening_d / 2, sizes.thickness, sizes.neck_r
    foot = ((th, neck + NECK_CHAMFER_MM), (th + NECK_CHAMFER_MM, neck))
    neck_to = th + max(NECK_CHAMFER_MM, sizes.gusset_mm) + 1.0
    root_s, slope = to_root(neck, neck_to, r + sizes.root_wall, sizes.wall)
    plate_r = sizes.round_d / 2 if sizes.round_d else neck + NECK_CHAMFER_MM
    lines = [((0.0, plate_r), (th, plate_r)), ((0.0, neck), (neck_to, neck)), foot, slope]
    if root_s - neck_to < 1e-9:
        root_s = neck_to
        lines.pop()
    cuts, holes = _bolts(sizes, frame, name)
    groove_tool = _groove(sizes, frame, name, form)
    bosses, declared = _plate_and_gussets(sizes, frame, name)
    return JointShape(
        ((0.0, r), (root_s, r)),
        upper_envelope(lines),
        root_s,
        th,
        ring_bosses=declared,
        bosses=bosses,
        cuts=(*cuts, *groove_tool),
        holes=holes,
        form=form,
    )


def _bolts(sizes: FlangeSizes, frame: Frame, name: str) -> tuple[tuple[Tool, ...], tuple[Hole, ...]]:
    holes, cuts = [], []
    th, b = sizes.thickness, sizes.bolts
    for k, (x, y) in enumerate(b.points, start=1):
        start = frame.point(x, -OVERSHOOT_MM, y)
        holes.append(Hole(f"{name} bolt hole {k}", start, frame.inward, th + 2 * OVERSHOOT_MM, b.hole_d))
        shifted = Frame(frame.point(x, 0.0, y), frame.inward, frame.right)
        if b.seat_d:
            top = th + max(sizes.gusset_mm, NECK_CHAMFER_MM) + OVERSHOOT_MM
            cuts.append(Tool(f"{name} washer seat {k}", cylinder(shifted, b.seat_d / 2, th - SEAT_DEPTH_MM, top)))
        if b.nut_af:
            floor = th - b.nut_depth
            pocket = hexagon(frame, b.nut_af + NUT_SLACK_MM, floor, th + OVERSHOOT_MM, (x, y))
            cuts.append(Tool(f"{name} nut pocket {k}", pocket))
    return tuple(cuts), tuple(holes)


def _groove(sizes: FlangeSizes, frame: Frame, name: str, form: Form) -> tuple[Tool, ...]:
    if not sizes.groove_depth:
        return ()
    a, b = sizes.groove_d / 2 - sizes.groove_w / 2, sizes.groove_d / 2 + sizes.groove_w / 2
    line: list[Point] = [(-OVERSHOOT_MM, a), (-OVERSHOOT_MM, b), (sizes.groove_depth, b), (sizes.groove_depth, a)]
    return (Tool(f"{name} gasket groove", form.ring(line, frame)),)


def _plate_and_gussets(sizes: FlangeSizes, frame: Frame, name: str) -> tuple[tuple[Tool, ...], tuple[Tool, ...]]:
    """(solids still to fuse, bosses to declare: those and a round plate)."""
    plate = Tool(f"{name} plate", _plate(sizes, frame))
    gussets = [
        Tool(f"{name} gusset {k}", _gusset(sizes, frame, deg)) for k, deg in enumerate(sizes.gusset_deg, start=1)
    ]
    return tuple(gussets) if sizes.round_d else (plate, *gussets), (plate, *gussets)


def _plate(sizes: FlangeSizes, frame: Frame) -> Solid:
    if sizes.round_d:
        return cylinder(frame, sizes.round_d / 2, 0.0, sizes.thickness)
    if sizes.outline:
        return outline_prism([(s.start, s.via, s.end) for s in sizes.outline.sides], frame, 0.0, sizes.thickness)
    return rectangle(frame, sizes.width, sizes.height, sizes.corner, 0.0, sizes.thickness)


def _gusset(sizes: FlangeSizes, frame: Frame, deg: float) -> Solid:
    """A rib `wall` x 1.5 thick from the neck to just inside the outline, its top sloping at 45 deg or steeper."""
    a, th = math.radians(deg), sizes.thickness
    tip = min(gusset_tip(sizes, deg), sizes.neck_r + sizes.gusset_mm)
    inside = sizes.opening_d / 2 + 0.4 * sizes.wall
    low = th - 0.5 * min(th, sizes.wall)
    profile = [(inside, low), (tip, low), (tip, th + GUSSET_EDGE_MM)]
    profile += [(sizes.neck_r, th + sizes.gusset_mm), (inside, th + sizes.gusset_mm)]
    half = GUSSET_WIDE / 2 * sizes.wall
    r, u = frame.right, frame.up
    out = tuple(math.sin(a) * r[i] + math.cos(a) * u[i] for i in range(3))
    side = tuple(math.cos(a) * r[i] - math.sin(a) * u[i] for i in range(3))
    origin = frame.point(-half * math.cos(a), 0.0, half * math.sin(a))
    # a frame whose axis runs across the rib: its `right` points outwards, its `up` (right x axis) along the passage
    turned = Frame(origin, (side[0], side[1], side[2]), (out[0], out[1], out[2]))
    flip = 1.0 if sum(turned.up[i] * frame.inward[i] for i in range(3)) > 0 else -1.0
    return prism([(x, flip * s) for x, s in profile], turned, 0.0, 2 * half)
