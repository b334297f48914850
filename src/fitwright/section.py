"""Sections of a passage: convex outlines of straights and arcs, as plain numbers.

A section is told by its arcs alone: each arc's outward normal turns counter-clockwise from `start` to `end`, the arcs
together turn once round, and a straight joins the end of one arc to the start of the next wherever the two differ.
Angles are in rad in the (right, up) plane of a frame, counter-clockwise from right; lengths in mm.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from fitwright.arcs import (
    SAME_RAD,
    TURN,
    Point,
    arc_moments,
    straight_moments,
    to_arc,
    to_straight,
)
from fitwright.arcs import Arc as Arc
from fitwright.arcs import SectionError as SectionError
from fitwright.corners import OVER_MM, Line, normals, reach, within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike

    from fitwright.arcs import Numbers, Points

Span = tuple[float, float]

SAME_MM = 1e-9
SAME_BREAK_RAD = 1e-8
LEAST_STEP_MM = 1e-3
"""Moved inwards by less than this at once, an outline of which nothing is left has ended."""
LEAST_CORNER_MM = 0.3
"""No printed corner is sharper than this (half a line); a sharp corner is built with this radius."""


@dataclass(frozen=True)
class Section:
    """A convex outline; see the module. `arcs` begin at any angle and are in order."""

    arcs: tuple[Arc, ...]

    def __post_init__(self) -> None:
        turned = sum(arc.turn for arc in self.arcs)
        if not self.arcs or abs(turned - TURN) > 1e-6 or any(arc.turn <= 0.0 or arc.radius_mm < 0 for arc in self.arcs):
            raise SectionError("the outline does not turn once round")
        for one, following in self.pairs():
            if abs(math.remainder(following.start - one.end, TURN)) > 1e-6:
                raise SectionError("the outline has a kink that turns inwards")
            if self._run(one, following) < -1e-6:
                raise SectionError("the outline crosses itself")

    def pairs(self) -> Iterator[tuple[Arc, Arc]]:
        """Each arc with the next one round."""
        return zip(self.arcs, (*self.arcs[1:], self.arcs[0]), strict=True)

    @staticmethod
    def _run(one: Arc, following: Arc) -> float:
        """Length [mm] of the straight from one arc to the next."""
        (x0, y0), (x1, y1) = one.at(one.end), following.at(one.end)
        return -(x1 - x0) * math.sin(one.end) + (y1 - y0) * math.cos(one.end)

    @property
    def is_round(self) -> bool:
        """True for a circle about the axis."""
        return all(
            math.hypot(a.x, a.y) < SAME_MM and abs(a.radius_mm - self.arcs[0].radius_mm) < SAME_MM for a in self.arcs
        )

    @cached_property
    def perimeter_mm(self) -> float:
        """Length once round."""
        return sum(a.radius_mm * a.turn + self._run(a, b) for a, b in self.pairs())

    @cached_property
    def _moments(self) -> tuple[float, float, float]:
        """Area and its first moments, by Green's theorem along arcs and straights."""
        area = mx = my = 0.0
        for arc, following in self.pairs():
            a, x, y = arc_moments(arc)
            b, u, v = straight_moments(arc.at(arc.end), following.at(following.start))
            area, mx, my = area + a + b, mx + x + u, my + y + v
        return area, mx, my

    @property
    def area_mm2(self) -> float:
        """Area within the outline."""
        return self._moments[0]

    @property
    def centroid(self) -> Point:
        """Centre of the area."""
        area, mx, my = self._moments
        return mx / area, my / area

    @property
    def hydraulic_d_mm(self) -> float:
        """Hydraulic diameter, 4 x area / perimeter."""
        return 4.0 * self.area_mm2 / self.perimeter_mm

    @property
    def equal_d_mm(self) -> float:
        """Diameter of the circle of the same area."""
        return math.sqrt(4.0 * self.area_mm2 / math.pi)

    def support(self, angle: float) -> float:
        """How far the outline reaches in this direction [mm]."""
        return max(a.x * math.cos(angle) + a.y * math.sin(angle) + self._reach(a, angle) for a in self.arcs)

    @staticmethod
    def _reach(arc: Arc, angle: float) -> float:
        """Reach of an arc from its centre; its nearer end where its normals do not point this way."""
        ahead = (angle - arc.start) % TURN
        if ahead <= arc.turn + SAME_RAD or ahead >= TURN - SAME_RAD:
            return arc.radius_mm
        return arc.radius_mm * max(math.cos(angle - arc.start), math.cos(angle - arc.end))

    @property
    def width_mm(self) -> float:
        """From left to right."""
        return self.support(0.0) + self.support(math.pi)

    @property
    def height_mm(self) -> float:
        """From bottom to top."""
        return self.support(math.pi / 2) + self.support(-math.pi / 2)

    @property
    def inside_r_mm(self) -> float:
        """Distance from the axis to the nearest side [mm]."""
        return min(self.support(angle) for angle in self._stations())

    @property
    def least_width_mm(self) -> float:
        """The least distance of two parallels that hold it between them [mm]."""
        return min(self.support(angle) + self.support(angle + math.pi) for angle in self._stations())

    @property
    def reach_mm(self) -> float:
        """Distance from the axis to the furthest point [mm]."""
        return max(math.hypot(a.x, a.y) + a.radius_mm for a in self.arcs)

    def _stations(self) -> list[float]:
        return [a.start + a.turn * k / 16 for a in self.arcs for k in range(17)]

    def grown(self, by_mm: float) -> Section:
        """The outline moved outwards everywhere by `by_mm` (inwards where negative).

        Inwards a corner is rounded by LEAST_CORNER_MM at least.

        Raises
        ------
        SectionError
            Nothing convex is left: the outline is too narrow.
        """
        if by_mm > 0.0 or all(a.radius_mm + by_mm >= LEAST_CORNER_MM for a in self.arcs):
            return self._spread(by_mm)
        try:
            return inset(self, LEAST_CORNER_MM - by_mm)._spread(LEAST_CORNER_MM)
        except SectionError as error:
            raise SectionError(f"nothing is left of the outline {-by_mm:.1f} mm further in") from error

    def _spread(self, by_mm: float) -> Section:
        """Every arc's radius larger by this."""
        return Section(tuple(replace(a, radius_mm=a.radius_mm + by_mm) for a in self.arcs))

    def straights(self) -> list[tuple[Point, Point, float]]:
        """Each straight: where it starts and ends, and the angle of its outward normal."""
        found = []
        for arc, following in self.pairs():
            p, q = arc.at(arc.end), following.at(following.start)
            if self._run(arc, following) > 1e-6:
                found.append((p, q, arc.end))
        return found

    def turned(self, angle: float) -> Section:
        """Turned about the axis, counter-clockwise."""
        c, s = math.cos(angle), math.sin(angle)
        return Section(
            tuple(
                Arc(a.x * c - a.y * s, a.x * s + a.y * c, a.radius_mm, a.start + angle, a.end + angle)
                for a in self.arcs
            )
        )

    def scaled(self, by: float) -> Section:
        """Every length times `by`."""
        return Section(tuple(replace(a, x=a.x * by, y=a.y * by, radius_mm=a.radius_mm * by) for a in self.arcs))

    def rounded(self, least_mm: float = LEAST_CORNER_MM) -> Section:
        """With every corner rounded by `least_mm` at least, its straights where they were."""
        if all(a.radius_mm >= least_mm for a in self.arcs):
            return self
        return inset(self, least_mm)._spread(least_mm)

    @property
    def shorter_mm(self) -> float:
        """The shorter of width and height."""
        return min(self.width_mm, self.height_mm)

    @property
    def longer_mm(self) -> float:
        """The longer of width and height."""
        return max(self.width_mm, self.height_mm)

    def moved(self, right_mm: float, up_mm: float) -> Section:
        """Moved in its plane."""
        return Section(tuple(replace(a, x=a.x + right_mm, y=a.y + up_mm) for a in self.arcs))

    def mirrored(self) -> Section:
        """As seen from the other side: right and left change places."""
        flipped = [Arc(-a.x, a.y, a.radius_mm, math.pi - a.end, math.pi - a.start) for a in reversed(self.arcs)]
        return Section(tuple(flipped))

    def breaks(self) -> list[float]:
        """Angles in [0, 2 pi) at which an arc ends."""
        return [a.start % TURN for a in self.arcs]

    def arc_between(self, start: float, end: float) -> Arc:
        """The piece of arc whose normals turn from `start` to `end`, which lie within one arc."""
        middle = (start + end) / 2.0
        for a in self.arcs:
            if (middle - a.start) % TURN <= a.turn + SAME_RAD:
                return replace(a, start=start, end=end)
        raise AssertionError("the arcs cover every angle")

    def between(self, other: Section, share: float) -> Section:
        """The section at this share of the way to another, where points of equal normal are joined by straights.

        It is convex, and the square root of its area runs concave (H. Brunn, H. Minkowski), so that it is nowhere
        smaller than the smaller of the two.
        """
        arcs = []
        for start, end in spans(self, other):
            a, b = self.arc_between(start, end), other.arc_between(start, end)
            x, y = a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share
            arcs.append(Arc(x, y, a.radius_mm + (b.radius_mm - a.radius_mm) * share, start, end))
        return Section(tuple(arcs))

    def polygon(self, chord_mm: float = 0.01) -> Points:
        """Points (n, 2) on the outline, counter-clockwise, whose straights stray no further than `chord_mm`."""
        import numpy as np

        rows: list[Point] = []
        for a in self.arcs:
            step = 2.0 * math.acos(max(1.0 - chord_mm / a.radius_mm, 0.0)) if a.radius_mm > chord_mm else math.pi
            count = max(1, math.ceil(a.turn / step))
            rows += [a.at(a.start + a.turn * k / count) for k in range(count + 1)]
        kept = [p for p, q in zip(rows, (*rows[1:], rows[0]), strict=True) if math.dist(p, q) > 1e-9]
        return np.array(kept)

    def walked(self, shares: Numbers) -> tuple[Points, Points]:
        """Points (n, 2) at these shares of the length once round, and the outward normals there."""
        import numpy as np

        polygon = self.polygon(0.02)
        run = np.roll(polygon, -1, axis=0) - polygon
        length = np.linalg.norm(run, axis=1)
        ends = np.cumsum(length)
        at = np.clip(shares, 0.0, 1.0 - 1e-12) * ends[-1]
        which = np.searchsorted(ends, at, side="right").clip(max=len(polygon) - 1)
        along = ((at - ends[which] + length[which]) / length[which])[:, None]
        normal = np.column_stack([run[:, 1], -run[:, 0]])[which] / length[which][:, None]
        return polygon[which] + along * run[which], normal

    def distance(self, points: ArrayLike) -> Numbers:
        """Distance [mm] of points (n, 2) from the outline, positive outside."""
        import numpy as np

        points = np.asarray(points, dtype=np.float64)
        apart = np.full(len(points), np.inf)
        outside = np.zeros(len(points), dtype=np.bool_)
        for arc, following in self.pairs():
            along, beyond = to_arc(arc, points)
            p, q = np.array(arc.at(arc.end)), np.array(following.at(following.start))
            apart = np.minimum(apart, np.minimum(along, to_straight(p, q, points)))
            side = np.array([math.cos(arc.end), math.sin(arc.end)])
            outside |= beyond | (points @ side > float(p @ side))
        return np.where(outside, apart, -apart)


def spans(*sections: Section, also: Iterable[float] = ()) -> list[Span]:
    """The turn cut at every angle at which an arc of any section ends, and `also` there; none is over a third turn.

    Angles nearer than SAME_BREAK_RAD are one.
    """
    found = sorted([b % TURN for section in sections for b in section.breaks()] + [b % TURN for b in also])
    marks = found[:1]
    for angle in found[1:]:
        if angle - marks[-1] > SAME_BREAK_RAD and TURN + marks[0] - angle > SAME_BREAK_RAD:
            marks.append(angle)
    ends = [*marks[1:], marks[0] + TURN]
    pieces: list[Span] = []
    for start, end in zip(marks, ends, strict=True):
        count = math.ceil((end - start) / (TURN / 3) - 1e-9)
        edges = [start + (end - start) * k / count for k in range(count + 1)]
        pieces += list(itertools.pairwise(edges))
    return pieces


def circle(d_mm: float) -> Section:
    """A circle about the axis."""
    return Section((Arc(0.0, 0.0, d_mm / 2, 0.0, TURN),))


def rectangle(width_mm: float, height_mm: float, corner_mm: float = 0.0) -> Section:
    """Width (right) x height (up), its corners rounded."""
    x, y = width_mm / 2 - corner_mm, height_mm / 2 - corner_mm
    if min(x, y) < -SAME_MM:
        raise SectionError("the corners are rounder than half the shorter side")
    quarter = math.pi / 2
    corners = ((x, y), (-x, y), (-x, -y), (x, -y))
    return Section(tuple(Arc(u, v, corner_mm, quarter * k, quarter * (k + 1)) for k, (u, v) in enumerate(corners)))


def oval(width_mm: float, height_mm: float) -> Section:
    """Slot-ended (flat oval): two half circles and the straights between them."""
    half = abs(width_mm - height_mm) / 2
    if half < SAME_MM:
        return circle(width_mm)
    r, q = min(width_mm, height_mm) / 2, math.pi / 2
    if width_mm > height_mm:
        return Section((Arc(half, 0.0, r, -q, q), Arc(-half, 0.0, r, q, 3 * q)))
    return Section((Arc(0.0, half, r, 0.0, 2 * q), Arc(0.0, -half, r, 2 * q, 4 * q)))


def loft_area_mm2(one: Section, other: Section, share: float) -> float:
    """Area of `one.between(other, share)`: a parabola in `share` through the mixed area."""
    middle = one.between(other, 0.5).area_mm2
    a, b = one.area_mm2, other.area_mm2
    mixed = (4.0 * middle - a - b) / 2.0
    return (1 - share) ** 2 * a + 2 * share * (1 - share) * mixed + share**2 * b


def loft_volume_mm3(one: Section, other: Section, length_mm: float) -> float:
    """Volume between two sections in parallel planes, points of equal normal joined by straights.

    Simpson's rule is exact for its quadratic area: L (A0 + 4 Am + A1) / 6 (the prismoidal formula).
    """
    middle = one.between(other, 0.5).area_mm2
    return length_mm * (one.area_mm2 + 4.0 * middle + other.area_mm2) / 6.0


def inset(section: Section, by_mm: float) -> Section:
    """The outline moved inwards by `by_mm`, its corners sharp; arcs of no more than that radius become corners.

    A short side may vanish on the way in: its neighbours meet beyond it. Where it is unclear which side vanishes first,
    the outline is moved in two steps.

    Raises
    ------
    SectionError
        Nothing convex is left.
    """
    sides = _sides(section, by_mm)
    try:
        made = Section(tuple(within(sides)))
        if all(made.support(angle) <= reach(side, angle) + OVER_MM for side in sides for angle in normals(side)):
            return made
        raise SectionError("nothing is left of the outline")
    except SectionError:
        if by_mm < LEAST_STEP_MM:
            raise
    return inset(inset(section, by_mm / 2), by_mm / 2)


def _sides(section: Section, by_mm: float) -> list[Arc | Line]:
    """The sides of the outline moved inwards."""
    sides: list[Arc | Line] = []
    for arc, following in section.pairs():
        if arc.radius_mm > by_mm + SAME_MM:
            sides.append(replace(arc, radius_mm=arc.radius_mm - by_mm))
        if section._run(arc, following) > 1e-6:
            x, y = arc.at(arc.end)
            reach_mm = x * math.cos(arc.end) + y * math.sin(arc.end) - by_mm
            sides.append(Line(arc.end, reach_mm))
    return sides
