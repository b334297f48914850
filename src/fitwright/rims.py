"""Full circles that bound a face: found on the kernel's faces, and divided into points.

A rim shared with a face that the kernel meshed is taken as the kernel divided it, so that the two meet without a gap.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]

LEAST_APART_MM = 1e-3
"""Rims nearer than this along their axis have no side that faces outwards: left to the kernel."""
SAME_MM = 1e-6
"""Points, centres and radii nearer than this are the same: ten times the kernel's own precision."""


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


def rims_of(face: Any) -> tuple[Rim, Rim] | None:
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


def are_level(rims: tuple[Rim, Rim]) -> bool:
    """Whether rims lie in parallel planes some way apart."""
    apart = rims[1].centre - rims[0].centre
    parallel = abs(float(rims[0].axis @ rims[1].axis)) > 1.0 - 1e-9
    return parallel and abs(float(apart @ rims[0].axis)) >= LEAST_APART_MM


def across(axis: Points) -> tuple[Points, Points]:
    """Two directions square to an axis and to each other."""
    right = np.cross(axis, np.eye(3)[np.abs(axis).argmin()])
    right /= np.linalg.norm(right)
    return right, np.cross(axis, right)


def round_rim(rim: Rim, arcs: Sequence[Points]) -> Points:
    """The points of a rim's edges, in order, each once."""
    points = np.concatenate(arcs)
    right, up = across(rim.axis)
    offset = points - rim.centre
    points = points[np.argsort(np.arctan2(offset @ up, offset @ right), kind="stable")]
    apart = np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1)
    return np.asarray(points[apart > SAME_MM])
