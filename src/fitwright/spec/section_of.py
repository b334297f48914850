"""From an outline of straights and arcs to a passage's section, which must be convex and hold the axis.

Places at the bench are good to half a millimetre. So an arc that should run into its neighbour without a kink never
does quite, as read, and a straight side that was read at three places is never quite straight: what turns inwards by
no more than that is led over straight.
"""

from __future__ import annotations

import math

import numpy as np

from fitwright.arcs import TURN, Arc
from fitwright.section import Section, SectionError
from fitwright.spec.belt import belt
from fitwright.spec.outline import Outline, Point, Side

HOLLOW_MM = 0.5
"""Hollows no deeper than this are reading errors (common practice, no source)."""
SAMPLES = 33
DIGITS = 2
"""Places are taken to 0.01 mm: sides that are all but parallel to another section's would meet it in slivers."""


def section_of(outline: Outline) -> Section:
    """The section; SectionError where the outline turns inwards somewhere, or the axis lies outside it."""
    run = Outline(tuple(_rounded(side) for side in outline.anticlockwise().sides))
    corners = [Arc(*side.end, 0.0, 0.0, TURN) for side in run.sides]
    arcs = [_arc(side) for side in run.sides if side.via is not None and side.sweep_rad > 0.0]
    section = Section(tuple(belt([*corners, *arcs])))
    points = [side.at(float(share)) for side in run.sides for share in np.linspace(0.0, 1.0, SAMPLES)]
    if float(section.distance(points).min()) < -HOLLOW_MM:
        raise SectionError("the outline turns inwards")
    if not run.contains((0.0, 0.0)):
        raise SectionError("the centre of the mouth lies outside the outline")
    return section


def _rounded(side: Side) -> Side:
    start, end = _place(side.start), _place(side.end)
    return Side(start, end, None if side.via is None else _place(side.via))


def _place(point: Point) -> Point:
    return round(point[0], DIGITS), round(point[1], DIGITS)


def _arc(side: Side) -> Arc:
    x, y = side.heading(0.0)
    start = math.atan2(-x, y)  # the outward normal, the inside lying left of the way
    return Arc(*side.centre, side.radius_mm, start, start + side.sweep_rad)
