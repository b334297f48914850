"""What joins two halves: lips, collars, ribs and pegs as solids, and the half spaces that part a solid."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from cadquery import Shape, Solid, Vector
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from fitwright.errors import BuildError
from fitwright.frame import Frame, Vec
from fitwright.shapes.outline import Outline, of_polygon
from fitwright.shapes.profile import Point
from fitwright.shapes.solids import boxes_meet, one_solid, prism, ring

STEP_MM = 0.6
"""Steps of a foot under an outline that is not round: a ledge of 0.8 prints without support."""
PRECISE_REL = 1e-7
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
    """The solid with all pieces on it."""
    solids = [one for piece in pieces for one in piece.Solids()]
    return one_solid(solid.fuse(*solids), what) if solids else solid


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


def foot(outline: Outline, at_mm: float, height_mm: float, down: int) -> list[Solid]:
    """A 45 deg slope from an outline at `at_mm` inwards over `height_mm`, in the direction `down` (+1 or -1).

    Exact where the outline is round; else in steps that print without support.
    """
    if outline.circle:
        c, frame = outline.circle, outline.frame
        centre = Frame(frame.point(c.x, 0.0, c.y), frame.inward, frame.right)
        tip = max(c.r - height_mm, 0.2)
        line = [(at_mm, 0.01), (at_mm, c.r), (at_mm + down * (c.r - tip), tip), (at_mm + down * (c.r - tip), 0.01)]
        return [ring(line, centre)]
    steps = []
    count = max(1, round(height_mm / STEP_MM))
    for k in range(count):
        low, high = sorted((at_mm + down * k * STEP_MM, at_mm + down * (k + 1) * STEP_MM))
        steps.append(outline.grown(-(k + 1) * STEP_MM).prism(low, high))
    return steps


def rib(at: Vec, outwards: Vec, along: Vec, profile: Sequence[Point], width_mm: float) -> Solid:
    """A bar across a seam: its profile of (outwards, along) points from `at`, `width_mm` wide, half each way."""
    o, a = Vector(*outwards), Vector(*along)
    across = o.cross(a)
    frame = Frame(at, across.toTuple(), outwards)
    flip = 1.0 if sum(frame.up[i] * along[i] for i in range(3)) > 0 else -1.0
    return prism([(x, flip * s) for x, s in profile], frame, -width_mm / 2, width_mm / 2)
