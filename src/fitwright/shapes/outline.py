"""The outline in which a plane cuts a solid, and prisms on it: exact where it is round or of lines and arcs.

A plane is given by a Frame: `inward` is its normal, `right` and `up` are its own directions; (x, y) count along those.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from cadquery import Edge, Face, Shape, Solid, Vector, Wire
from OCP.Standard import Standard_Failure
from OCP.StdFail import StdFail_NotDone

from fitwright.errors import BuildError
from fitwright.frame import Frame, Vec
from fitwright.shapes.solids import cylinder, prism

Plane = np.ndarray[tuple[int, int], np.dtype[np.float64]]

CHORD_MM = 0.02
"""Curves of an outline that is no circle stray from their chords by no more than this."""
ROUND_MM = 1e-5
"""An outline whose points lie this near to a circle is one."""
JOIN_DIGITS, JOIN_MM = 6, 1e-4
"""Ends of neighbouring edges within this are one point; all are then rounded to so many decimals of a mm."""
AREA_REL = 0.02
"""A grown outline whose area is further than this from the buffered polygon's has lost or turned a piece."""


@dataclass(frozen=True)
class Circle:
    """A round outline: centre and radius [mm] in its plane."""

    x: float
    y: float
    r: float


@dataclass(frozen=True)
class Outline:
    """A closed outline in a plane: its polygon always, and the exact circle or wire where there is one."""

    frame: Frame
    polygon: shapely.Polygon
    circle: Circle | None = None
    wire: Wire | None = None

    @property
    def exact(self) -> bool:
        """Whether prisms on it are exact, and not of facets."""
        return self.circle is not None or self.wire is not None

    @cached_property
    def reach_mm(self) -> float:
        """The greatest distance from the frame's origin."""
        return float(np.hypot(*np.array(self.polygon.exterior.coords).T).max())

    def grown(self, by_mm: float) -> Outline:
        """The outline all round `by_mm` further out, its corners rounded."""
        if self.circle:
            return _round(self.frame, Circle(self.circle.x, self.circle.y, self.circle.r + by_mm))
        polygon = self.polygon.buffer(by_mm, quad_segs=24)
        if not isinstance(polygon, shapely.Polygon):
            raise BuildError("an outline falls apart when it is made smaller")
        filled = shapely.Polygon(polygon.exterior)
        return Outline(self.frame, filled, None, _offset(self.wire, by_mm, filled.area))

    def prism(self, s0: float, s1: float) -> Solid:
        """The solid on it from s0 to s1 along the plane's normal."""
        if self.circle:
            centre = Frame(self.frame.point(self.circle.x, 0.0, self.circle.y), self.frame.inward, self.frame.right)
            return cylinder(centre, self.circle.r, s0, s1)
        if self.wire is not None:
            n = Vector(*self.frame.inward)
            return Solid.extrudeLinear(self.wire.translate(n * s0), [], n * (s1 - s0))
        corners = self.polygon.exterior.simplify(CHORD_MM).coords[:-1]  # hundreds of walls make booleans slow
        return prism([(x, y) for x, y in corners], self.frame, s0, s1)

    def excess_mm(self, others: Sequence[Outline]) -> float:
        """How far others stand out beyond it at most; negative where all stay inside it all round."""
        return max((self._beyond(other) for other in others), default=-math.inf)

    def _beyond(self, other: Outline) -> float:
        if self.circle and other.circle:
            aside = math.hypot(self.circle.x - other.circle.x, self.circle.y - other.circle.y)
            return aside + other.circle.r - self.circle.r
        points = shapely.points(np.array(other.polygon.exterior.coords))
        outside = float(shapely.distance(points, self.polygon).max())
        return outside if outside > 1e-6 else -float(shapely.distance(points, self.polygon.exterior).min())

    def along(self, count: int, share: float) -> list[tuple[Vec, Vec]]:
        """`count` places evenly round it (the first `share` of a step on), each with the direction outwards."""
        ring = self.polygon.exterior
        if not ring.is_ccw:
            ring = shapely.LinearRing(ring.coords[::-1])
        if self.circle:
            turns = [2.0 * math.pi * (k + share) / count for k in range(count)]
            return [self._at_turn(self.circle, turn) for turn in turns]
        return [self._at(ring, ring.length * ((k + share) / count % 1.0)) for k in range(count)]

    def _at_turn(self, circle: Circle, turn: float) -> tuple[Vec, Vec]:
        x, y = math.sin(turn), math.cos(turn)
        return self.frame.point(circle.x + circle.r * x, 0.0, circle.y + circle.r * y), self.direction(x, y)

    def _at(self, ring: shapely.LinearRing, run: float) -> tuple[Vec, Vec]:
        here, step = ring.interpolate(run), min(0.5, ring.length / 100.0)
        back, on = ring.interpolate((run - step) % ring.length), ring.interpolate((run + step) % ring.length)
        dx, dy = on.x - back.x, on.y - back.y
        size = math.hypot(dx, dy)
        return self.frame.point(here.x, 0.0, here.y), self.direction(dy / size, -dx / size)

    def direction(self, x: float, y: float) -> Vec:
        """A direction of the plane in part coordinates."""
        r, u = self.frame.right, self.frame.up
        return (x * r[0] + y * u[0], x * r[1] + y * u[1], x * r[2] + y * u[2])


def section(solid: Shape, frame: Frame, at_mm: float = 0.0) -> list[Outline]:
    """The outer outlines in which the plane `at_mm` along the frame's normal cuts a solid, the largest first.

    They are given in the frame's own plane, at 0.
    """
    box = solid.BoundingBox()
    side = 4.0 * box.DiagonalLength + 4.0 * float(np.linalg.norm(np.array(frame.origin) - box.center.toTuple()))
    n = Vector(*frame.inward)
    plane = Face.makePlane(side, side, Vector(*frame.point(0.0, at_mm, 0.0)), n)
    faces = plane.intersect(solid).Faces()
    outlines = [_of_wire(face.outerWire().translate(n * -at_mm), frame) for face in faces]
    return sorted(outlines, key=lambda one: -one.polygon.area)


def of_polygon(polygon: shapely.Polygon, frame: Frame) -> Outline:
    """An outline of straight lines."""
    return Outline(frame, shapely.Polygon(polygon.exterior))


def in_plane(points: Sequence[Vec], frame: Frame) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Points (n, 3) in part coordinates as (x, y, distance from the plane)."""
    offset = np.asarray(points, dtype=np.float64).reshape(-1, 3) - np.array(frame.origin)
    found: np.ndarray[tuple[int, int], np.dtype[np.float64]] = (
        offset @ np.array([frame.right, frame.up, frame.inward]).T
    )
    return found


def _of_wire(wire: Wire, frame: Frame) -> Outline:
    lines = [_points(edge, frame) for edge in wire.Edges()]
    circle = _fitted(np.concatenate(lines))
    if circle:
        return _round(frame, circle)
    rounded = [shapely.LineString(np.round(line, JOIN_DIGITS)) for line in _meeting(lines)]
    rings = [p for p in shapely.polygonize(rounded).geoms if p.area > 0.0]
    if not rings:
        raise BuildError("the outline of a section is not closed")
    polygon = max(rings, key=lambda p: p.area)
    kinds = {edge.geomType() for edge in wire.Edges()}
    return Outline(frame, shapely.Polygon(polygon.exterior), None, wire if kinds <= {"LINE", "CIRCLE"} else None)


def _meeting(lines: Sequence[Plane]) -> list[Plane]:
    """The lines with those ends made one that lie within JOIN_MM: the kernel's edges end some 1e-6 mm apart."""
    known: list[Plane] = []
    moved = [line.copy() for line in lines]
    for line in moved:
        for k in (0, -1):
            near = next((end for end in known if np.abs(end - line[k]).max() < JOIN_MM), None)
            if near is None:
                known.append(line[k].copy())
            else:
                line[k] = near
    return moved


def _points(edge: Edge, frame: Frame) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """An edge in its plane, as points that its chords stray from by no more than CHORD_MM."""
    count = 1
    if edge.geomType() != "LINE":
        turn = 2.0 * math.pi if edge.geomType() != "CIRCLE" else edge.Length() / edge.radius()
        r = edge.radius() if edge.geomType() == "CIRCLE" else edge.Length() / 3.0
        count = max(8, math.ceil(turn / (2.0 * math.acos(max(0.0, 1.0 - CHORD_MM / max(r, CHORD_MM))))))
    places = edge.positions([k / count for k in range(count + 1)])
    return in_plane([place.toTuple() for place in places], frame)[:, :2]


def _fitted(points: np.ndarray[tuple[int, int], np.dtype[np.float64]]) -> Circle | None:
    """The circle that all points lie on, where there are enough of them all round."""
    if len(points) < 8:
        return None
    matrix = np.column_stack([2.0 * points, np.ones(len(points))])
    solved, *_ = np.linalg.lstsq(matrix, (points**2).sum(axis=1), rcond=None)
    x, y = float(solved[0]), float(solved[1])
    r = math.sqrt(max(0.0, float(solved[2]) + x * x + y * y))
    offset = points - (x, y)
    turns = np.sort(np.arctan2(offset[:, 1], offset[:, 0]))
    widest = float(np.diff(np.append(turns, turns[0] + 2.0 * math.pi)).max())
    straying = float(np.abs(np.hypot(*offset.T) - r).max())
    return Circle(x, y, r) if straying < ROUND_MM and widest < math.pi / 2 else None


def _round(frame: Frame, circle: Circle) -> Outline:
    if circle.r <= 0.0:
        raise BuildError("an outline vanishes when it is made smaller")
    steps = max(24, math.ceil(math.pi / math.acos(1.0 - min(1.0, CHORD_MM / circle.r))))
    polygon = shapely.Point(circle.x, circle.y).buffer(circle.r, quad_segs=math.ceil(steps / 4))
    return Outline(frame, polygon, circle)


def _offset(wire: Wire | None, by_mm: float, area_mm2: float) -> Wire | None:
    """The kernel's own grown wire, or None where it fails or is not what was asked."""
    if wire is None or abs(by_mm) < 1e-9:
        return wire
    try:
        grown = wire.offset2D(by_mm, "arc")
        right = len(grown) == 1 and abs(Face.makeFromWires(grown[0]).Area() / area_mm2 - 1.0) < AREA_REL
    except (ValueError, Standard_Failure, StdFail_NotDone):
        return None
    return grown[0] if right else None
