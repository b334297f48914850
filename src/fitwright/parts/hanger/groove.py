"""A round groove along u in the face that lies on a bar which runs across the hose."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid, Vector

from fitwright.outline_union import Region
from fitwright.parts.hanger.placed import Placed

PAST_MM = 1.0


@dataclass(frozen=True)
class Groove:
    """A bar's bed at y, `d_mm` wide, its ground at v = 0; what it lies in stands `high_mm` beyond (v < 0) over `u`."""

    name: str
    y: float
    d_mm: float
    high_mm: float
    u: tuple[float, float]
    key: str = "mount.bar"

    @property
    def chord_mm(self) -> float:
        """Its width at the outer face [mm]."""
        r = self.d_mm / 2
        return 2 * math.sqrt(r * r - (r - self.high_mm) ** 2)

    def tool(self, at: Placed) -> Solid:
        """The cutter: a round bar."""
        start = Vector(*at.point(self.u[0] - PAST_MM, self.y, -self.d_mm / 2))
        long = self.u[1] - self.u[0] + 2 * PAST_MM
        return Solid.makeCylinder(self.d_mm / 2, long, start, Vector(*at.direction(1.0, 0.0)))

    def volume_mm3(self, _profile: Region) -> float:
        """A circular segment times its length [mm3]."""
        r = self.d_mm / 2
        half = math.acos((r - self.high_mm) / r)
        return r * r * (half - math.sin(half) * math.cos(half)) * (self.u[1] - self.u[0])
