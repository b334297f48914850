"""Exact solids made by hand for the tests of mesh and checks; lengths in mm, round things lie along y."""

from __future__ import annotations

import math
from typing import Any

from cadquery import Edge, Shape, Solid, Vector, Wire

from fitwright.errors import BuildError
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Body, Frame, Part

ALONG = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
Y = Vector(0, 1, 0)


def turned(profile: list[tuple[float, float]]) -> Solid:
    """A closed (radius, y) polygon turned about the y axis."""
    wire = Wire.makePolygon([Vector(r, y, 0) for r, y in profile], close=True)
    return Solid.revolve(wire, [], 360.0, Vector(0, 0, 0), Y)


def tube(inner_r: float, outer_r: float, length: float) -> Solid:
    """A straight tube from y = 0."""
    return turned([(inner_r, 0), (outer_r, 0), (outer_r, length), (inner_r, length)])


def rod(radius: float, length: float, x: float = 0.0, y: float = 0.0, z: float = 0.0) -> Solid:
    """A round bar along y."""
    return Solid.makeCylinder(radius, length, Vector(x, y, z), Y)


def box(*low_high: float) -> Solid:
    """A box from (x, y, z) to (x, y, z)."""
    x0, y0, z0, x1, y1, z1 = low_high
    return Solid.makeBox(x1 - x0, y1 - y0, z1 - z0, Vector(x0, y0, z0))


def bent_tube(bend_r: float, outer_r: float, inner_r: float, straight: float = 30.0) -> Shape:
    """A tube with a 90 deg bend between two straights, swept; folds into itself where bend_r < outer_r."""
    c = math.cos(math.pi / 4)
    middle = Vector(bend_r * (1 - c), bend_r * c, 0)
    edges = [
        Edge.makeLine(Vector(0, -straight, 0), Vector(0, 0, 0)),
        Edge.makeThreePointArc(Vector(0, 0, 0), middle, Vector(bend_r, bend_r, 0)),
        Edge.makeLine(Vector(bend_r, bend_r, 0), Vector(bend_r + straight, bend_r, 0)),
    ]
    return _swept(edges, Vector(0, -straight, 0), outer_r, inner_r)


def s_bend(offset: float, length: float, outer_r: float, inner_r: float, straight: float = 30.0) -> Shape:
    """Two equal arcs, `offset` sideways over `length`, with a straight at each end; a rod where inner_r is 0."""
    turn = 2 * math.atan2(offset, length)
    radius = length / 2 / math.sin(turn)
    x, y = radius * (1 - math.cos(turn / 2)), radius * math.sin(turn / 2)
    first, last = Vector(0, 0, 0), Vector(offset, length, 0)
    middle = Vector(offset / 2, length / 2, 0)
    edges = [
        Edge.makeLine(Vector(0, -straight, 0), first),
        Edge.makeThreePointArc(first, Vector(x, y, 0), middle),
        Edge.makeThreePointArc(middle, Vector(offset - x, length - y, 0), last),
        Edge.makeLine(last, Vector(offset, length + straight, 0)),
    ]
    return _swept(edges, Vector(0, -straight, 0), outer_r, inner_r)


def oblique_loft(offset: float) -> Shape:
    """Bore D100 to D64 over 60 mm, 3 mm of wall taken level instead of square to it, the far end `offset` aside."""

    def loft(near_r: float, far_r: float) -> Solid:
        near = Wire.makeCircle(near_r, Vector(0, 0, 0), Y)
        return Solid.makeLoft([near, Wire.makeCircle(far_r, Vector(offset, 60, 0), Y)], True)

    return loft(53, 35).cut(loft(50, 32))


def _swept(edges: list[Edge], start: Vector, outer_r: float, inner_r: float) -> Shape:
    outer, *inner = (Wire.makeCircle(r, start, Y) for r in (outer_r, inner_r) if r > 0)
    return Solid.sweep(outer, inner, Wire.assembleEdges(edges), True, False)


def body(solid: Shape, genus: int = 0, wall_mm: float = 2.4, **declared: Any) -> Body:
    """A body of that solid."""
    return Body("body", solid, genus, wall_mm, (), **declared)  # type: ignore[arg-type]


def run(check: Any, made: Body, mesh: BodyMesh | None = None) -> list[Finding]:
    """A check's findings on one body; the mesh is made unless given, and lacks where it cannot be made."""
    try:
        meshes = {made.name: mesh if mesh is not None else mesh_body(made)}
    except BuildError:
        meshes = {}
    found: list[Finding] = check(Part("try", "reducer", (made,)), meshes, None)
    return found


def faults(findings: list[Finding]) -> list[str]:
    """The messages of what fails."""
    return [f.message for f in findings if f.severity == "fail"]
