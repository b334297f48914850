"""Sections carried along a centreline in space, one exact solid a run: extruded on a straight, turned on an arc."""

from __future__ import annotations

import math
from collections.abc import Callable

from cadquery import Face, Plane, Solid, Vector, Wire

from fitwright.frame import Frame
from fitwright.shapes.space_path import Run

Section = Callable[[Frame], Face]
"""A flat face square to the frame's inward direction, drawn from its right and up; holes in it become passages."""


def ring_section(outer_r_mm: float, inner_r_mm: float) -> Section:
    """A ring about the line, a disc where `inner_r_mm` is 0; its seams lie at the frame's right."""

    def face_at(frame: Frame) -> Face:
        plane = Plane(Vector(*frame.origin), Vector(*frame.right), Vector(*frame.inward))
        centre, axis = Vector(0, 0, 0), Vector(0, 0, 1)
        wires = [Wire.makeCircle(r, centre, axis) for r in (outer_r_mm, inner_r_mm) if r > 0]
        outer, *holes = (wire.moved(plane.location) for wire in wires)
        return Face.makeFromWires(outer, list(holes))

    return face_at


def swept(face_at: Section, run: Run, frame: Frame) -> Solid:
    """The section carried along one run; `frame` stands at its start, inward along the heading.

    Exact: a prism on a straight; on an arc a solid of revolution, which a round section makes a torus. The section must
    stay clear of the arc's axis.
    """
    face = face_at(frame)
    if not run.turn_rad:
        n = run.heading
        return Solid.extrudeLinear(face, Vector(n[0], n[1], n[2]) * run.length_mm)
    base, axis = Vector(*run.centre), Vector(*run.axis)
    return Solid.revolve(face, math.degrees(run.turn_rad), base, base + axis)


def swept_mm3(area_mm2: float, run: Run, frame: Frame, centroid: tuple[float, float] = (0.0, 0.0)) -> float:
    """Volume [mm3] of a section of this area whose centroid lies at (right, up) [mm] of the frame: Pappus's theorem.

    On a straight area x length; on an arc area x turn x distance of the centroid from the axis.
    """
    if not run.turn_rad:
        return area_mm2 * run.length_mm
    right, up = centroid
    inwards = sum((right * frame.right[i] + up * frame.up[i]) * run.toward[i] for i in range(3))
    return area_mm2 * run.turn_rad * (run.radius_mm - inwards)
