"""A recess for a head or nut, along v, with a roof that prints: round below, pointed at 45 degrees above, flat on top.

The hanger prints lying on y = 0, so that the recess is a horizontal hole and its roof lies at its far side in y.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import numpy as np
from cadquery import Solid

from fitwright.outline import Outline, Point, through
from fitwright.outline_union import Region
from fitwright.parts.hanger.heights import breaks_u, height_mm
from fitwright.parts.hanger.placed import Placed
from fitwright.shapes.solids import outline_prism

TOP = 1.15
"""The roof ends flat this many radii from the middle: a bridge of half a radius."""
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)


@dataclass(frozen=True)
class Recess:
    """At (u, y) from v0 to v1 [mm], `d_mm` wide; `key` as of other cuts."""

    name: str
    u: float
    y: float
    d_mm: float
    v0: float
    v1: float
    key: str = "mount"
    pierces: bool = False
    """It goes through: a hole for a driver."""

    def tool(self, at: Placed) -> Solid:
        """The cutter: its frame looks along +v, its right is y."""
        frame = at.drilled(self.u, self.y)
        sides = [(s.start, s.via, s.end) for s in recess_outline(self.d_mm / 2).sides]
        return outline_prism(sides, frame, self.v0, self.v1)

    def volume_mm3(self, profile: Region) -> float:
        """What it takes from the profile [mm3]: at each u its length along y times the profile's height there."""
        r = self.d_mm / 2
        own = (-r / math.sqrt(2.0), -_flat(r), _flat(r), r / math.sqrt(2.0))
        stops = sorted({-r, r, *own, *(s for s in (u - self.u for u in breaks_u(profile)) if -r < s < r)})
        return math.fsum(self._between(profile, a, b) for a, b in itertools.pairwise(stops))

    def _between(self, profile: Region, a: float, b: float) -> float:
        r = self.d_mm / 2
        first, last = math.asin(max(-1.0, a / r)), math.asin(min(1.0, b / r))
        total = 0.0
        for x, w in zip(_NODES.tolist(), _WEIGHTS.tolist(), strict=True):
            t = (first + last) / 2 + (last - first) / 2 * x
            u = r * math.sin(t)
            total += w * r * math.cos(t) * chord_mm(r, u) * height_mm(profile, self.u + u, self.v0, self.v1)
        return total * (last - first) / 2


def _flat(r: float) -> float:
    """Half the flat of the roof."""
    return (math.sqrt(2.0) - TOP) * r


def chord_mm(r: float, u: float) -> float:
    """Length of the recess along y, so far beside its middle [mm]."""
    below, aside = math.sqrt(max(0.0, r * r - u * u)), abs(u)
    if aside >= r / math.sqrt(2.0):
        return 2 * below
    return below + min(math.sqrt(2.0) * r - aside, TOP * r)


def recess_outline(r: float) -> Outline:
    """Seen along v with y to the right: round, its roof towards +y."""
    c, f = r / math.sqrt(2.0), _flat(r)
    corners: list[Point] = [(c, c), (TOP * r, f), (TOP * r, -f), (c, -c)]
    via: list[Point | None] = [(-r, 0.0), None, None, None]
    return through(corners, via)
