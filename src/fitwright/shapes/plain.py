"""A plain end: a bare tube, for glue, tape or a sleeve of the user's own."""

from __future__ import annotations

from fitwright.shapes.forms import ROUND, Form
from fitwright.shapes.joint import JointShape, to_root


def plain(inside_d: float, length: float, wall: float, root_wall: float, form: Form = ROUND) -> JointShape:
    """A straight tube [mm], its outside stepping at 45 deg to the root's wall."""
    r = inside_d / 2
    root_s, slope = to_root(r + wall, length, r + root_wall, wall)
    outer = ((0.0, r + wall), *slope) if root_s > length else ((0.0, r + wall), (length, r + root_wall))
    return JointShape(((0.0, r), (root_s, r)), outer, root_s, length, form=form)
