"""A shape whose vertices stand where any process would have put them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.gp import gp_Pnt

from fitwright.tolerances import TOLERANCES

if TYPE_CHECKING:
    from cadquery import Shape


def settled(shape: Shape) -> Shape:
    """A copy of `shape` [mm] with its vertices rounded to TOLERANCES.noise_digits; its edges and faces are its own.

    The kernel takes the mean of a joint's vertices in the order of their addresses in memory: the last digit differs
    between processes. Near zero it is every digit of a file, and among points on a circle it is how a face is divided.
    """
    copy, builder, digits = shape.copy(), BRep_Builder(), TOLERANCES.noise_digits
    for vertex in copy.Vertices():
        one = vertex.wrapped
        place = BRep_Tool.Pnt_s(one)
        still = gp_Pnt(*(round(c, digits) + 0.0 for c in (place.X(), place.Y(), place.Z())))  # never -0
        builder.UpdateVertex(one, still, BRep_Tool.Tolerance_s(one))
    return copy
