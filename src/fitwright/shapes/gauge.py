"""The pieces of a fit gauge: a turned ring, tabs and a crossbar for its marks, windows; each with its closed form."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid

from fitwright.frame import Frame, Vec
from fitwright.shapes.profile import Point
from fitwright.shapes.solids import cylinder, one_solid, prism, ring
from fitwright.tolerances import TOLERANCES

_NODES = ((-0.7745966692414834, 5 / 9), (0.0, 8 / 9), (0.7745966692414834, 5 / 9))
"""Gauss-Legendre of three points."""
_PANELS = 64


@dataclass(frozen=True)
class Turned:
    """A closed (s, r) polygon [mm] turned about the axis, standing on s = 0.

    What is fixed to its foot is rooted at `root_r_mm`, inside the wall. Down there its outside has the radius
    `foot_r_mm`, less a chamfer of 45 deg, `chamfer_mm` high, at the very bottom.
    """

    line: tuple[Point, ...]
    foot_r_mm: float
    root_r_mm: float
    chamfer_mm: float = 0.0

    @property
    def volume_mm3(self) -> float:
        """Pappus, side by side: pi / 3 x sum of (ra^2 + ra rb + rb^2) (sb - sa)."""
        sides = zip(self.line, [*self.line[1:], self.line[0]], strict=True)
        return abs(math.pi / 3 * math.fsum((a * a + a * b + b * b) * (t - s) for (s, a), (t, b) in sides))

    def solid(self, frame: Frame) -> Solid:
        """The ring at its place."""
        return ring(self.line, frame)


@dataclass(frozen=True)
class Tab:
    """A plate on the bed, `half_mm` wide to each side of the direction `turn_rad` (from x towards y)."""

    turn_rad: float
    half_mm: float
    reach_mm: float
    thick_mm: float

    def solid(self, foot: Turned, frame: Frame) -> Solid:
        """From inside the foot's wall out to `reach_mm` from the axis."""
        there = turned_frame(frame, self.turn_rad)
        corners = [(0.0, -self.half_mm), (self.reach_mm, -self.half_mm), (self.reach_mm, self.half_mm)]
        plate = prism([*corners, (0.0, self.half_mm)], there, 0.0, self.thick_mm)
        over = TOLERANCES.overshoot_mm
        return one_solid(plate.cut(cylinder(frame, foot.root_r_mm, -over, self.thick_mm + over)), "a tab")

    def volume_mm3(self, foot: Turned) -> float:
        """What it adds outside the foot; along the foot's chamfer by Gauss's rule."""
        plate = 2 * self.half_mm * self.reach_mm
        low = min(foot.chamfer_mm, self.thick_mm)
        straight = (plate - strip_mm2(foot.foot_r_mm, self.half_mm)) * (self.thick_mm - low)
        step = low / _PANELS
        heights = ((step * (k + (1 + x) / 2), w * step / 2) for k in range(_PANELS) for x, w in _NODES)
        radius = foot.foot_r_mm - foot.chamfer_mm
        return straight + math.fsum(w * (plate - strip_mm2(radius + s, self.half_mm)) for s, w in heights)


@dataclass(frozen=True)
class Window:
    """A hole through the wall from inside to outside, `wide_mm` wide, from s0 to s1."""

    turn_rad: float
    wide_mm: float
    s0_mm: float
    s1_mm: float
    inner_r_mm: float
    outer_r_mm: float

    def tool(self, frame: Frame) -> Solid:
        """The cutter, which goes half a millimetre further than both faces."""
        half, over = self.wide_mm / 2, TOLERANCES.overshoot_mm
        x0, x1 = math.sqrt(self.inner_r_mm**2 - half**2) - over, self.outer_r_mm + over
        corners = [(x0, -half), (x1, -half), (x1, half), (x0, half)]
        return prism(corners, turned_frame(frame, self.turn_rad), self.s0_mm, self.s1_mm)

    @property
    def volume_mm3(self) -> float:
        """What it takes from the wall."""
        inner, outer = (strip_mm2(r, self.wide_mm / 2) for r in (self.inner_r_mm, self.outer_r_mm))
        return (outer - inner) * (self.s1_mm - self.s0_mm)


def crossbar(foot: Turned, frame: Frame, half_mm: float, thick_mm: float) -> Solid:
    """A bar on the bed from wall to wall, `half_mm` wide to each side of the axis, along the frame's right."""
    reach = foot.foot_r_mm + 1.0
    plate = prism([(-reach, -half_mm), (reach, -half_mm), (reach, half_mm), (-reach, half_mm)], frame, 0.0, thick_mm)
    return one_solid(plate.intersect(cylinder(frame, foot.root_r_mm, -1.0, thick_mm + 1.0)), "a crossbar")


def crossbar_mm3(bore_r_mm: float, half_mm: float, thick_mm: float) -> float:
    """What it fills of a bore."""
    return 2 * strip_mm2(bore_r_mm, half_mm) * thick_mm


def strip_mm2(radius_mm: float, half_mm: float) -> float:
    """Area of a half circle within `half_mm` of the radius that halves it.

    >>> round(strip_mm2(1.0, 1.0) / math.pi, 6), round(strip_mm2(1.0, 2.0) / math.pi, 6)
    (0.5, 0.5)
    """
    if half_mm >= radius_mm:
        return math.pi * radius_mm**2 / 2
    return half_mm * math.sqrt(radius_mm**2 - half_mm**2) + radius_mm**2 * math.asin(half_mm / radius_mm)


def turned_frame(frame: Frame, turn_rad: float) -> Frame:
    """The same axis (straight up), `right` in this direction from x towards y."""
    return Frame(frame.origin, frame.inward, (math.cos(turn_rad), math.sin(turn_rad), 0.0))


def text_frame(middle: Vec, up: tuple[float, float], wide_mm: float, high_mm: float) -> Frame:
    """Where lettering begins on a face that looks up: `middle` is its middle, `up` the way its letters stand."""
    right = (up[1], -up[0])
    x = middle[0] - right[0] * wide_mm / 2 - up[0] * high_mm / 2
    y = middle[1] - right[1] * wide_mm / 2 - up[1] * high_mm / 2
    return Frame((x, y, middle[2]), (0.0, 0.0, -1.0), (right[0], right[1], 0.0))
