"""Faces ruled between two curves (corners of a section, of a transition), as triangles along their straight lines.

The kernel's mesher fills such a face with a hundred times the points it needs. It is straight one way, so that one row
of triangles between its two curves is as near to it as the curves' own chords.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.GeomAbs import GeomAbs_SurfaceType
from OCP.gp import gp_Pnt, gp_Vec
from OCP.TopAbs import TopAbs_Orientation, TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]
Indices = NDArray[np.int64]

SAME = 1e-6
STRAIGHT = (GeomAbs_SurfaceType.GeomAbs_Cylinder, GeomAbs_SurfaceType.GeomAbs_Cone)


@dataclass(frozen=True)
class Side:
    """An edge of the face that runs along one of its two curves, and where it does so (u at its ends)."""

    edge: Any
    pcurve: Any
    first: float
    last: float
    at_start: bool


@dataclass(frozen=True)
class RuledFace:
    """A face bounded by two curves and two of the straight lines between them; `surface` is the kernel's."""

    face: Any
    surface: Any
    sides: tuple[Side, ...]


def ruled_face(face: Any) -> RuledFace | None:
    """The face (the kernel's) as one ruled between two curves, or None where it is something else or is cut."""
    surface = BRepAdaptor_Surface(face)
    if not _is_straight_along_v(surface):
        return None
    low, high = surface.FirstVParameter(), surface.LastVParameter()
    left, right = surface.FirstUParameter(), surface.LastUParameter()
    sides: list[Side] = []
    explorer = TopExp_Explorer(face, TopAbs_ShapeEnum.TopAbs_EDGE)
    while explorer.More():
        edge = TopoDS.Edge_s(explorer.Current())
        explorer.Next()
        if BRep_Tool.Degenerated_s(edge) or BRep_Tool.IsClosed_s(edge, face):
            return None
        first, last = BRep_Tool.Range_s(edge)
        pcurve = BRep_Tool.CurveOnSurface_s(edge, face, first, last)
        ends = [pcurve.Value(t) for t in (first, (first + last) / 2, last)]
        if all(abs(p.Y() - low) < SAME for p in ends) or all(abs(p.Y() - high) < SAME for p in ends):
            sides.append(Side(edge, pcurve, first, last, abs(ends[0].Y() - low) < SAME))
        elif not any(all(abs(p.X() - u) < SAME for p in ends) for u in (left, right)):
            return None
    starts = [side.at_start for side in sides]
    return RuledFace(face, surface, tuple(sides)) if any(starts) and not all(starts) else None


def _is_straight_along_v(surface: BRepAdaptor_Surface) -> bool:
    """Whether its lines of constant u are straight and evenly divided: a ruled spline, a cylinder, a cone."""
    if surface.GetType() in STRAIGHT:
        return True
    if surface.GetType() != GeomAbs_SurfaceType.GeomAbs_BSplineSurface:
        return False
    spline = surface.BSpline()
    return bool((spline.VDegree(), spline.NbVPoles()) == (1, 2))


def strip(found: RuledFace, points: Callable[[Any], tuple[Points, Numbers]]) -> tuple[Points, Indices]:
    """Corners and triangles; `points(edge)` gives the edge's points and their parameters, the same to all its faces."""
    near, far = (_row(found, at_start, points) for at_start in (True, False))
    corners = np.concatenate([near[0], far[0]])
    triangles = between(near[1], far[1])
    places = np.concatenate([near[1], far[1]])
    return corners, triangles if _faces_out(found, corners, places, triangles) else triangles[:, ::-1]


def _row(found: RuledFace, at_start: bool, points: Callable[[Any], tuple[Points, Numbers]]) -> tuple[Points, Numbers]:
    """The points along one curve, in the order of u, each once."""
    rows, places = [], []
    for side in found.sides:
        if side.at_start == at_start:
            own, parameters = points(side.edge)
            rows.append(own)
            places.append(np.array([side.pcurve.Value(float(t)).X() for t in parameters]))
    row, place = np.concatenate(rows), np.concatenate(places)
    order = np.argsort(place, kind="stable")
    row, place = row[order], place[order]
    kept = np.ones(len(row), dtype=np.bool_)
    kept[1:] = np.diff(place) > SAME * (place[-1] - place[0])
    return row[kept], place[kept]


def between(near: Numbers, far: Numbers) -> Indices:
    """Triangles between two rows by their places along the curves: the row that lies behind goes on."""
    mids = np.concatenate([(near[1:] + near[:-1]) / 2, (far[1:] + far[:-1]) / 2])
    order = np.argsort(mids, kind="stable")
    on_near = order < len(near) - 1
    i: Indices = np.cumsum(on_near) - on_near
    j: Indices = np.cumsum(~on_near) - ~on_near
    j = j + len(near)
    third = np.where(on_near, i + 1, j + 1)
    return np.column_stack([i, third, j]).astype(np.int64)


def _faces_out(found: RuledFace, corners: Points, places: Numbers, triangles: Indices) -> bool:
    """Whether the triangles turn the way the face does, told by the largest of them."""
    pick = corners[triangles]
    area = np.cross(pick[:, 1] - pick[:, 0], pick[:, 2] - pick[:, 0])
    largest = int(np.linalg.norm(area, axis=1).argmax())
    surface, u = found.surface, float(places[triangles[largest]].mean())
    v = (surface.FirstVParameter() + surface.LastVParameter()) / 2
    point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1(u, v, point, along_u, along_v)
    normal = np.array(along_u.Crossed(along_v).Coord())
    turned = found.face.Orientation() == TopAbs_Orientation.TopAbs_REVERSED
    return bool((float(area[largest] @ normal) > 0.0) != turned)
