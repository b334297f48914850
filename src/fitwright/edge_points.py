"""Edges of a shape as rows of points, divided once and alike for all the faces that meet there."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray
from OCP.BRep import BRep_Tool
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.GeomAbs import GeomAbs_CurveType
from OCP.gp import gp_Pnt, gp_Vec
from OCP.TopLoc import TopLoc_Location

from fitwright.errors import BuildError
from fitwright.rims import Deflection

Points = NDArray[np.float64]
Numbers = NDArray[np.float64]

STATIONS = 17
"""A smooth curve's bend is looked for at so many places."""


def divided(edge: Any, deflection: Deflection, meshed: Any = None) -> tuple[Points, Numbers]:
    """Points along an edge and their parameters: as the kernel divided it for the face `meshed`, else evenly."""
    if meshed is not None:
        return _as_meshed(edge, meshed)
    curve = BRepAdaptor_Curve(edge)
    first, last = curve.FirstParameter(), curve.LastParameter()
    parameters = np.linspace(first, last, _steps(curve, first, last, deflection) + 1)
    return np.array([curve.Value(float(t)).Coord() for t in parameters]), parameters


def _steps(curve: Any, first: float, last: float, deflection: Deflection) -> int:
    if curve.GetType() == GeomAbs_CurveType.GeomAbs_Line:
        return 1
    if curve.GetType() == GeomAbs_CurveType.GeomAbs_Circle:
        whole = last - first > 6.28
        least = 3 if whole else 1
        return max(deflection.steps(curve.Circle().Radius(), last - first, deflection.chord_mm), least)
    point, speed, bend = gp_Pnt(), gp_Vec(), gp_Vec()
    most_bend = most_turn = 0.0
    for t in np.linspace(first, last, STATIONS):
        curve.D2(float(t), point, speed, bend)
        most_bend = max(most_bend, bend.Magnitude())
        most_turn = max(most_turn, speed.Crossed(bend).Magnitude() / max(speed.SquareMagnitude(), 1e-12))
    run = last - first
    by_chord = run * math.sqrt(most_bend / (8.0 * deflection.chord_mm))
    return max(1, math.ceil(max(by_chord, run * most_turn / deflection.angle_rad) - 1e-9))


def _as_meshed(edge: Any, meshed: Any) -> tuple[Points, Numbers]:
    """The points into which the kernel divided an edge, for a face that it has meshed."""
    location = TopLoc_Location()
    triangulation = BRep_Tool.Triangulation_s(meshed, location)
    polygon = BRep_Tool.PolygonOnTriangulation_s(edge, triangulation, location)
    if polygon is None:
        raise BuildError("an edge of the solid was not divided by the mesher")
    move = location.Transformation()
    numbers = range(1, polygon.NbNodes() + 1)
    points = np.array([triangulation.Node(polygon.Node(n)).Transformed(move).Coord() for n in numbers])
    return points, np.array([polygon.Parameter(n) for n in numbers])
