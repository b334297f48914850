"""Faces of a section carried round a bend, as triangles in rows: the section's points, turned step by step.

Such a face has four edges: two arcs about the bend's axis, and the section's edge at the start and at the end. All
faces of one bend are divided at the same steps, so that they meet, and their wall keeps its thickness.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve, BRepAdaptor_Surface
from OCP.BRepTools import BRepTools_WireExplorer
from OCP.GeomAbs import GeomAbs_CurveType, GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Vec
from OCP.ShapeAnalysis import ShapeAnalysis_Surface
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS
from OCP.TopTools import TopTools_IndexedMapOfShape

from fitwright.rims import Deflection
from fitwright.ruled_faces import between

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]

SAME_MM = 1e-5
DIGITS = 4
"""Axes are told apart to so many digits of a mm and of a unit vector."""


@dataclass(frozen=True)
class Bend:
    """What the faces of one bend share: a point of its axis, the axis, and the turn [rad], positive."""

    origin: Points
    axis: Points
    turn_rad: float


@dataclass(frozen=True)
class TurnedFace:
    """A face of a bend: the section's edges at its start and end, and the two arcs between them."""

    face: Any
    bend: Bend
    first: Any
    last: Any
    along: tuple[Any, Any]
    radius_mm: float
    is_torus: bool


def turned_faces(faces: Sequence[Any], others: Sequence[Any]) -> dict[int, tuple[TurnedFace, int]]:
    """Which of the faces (by number) are of bends whose faces all are, each with its bend's steps still to be chosen.

    `others` are faces divided otherwise: a bend that shares an arc along it with one of them is left to the kernel.
    The second number counts the bends.
    """
    groups: dict[tuple[float, ...], list[tuple[int, TurnedFace]]] = defaultdict(list)
    for number, face in enumerate(faces):
        found = _turned(face)
        if found is not None:
            groups[_key(found.bend)].append((number, found))
    chosen: dict[int, tuple[TurnedFace, int]] = {}
    for bend, members in enumerate(groups.values()):
        own = {number for number, _ in members}
        strangers = [face for number, face in enumerate(faces) if number not in own] + list(others)
        if any(f.is_torus for _, f in members) and not _shares_an_arc([f for _, f in members], strangers):
            chosen.update({number: (f, bend) for number, f in members})
    return chosen


def _shares_an_arc(members: Sequence[TurnedFace], strangers: Sequence[Any]) -> bool:
    arcs = TopTools_IndexedMapOfShape()
    for member in members:
        for edge in member.along:
            arcs.Add(edge)
    return any(arcs.Contains(edge) for face in strangers for edge in _edges(face))


def _edges(face: Any) -> list[Any]:
    found, explorer = [], TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_EDGE)
    while explorer.More():
        found.append(explorer.Current())
        explorer.Next()
    return found


def _key(bend: Bend) -> tuple[float, ...]:
    """The same for all faces of a bend: its axis as a line, whichever way it is told, and its turn."""
    sign = 1.0 if tuple(np.round(bend.axis, DIGITS)) > (0.0, 0.0, 0.0) else -1.0
    foot = bend.origin - (bend.origin @ bend.axis) * bend.axis
    values = (*np.round(sign * bend.axis, DIGITS), *np.round(foot, DIGITS - 1), round(bend.turn_rad, 6))
    return tuple(float(v) + 0.0 for v in values)


def _turned(face: Any) -> TurnedFace | None:
    edges = _four_edges(face)
    if edges is None:
        return None
    for first in (0, 1):
        one, other = edges[first], edges[first + 2]
        bend = _coaxial(one, other)
        if bend is None:
            continue
        start, end = edges[1 - first], edges[(first + 3) % 4]
        if not _is_turned(start, end, bend):
            start, end = end, start
        if _is_turned(start, end, bend):
            radius = max(BRepAdaptor_Curve(e).Circle().Radius() for e in (one, other))
            kind = BRepAdaptor_Surface(face).GetType()
            return TurnedFace(face, bend, start, end, (one, other), radius, kind == GeomAbs_SurfaceType.GeomAbs_Torus)
    return None


def _four_edges(face: Any) -> list[Any] | None:
    """The four edges in order, where there are just these."""
    wires = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_WIRE)
    found: list[Any] = []
    count = 0
    while wires.More():
        count += 1
        walk = BRepTools_WireExplorer(TopoDS.Wire_s(wires.Current()))
        while walk.More():
            found.append(walk.Current())
            walk.Next()
        wires.Next()
    plain = all(not BRep_Tool.Degenerated_s(e) and not BRep_Tool.IsClosed_s(e, face) for e in found)
    return found if count == 1 and len(found) == 4 and plain else None


def _coaxial(one: Any, other: Any) -> Bend | None:
    """The bend whose axis both edges are arcs about, through the same turn; None where they are not."""
    curves = [BRepAdaptor_Curve(e) for e in (one, other)]
    if any(c.GetType() != GeomAbs_CurveType.GeomAbs_Circle for c in curves):
        return None
    axes = [np.array(c.Circle().Axis().Direction().Coord()) for c in curves]
    centres = [np.array(c.Circle().Location().Coord()) for c in curves]
    turns = [c.LastParameter() - c.FirstParameter() for c in curves]
    apart = centres[1] - centres[0]
    aside = float(np.linalg.norm(apart - (apart @ axes[0]) * axes[0]))
    if abs(float(axes[0] @ axes[1])) < 1.0 - 1e-9 or aside > SAME_MM or abs(turns[0] - turns[1]) > 1e-6:
        return None
    return Bend(centres[0], axes[0], float(turns[0])) if turns[0] < 2.0 * math.pi - 1e-6 else None


def _is_turned(start: Any, end: Any, bend: Bend) -> bool:
    """Whether the end's edge is the start's, turned about the axis by the whole turn (right-handed)."""
    shares = np.linspace(0.0, 1.0, 5)
    here, there = (_samples(e, shares) for e in (start, end))
    moved = turned(here, bend, bend.turn_rad)
    return any(float(np.abs(moved - p).max()) < SAME_MM for p in (there, there[::-1]))


def _samples(edge: Any, shares: Numbers) -> Points:
    curve = BRepAdaptor_Curve(edge)
    first, last = curve.FirstParameter(), curve.LastParameter()
    return np.array([curve.Value(float(first + s * (last - first))).Coord() for s in shares])


def turned(points: Points, bend: Bend, rad: float) -> Points:
    """Points turned about the bend's axis, right-handed (O. Rodrigues's formula)."""
    offset, axis = points - bend.origin, bend.axis
    c, s = math.cos(rad), math.sin(rad)
    moved = offset * c + np.cross(axis, offset) * s + np.outer(offset @ axis, axis) * (1.0 - c)
    return np.asarray(bend.origin + moved)


def steps(members: Sequence[TurnedFace], deflection: Deflection) -> int:
    """Into how many steps a bend is divided."""
    return deflection.steps(max(f.radius_mm for f in members), members[0].bend.turn_rad, deflection.bend_mm)


def rows(found: TurnedFace, number: int, points: Callable[[Any], tuple[Points, Numbers]]) -> tuple[Points, Indices]:
    """Corners and triangles; `points(edge)` gives an edge's points, the same to all its faces."""
    bend = found.bend
    near = points(found.first)[0]
    far = points(found.last)[0]
    end = turned(near, bend, bend.turn_rad)
    if np.linalg.norm(far[0] - end[0]) > np.linalg.norm(far[-1] - end[0]):
        far = far[::-1]
    layers = [turned(near, bend, bend.turn_rad * k / number) for k in range(number)]
    corners = np.concatenate([*layers, far])
    width = len(near)
    grid = _grid(width, number)
    last = between(_places(near), _places(far)) + (number - 1) * width
    triangles = np.concatenate([grid, last])
    return corners, triangles if _faces_out(found.face, corners, triangles) else triangles[:, ::-1]


def _places(row: Points) -> Numbers:
    """Shares of a row's length at its points."""
    length = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(row, axis=0), axis=1))])
    return np.asarray(length / length[-1])


def _grid(width: int, layers: int) -> Indices:
    """Triangles between `layers` rows of `width` points each."""
    i, k = np.meshgrid(np.arange(width - 1), np.arange(layers - 1))
    a = (k * width + i).ravel()
    first = np.column_stack([a, a + 1, a + width])
    second = np.column_stack([a + 1, a + width + 1, a + width])
    return np.concatenate([first, second]).astype(np.int64)


def _faces_out(face: Any, corners: Points, triangles: Indices) -> bool:
    """Whether the triangles turn the way the face does, told by the largest of them."""
    pick = corners[triangles]
    area = np.cross(pick[:, 1] - pick[:, 0], pick[:, 2] - pick[:, 0])
    largest = int(np.linalg.norm(area, axis=1).argmax())
    x, y, z = (float(c) for c in pick[largest].mean(axis=0))
    surface = BRepAdaptor_Surface(face)
    at = ShapeAnalysis_Surface(BRep_Tool.Surface_s(TopoDS.Face_s(face))).ValueOfUV(gp_Pnt(x, y, z), 1e-3)
    point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1(at.X(), at.Y(), point, along_u, along_v)
    reversed_face = face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    normal = np.array(along_u.Crossed(along_v).Coord())
    return bool((float(area[largest] @ normal) > 0.0) != reversed_face)
