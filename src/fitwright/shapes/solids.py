"""Plain numbers in, exact CadQuery solids out, placed by a Frame."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from cadquery import Edge, Face, Plane, Shape, Shell, Solid, Vector, Wire
from OCP.BRepBuilderAPI import BRepBuilderAPI_Sewing

from fitwright.errors import BuildError
from fitwright.frame import Frame, Vec
from fitwright.shapes.profile import Point

SEW_MM = 1e-6
"""Edges of neighbouring pieces coincide to the kernel's precision; ten times that is enough to sew them."""


def revolve(line: Sequence[Point], frame: Frame) -> Solid:
    """The solid between a half-profile and its axis, a full turn about the frame's inward axis.

    `line` holds (s, r) [mm] with s rising; the volume is `profile.volume_mm3(line)` to the kernel's precision.
    """
    pts = [(line[0][0], 0.0), *line, (line[-1][0], 0.0)]
    face = _half_plane_face(pts, frame)
    base, tip = Vector(*frame.origin), Vector(*frame.point(0.0, 1.0, 0.0))
    return Solid.revolve(face, 360.0, base, tip)


def ring(line: Sequence[Point], frame: Frame) -> Solid:
    """A closed (s, r) polygon, clear of the axis, turned a full turn: a bead, a collar, a groove's tool."""
    face = _half_plane_face(list(line), frame)
    base, tip = Vector(*frame.origin), Vector(*frame.point(0.0, 1.0, 0.0))
    return Solid.revolve(face, 360.0, base, tip)


def _half_plane_face(points: list[Point], frame: Frame) -> Face:
    wire = Wire.makePolygon([Vector(*frame.point(r, s, 0.0)) for s, r in points], close=True)
    return Face.makeFromWires(wire)


def cylinder(frame: Frame, radius_mm: float, s0: float, s1: float) -> Solid:
    """A round bar about the frame's axis from s0 to s1."""
    return Solid.makeCylinder(radius_mm, s1 - s0, Vector(*frame.point(0.0, s0, 0.0)), Vector(*frame.inward))


def bar(start: Vec, direction: Vec, radius_mm: float, length_mm: float) -> Solid:
    """A round bar from `start` along `direction`."""
    return Solid.makeCylinder(radius_mm, length_mm, Vector(*start), Vector(*direction))


def prism(outline: Sequence[tuple[float, float]], frame: Frame, s0: float, s1: float) -> Solid:
    """A closed outline of (right, up) points, extruded along the frame's axis from s0 to s1."""
    wire = Wire.makePolygon([Vector(*frame.point(x, s0, y)) for x, y in outline], close=True)
    return _extruded(wire, frame, s1 - s0)


def outline_prism(sides: Sequence[tuple[Point, Point | None, Point]], frame: Frame, s0: float, s1: float) -> Solid:
    """A closed outline of (start, via, end) sides in (right, up), straight without via, extruded from s0 to s1."""
    edges: list[Edge] = []
    for start, via, end in sides:
        a, b = (Vector(*frame.point(x, s0, y)) for x, y in (start, end))
        arc = via and Edge.makeThreePointArc(a, Vector(*frame.point(via[0], s0, via[1])), b)
        edges.append(arc or Edge.makeLine(a, b))
    return _extruded(Wire.assembleEdges(edges), frame, s1 - s0)


def rectangle(frame: Frame, width_mm: float, height_mm: float, corner_mm: float, s0: float, s1: float) -> Solid:
    """A plate width (right) x height (up), corners rounded by `corner_mm` (0 = sharp), centred on the axis."""
    x, y = width_mm / 2, height_mm / 2
    if corner_mm <= 0:
        return prism([(-x, -y), (x, -y), (x, y), (-x, y)], frame, s0, s1)
    edges: list[Edge] = []
    centres = [(x, y, 0), (-x, y, 90), (-x, -y, 180), (x, -y, 270)]
    arcs = [_corner(cx, cy, a, corner_mm) for cx, cy, a in centres]
    for i, arc in enumerate(arcs):
        a, m, b = (Vector(*frame.point(u, s0, v)) for u, v in arc)
        edges.append(Edge.makeThreePointArc(a, m, b))
        nxt = arcs[(i + 1) % 4][0]
        edges.append(Edge.makeLine(b, Vector(*frame.point(nxt[0], s0, nxt[1]))))
    return _extruded(Wire.assembleEdges(edges), frame, s1 - s0)


def _corner(x: float, y: float, start_deg: float, radius: float) -> tuple[Point, Point, Point]:
    cx, cy = x - math.copysign(radius, x), y - math.copysign(radius, y)
    angles = (math.radians(start_deg + k) for k in (0.0, 45.0, 90.0))
    first, middle, last = ((cx + radius * math.cos(a), cy + radius * math.sin(a)) for a in angles)
    return first, middle, last


def _extruded(wire: Wire, frame: Frame, length_mm: float) -> Solid:
    n = frame.inward
    return Solid.extrudeLinear(wire, [], Vector(n[0] * length_mm, n[1] * length_mm, n[2] * length_mm))


def hexagon(frame: Frame, across_flats_mm: float, s0: float, s1: float, centre: tuple[float, float]) -> Solid:
    """A hexagon prism (nut pocket) at `centre` (right, up), a corner pointing up."""
    r = across_flats_mm / math.sqrt(3.0)
    corners = [(centre[0] + r * math.sin(k * math.pi / 3), centre[1] + r * math.cos(k * math.pi / 3)) for k in range(6)]
    return prism(corners, frame, s0, s1)


def oblique_cone(frame: Frame, r0_mm: float, r1_mm: float, length_mm: float, shift: tuple[float, float]) -> Solid:
    """Between two circles in parallel planes whose centres are `shift` (right, up) apart: ruled, hence exact.

    Volume: pi L (r0^2 + r0 r1 + r1^2) / 3 whatever the shift (Cavalieri).
    """
    n, x = Vector(*frame.inward), Vector(*frame.right)
    wires = []
    for radius, centre in ((r0_mm, (0.0, 0.0, 0.0)), (r1_mm, (shift[0], length_mm, shift[1]))):
        edge = Edge.makeCircle(radius, Vector(0, 0, 0), Vector(0, 0, 1))
        plane = Plane(Vector(*frame.point(*centre)), x, n)
        wires.append(Wire.assembleEdges([edge.moved(plane.location)]))
    return Solid.makeLoft(wires, True)


def sewn(pieces: Sequence[Solid], what: str) -> Solid:
    """One solid from pieces that meet face to face: the shared faces are left out and the rest sewn.

    (A boolean takes a hundred times as long where a torus meets a cone along a tangent circle.)
    """
    if len(pieces) == 1:
        return pieces[0]
    shared = _shared_faces(pieces)
    sewing = BRepBuilderAPI_Sewing(SEW_MM)
    for piece in pieces:
        for face in piece.Faces():
            if not any(face.isSame(other) for other in shared):
                sewing.Add(face.wrapped)
    sewing.Perform()
    shell = Shape.cast(sewing.SewedShape())
    if not isinstance(shell, Shell) or sewing.NbFreeEdges() or len(shared) != 2 * (len(pieces) - 1):
        raise BuildError(f"{what}: the pieces do not meet face to face")
    return Solid.makeSolid(shell)


def _shared_faces(pieces: Sequence[Solid]) -> list[Face]:
    """Flat faces of two pieces with the same middle and area."""
    flat = [[(f, f.Center().toTuple(), f.Area()) for f in p.Faces() if f.geomType() == "PLANE"] for p in pieces]
    shared: list[Face] = []
    for here, there in itertools.pairwise(flat):
        for f, c, area in here:
            for g, d, other in there:
                if math.dist(c, d) < SEW_MM and abs(area - other) < 1e-6 * area:
                    shared += [f, g]
    return shared


def one_solid(shape: Shape, what: str) -> Solid:
    """The single solid in a boolean's result; raises BuildError when there are none or several."""
    solids = shape.Solids()
    if len(solids) != 1:
        raise BuildError(f"{what}: the kernel gave {len(solids)} solids where one was asked for")
    return solids[0]


def fused(solids: Sequence[Solid], what: str) -> Solid:
    """The union of touching or overlapping solids, as one solid (faces stay unmerged: the clean-up can lose some)."""
    if len(solids) == 1:
        return solids[0]
    return one_solid(solids[0].fuse(*solids[1:]), what)


def boxes_meet(one: Shape, other: Shape) -> bool:
    """Whether the bounding boxes of two shapes meet; where not, a boolean between them has nothing to do."""
    a, b = one.BoundingBox(), other.BoundingBox()
    return all(
        getattr(a, f"{axis}min") < getattr(b, f"{axis}max") and getattr(b, f"{axis}min") < getattr(a, f"{axis}max")
        for axis in "xyz"
    )


def cut(solid: Solid, tools: Sequence[Shape], what: str) -> Solid:
    """`solid` without `tools`, as one solid."""
    if not tools:
        return solid
    return one_solid(solid.cut(*tools), what)
