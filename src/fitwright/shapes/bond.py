"""Where the wire of a hose is bonded: a channel from the mouth over a hose tail to a lug with a blind pilot hole.

The lug stands behind the hose stop, its undersides at 45 deg whichever end is down. The channel is deeper than the
wire, so that no clamp band rests on it, and climbs the lug's front to the screw's head.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid, Vector, Wire

from fitwright.frame import Frame
from fitwright.shapes.joint import OVERSHOOT_MM, Hole, Tool, clock_direction
from fitwright.shapes.profile import Point

ENGAGED_OF_D = 2.0
"""A screw holds in plastic over twice its diameter (common practice, no source)."""
LEAST_HIGH_MM = 3.0
SEAT_ROOM_MM = 0.5
SUNK_MM = 0.4
"""The lug's foot goes this far into the wall, at its sides."""


@dataclass(frozen=True)
class BondSizes:
    """All in mm. The tail: outside `r`, bore `passage_r`, hose stop at `depth`; `wall` stays under pilot and channel.

    `deep`, `wide`: the channel for the bared wire. `major`: the screw's diameter, `pilot_d` its hole, `seat_d` its
    washer or head; `at_deg` clockwise from up as seen by who looks into the mouth.
    """

    deep: float
    wide: float
    major: float
    pilot_d: float
    seat_d: float
    at_deg: float
    wall: float
    r: float
    passage_r: float
    depth: float

    @property
    def across(self) -> float:
        """Width of the lug, round the tail."""
        return max(self.seat_d + 2 * SEAT_ROOM_MM, self.pilot_d + 2 * self.wall, self.wide + 2 * self.wall)

    @property
    def foot_r(self) -> float:
        """Where the lug's sides end, inside the wall."""
        return math.sqrt(max(self.r**2 - self.across**2 / 4, 0.0)) - SUNK_MM

    @property
    def pilot_end_r(self) -> float:
        """Where the pilot ends: a full wall from the passage."""
        return self.passage_r + self.wall + 0.02

    @property
    def top_r(self) -> float:
        """The lug's flat top."""
        return max(self.pilot_end_r + ENGAGED_OF_D * self.major, self.r + LEAST_HIGH_MM)

    @property
    def flat_from(self) -> float:
        """Where the flat top begins: the front rises at 45 deg from the hose stop."""
        return self.depth + self.top_r - self.foot_r

    @property
    def pilot_s(self) -> float:
        """Where the pilot is drilled: a wall behind the channel's end."""
        return self.flat_from + self.deep + self.wall + 0.05 + self.pilot_d / 2

    @property
    def flat_to(self) -> float:
        """Where the flat top ends."""
        return self.pilot_s + max(self.seat_d / 2 + SEAT_ROOM_MM, self.pilot_d / 2 + self.wall)

    @property
    def end(self) -> float:
        """Where the lug is down on the wall again."""
        return self.flat_to + self.top_r - self.foot_r


def lug(sizes: BondSizes, frame: Frame, name: str) -> Tool:
    """The lug, its foot in the wall, before channel and pilot are cut."""
    outline = [
        (sizes.depth, sizes.foot_r),
        (sizes.flat_from, sizes.top_r),
        (sizes.flat_to, sizes.top_r),
        (sizes.end, sizes.foot_r),
    ]
    return Tool(f"{name} bonding lug", _upright(outline, sizes.across, sizes.at_deg, frame))


def channel(sizes: BondSizes, frame: Frame, name: str, wider_mm: float = 0.0) -> Tool:
    """The channel's cutter: from the mouth to the lug, and up its front as deep as on the tail."""
    floor, top = sizes.r - sizes.deep, sizes.top_r + 1.0
    turn = sizes.depth + sizes.r - sizes.foot_r
    outline = [(-OVERSHOOT_MM, floor), (turn, floor), (turn + top - floor, top), (-OVERSHOOT_MM, top)]
    return Tool(f"{name} bonding wire channel", _upright(outline, sizes.wide + 2 * wider_mm, sizes.at_deg, frame))


def pilot(sizes: BondSizes, frame: Frame, name: str) -> Hole:
    """The blind pilot hole, drilled from outside towards the axis."""
    out, base = clock_direction(frame, sizes.at_deg), frame.point(0.0, sizes.pilot_s, 0.0)
    r = sizes.top_r + OVERSHOOT_MM
    start = (base[0] + r * out[0], base[1] + r * out[1], base[2] + r * out[2])
    return Hole(f"{name} bonding screw", start, (-out[0], -out[1], -out[2]), r - sizes.pilot_end_r, sizes.pilot_d)


def _upright(outline: list[Point], wide: float, deg: float, frame: Frame) -> Solid:
    """An outline of (s, r) in the plane through the axis at a clock angle, `wide` across that plane."""
    out, aside = clock_direction(frame, deg), clock_direction(frame, deg + 90.0)
    points = []
    for s, r in outline:
        base = frame.point(0.0, s, 0.0)
        points.append(Vector(*(base[i] + r * out[i] - wide / 2 * aside[i] for i in range(3))))
    return Solid.extrudeLinear(Wire.makePolygon(points, close=True), [], Vector(*(wide * x for x in aside)))
