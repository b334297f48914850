"""What is cut from the finished part for the try-print: little plastic, and every size that decides the fit."""

from __future__ import annotations

import math
from collections.abc import Sequence

from cadquery import Shape

from fitwright.frame import Frame
from fitwright.part import TryPiece
from fitwright.parts.ends import PlacedEnd, sizes_of_flange, slits_end_mm
from fitwright.parts.flange_cover import rim_tool
from fitwright.shapes.flange import FlangeSizes, outline_reach
from fitwright.shapes.forms import Form
from fitwright.shapes.profile import Point
from fitwright.shapes.solids import cylinder, fused, prism, ring
from fitwright.spec.models import Flange, HoseTail

RING_MM = 6.0
"""A ring this long shows a fit as well as a whole joint does, in a quarter of an hour (common practice, no source)."""
BEHIND_BEAD_MM = 3.0
SKIN_MM = 1.2
"""Six layers hold a bolt pattern flat."""


def try_piece(end: PlacedEnd) -> TryPiece | None:
    """A short ring where the joint is tightest, or a thin strip through the bolt holes; nothing for a plain end."""
    inward = end.frame.inward
    down = (-inward[0], -inward[1], -inward[2])
    joint = end.plan.end.joint
    if isinstance(joint, Flange):
        plan = end.plan
        sizes = sizes_of_flange(joint, plan)
        form = end.shape.form
        tool = rim_tool(sizes, joint, end.frame, SKIN_MM) if joint.covers else _footprint(sizes, end.frame, form)
        return TryPiece(f"{plan.key} footprint", tool, down)
    if end.shape.fit is None:
        return None
    start, stop = _along(end, end.shape.fit)
    reach = end.shape.form.at(max(r for _, r in end.shape.outer)).reach_mm + 2.0
    return TryPiece(f"{end.plan.key} ring", cylinder(end.frame, reach, start, stop), down)


def _along(end: PlacedEnd, fit: tuple[float, float, float, float]) -> tuple[float, float]:
    """From where to where [mm from the mouth]: the tight end; behind any slits, which would leave loose arcs."""
    s0, d0, s1, d1 = fit
    if end.shape.ridge:  # one turn of a ridge shows whether pitch and hand are right
        return -0.1, min(end.shape.ridge.s0_mm + 1.25 * end.shape.ridge.pitch_mm, s1)
    if isinstance(end.plan.end.joint, HoseTail):
        return -0.1, s0 + BEHIND_BEAD_MM
    slits = slits_end_mm(end.plan)
    if slits:
        return max(slits + 0.5, s1 - RING_MM), s1
    if (d1 < d0) == (end.plan.end.kind == "socket") and abs(d1 - d0) > 1e-6:
        start = max(0.0, s1 - RING_MM)
        return start, start + RING_MM
    return -0.1, RING_MM if end.shape.cord_groove_depth_mm else max(RING_MM, s0 + RING_MM / 2)


def _footprint(sizes: FlangeSizes, frame: Frame, form: Form) -> Shape:
    """A strip from hole to hole, round the axis or straight, whichever lies in the plate; else the whole skin."""
    points, half = sizes.bolts.points, 1.1 * sizes.bolts.hole_d
    skin = SKIN_MM + sizes.groove_depth  # a gasket groove as deep as the skin would part it
    radii = [math.hypot(*p) for p in points]
    inside = min(outline_reach(sizes, float(deg)) for deg in range(0, 360, 5))
    if form.base is None and max(radii) - min(radii) < 0.5 and max(radii) + half < inside:
        low, high = min(radii) - half, max(radii) + half
        return ring([(-0.1, low), (-0.1, high), (skin, high), (skin, low)], frame)
    if sizes.outline and not sizes.outline.is_convex():  # a straight strip could leave the plate
        return cylinder(frame, 2 * sizes.outline.reach_mm + 10.0, -0.1, skin)
    around = sorted(points, key=lambda p: math.atan2(*p))
    sides = list(zip(around, [*around[1:], around[0]], strict=True))
    if min(_nearest(a, b, form) for a, b in sides) - half < sizes.opening_d / 2:
        return cylinder(frame, 2 * max(radii) + 50.0, -0.1, skin)
    return fused([prism(_strip(a, b, half), frame, -0.1, skin) for a, b in sides], "footprint")


def _nearest(a: Point, b: Point, form: Form) -> float:
    """How near the line from a to b comes to the axis, or to the outline that the opening's r stands for."""
    if form.base is None:
        return abs(a[0] * b[1] - a[1] * b[0]) / math.dist(a, b)
    shares = (k / 40 for k in range(41))
    return min(form.r_of((a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]))) for t in shares)


def _strip(a: Point, b: Point, half: float) -> Sequence[Point]:
    """A bar from a to b, `half` wide either side and beyond its ends."""
    length = math.dist(a, b)
    u, v = (b[0] - a[0]) / length * half, (b[1] - a[1]) / length * half
    return [
        (a[0] - u + v, a[1] - v - u),
        (b[0] + u + v, b[1] + v - u),
        (b[0] + u - v, b[1] + v + u),
        (a[0] - u - v, a[1] - v + u),
    ]
