"""From an outline of straights and arcs to a passage's section, which must be convex and hold the axis."""

from __future__ import annotations

import math

from fitwright.arcs import TURN, Arc
from fitwright.section import Section, SectionError
from fitwright.spec.outline import Outline, Side

STRAIGHT_RAD = 1e-9


def section_of(outline: Outline) -> Section:
    """The section; SectionError where the outline turns inwards somewhere, or the axis lies outside it."""
    run = outline.anticlockwise()
    if not run.is_convex():
        raise SectionError("the outline turns inwards")
    if not run.contains((0.0, 0.0)):
        raise SectionError("the centre of the mouth lies outside the outline")
    arcs: list[Arc] = []
    for side, following in zip(run.sides, (*run.sides[1:], run.sides[0]), strict=True):
        if side.via is not None:
            arcs.append(_arc(side))
        first, last = _normal(side, 1.0), _normal(following, 0.0)
        turn = math.remainder(last - first, TURN)
        if turn > STRAIGHT_RAD:
            arcs.append(Arc(*side.end, 0.0, first, first + turn))
    return Section(tuple(arcs))


def _arc(side: Side) -> Arc:
    start = _normal(side, 0.0)
    return Arc(*side.centre, side.radius_mm, start, start + side.sweep_rad)


def _normal(side: Side, share: float) -> float:
    """Angle of the outward normal, the inside lying left of the way."""
    x, y = side.heading(share)
    return math.atan2(-x, y)
