"""The closed lines of a drawing against each other: which meet, what is left between, how near holes are to edges."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from fitwright.drawing.dxf import HOLES, OUTLINE
from fitwright.drawing.dxf_read import Loop
from fitwright.outline import Outline, Point, Side

CHORD_MM = 0.001
"""Arcs go to the distance's arithmetic as chords that leave them by no more; it is wrong by twice this at most."""
TOUCH_MM = 0.01
"""Cuts nearer than this meet: a beam or blade is wider."""
CORNER_RAD = math.radians(15.0)
"""Sides that turn by less are one smooth line."""


@dataclass(frozen=True)
class Web:
    """What is left between two cuts: its width [mm] and its middle (right, up) [mm]."""

    between: tuple[str, str]
    width_mm: float
    at: Point

    @property
    def words(self) -> str:
        """Between what."""
        return f"between {self.between[0]} and {self.between[1]}"


@dataclass(frozen=True)
class EdgeDistance:
    """From a bolt hole's centre to the nearest edge, beside the hole's diameter [mm]."""

    hole: str
    edge: str
    d_mm: float
    from_centre_mm: float
    at: Point


def polygon(line: Outline) -> Polygon:
    """The area inside a closed line."""
    return Polygon(line.polyline(CHORD_MM))


def faults(loops: Sequence[Loop]) -> Iterator[str]:
    """In words: an outline too many or too few, lines that cross or touch, cuts that lie off the piece or in a cut."""
    outer = [loop for loop in loops if loop.layer == OUTLINE]
    if len(outer) != 1:
        yield f"{len(outer)} outlines, there must be one"
        return
    for loop in loops:
        found = loop.line.fault()
        if found:
            yield f"{loop.name} crosses or touches itself at {at(found[2])}"
            return
    for web in webs(loops):
        if web.width_mm < TOUCH_MM:
            yield f"{web.between[0]} and {web.between[1]} cross or touch at {at(web.at)}"
    areas = {loop.name: polygon(loop.line) for loop in loops}
    for loop in loops:
        if loop is not outer[0] and not areas[outer[0].name].contains(areas[loop.name]):
            yield f"{loop.name} does not lie wholly on the piece"
    inner = [loop.name for loop in loops if loop is not outer[0]]
    tree = shapely.STRtree([areas[name] for name in inner])
    for one in inner:
        for k in tree.query(areas[one], predicate="contains_properly"):
            yield f"{inner[k]} lies inside {one}, where nothing is left"


def webs(loops: Sequence[Loop]) -> list[Web]:
    """What is left between each two cuts, the narrowest first."""
    rings = np.array([shapely.LinearRing(loop.line.polyline(CHORD_MM)) for loop in loops])
    first, second = np.triu_indices(len(loops), 1)
    ends = shapely.get_coordinates(shapely.shortest_line(rings[first], rings[second])).reshape(-1, 2, 2)
    width, middle = np.linalg.norm(ends[:, 1] - ends[:, 0], axis=1), ends.mean(axis=1)
    return [
        Web((loops[first[k]].name, loops[second[k]].name), float(width[k]), (float(middle[k, 0]), float(middle[k, 1])))
        for k in np.argsort(width, kind="stable")
    ]


def neck(loops: Sequence[Loop], limit_mm: float) -> Point | None:
    """Near where the piece itself is narrower than the limit and hangs together by that alone; None where it is not.

    Its edge is taken back by half the limit all round: what is left then falls into pieces, or nothing is left.
    """
    whole = material(loops)
    left = whole.buffer(TOUCH_MM - limit_mm / 2, quad_segs=32)
    if left.is_empty:
        return at_of(whole.representative_point())
    if left.geom_type == "Polygon":
        return None
    pieces = [one.buffer(limit_mm / 2 + TOUCH_MM, quad_segs=32) for one in left.geoms]
    rest = whole.difference(shapely.union_all(pieces))
    joins = [one for one in getattr(rest, "geoms", [rest]) if sum(one.distance(p) < TOUCH_MM for p in pieces) > 1]
    return at_of(max(joins, key=lambda one: float(one.area)).centroid) if joins else at_of(whole.centroid)


def material(loops: Sequence[Loop]) -> BaseGeometry:
    """What is left of the sheet."""
    outer = shapely.union_all([polygon(loop.line) for loop in loops if loop.layer == OUTLINE])
    cut: BaseGeometry = outer.difference(
        shapely.union_all([polygon(loop.line) for loop in loops if loop.layer != OUTLINE])
    )
    return cut


def edge_distances(loops: Sequence[Loop]) -> list[EdgeDistance]:
    """From each bolt hole's centre (of a slot: the nearer end's) to the outline and to each opening."""
    found = []
    for hole in (loop for loop in loops if loop.layer == HOLES):
        for edge in (loop for loop in loops if loop.layer != HOLES):
            nearest = min((min(side.distance_mm(one) for side in edge.line.sides), one) for one in hole.centres)
            found.append(EdgeDistance(hole.name, edge.name, hole.across_mm, *nearest))
    return found


def inner_corners(loop: Loop) -> Iterator[tuple[Point, float]]:
    """Each corner that points into the material, with its radius [mm]: 0 where two sides meet in an angle."""
    run = loop.line.anticlockwise().sides
    into = 1.0 if loop.layer != OUTLINE else -1.0
    for before, side in zip([run[-1], *run[:-1]], run, strict=True):
        if into * _turn(before, side) > CORNER_RAD:
            yield side.start, 0.0
        if side.via is not None and into * side.sweep_rad > CORNER_RAD:
            yield side.at(0.5), side.radius_mm


def _turn(before: Side, after: Side) -> float:
    (a, b), (c, d) = before.heading(1.0), after.heading(0.0)
    return math.atan2(a * d - b * c, a * c + b * d)


def at_of(point: shapely.Point) -> Point:
    """A point as two numbers."""
    return float(point.x), float(point.y)


def at(point: Point) -> str:
    """`12.0 mm right, 45.0 mm up`, from the middle of the piece, seen from its front."""
    x, y = (round(c, 1) for c in point)
    return f"{abs(x):.1f} mm {'left' if x < 0 else 'right'}, {abs(y):.1f} mm {'down' if y < 0 else 'up'}"
