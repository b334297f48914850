"""From the surface's own coordinates (u, v) to the part's (x, z): one profile for all sides and mirror images.

v goes from the mounting surface (v = 0) towards the hose, whose axis is at v = `axis_mm`; u runs along the surface:
right where the surface is above or below, up where it is on the left or right.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.frame import Frame, Vec
from fitwright.outline import Outline, Point, Side
from fitwright.spec.hanger import Side as SurfaceSide

PROFILE = Frame((0.0, 0.0, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
"""The profile's plane: right = x, up = z, extruded along y."""
_U: dict[SurfaceSide, Point] = {"up": (1.0, 0.0), "down": (1.0, 0.0), "left": (0.0, 1.0), "right": (0.0, 1.0)}
_V: dict[SurfaceSide, Point] = {"up": (0.0, -1.0), "down": (0.0, 1.0), "left": (1.0, 0.0), "right": (-1.0, 0.0)}
"""Directions of u and v in (x, z)."""


@dataclass(frozen=True)
class Placed:
    """Where the surface lies, and how far it is from the hose's axis [mm]."""

    side: SurfaceSide
    axis_mm: float

    def xz(self, u: float, v: float) -> Point:
        """The point (x, z) [mm]."""
        a, b = _U[self.side], _V[self.side]
        v -= self.axis_mm
        return a[0] * u + b[0] * v, a[1] * u + b[1] * v

    def point(self, u: float, y: float, v: float) -> Vec:
        """The point (x, y, z) [mm]."""
        x, z = self.xz(u, v)
        return x, y, z

    def direction(self, u: float, v: float) -> Vec:
        """The direction (x, y, z) of (u, v)."""
        a, b = _U[self.side], _V[self.side]
        return a[0] * u + b[0] * v, 0.0, a[1] * u + b[1] * v

    def uv_of_turn(self, deg: float) -> Point:
        """The direction in (u, v) that lies at this angle, clockwise from up seen along the hose."""
        x, z = math.sin(math.radians(deg)), math.cos(math.radians(deg))
        a, b = _U[self.side], _V[self.side]
        return x * a[0] + z * a[1], x * b[0] + z * b[1]

    def outline(self, drawn: Outline) -> Outline:
        """A profile drawn in (u, v), in (x, z), anticlockwise."""
        sides = (Side(self.xz(*s.start), self.xz(*s.end), self.xz(*s.via) if s.via else None) for s in drawn.sides)
        return Outline(tuple(sides)).anticlockwise()

    def drilled(self, u: float, y: float, v: float = 0.0) -> Frame:
        """A frame at (u, y, v) that looks along +v, away from the surface; its right is y."""
        return Frame(self.point(u, y, v), self.direction(0.0, 1.0), (0.0, 1.0, 0.0))
