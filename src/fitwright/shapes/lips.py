"""What joins two halves: lips, collars, ribs and pegs as solids, and the half spaces that part a solid."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from cadquery import Shape, Solid, Vector
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from fitwright.errors import BuildError
from fitwright.frame import Frame, Vec
from fitwright.shapes.outline import Outline, of_polygon, section
from fitwright.shapes.profile import Point
from fitwright.shapes.solids import boxes_meet, one_solid, prism, revolve, ring

STEP_MM = 0.6
"""Steps of a foot under an outline that is not round: a ledge of 0.8 prints without support."""
PRECISE_REL, JOINED_REL = 1e-7, 1e-4
STRAIGHT_MM = 1e-5
SEAMS_RAD = (0.65, 1.75, 2.85, 4.4)
"""Where a turned lip may have its seam: two cones about one axis are joined wrongly by the kernel with some of them."""
THIN_MM = 0.01
"""A prism's outline is simplified by no more than this."""


def half_space(frame: Frame, side: int, reach_mm: float) -> Solid:
    """A box on one side of the plane (side +1: where its normal points), `reach_mm` each way."""
    r = reach_mm
    square = [(-r, -r), (r, -r), (r, r), (-r, r)]
    return prism(square, frame, 0.0, r) if side > 0 else prism(square, frame, -r, 0.0)


def parted(solid: Solid, frame: Frame, reach_mm: float, what: str) -> tuple[Solid, Solid]:
    """The two halves of a solid, before and behind the plane; BuildError where they are not one solid each."""
    first, second = (one_solid(solid.intersect(half_space(frame, side, reach_mm)), what) for side in (-1, 1))
    return first, second


def without(solid: Shape, tools: Sequence[Shape], what: str) -> Shape:
    """A shape less those tools that come near it (there may be several pieces left)."""
    near = [tool for tool in tools if boxes_meet(solid, tool)]
    found = solid.cut(*near) if near else solid
    if not found.Solids():
        raise BuildError(f"{what}: nothing is left of it")
    return found


def joined(solid: Solid, pieces: Sequence[Shape], what: str) -> Solid:
    """The solid with all pieces on it; the kernel has lost a part of such a union before, so its volume is proved."""
    meant = solid.Volume()
    for piece in pieces:
        more = volume_mm3(piece.cut(solid))
        if more <= 0.0:
            raise BuildError(f"{what}: the kernel finds nothing of a lip outside the part")
        meant += more
        solid = one_solid(solid.fuse(*piece.Solids()), what)
    if abs(solid.Volume() / meant - 1.0) > JOINED_REL:
        raise BuildError(f"{what}: the kernel gave {solid.Volume():.1f} mm3 where {meant:.1f} mm3 were meant")
    return solid


def pared(solid: Solid, tools: Sequence[Shape], what: str) -> Solid:
    """The solid less all tools, one after another, each time proved by volume."""
    for tool in tools:
        meant = solid.Volume() - volume_mm3(solid.intersect(tool))
        solid = one_solid(solid.cut(tool), what)
        if abs(solid.Volume() / meant - 1.0) > JOINED_REL:
            raise BuildError(f"{what}: the kernel gave {solid.Volume():.1f} mm3 where {meant:.1f} mm3 were meant")
    return solid


def volume_mm3(shape: Shape) -> float:
    """Sum over the solids of a boolean's result."""
    return float(sum(solid.Volume() for solid in shape.Solids()))


def close_volume_mm3(solid: Solid) -> float:
    """The volume integrated to PRECISE_REL: the kernel's quick way is off by some 1e-5 on a bend that is cut askew."""
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(solid.wrapped, properties, PRECISE_REL, True, False)
    return float(properties.Mass())


def slab(area: shapely.Polygon, frame: Frame, half_mm: float) -> Solid:
    """A plate on an area of the plane, `half_mm` thick each way."""
    return of_polygon(area.simplify(THIN_MM), frame).prism(-half_mm, half_mm)


@dataclass(frozen=True)
class Skin:
    """The outside that a lip stands on: a solid's outlines at places along a plane's normal."""

    solid: Solid
    frame: Frame

    def at(self, s: float) -> Outline:
        """The outline there."""
        return section(self.solid, self.frame, s)[0]


def skirt(
    skin: Skin, outer: Outline, s0: float, s1: float, within_mm: float, cuts: Sequence[Shape], falls_mm: float = 0.0
) -> list[Shape]:
    """A lip on `outer` from s0 to s1, which narrows by `falls_mm` on the way.

    Where lip and skin are round about one axis and straight it is one exact ring that ends `within_mm` below the skin,
    so that no face of it lies in a face of the part; else it is full, less `cuts` (the passage).
    """
    radii = _radii(skin, outer, s0, s1, within_mm)
    if outer.circle and radii:
        low, high = outer.circle.r, outer.circle.r - falls_mm
        if high > radii[1] + THIN_MM and low > radii[0] + THIN_MM:
            return [_turned(skin, outer, [(s0, radii[0]), (s0, low), (s1, high), (s1, radii[1])])]
    return [without(one, cuts, "lip") for one in _full(outer, s0, s1, falls_mm)]


def footed(skin: Skin, outer: Outline, foot_s: float, s0: float, s1: float, within_mm: float) -> list[Shape]:
    """The same from s0 to s1 with a 45 deg foot from s0 to `foot_s`, as one ring; empty where that is not exact."""
    radii = _radii(skin, outer, foot_s, s1, within_mm)
    if not outer.circle or not radii:
        return []
    r, tip = outer.circle.r, outer.circle.r - abs(s0 - foot_s)
    if tip < radii[0] + THIN_MM or r < radii[1] + THIN_MM:
        return []
    return [_turned(skin, outer, [(foot_s, radii[0]), (foot_s, tip), (s0, r), (s1, r), (s1, radii[1])])]


def _turned(skin: Skin, outer: Outline, profile: Sequence[Point]) -> Solid:
    """A ring about the outline's axis, its seam where the kernel joins it to the solid as it should."""
    solid = skin.solid
    for seam_rad in SEAMS_RAD:
        found = ring(profile, _centre(outer, seam_rad))
        more, own = volume_mm3(found.cut(solid)), found.Volume()
        joint = volume_mm3(solid.fuse(found))
        if 0.0 < more < own * (1.0 - JOINED_REL) and abs(joint - solid.Volume() - more) < JOINED_REL * own:
            return found
    return ring(profile, _centre(outer, SEAMS_RAD[0]))


def _radii(skin: Skin, outer: Outline, s0: float, s1: float, within_mm: float) -> tuple[float, float] | None:
    """Radii `within_mm` below the skin at both ends, where it is a cone or cylinder about the outline's axis."""
    found = [skin.at(s0 + k * (s1 - s0)) for k in (0.0, 0.25, 0.5, 0.75, 1.0)]
    if not all(_about(one, outer) for one in found):
        return None
    r = [one.circle.r - within_mm for one in found if one.circle]
    off = max(abs(r[0] + (r[4] - r[0]) * k / 4 - r[k]) for k in range(5))
    return (r[0], r[4]) if off < STRAIGHT_MM and min(r) > 0.0 else None


def _centre(outline: Outline, seam_rad: float = SEAMS_RAD[0]) -> Frame:
    c, frame = outline.circle, outline.frame
    assert c is not None
    x, y = math.cos(seam_rad), math.sin(seam_rad)  # its seam lies clear of the part's own
    r, u = frame.right, frame.up
    aside = (x * r[0] + y * u[0], x * r[1] + y * u[1], x * r[2] + y * u[2])
    return Frame(frame.point(c.x, 0.0, c.y), frame.inward, aside)


def _about(one: Outline, other: Outline) -> bool:
    return bool(
        one.circle
        and other.circle
        and abs(one.circle.x - other.circle.x) + abs(one.circle.y - other.circle.y) < STRAIGHT_MM
    )


def _full(outer: Outline, s0: float, s1: float, falls_mm: float) -> list[Solid]:
    """The same without a hole: a prism, a frustum, or where it narrows and is not round, steps that print."""
    if falls_mm <= 0.0:
        return [outer.prism(min(s0, s1), max(s0, s1))]
    if outer.circle:
        r = outer.circle.r
        return [revolve(sorted([(s0, r), (s1, max(r - falls_mm, 0.2))]), _centre(outer))]
    count = max(1, math.ceil(abs(s1 - s0) / STEP_MM - 1e-9))
    step = (s1 - s0) / count
    first, *others = [outer.grown(-falls_mm * (k + 1) / count).prism(*sorted((s0 + step * k, s0 + step * (k + 1))))
                      for k in range(count)]  # fmt: skip
    return [joined(first, others, "foot of a lip")]


def rib(at: Vec, outwards: Vec, along: Vec, profile: Sequence[Point], width_mm: float) -> Solid:
    """A bar across a seam: its profile of (outwards, along) points from `at`, `width_mm` wide, half each way."""
    o, a = Vector(*outwards), Vector(*along)
    across = o.cross(a)
    frame = Frame(at, across.toTuple(), outwards)
    flip = 1.0 if sum(frame.up[i] * along[i] for i in range(3)) > 0 else -1.0
    return prism([(x, flip * s) for x, s in profile], frame, -width_mm / 2, width_mm / 2)
