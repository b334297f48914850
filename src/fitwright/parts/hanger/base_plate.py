"""The base plate on the surface, its screws beside the hoses: joist, wall, ceiling, batten."""

from __future__ import annotations

from fitwright.data.fasteners import fastener
from fitwright.parts.compensation import placed, small_hole
from fitwright.parts.hanger.cuts import Drilled
from fitwright.parts.hanger.plan import Base, FixingPoint
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.spec.hanger import HoseHangerSpec

PLATE_MM = 6.0
EDGE = 1.5
"""Hole centre to edge in hole diameters, at the least (common practice, no source)."""
ROOM_MM = 1.5
"""Between a washer and what stands beside it."""


def beside(spec: HoseHangerSpec, reach_u: tuple[float, float], wide: float) -> Base:
    """A plate with one screw at each end, clear of all that reaches along u between them."""
    row = fastener(spec.mount.screws.size)
    hole = small_hole(row.hole_mm(), spec.printer)
    washer = row.washer_d2_mm or row.head_d_mm
    out = washer / 2 + ROOM_MM
    edge = max(EDGE * hole, washer / 2 + ROOM_MM)
    low, high = reach_u[0] - out, reach_u[1] + out
    points = tuple(
        FixingPoint(
            placed(u, spec.printer), wide / 2, row, hole, PLATE_MM, "beside", "wood", washer, row.washer_h_mm or 1.0
        )
        for u in (low, high)
    )
    cuts = tuple(
        Drilled(f"screw hole {k}", p.u, p.y, p.hole_d, -0.5, PLATE_MM + 0.5, "mount.screws")
        for k, p in enumerate(points, start=1)
    )
    ends = points[0].u - edge, points[1].u + edge
    return Base(PLATE_MM, ends, (box_uv(ends, (0.0, PLATE_MM)),), (), cuts, points)
