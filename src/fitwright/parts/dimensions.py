"""The main dimensions for the picture, as lines in the plane of its section view."""

from __future__ import annotations

import math

from fitwright.frame import Vec
from fitwright.part import Dimension
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.compensation import as_printed


def main_dimensions(a: PlacedEnd, b: PlacedEnd, across: Vec) -> tuple[Dimension, ...]:
    """Both joints' diameters, the length mouth to mouth, and the offset of end_b along `across` where there is one."""
    o, p = a.frame.origin, b.frame.origin
    found = [_diameter(a, across), _diameter(b, across)]
    found.append(Dimension("length", o, (o[0], p[1], o[2]), p[1] - o[1]))
    offset = sum((p[i] - o[i]) * across[i] for i in (0, 2))
    if abs(offset) > 1e-6:
        found.append(Dimension("offset", (o[0], p[1], o[2]), p, abs(offset)))
    return tuple(found)


def _diameter(end: PlacedEnd, across: Vec) -> Dimension:
    """The diameter that meets the bought part, at its tight end, or the opening where there is none."""
    fit = end.shape.fit
    s, d = (fit[2], fit[3]) if fit else (0.0, 2 * end.shape.passage_r_mm)
    centre, side = end.frame.point(0.0, s, 0.0), _square_to(end.frame.inward, across)
    reach = _reaches(end, side, d)
    ends = [(centre[0] + k * side[0], centre[1] + k * side[1], centre[2] + k * side[2]) for k in reach]
    words = {"socket": "bore at its bottom", "spigot": "outside at its collar", "hose_tail": "land"}
    word = words.get(end.plan.end.kind, "opening")
    kind = "outside" if end.plan.end.kind in ("spigot", "hose_tail") else "hole"
    learned = getattr(end.plan.end.joint, "learned", None)
    d = as_printed(reach[1] - reach[0], kind, end.plan.printer)  # what the caliper should say of the print
    return Dimension(f"{end.plan.key} {word}", ends[0], ends[1], d + (learned.size_error_mm if learned else 0.0))


def _reaches(end: PlacedEnd, side: Vec, d: float) -> tuple[float, float]:
    """How far the outline reaches each way along a direction square to the axis."""
    x, y = (sum(side[i] * axis[i] for i in range(3)) for axis in (end.frame.right, end.frame.up))
    angle, outline = math.atan2(y, x), end.shape.form.at(d / 2)
    return -outline.support(angle + math.pi), outline.support(angle)


def _square_to(axis: Vec, across: Vec) -> Vec:
    """The direction in the section's plane (across, away) that is square to an end's axis.

    An axis that leaves the plane has one such direction as well, the same as its picture's in that plane; one that runs
    straight out of the plane has all of them, and across is taken.
    """
    normal = (-across[2], 0.0, across[0])  # away x across
    raw = [
        normal[1] * axis[2] - normal[2] * axis[1],
        normal[2] * axis[0] - normal[0] * axis[2],
        normal[0] * axis[1] - normal[1] * axis[0],
    ]
    size = math.sqrt(sum(x * x for x in raw))
    if size < 1e-6:
        return across
    sign = math.copysign(1.0, sum(raw[i] * across[i] for i in range(3)))
    return (sign * raw[0] / size, sign * raw[1] / size, sign * raw[2] / size)
