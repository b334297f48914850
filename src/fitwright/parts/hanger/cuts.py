"""What is cut from a profile: holes along v, windows through the profile's plane, flares of a bore's rims.

Plain numbers in (u, v, y), with the volume that each takes away in closed form or by exact quadrature of the profile.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from cadquery import Edge, Solid, Vector, Wire

from fitwright.frame import Frame
from fitwright.outline import Outline, Point
from fitwright.outline_union import Region, difference
from fitwright.parts.hanger.groove import Groove
from fitwright.parts.hanger.heights import taken_along_v_mm3
from fitwright.parts.hanger.placed import PROFILE, Placed
from fitwright.parts.hanger.recess import Recess
from fitwright.shapes.solids import cylinder, outline_prism

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
FLARE_R_MM, FLARE_DEG = 4.0, 45.0
"""The rims of a bore are rounded by this radius through this angle: nothing cuts the hose, and no layer overhangs."""
_T0 = math.radians(3.0)
_C0 = math.cos(_T0)
"""The round crosses the bore at this angle: where it only touches it the kernel leaves slivers."""


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

    def tool(self, at: Placed) -> Solid:
        """The cutter."""
        return cylinder(at.drilled(self.u, self.y), self.d_mm / 2, self.v0, self.v1)

    def volume_mm3(self, profile: Region) -> float:
        """What it takes from the profile [mm3]: the chord of its circle times the profile's height there."""
        r = self.d_mm / 2

        def chord(u: float) -> float:
            return 2.0 * math.sqrt(max(0.0, r * r - u * u))

        return taken_along_v_mm3(profile, self.u, r, (self.v0, self.v1), chord)


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
    past_mm: float = 0.0
    """It is open to the back at y1: its tool stands out so far."""

    def tool(self, at: Placed) -> Solid:
        """The cutter."""
        sides = [(s.start, s.via, s.end) for s in at.outline(self.drawn).sides]
        return outline_prism(sides, PROFILE, self.y0, self.y1 + self.past_mm)

    def volume_mm3(self, profile: Region) -> float:
        """What it takes from the profile [mm3]."""
        inside = common_mm2(self.drawn, profile.outer) - math.fsum(common_mm2(one, self.drawn) for one in profile.inner)
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
    lip: bool = False
    """The face is the outside of a lip round (u, v), not the inside of a bore."""
    bare_mm: float = 0.0
    """Of a half turn whose body is parted so far from the straight through its ends: there it takes nothing."""

    @property
    def high_mm(self) -> float:
        """How much wider [mm] the bore is at its rim."""
        return FLARE_R_MM * (_C0 - math.cos(math.radians(FLARE_DEG)))

    def volume_mm3(self, _profile: Region) -> float:
        """Between the bore and the arc, by its area and centroid (Pappus), over the sector."""
        area, moment = self._section()
        whole = math.radians(self.sweep_deg) * (self.r_mm * area + (-moment if self.lip else moment))
        return whole - 2 * self._bare() if self.bare_mm else whole

    def _bare(self) -> float:
        """What lies between the straight through its ends and the parting, at one end [mm3]."""

        def to(r: float) -> float:
            return (r * r * math.asin(self.bare_mm / r) + self.bare_mm * math.sqrt(r * r - self.bare_mm**2)) / 2

        span, inner, big = math.radians(FLARE_DEG) - _T0, to(self.r_mm), FLARE_R_MM
        turns = (_T0 + span * (x + 1.0) / 2 for x in _NODES.tolist())
        parts = [(to(self.r_mm + big * (_C0 - math.cos(t))) - inner) * big * math.cos(t) for t in turns]
        return math.fsum(w * part for w, part in zip(_WEIGHTS.tolist(), parts, strict=True)) * span / 2

    def _section(self) -> tuple[float, float]:
        """Area [mm2] of the flare's section, and its moment [mm3] about the bore's line.

        Integrals over the depth of h and h^2 / 2, where h = R (cos t0 - cos t) and the depth grows by R cos t dt.
        """
        a, big = math.radians(FLARE_DEG), FLARE_R_MM
        one = math.sin(a) - math.sin(_T0)
        two = (a - _T0) / 2 + (math.sin(2 * a) - math.sin(2 * _T0)) / 4
        three = one - (math.sin(a) ** 3 - math.sin(_T0) ** 3) / 3
        return big**2 * (_C0 * one - two), big**3 / 2 * (_C0**2 * one - 2 * _C0 * two + three)

    def tool(self, at: Placed) -> Solid:
        """The cutter, turned about the bore's axis; it starts a little inside the bore and in front of the rim."""
        r, h, e, a = self.r_mm, self.high_mm, 0.5, math.radians(FLARE_DEG)

        def on(t: float) -> Point:
            return r + FLARE_R_MM * (_C0 - math.cos(t)), FLARE_R_MM * (math.sin(a) - math.sin(t))

        line: list[tuple[Point, Point | None, Point]] = [
            ((r - e, on(0.0)[1]), None, on(0.0)),
            (on(0.0), on(a / 2), (r + h, 0.0)),
            ((r + h, 0.0), None, (r + h, -e)),
            ((r + h, -e), None, (r - e, -e)),
            ((r - e, -e), None, (r - e, on(0.0)[1])),
        ]
        return self._turned(at, line)

    def _turned(self, at: Placed, line: list[tuple[Point, Point | None, Point]]) -> Solid:
        begin = math.radians(self.from_deg)
        out = at.direction(math.cos(begin), math.sin(begin))
        centre = Vector(*at.point(self.u, self.y, self.v))

        def there(p: Point) -> Vector:
            away = 2 * self.r_mm - p[0] if self.lip else p[0]
            return centre + Vector(*out) * away + Vector(0.0, self.inward, 0.0) * p[1]

        edges = [
            Edge.makeThreePointArc(there(a), there(m), there(b)) if m else Edge.makeLine(there(a), there(b))
            for a, m, b in line
        ]
        side = at.direction(-math.sin(begin), math.cos(begin))
        # the axis along which the sector runs anticlockwise in (u, v)
        axis = Vector(*out).cross(Vector(*side))
        wire = Wire.assembleEdges(edges)
        return Solid.revolve(wire, [], self.sweep_deg, centre, centre + axis)


def common_mm2(one: Outline, other: Outline) -> float:
    """Area [mm2] that two outlines have in common."""
    return one.area_mm2 - math.fsum(left.area_mm2 for left in difference([one], [other]))


def rims(u: float, v: float, r_mm: float, wide: float, sector: tuple[float, float], name: str) -> tuple[Flare, Flare]:
    """The flares of both rims of a bore, over a sector (from, sweep) [deg]."""
    front = Flare(f"{name} front", u, v, r_mm, 0.0, 1.0, *sector)
    return front, Flare(f"{name} back", u, v, r_mm, wide, -1.0, *sector)


def lip_rims(at: Point, r_mm: float, wide: float, sector: tuple[float, float], name: str) -> tuple[Flare, Flare]:
    """The same at a lip, round its own centre."""
    front, back = rims(*at, r_mm, wide, sector, name)
    return replace(front, lip=True), replace(back, lip=True)


Cut = Drilled | Window | Flare | Recess | Groove


def frame_of(cut: Drilled, at: Placed) -> Frame:
    """Where a hole begins and the way that it goes."""
    return at.drilled(cut.u, cut.y, cut.v0)


def taken_mm3(cuts: Sequence[Cut], profile: Region) -> float:
    """What all cuts take away [mm3]; they must not meet each other."""
    return math.fsum(one.volume_mm3(profile) for one in cuts)


def through_holes(cuts: Sequence[Cut]) -> int:
    """Through holes that these cuts make."""
    drilled = sum((isinstance(one, Drilled) and one.fit) or (isinstance(one, Recess) and one.pierces) for one in cuts)
    return drilled + sum(one.through for one in cuts if isinstance(one, Window))
