"""Flat plates as exact solids: an outline extruded with all its openings and holes, and the tools that cut those."""

from __future__ import annotations

from collections.abc import Iterator

from cadquery import Edge, Solid, Vector, Wire

from fitwright.flat import Flat
from fitwright.frame import Frame
from fitwright.outline import Outline
from fitwright.outline_forms import as_circle
from fitwright.shapes.joint import OVERSHOOT_MM
from fitwright.shapes.solids import cylinder, outline_prism


def plate_solid(flat: Flat, frame: Frame) -> Solid:
    """The piece, its front in the frame's plane, `thickness_mm` along its axis; no boolean is needed."""
    n, t = frame.inward, flat.thickness_mm
    inner = [_wire(one, frame) for one in cuts(flat)]
    return Solid.extrudeLinear(_wire(flat.outline, frame), inner, Vector(n[0] * t, n[1] * t, n[2] * t))


def cuts(flat: Flat) -> list[Outline]:
    """Outlines of all openings, then of all holes."""
    return [*flat.openings, *(hole.outline for hole in flat.holes)]


def tools(flat: Flat, frame: Frame) -> Iterator[Solid]:
    """A cutter for each of `cuts`, that goes through the piece and beyond."""
    for one in cuts(flat):
        yield outline_tool(one, frame, -OVERSHOOT_MM, flat.thickness_mm + OVERSHOOT_MM)


def outline_tool(outline: Outline, frame: Frame, s0: float, s1: float) -> Solid:
    """The solid on an outline from s0 to s1 along the frame's axis."""
    found = as_circle(outline)
    if found is None:
        return outline_prism([(s.start, s.via, s.end) for s in outline.sides], frame, s0, s1)
    (x, y), d = found
    return cylinder(Frame(frame.point(x, 0.0, y), frame.inward, frame.right), d / 2, s0, s1)


def _wire(outline: Outline, frame: Frame) -> Wire:
    found = as_circle(outline)
    if found is not None:
        (x, y), d = found
        return Wire.makeCircle(d / 2, Vector(*frame.point(x, 0.0, y)), Vector(*frame.inward))
    edges = []
    for side in outline.sides:
        a, b = (Vector(*frame.point(x, 0.0, y)) for x, y in (side.start, side.end))
        via = side.via and Vector(*frame.point(side.via[0], 0.0, side.via[1]))
        edges.append(Edge.makeThreePointArc(a, via, b) if via else Edge.makeLine(a, b))
    return Wire.assembleEdges(edges)
