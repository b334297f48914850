"""Simple solids in the surface's coordinates, for stand-ins."""

from __future__ import annotations

from cadquery import Solid

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
