"""Flat pieces made by hand: outline, openings and holes as plain numbers, and the same extruded by the kernel."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import cadquery as cq

from fitwright.flat import Flat, FlatHole, Stock
from fitwright.frame import Frame
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.outline import Outline, Point, circle, rectangle, through
from fitwright.part import Body, Part

AT_MOUTH = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
ASLANT = Frame((12.0, -7.0, 31.0), (0.6, 0.0, 0.8), (0.8, 0.0, -0.6))
STEEL = Stock("sheet", "steel sheet", 2.0, 7.85)
ACRYLIC = Stock("sheet", "acrylic", 4.0, 1.19, brittle=True)
RUBBER = Stock("gasket", "foam rubber", 3.0, 0.15)
FOUR = tuple(FlatHole((x, y), 5.5, "M5") for x in (-48.0, 48.0) for y in (-48.0, 48.0))
ROUND = Flat(circle(150.0), (circle(100.0),), tuple(FlatHole(at, 5.5, "M5") for at in ((0.0, 63.0), (0.0, -63.0))), 2.0)
SQUARE = Flat(rectangle(120.0, 120.0, 10.0), (circle(100.0),), FOUR, 2.0)
SLOTTED = Flat(
    rectangle(140.0, 90.0, 6.0),
    (rectangle(60.0, 40.0, 5.0).mapped(1.0, (-20.0, 0.0)),),
    (FlatHole((50.0, 0.0), 6.5, "M6", 12.0, 30.0), FlatHole((-56.0, 31.0), 6.5, "M6")),
    4.0,
)


def slot_ended(wide_mm: float, high_mm: float, at: Point = (0.0, 0.0)) -> Outline:
    """An opening with a half circle at each short end."""
    x, r = (wide_mm - high_mm) / 2, high_mm / 2
    corners = [(-x, -r), (x, -r), (x, r), (-x, r)]
    return through(corners, [(-x - r, 0.0), None, (x + r, 0.0), None]).mapped(1.0, at)


HOOD = Flat(
    through([(-80.0, -40.0), (80.0, -40.0), (80.0, 20.0), (-80.0, 20.0)], [None, None, None, (0.0, 70.0)]),
    (slot_ended(90.0, 30.0),),
    (FlatHole((-68.0, -28.0), 5.5), FlatHole((68.0, -28.0), 5.5)),
    2.0,
)
"""An outline by points with an arc over it, and a slot-ended opening."""
PIECES = {"round": (ROUND, STEEL), "square": (SQUARE, STEEL), "slotted": (SLOTTED, ACRYLIC), "hood": (HOOD, STEEL)}


def flat_body(flat: Flat, stock: Stock, frame: Frame = AT_MOUTH, name: str = "plate", **changes: Any) -> Body:
    """The piece extruded along `inward`; `changes` go into the body."""
    made = Body(name, solid_of(flat, frame), len(flat.openings) + len(flat.holes), flat.thickness_mm, ())
    volume = flat.area_mm2 * flat.thickness_mm
    return replace(made, volume_mm3=volume, stock=stock, flat=flat, flat_frame=frame, **changes)


def flat_part(*bodies: Body, name: str = "inlet") -> Part:
    """A part of these bodies."""
    return Part(name, "flange_plate", bodies)


def meshed(part: Part) -> dict[str, BodyMesh]:
    """The mesh of each body."""
    return {body.name: mesh_body(body) for body in part.bodies}


def solid_of(flat: Flat, frame: Frame) -> cq.Solid:
    """Outline without openings and holes, extruded in one step."""
    inner = [_wire(line, frame) for line in (*flat.openings, *(_hole(one) for one in flat.holes))]
    way = cq.Vector(*frame.inward) * flat.thickness_mm
    return cq.Solid.extrudeLinear(_wire(flat.outline, frame), inner, way)


def _wire(line: Outline, frame: Frame) -> cq.Wire:
    def at(point: Point) -> cq.Vector:
        return cq.Vector(*frame.point(point[0], 0.0, point[1]))

    edges = [
        cq.Edge.makeLine(at(side.start), at(side.end))
        if side.via is None
        else cq.Edge.makeThreePointArc(at(side.start), at(side.via), at(side.end))
        for side in line.sides
    ]
    return cq.Wire.assembleEdges(edges)


def _hole(hole: FlatHole) -> Outline:
    """By points of its own, not by `FlatHole.outline`."""
    if not hole.long_mm:
        return circle(hole.d_mm).mapped(1.0, hole.at)
    turn, half, r = math.radians(hole.turned_deg), hole.long_mm / 2, hole.d_mm / 2
    along, across = (math.sin(turn), math.cos(turn)), (math.cos(turn), -math.sin(turn))

    def at(u: float, v: float) -> Point:
        return hole.at[0] + u * along[0] + v * across[0], hole.at[1] + u * along[1] + v * across[1]

    corners = [at(-half, r), at(half, r), at(half, -r), at(-half, -r)]
    return through(corners, [at(-half - r, 0.0), None, at(half + r, 0.0), None])
