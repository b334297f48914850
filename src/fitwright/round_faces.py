"""Faces that run all round between two circles, as triangles: cylinders, cones, oblique cones, bends, round beads.

The kernel's mesher fills cones and bends with points that nobody needs and takes most of a build's time for it. Such a
face is known by its rims: rings of points, one after another, are joined by triangles. Everything else (flat faces, and
faces that something was cut into) stays with the kernel, and the rims shared with it are taken as it divided them.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.GeomAbs import GeomAbs_CurveType, GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Vec
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS

from fitwright.errors import BuildError

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]

ROLL_STATIONS = 24
ROLL_RAD = 1e-5
"""A spline whose normal turns less than this along its straight lines, at so many of them, is an oblique cone."""
LEAST_APART_MM = 1e-3
"""Rims nearer than this along their axis have no side that faces outwards: left to the kernel."""
SAME_MM = 1e-6
"""Points, centres and radii nearer than this are the same: ten times the kernel's own precision."""

_STRAIGHT = (GeomAbs_SurfaceType.GeomAbs_Cylinder, GeomAbs_SurfaceType.GeomAbs_Cone)
_SPLINE = GeomAbs_SurfaceType.GeomAbs_BSplineSurface
_TORUS = GeomAbs_SurfaceType.GeomAbs_Torus


@dataclass(frozen=True)
class Deflection:
    """How far a mesh may stray: `chord_mm` round a section and `bend_mm` along a bend; `angle_rad` a step."""

    chord_mm: float
    bend_mm: float
    angle_rad: float

    def steps(self, radius_mm: float, turn_rad: float, chord_mm: float) -> int:
        """The least number of steps round an arc."""
        step = 2.0 * math.acos(max(1.0 - chord_mm / radius_mm, -1.0)) if radius_mm > 0.0 else math.inf
        return max(1, math.ceil(abs(turn_rad) / min(step, self.angle_rad) - 1e-9))


@dataclass(frozen=True)
class Rim:
    """A full circle that bounds a face: its edges (one, or arcs end to end), centre, axis and radius [mm]."""

    edges: tuple[Any, ...]
    centre: Points
    axis: Points
    radius_mm: float


@dataclass(frozen=True)
class Ring:
    """Points round a section of a face, with the angle of each."""

    points: Points
    angles: Numbers


@dataclass(frozen=True)
class RoundFace:
    """A face between two rims; `surface` is the kernel's."""

    face: Any
    surface: Any
    rims: tuple[Rim, Rim]


def round_face(face: Any) -> RoundFace | None:
    """The face (the kernel's) as one between two rims, or None where it is something else."""
    surface = BRepAdaptor_Surface(face)
    kind = surface.GetType()
    if kind not in (*_STRAIGHT, _SPLINE, _TORUS):
        return None
    rims = _rims(face)
    if rims is None:
        return None
    found = RoundFace(face, surface, rims)
    if kind == _TORUS:
        return found if Torus.of(found).is_part_of_a_turn else None
    return found if _are_level(rims) and (kind != _SPLINE or _is_oblique_cone(surface)) else None


def divided(edge: Any, deflection: Deflection, meshed: Any = None) -> Points:
    """Points along a circle or arc: as the kernel divided it for the neighbouring face `meshed`, else evenly."""
    if meshed is not None:
        return _as_meshed(edge, meshed)
    curve = BRepAdaptor_Curve(edge)
    first, last = curve.FirstParameter(), curve.LastParameter()
    number = deflection.steps(curve.Circle().Radius(), last - first, deflection.chord_mm)
    turns = np.linspace(first, last, max(number, 3) + 1)
    return np.array([curve.Value(float(turn)).Coord() for turn in turns])


def round_rim(rim: Rim, arcs: Sequence[Points]) -> Points:
    """The points of a rim's edges, in order, each once."""
    points = np.concatenate(arcs)
    right, up = _across(rim.axis)
    offset = points - rim.centre
    points = points[np.argsort(np.arctan2(offset @ up, offset @ right), kind="stable")]
    apart = np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1)
    return np.asarray(points[apart > SAME_MM])


def triangles(face: RoundFace, rims: tuple[Points, Points], deflection: Deflection) -> tuple[Points, Indices]:
    """Corners and triangles of a face whose rims are divided as given; they face out of the material."""
    torus = Torus.of(face) if face.surface.GetType() == _TORUS else None
    rings = torus.rings(rims, deflection) if torus else _level_rings(face.rims, rims)
    first = np.cumsum([0, *(len(ring.points) for ring in rings)])
    strips = [strip(a.angles, b.angles, int(first[n])) for n, (a, b) in enumerate(itertools.pairwise(rings))]
    points, found = np.concatenate([ring.points for ring in rings]), np.concatenate(strips)
    middles = torus.tube_middles if torus else partial(_level_middles, face.rims)
    return points, found if _faces_out(face, points[found], middles) else found[:, ::-1]


def strip(near: Numbers, far: Numbers, first: int) -> Indices:
    """Triangles between two rings, the points of `near` counted from `first` and those of `far` after them.

    The next triangle always takes the next point of the ring that lies behind, so that no edge runs further askew than
    half a step.
    """
    a, b = np.argsort(near, kind="stable"), np.argsort(far, kind="stable")
    start = near[a[0]]
    ahead = (far[b] - start + np.pi) % (2.0 * np.pi) - np.pi
    b = np.roll(b, -int(np.abs(ahead).argmin()))
    a_turns = near[a] - start
    b_turns = np.unwrap((far[b] - start + np.pi) % (2.0 * np.pi) - np.pi)
    keys = np.concatenate([_halfway(a_turns), _halfway(b_turns)])
    order = np.argsort(keys, kind="stable")
    on_near = order < len(a)
    i: Indices = np.cumsum(on_near) - on_near
    j: Indices = np.cumsum(~on_near) - ~on_near
    a_here, b_here = a[i % len(a)] + first, b[j % len(b)] + first + len(a)
    a_next, b_next = a[(i + 1) % len(a)] + first, b[(j + 1) % len(b)] + first + len(a)
    return np.column_stack([a_here, np.where(on_near, a_next, b_next), b_here])


def _halfway(turns: Numbers) -> Numbers:
    """The angles halfway to the next point of a ring."""
    halfway: Numbers = (turns + np.append(turns[1:], turns[0] + 2.0 * np.pi)) / 2.0
    return halfway


@dataclass(frozen=True)
class Torus:
    """A bend (`rims` are sections of its tube) or a round bead or fillet (`rims` run about its axis)."""

    origin: Points
    axes: Points
    major_mm: float
    minor_mm: float
    is_bend: bool
    turns_rad: tuple[float, float]
    """Along the bend, or round its tube: from the face's beginning to its end."""
    starts_at_first_rim: bool

    @classmethod
    def of(cls, face: RoundFace) -> Torus:
        """The torus that a face lies on."""
        found, surface = face.surface.Torus(), face.surface
        position = found.Position()
        axes = np.array([getattr(position, name)().Coord() for name in ("XDirection", "YDirection", "Direction")])
        origin = np.array(position.Location().Coord())
        is_bend = abs(float(face.rims[0].axis @ axes[2])) < 0.5
        first, last = surface.FirstUParameter(), surface.LastUParameter()
        if not is_bend:
            first, last = surface.FirstVParameter(), surface.LastVParameter()
        bare = cls(origin, axes, found.MajorRadius(), found.MinorRadius(), is_bend, (first, last), True)
        ends = [bare.rim_apart_mm(rim, first) for rim in face.rims]
        return replace(bare, starts_at_first_rim=ends[0] <= ends[1])

    @property
    def is_part_of_a_turn(self) -> bool:
        """Whether the two rims are two places; a whole turn has one only."""
        return abs(self.turns_rad[1] - self.turns_rad[0]) < 2.0 * math.pi - 1e-6

    def rim_apart_mm(self, rim: Rim, turn_rad: float) -> float:
        """How far a rim's middle lies from where it should be at this turn."""
        c, s = math.cos(turn_rad), math.sin(turn_rad)
        if self.is_bend:
            middle = self.major_mm * (c * self.axes[0] + s * self.axes[1])
            return float(np.linalg.norm(rim.centre - self.origin - middle))
        middle = self.origin + self.minor_mm * s * self.axes[2]
        radius = self.major_mm + self.minor_mm * c
        return float(np.linalg.norm(rim.centre - middle)) + abs(rim.radius_mm - radius)

    def rings(self, rims: tuple[Points, Points], deflection: Deflection) -> list[Ring]:
        """Rings from one rim to the other; those between are divided like the finer rim."""
        first, last = self.turns_rad
        near, far = rims if self.starts_at_first_rim else rims[::-1]
        ends = Ring(near, self._angles(near, first)), Ring(far, self._angles(far, last))
        size, chord = self.minor_mm, deflection.chord_mm
        if self.is_bend:  # the outside of the bend lies less than twice as far out as its middle
            size, chord = 2.0 * self.major_mm, deflection.bend_mm
        stations = np.linspace(first, last, deflection.steps(size, last - first, chord) + 1)[1:-1]
        angles = max(ends, key=lambda ring: len(ring.angles)).angles
        return [ends[0], *(Ring(self._points(float(at), angles), angles) for at in stations), ends[1]]

    def _angles(self, points: Points, turn_rad: float) -> Numbers:
        x, y, z = self.axes @ (points - self.origin).T
        if not self.is_bend:
            return np.asarray(np.arctan2(y, x))
        return np.asarray(np.arctan2(z, x * math.cos(turn_rad) + y * math.sin(turn_rad) - self.major_mm))

    def _points(self, turn_rad: float, angles: Numbers) -> Points:
        u, v = (np.full_like(angles, turn_rad), angles) if self.is_bend else (angles, np.full_like(angles, turn_rad))
        out = self.major_mm + self.minor_mm * np.cos(v)
        local = np.column_stack([out * np.cos(u), out * np.sin(u), self.minor_mm * np.sin(v)])
        return self.origin + local @ self.axes

    def tube_middles(self, points: Points) -> Points:
        """For each point the nearest middle of the tube."""
        x, y, _ = self.axes @ (points - self.origin).T
        out = np.maximum(np.hypot(x, y), 1e-12)
        return self.origin + np.column_stack([x / out, y / out]) @ self.axes[:2] * self.major_mm


def _level_rings(rims: tuple[Rim, Rim], points: tuple[Points, Points]) -> list[Ring]:
    """Two rings of a cylinder or cone, each with its angles about its own centre."""
    axis = rims[0].axis
    right, up = _across(axis)
    offsets = [(ring, ring - rim.centre) for rim, ring in zip(rims, points, strict=True)]
    return [Ring(ring, np.arctan2(offset @ up, offset @ right)) for ring, offset in offsets]


def _across(axis: Points) -> tuple[Points, Points]:
    """Two directions square to an axis and to each other."""
    right = np.cross(axis, np.eye(3)[np.abs(axis).argmin()])
    right /= np.linalg.norm(right)
    return right, np.cross(axis, right)


def _level_middles(rims: tuple[Rim, Rim], points: Points) -> Points:
    """For each point the middle of the section at its height."""
    base, run = rims[0].centre, rims[1].centre - rims[0].centre
    share = (points - base) @ rims[0].axis / float(run @ rims[0].axis)
    middles: Points = base + share[:, None] * run
    return middles


def _faces_out(face: RoundFace, corners: Points, middles: Callable[[Points], Points]) -> bool:
    """Whether triangles turn the same way as the face does, both seen from the middle of the sections."""
    centroids = corners.mean(axis=1)
    areas = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    outwards = float(np.einsum("ij,ij->", areas, centroids - middles(centroids))) > 0.0
    surface = face.surface
    u = (surface.FirstUParameter() + surface.LastUParameter()) / 2.0
    v = (surface.FirstVParameter() + surface.LastVParameter()) / 2.0
    whole_tube = surface.GetType() == _TORUS and surface.LastVParameter() - surface.FirstVParameter() > 6.28
    point, normal = _normal(surface, u, 0.0 if whole_tube else v)  # the outside of a bend, clear of its axis
    natural = float(normal @ (point - middles(point[None])[0])) > 0.0
    turned = bool(face.face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED)
    return outwards == (natural != turned)


def _rims(face: Any) -> tuple[Rim, Rim] | None:
    """The two full circles that bound a face, or None where its bounds are something else."""
    found: list[Rim] = []
    explorer = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_EDGE)
    while explorer.More():
        edge = TopoDS.Edge_s(explorer.Current())
        explorer.Next()
        if BRep_Tool.Degenerated_s(edge):
            return None
        if BRep_Tool.IsClosed_s(edge, face):  # the seam
            continue
        curve = BRepAdaptor_Curve(edge)
        if curve.GetType() != GeomAbs_CurveType.GeomAbs_Circle:
            return None
        _add(found, edge, curve.Circle())
    return (found[0], found[1]) if len(found) == 2 and all(map(_goes_round, found)) else None


def _add(rims: list[Rim], edge: Any, circle: Any) -> None:
    """Add an edge to the rim whose circle it lies on, or begin a rim with it."""
    centre, axis = np.array(circle.Location().Coord()), np.array(circle.Axis().Direction().Coord())
    for number, rim in enumerate(rims):
        near = float(np.linalg.norm(rim.centre - centre)) < SAME_MM and abs(rim.radius_mm - circle.Radius()) < SAME_MM
        if near and abs(float(rim.axis @ axis)) > 1.0 - 1e-9:
            rims[number] = replace(rim, edges=(*rim.edges, edge))
            return
    rims.append(Rim((edge,), centre, axis, circle.Radius()))


def _goes_round(rim: Rim) -> bool:
    curves = [BRepAdaptor_Curve(edge) for edge in rim.edges]
    turn = float(sum(abs(curve.LastParameter() - curve.FirstParameter()) for curve in curves))
    return abs(turn - 2.0 * math.pi) < 1e-6


def _are_level(rims: tuple[Rim, Rim]) -> bool:
    """Whether rims lie in parallel planes some way apart."""
    apart = rims[1].centre - rims[0].centre
    parallel = abs(float(rims[0].axis @ rims[1].axis)) > 1.0 - 1e-9
    return parallel and abs(float(apart @ rims[0].axis)) >= LEAST_APART_MM


def _as_meshed(edge: Any, meshed: Any) -> Points:
    """The points into which the kernel divided an edge, for a face that it has meshed."""
    location = TopLoc_Location()
    triangulation = BRep_Tool.Triangulation_s(meshed, location)
    polygon = BRep_Tool.PolygonOnTriangulation_s(edge, triangulation, location)
    if polygon is None:
        raise BuildError("an edge of the solid was not divided by the mesher")
    move = location.Transformation()
    numbers = range(1, polygon.NbNodes() + 1)
    return np.array([triangulation.Node(polygon.Node(n)).Transformed(move).Coord() for n in numbers])


def _is_oblique_cone(surface: Any) -> bool:
    """Whether a spline is straight one way, with one and the same normal all along each of those lines."""
    spline = surface.BSpline()
    if (spline.VDegree(), spline.NbVPoles()) != (1, 2):
        return False
    near, far = surface.FirstVParameter(), surface.LastVParameter()
    for u in np.linspace(surface.FirstUParameter(), surface.LastUParameter(), ROLL_STATIONS):
        (_, one), (_, other) = _normal(surface, float(u), near), _normal(surface, float(u), far)
        if float(np.linalg.norm(np.cross(one, other))) > ROLL_RAD:
            return False
    return True


def _normal(surface: Any, u: float, v: float) -> tuple[Points, Points]:
    """A point of a surface and its unit normal there; zero where it has none."""
    point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1(u, v, point, along_u, along_v)
    across = np.array(along_u.Crossed(along_v).Coord())
    return np.array(point.Coord()), across / max(float(np.linalg.norm(across)), 1e-12)
