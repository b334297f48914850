"""What is cut from a profile: holes along v, windows through the profile's plane, flares of a bore's rims.

Plain numbers in (u, v, y), with the volume that each takes away in closed form or by exact quadrature of the profile.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from cadquery import Edge, Solid, Vector, Wire

from fitwright.frame import Frame
from fitwright.outline import Outline, Point
from fitwright.outline_union import Region, difference
from fitwright.parts.hanger.groove import Groove
from fitwright.parts.hanger.heights import breaks_u, height_mm
from fitwright.parts.hanger.placed import PROFILE, Placed
from fitwright.parts.hanger.recess import Recess
from fitwright.shapes.solids import cylinder, outline_prism

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
FLARE_R_MM, FLARE_DEG = 4.0, 45.0
"""The rims of a bore are rounded by this radius through this angle: nothing cuts the hose, and no layer overhangs."""


@dataclass(frozen=True)
class Drilled:
    """A round hole along v at (u, y) between v0 and v1 [mm]; `key` is the YAML path that asked for it."""

    name: str
    u: float
    y: float
    d_mm: float
    v0: float
    v1: float
    key: str = "mount"
    fit: bool = True
    """It is a screw's clearance hole (fit.built measures it); False: a recess."""
    pierces: bool = False
    """A hole that is no clearance hole but goes through: for a driver."""

    def tool(self, at: Placed) -> Solid:
        """The cutter."""
        return cylinder(at.drilled(self.u, self.y), self.d_mm / 2, self.v0, self.v1)

    def volume_mm3(self, profile: Region) -> float:
        """What it takes from the profile [mm3]: the chord of its circle times the profile's height there."""
        r = self.d_mm / 2
        stops = sorted({-r, r, *(s for s in (u - self.u for u in breaks_u(profile)) if -r < s < r)})
        return math.fsum(self._between(profile, a, b) for a, b in itertools.pairwise(stops))

    def _between(self, profile: Region, a: float, b: float) -> float:
        r = self.d_mm / 2
        first, last = math.asin(max(-1.0, a / r)), math.asin(min(1.0, b / r))
        total = 0.0
        for x, w in zip(_NODES.tolist(), _WEIGHTS.tolist(), strict=True):
            t = (first + last) / 2 + (last - first) / 2 * x
            total += w * 2 * (r * math.cos(t)) ** 2 * height_mm(profile, self.u + r * math.sin(t), self.v0, self.v1)
        return total * (last - first) / 2


@dataclass(frozen=True)
class Window:
    """A cut through the profile's plane: an outline in (u, v), from y0 to y1; it may stand out of the profile."""

    name: str
    drawn: Outline
    y0: float
    y1: float
    key: str = "strap"
    through: int = 1
    """Through holes that it makes."""

    def tool(self, at: Placed) -> Solid:
        """The cutter."""
        sides = [(s.start, s.via, s.end) for s in at.outline(self.drawn).sides]
        return outline_prism(sides, PROFILE, self.y0, self.y1)

    def volume_mm3(self, profile: Region) -> float:
        """What it takes from the profile [mm3]."""
        outside = difference([self.drawn], [profile.outer])
        inside = math.fsum([self.drawn.area_mm2, *(-one.area_mm2 for one in outside)])
        return inside * (self.y1 - self.y0)


@dataclass(frozen=True)
class Flare:
    """A rim of a bore made wide: at y (front or back), `inward` +1 or -1 along y, over a sector of the bore.

    The sector runs from `from_deg` anticlockwise through `sweep_deg`, in the (u, v) plane.
    """

    name: str
    u: float
    v: float
    r_mm: float
    y: float
    inward: float
    from_deg: float
    sweep_deg: float

    @property
    def high_mm(self) -> float:
        """How much wider [mm] the bore is at its rim."""
        return FLARE_R_MM * (1.0 - math.cos(math.radians(FLARE_DEG)))

    @property
    def deep_mm(self) -> float:
        """How far in it begins [mm]."""
        return FLARE_R_MM * math.sin(math.radians(FLARE_DEG))

    def volume_mm3(self, _profile: Region) -> float:
        """Between the bore and the arc, by its area and centroid (Pappus), over the sector."""
        area, moment = self._section()
        return math.radians(self.sweep_deg) * (self.r_mm * area + moment)

    def _section(self) -> tuple[float, float]:
        """Area [mm2] of the flare's section, and its moment [mm3] about the bore's line."""
        a, big = math.radians(FLARE_DEG), FLARE_R_MM
        area = big**2 * (math.sin(a) - (a + math.sin(a) * math.cos(a)) / 2)
        # integral over the depth of h^2 / 2, h = R (1 - cos t), d depth = R cos t dt
        third = (math.sin(a) - math.sin(a) ** 3 / 3) if a else 0.0
        moment = big**3 / 2 * (math.sin(a) - (a + math.sin(a) * math.cos(a)) + third)
        return area, moment

    def tool(self, at: Placed) -> Solid:
        """The cutter, turned about the bore's axis; it starts a little inside the bore and in front of the rim."""
        r, h, d, e = self.r_mm, self.high_mm, self.deep_mm, 0.5
        a = math.radians(FLARE_DEG) / 2
        middle = (r + FLARE_R_MM * (1 - math.cos(a)), d - FLARE_R_MM * math.sin(a))
        line: list[tuple[Point, Point | None, Point]] = [
            ((r - e, d), None, (r, d)),
            ((r, d), middle, (r + h, 0.0)),
            ((r + h, 0.0), None, (r + h, -e)),
            ((r + h, -e), None, (r - e, -e)),
            ((r - e, -e), None, (r - e, d)),
        ]
        return self._turned(at, line)

    def _turned(self, at: Placed, line: list[tuple[Point, Point | None, Point]]) -> Solid:
        begin = math.radians(self.from_deg)
        out = at.direction(math.cos(begin), math.sin(begin))
        centre = Vector(*at.point(self.u, self.y, self.v))

        def there(p: Point) -> Vector:
            return centre + Vector(*out) * p[0] + Vector(0.0, self.inward, 0.0) * p[1]

        edges = [
            Edge.makeThreePointArc(there(a), there(m), there(b)) if m else Edge.makeLine(there(a), there(b))
            for a, m, b in line
        ]
        side = at.direction(-math.sin(begin), math.cos(begin))
        # the axis along which the sector runs anticlockwise in (u, v)
        axis = Vector(*out).cross(Vector(*side))
        wire = Wire.assembleEdges(edges)
        return Solid.revolve(wire, [], self.sweep_deg, centre, centre + axis)


Cut = Drilled | Window | Flare | Recess | Groove


def frame_of(cut: Drilled, at: Placed) -> Frame:
    """Where a hole begins and the way that it goes."""
    return at.drilled(cut.u, cut.y, cut.v0)


def taken_mm3(cuts: Sequence[Cut], profile: Region) -> float:
    """What all cuts take away [mm3]; they must not meet each other."""
    return math.fsum(one.volume_mm3(profile) for one in cuts)
