"""A recess for a head or nut, along v, with a roof that prints: round below, pointed at 45 degrees above, flat on top.

The hanger prints lying on y = 0, so that the recess is a horizontal hole and its roof lies at its far side in y.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid

from fitwright.outline import Outline, Point, through
from fitwright.outline_union import Region
from fitwright.parts.hanger.heights import taken_along_v_mm3
from fitwright.parts.hanger.placed import Placed
from fitwright.shapes.solids import outline_prism

TOP = 1.15
"""The roof ends flat this many radii from the middle: a bridge of half a radius."""


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

        def chord(u: float) -> float:
            return chord_mm(r, u)

        return taken_along_v_mm3(profile, self.u, r, (self.v0, self.v1), chord, own)


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
