"""Simple solids in the surface's coordinates, for stand-ins."""

from __future__ import annotations

from cadquery import Solid, Vector

from fitwright.frame import Vec
from fitwright.outline import Outline
from fitwright.parts.hanger.placed import PROFILE, Placed
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.shapes.solids import outline_prism


def box_solid(at: Placed, u: tuple[float, float], y: tuple[float, float], v: tuple[float, float]) -> Solid:
    """A box between these coordinates [mm]."""
    return profile_solid(at, box_uv(u, v), y)


def profile_solid(at: Placed, drawn: Outline, y: tuple[float, float]) -> Solid:
    """An outline in (u, v), from y to y."""
    sides = [(s.start, s.via, s.end) for s in at.outline(drawn).sides]
    return outline_prism(sides, PROFILE, *y)


def along_y(at: Placed, middle: Vec, d_mm: float, long_mm: float) -> Solid:
    """A round bar along the hose about (u, y, v)."""
    u, y, v = middle
    return Solid.makeCylinder(d_mm / 2, long_mm, Vector(*at.point(u, y - long_mm / 2, v)), Vector(0.0, 1.0, 0.0))


def along_u(at: Placed, middle: Vec, d_mm: float, long_mm: float) -> Solid:
    """A round bar across the hose about (u, y, v)."""
    u, y, v = middle
    start, way = Vector(*at.point(u - long_mm / 2, y, v)), Vector(*at.direction(1.0, 0.0))
    return Solid.makeCylinder(d_mm / 2, long_mm, start, way)
