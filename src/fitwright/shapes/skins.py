"""Faces between outlines in parallel planes: flat sides and ruled corners, exact, ready to be sewn into a solid."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from cadquery import Edge, Face, Shape, Shell, Solid, Vector, Wire
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.BRepBuilderAPI import BRepBuilderAPI_Sewing
from OCP.BRepFill import BRepFill
from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
from OCP.gp import gp_Ax1, gp_Lin, gp_Pnt

from fitwright.errors import BuildError
from fitwright.frame import Frame, Vec
from fitwright.section import Section, Span, spans

SEW_MM = 1e-6
ALIGNED_RAD = 1e-9
APART_MM = 1e-7
"""Points nearer than this are one: the kernel's own confusion distance."""


@dataclass(frozen=True)
class Bow:
    """A curved piece of an outline in space, and its ends."""

    edge: Edge
    start: Vec
    end: Vec


Loop = tuple[Bow, ...]
"""An outline in space: bows one after another, straights between them where they do not meet."""


def arc_loop(section: Section, marks: Sequence[Span], frame: Frame, s_mm: float) -> Loop:
    """The section's outline at `s_mm` along the frame's axis, its arcs cut at `marks`."""
    bows = []
    for start, end in marks:
        arc = section.arc_between(start, end)
        p, m, q = (_put(arc.at(a), frame, s_mm) for a in (start, (start + end) / 2, end))
        bows.append(Bow(Edge.makeThreePointArc(Vector(*p), Vector(*m), Vector(*q)), p, q))
    return tuple(bows)


def curve_loop(curves: Sequence[Sequence[tuple[float, float]]], frame: Frame, s_mm: float) -> Loop:
    """An outline of smooth curves through points (right, up), at `s_mm` along the frame's axis.

    All curves run evenly from 0 to 1, so that a face ruled between two of them joins point to point.
    """
    bows = []
    for curve in curves:
        points = [Vector(*_put(p, frame, s_mm)) for p in curve]
        step = 1.0 / (len(points) - 1)
        tangents = [_slope(points[:4]) * (1.0 / step), _slope(points[:-5:-1]) * (-1.0 / step)]
        evenly = [k * step for k in range(len(points))]
        edge = Edge.makeSpline(points, tangents=tangents, parameters=evenly, scale=False)
        bows.append(Bow(edge, _put(curve[0], frame, s_mm), _put(curve[-1], frame, s_mm)))
    return tuple(bows)


def _slope(points: Sequence[Vector]) -> Vector:
    """Change a step at the first of four evenly spaced points, by the third-order difference."""
    a, b, c, d = points
    return (a * -11.0 + b * 18.0 - c * 9.0 + d * 2.0) * (1.0 / 6.0)


def _put(point: tuple[float, float], frame: Frame, s_mm: float) -> Vec:
    return frame.point(point[0], s_mm, point[1])


def skin(one: Loop, other: Loop) -> list[Face]:
    """Faces between two outlines with equally many bows: bow to bow ruled, straight to straight flat."""
    faces = []
    for i, (a, b) in enumerate(zip(one, other, strict=True)):
        faces.append(_turned(a, b) or Face(BRepFill.Face_s(a.edge.wrapped, b.edge.wrapped)))
        c, d = one[(i + 1) % len(one)], other[(i + 1) % len(other)]
        corners = _distinct([a.end, c.start, d.start, b.end])
        if len(corners) > 2:
            faces.append(Face.makeFromWires(Wire.makePolygon([Vector(*p) for p in corners], close=True)))
    return faces


def _turned(one: Bow, other: Bow) -> Face | None:
    """The cylinder or cone between two arcs of the same turn about one axis, or None where they are no such pair.

    It is the face that ruling between them gives, but the kernel knows it for what it is: meeting another such face,
    or a plane, is then reckoned in closed form instead of being searched for point by point.
    """
    if one.edge.geomType() != "CIRCLE" or other.edge.geomType() != "CIRCLE":
        return None
    a, b = BRepAdaptor_Curve(one.edge.wrapped), BRepAdaptor_Curve(other.edge.wrapped)
    axis, turn = a.Circle().Axis(), a.LastParameter() - a.FirstParameter()
    line = gp_Lin(axis)
    if line.Distance(b.Circle().Location()) > APART_MM or not axis.IsParallel(b.Circle().Axis(), ALIGNED_RAD):
        return None
    side = Edge.makeLine(Vector(*one.start), Vector(*other.start))
    face = Shape.cast(BRepPrimAPI_MakeRevol(side.wrapped, axis, turn).Shape())
    ends = ((one.start, one.end), (other.start, other.end))
    return face if isinstance(face, Face) and all(_sweeps(axis, turn, *pair) for pair in ends) else None


def _sweeps(axis: gp_Ax1, turn: float, start: Vec, end: Vec) -> bool:
    """Whether a turn about the axis carries one point to the other."""
    return bool(gp_Pnt(*start).Rotated(axis, turn).Distance(gp_Pnt(*end)) < APART_MM)


def _distinct(points: Sequence[Vec]) -> list[Vec]:
    out: list[Vec] = []
    for p in points:
        if all(math.dist(p, q) > APART_MM for q in out):
            out.append(p)
    return out


def flat(outline: Loop, hole: Loop | None = None) -> Face:
    """The flat face within an outline, without the hole's."""
    return Face.makeFromWires(_wire(outline), [_wire(hole)] if hole else [])


def _wire(loop: Loop) -> Wire:
    edges = []
    for i, bow in enumerate(loop):
        edges.append(bow.edge)
        following = loop[(i + 1) % len(loop)].start
        if math.dist(bow.end, following) > APART_MM:
            edges.append(Edge.makeLine(Vector(*bow.end), Vector(*following)))
    return Wire.assembleEdges(edges)


def closed(faces: Sequence[Face], what: str) -> Solid:
    """The solid within faces that meet edge to edge, right side out.

    Raises
    ------
    BuildError
        The faces do not close.
    """
    sewing = BRepBuilderAPI_Sewing(SEW_MM)
    for face in faces:
        sewing.Add(face.wrapped)
    sewing.Perform()
    shell = Shape.cast(sewing.SewedShape())
    if not isinstance(shell, Shell) or sewing.NbFreeEdges():
        raise BuildError(f"{what}: its faces do not close")
    solid = Solid.makeSolid(shell)
    return solid if solid.Volume() > 0 else Solid(solid.wrapped.Reversed())


def profile_solid(
    points: Sequence[tuple[float, float]],
    outlines: Sequence[Section | None],
    frame: Frame,
    what: str,
    breaks: Sequence[float] = (),
) -> Solid:
    """A closed (s, r) polygon carried round an axis along outlines: corner i runs along `outlines[i]` at its s.

    None stands for a corner on the axis itself. The outlines are cut where their own arcs end, and at `breaks` [rad].
    """
    marks = spans(*(o for o in outlines if o is not None), also=breaks)
    loops = [arc_loop(o, marks, frame, s) if o else None for (s, _), o in zip(points, outlines, strict=True)]
    faces: list[Face] = []
    for i, (s, r) in enumerate(points):
        k = (i + 1) % len(points)
        here, there = loops[i], loops[k]
        if here is None and there is None:
            continue
        if here is None or there is None:
            faces.append(flat(here or there or ()))
        elif abs(points[k][0] - s) > APART_MM:
            faces += skin(here, there)
        elif abs(points[k][1] - r) > APART_MM:
            outer, inner = (here, there) if r > points[k][1] else (there, here)
            faces.append(flat(outer, inner))
    return closed(faces, what)
