"""The pieces of a fit gauge: a turned ring, tabs and bars for its marks, windows; each with its closed form."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from cadquery import Solid

from fitwright.frame import Frame, Vec
from fitwright.shapes.profile import Point
from fitwright.shapes.solids import cylinder, fused, one_solid, prism, ring
from fitwright.tolerances import TOLERANCES

_NODES = ((-0.7745966692414834, 5 / 9), (0.0, 8 / 9), (0.7745966692414834, 5 / 9))
"""Gauss-Legendre of three points."""
_PANELS = 64


@dataclass(frozen=True)
class Turned:
    """A closed (s, r) polygon [mm] turned about the axis, standing on s = 0.

    What is fixed to its foot is rooted at `root_r_mm`, inside the wall. Down there its outside has the radius
    `outer_r_mm` and its bore `inner_r_mm`, but for chamfers of 45 deg, so high, at the very bottom.
    """

    line: tuple[Point, ...]
    outer_r_mm: float
    inner_r_mm: float
    root_r_mm: float
    outer_chamfer_mm: float = 0.0
    inner_chamfer_mm: float = 0.0

    @property
    def volume_mm3(self) -> float:
        """Pappus, side by side: pi / 3 x sum of (ra^2 + ra rb + rb^2) (sb - sa)."""
        sides = zip(self.line, [*self.line[1:], self.line[0]], strict=True)
        return abs(math.pi / 3 * math.fsum((a * a + a * b + b * b) * (t - s) for (s, a), (t, b) in sides))

    @property
    def top_mm(self) -> float:
        """Its height."""
        return max(s for s, _ in self.line)

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
        """What it adds outside the foot."""
        plate, c = 2 * self.half_mm * self.reach_mm, foot.outer_chamfer_mm

        def area_mm2(s: float) -> float:
            return plate - strip_mm2(foot.outer_r_mm - max(0.0, c - s), self.half_mm)

        return summed(area_mm2, 0.0, min(c, self.thick_mm)) + area_mm2(c) * max(0.0, self.thick_mm - c)


@dataclass(frozen=True)
class Bars:
    """One bar on the bed from wall to wall along the frame's right, or two that cross; half their widths."""

    halves_mm: tuple[float, ...]
    thick_mm: float

    def solid(self, foot: Turned, frame: Frame) -> Solid:
        """Rooted inside the foot's wall."""
        reach = foot.outer_r_mm + 1.0
        plates = []
        for turn, half in zip((0.0, math.pi / 2), self.halves_mm, strict=False):
            corners = [(-reach, -half), (reach, -half), (reach, half), (-reach, half)]
            plates.append(prism(corners, turned_frame(frame, turn), 0.0, self.thick_mm))
        round_bar = cylinder(frame, foot.root_r_mm, -1.0, self.thick_mm + 1.0)
        return one_solid(fused(plates, "crossed bars").intersect(round_bar), "bars")

    def volume_mm3(self, foot: Turned) -> float:
        """What they fill of the foot's bore."""
        crossing = 4 * math.prod(self.halves_mm) if len(self.halves_mm) == 2 else 0.0
        c = foot.inner_chamfer_mm

        def area_mm2(s: float) -> float:
            r = foot.inner_r_mm + max(0.0, c - s)
            return math.fsum(2 * strip_mm2(r, half) for half in self.halves_mm) - crossing

        return summed(area_mm2, 0.0, min(c, self.thick_mm)) + area_mm2(c) * max(0.0, self.thick_mm - c)

    @property
    def openings(self) -> int:
        """Into how many they part the bore."""
        return 2 * len(self.halves_mm)


@dataclass(frozen=True)
class Window:
    """A hole through the wall from inside to outside, `wide_mm` wide, from s0 to s1.

    The radii of the wall's faces are given at s0 and s1; they run straight between.
    """

    turn_rad: float
    wide_mm: float
    s0_mm: float
    s1_mm: float
    inner_r_mm: tuple[float, float]
    outer_r_mm: tuple[float, float]

    @property
    def reach_mm(self) -> tuple[float, float]:
        """The innermost place of the wall beside it, and the outermost, from the axis and along its direction."""
        return math.sqrt(min(self.inner_r_mm) ** 2 - self.wide_mm**2 / 4), max(self.outer_r_mm)

    def tool(self, frame: Frame) -> Solid:
        """The cutter, which goes half a millimetre further than both faces."""
        half, (x0, x1) = self.wide_mm / 2, self.reach_mm
        x0, x1 = x0 - TOLERANCES.overshoot_mm, x1 + TOLERANCES.overshoot_mm
        corners = [(x0, -half), (x1, -half), (x1, half), (x0, half)]
        return prism(corners, turned_frame(frame, self.turn_rad), self.s0_mm, self.s1_mm)

    @property
    def volume_mm3(self) -> float:
        """What it takes from the wall."""

        def area_mm2(s: float) -> float:
            share = (s - self.s0_mm) / (self.s1_mm - self.s0_mm)
            outer, inner = (a + share * (b - a) for a, b in (self.outer_r_mm, self.inner_r_mm))
            return strip_mm2(outer, self.wide_mm / 2) - strip_mm2(inner, self.wide_mm / 2)

        return summed(area_mm2, self.s0_mm, self.s1_mm)


def summed(area_mm2: Callable[[float], float], s0_mm: float, s1_mm: float) -> float:
    """An area summed over a height [mm3], by Gauss's rule of three points on 64 panels (exact to 1e-9 on a chamfer)."""
    step = (s1_mm - s0_mm) / _PANELS
    return math.fsum(
        w * step / 2 * area_mm2(s0_mm + step * (k + (1 + x) / 2)) for k in range(_PANELS) for x, w in _NODES
    )


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
