"""A closed outline of straights and arcs in the plane of a mouth face: area, reach, distances, all in closed form.

Points are (right, up) [mm] from the mouth's centre. No CAD kernel and no geometry library: loading a YAML stays light.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

Point = tuple[float, float]

SAME_MM = 1e-6
"""Points closer than this are one point."""
LEAST_SAGITTA_MM = 0.02
"""An arc that leaves its chord by less than this is a straight to every printer."""
SPIKE_RAD = math.radians(2.0)
"""Two sides that meet under less than this fold back on each other: there is no plate between them."""


@dataclass(frozen=True)
class Side:
    """One side from `start` to `end` [mm]: a straight, or the arc through `via`."""

    start: Point
    end: Point
    via: Point | None = None

    @cached_property
    def sagitta_mm(self) -> float:
        """How far `via` lies from the straight through start and end [mm], left of it positive; 0 for a straight."""
        if self.via is None:
            return 0.0
        length = math.dist(self.start, self.end)
        return _cross(self.start, self.end, self.via) / length if length > SAME_MM else 0.0

    @cached_property
    def centre(self) -> Point:
        """Centre of the arc [mm]; ValueError for a straight."""
        if self.via is None or abs(self.sagitta_mm) < 1e-12:
            raise ValueError("a straight has no centre")
        (ax, ay), (bx, by), (cx, cy) = self.start, self.via, self.end
        bx, by, cx, cy = bx - ax, by - ay, cx - ax, cy - ay
        d = 2.0 * (bx * cy - by * cx)
        b2, c2 = bx * bx + by * by, cx * cx + cy * cy
        return ax + (cy * b2 - by * c2) / d, ay + (bx * c2 - cx * b2) / d

    @cached_property
    def radius_mm(self) -> float:
        """Radius of the arc [mm]; infinite for a straight."""
        return math.inf if self.via is None else math.dist(self.centre, self.start)

    @cached_property
    def sweep_rad(self) -> float:
        """Angle that the arc turns through [rad], anticlockwise positive (x right, y up); 0 for a straight."""
        if self.via is None:
            return 0.0
        first, middle, last = (self._angle(p) for p in (self.start, self.via, self.end))
        whole, part = (last - first) % math.tau, (middle - first) % math.tau
        return whole if part <= whole else whole - math.tau

    @property
    def length_mm(self) -> float:
        """Length along the side [mm]."""
        return math.dist(self.start, self.end) if self.via is None else abs(self.sweep_rad) * self.radius_mm

    @property
    def area_mm2(self) -> float:
        """Area swept by the line from the origin to a point that runs along the side [mm2], anticlockwise positive.

        Half the cross product of the ends, and for an arc the segment r^2 (theta - sin theta) / 2 beyond its chord.
        """
        (ax, ay), (bx, by) = self.start, self.end
        flat = (ax * by - ay * bx) / 2.0
        if self.via is None:
            return flat
        return flat + self.radius_mm**2 * (self.sweep_rad - math.sin(self.sweep_rad)) / 2.0

    def at(self, share: float) -> Point:
        """The point at this share (0 to 1) of the side's length [mm]."""
        if self.via is None:
            (ax, ay), (bx, by) = self.start, self.end
            return ax + share * (bx - ax), ay + share * (by - ay)
        return _polar(self.centre, self.radius_mm, self._angle(self.start) + share * self.sweep_rad)

    def heading(self, share: float) -> Point:
        """Unit vector along the side at this share of its length."""
        if self.via is None:
            length = math.dist(self.start, self.end)
            return (self.end[0] - self.start[0]) / length, (self.end[1] - self.start[1]) / length
        turn = self._angle(self.start) + share * self.sweep_rad
        sign = math.copysign(1.0, self.sweep_rad)
        return -sign * math.sin(turn), sign * math.cos(turn)

    def polyline(self, chord_mm: float) -> list[Point]:
        """Points along the side, its end left out; no chord leaves an arc by more than `chord_mm`."""
        if self.via is None:
            return [self.start]
        most = 2.0 * math.acos(max(0.0, 1.0 - chord_mm / self.radius_mm))
        count = max(2, math.ceil(abs(self.sweep_rad) / most))
        return [self.start, *(self.at(k / count) for k in range(1, count))]

    def holds(self, point: Point, within_mm: float = SAME_MM) -> bool:
        """Whether a point lies on the side."""
        return self.distance_mm(point) <= within_mm

    def distance_mm(self, point: Point) -> float:
        """Least distance [mm] of a point from the side."""
        if self.via is None:
            return _to_straight(point, self.start, self.end)
        ends = min(math.dist(point, self.start), math.dist(point, self.end))
        if math.dist(point, self.centre) > SAME_MM and not self._turns_past(self._angle(point)):
            return ends
        return abs(math.dist(point, self.centre) - self.radius_mm)

    def furthest_mm(self, point: Point = (0.0, 0.0)) -> float:
        """Greatest distance [mm] of the side from a point."""
        ends = max(math.dist(point, self.start), math.dist(point, self.end))
        if self.via is None:
            return ends
        away = math.dist(point, self.centre)
        if away < SAME_MM:
            return self.radius_mm
        beyond = self._angle((2 * self.centre[0] - point[0], 2 * self.centre[1] - point[1]))
        return away + self.radius_mm if self._turns_past(beyond) else ends

    def extremes(self) -> list[Point]:
        """Ends of the side, and the points of an arc that lie furthest right, up, left and down."""
        if self.via is None:
            return [self.start, self.end]
        turns = [k * math.pi / 2.0 for k in range(4) if self._turns_past(k * math.pi / 2.0)]
        return [self.start, self.end, *(_polar(self.centre, self.radius_mm, t) for t in turns)]

    def crossings(self, start: Point, end: Point) -> list[Point]:
        """Points that the side shares with the straight from start to end (none where they run along each other)."""
        if self.via is None:
            return _straights(self.start, self.end, start, end)
        found = _line_on_circle(start, end, self.centre, self.radius_mm)
        return [p for p in found if _to_straight(p, start, end) <= SAME_MM and self._turns_past(self._angle(p))]

    def meets(self, other: Side) -> list[Point]:
        """Points shared with another side; where the two run along each other, ends of the common run."""
        if self.via is None:
            found = other.crossings(self.start, self.end)
        elif other.via is None:
            found = self.crossings(other.start, other.end)
        else:
            circles = _circles(self.centre, self.radius_mm, other.centre, other.radius_mm)
            found = [p for p in circles if self._turns_past(self._angle(p)) and other._turns_past(other._angle(p))]
        found += [p for p in (other.start, other.end) if self.holds(p)]
        return found + [p for p in (self.start, self.end) if other.holds(p)]

    def reversed(self) -> Side:
        """The same side run the other way."""
        return Side(self.end, self.start, self.via)

    def mapped(self, scale: float, shift: Point) -> Side:
        """The side times `scale` about the origin, then moved by `shift` [mm]."""
        first, last = _mapped(self.start, scale, shift), _mapped(self.end, scale, shift)
        return Side(first, last, _mapped(self.via, scale, shift) if self.via else None)

    def _angle(self, point: Point) -> float:
        return math.atan2(point[1] - self.centre[1], point[0] - self.centre[0])

    def _turns_past(self, angle: float) -> bool:
        """Whether the arc reaches this angle about its centre."""
        slack = SAME_MM / self.radius_mm
        turned = math.copysign(1.0, self.sweep_rad) * (angle - self._angle(self.start))
        turned = (turned + slack) % math.tau
        return turned <= abs(self.sweep_rad) + 2 * slack


@dataclass(frozen=True)
class Outline:
    """A closed outline: each side starts where the one before ended, the last ends where the first started."""

    sides: tuple[Side, ...]

    @property
    def corners(self) -> tuple[Point, ...]:
        """Where the sides meet [mm], in order."""
        return tuple(side.start for side in self.sides)

    @cached_property
    def signed_area_mm2(self) -> float:
        """Enclosed area [mm2], positive where the outline runs anticlockwise (x right, y up); exact, arcs included."""
        return math.fsum(side.area_mm2 for side in self.sides)

    @property
    def area_mm2(self) -> float:
        """Enclosed area [mm2]."""
        return abs(self.signed_area_mm2)

    @property
    def length_mm(self) -> float:
        """Length once round [mm]."""
        return math.fsum(side.length_mm for side in self.sides)

    @property
    def reach_mm(self) -> float:
        """Greatest distance from the axis [mm], arcs included."""
        return max(side.furthest_mm() for side in self.sides)

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, lower, right and upper extreme [mm], arcs included."""
        xs, ys = zip(*(p for side in self.sides for p in side.extremes()), strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    def polyline(self, chord_mm: float) -> list[Point]:
        """Corners and points on the arcs, the first not repeated; no chord leaves an arc by more than `chord_mm`."""
        return [p for side in self.sides for p in side.polyline(chord_mm)]

    def anticlockwise(self) -> Outline:
        """The same outline run anticlockwise (x right, y up)."""
        if self.signed_area_mm2 >= 0.0:
            return self
        return Outline(tuple(side.reversed() for side in reversed(self.sides)))

    def mapped(self, scale: float = 1.0, shift: Point = (0.0, 0.0)) -> Outline:
        """The outline times `scale` about the axis, then moved by `shift` [mm]."""
        return Outline(tuple(side.mapped(scale, shift) for side in self.sides))

    def is_convex(self) -> bool:
        """Whether it nowhere turns inwards: no hollow arc, no corner that points in."""
        run = self.anticlockwise().sides
        if any(side.sweep_rad < 0.0 for side in run):
            return False
        return all(_turn(a.heading(1.0), b.heading(0.0)) > -1e-6 for a, b in _neighbours(run))

    def contains(self, point: Point) -> bool:
        """Whether a point lies inside (on the line itself is unsure): how often the line turns round it."""
        turned = math.fsum(_seen(side, point) for side in self.sides)
        return abs(turned) > math.pi

    def inside_by_mm(self, point: Point) -> float:
        """Distance of a point from the line [mm], negative outside."""
        away = min(side.distance_mm(point) for side in self.sides)
        return away if self.contains(point) else -away

    def reach_at_mm(self, deg: float, aside_mm: float = 0.0) -> float:
        """From the axis to the line's first crossing this way [mm], `deg` clockwise from up; 0 if there is none.

        `aside_mm`: along a ray that runs beside the axis, so much to its right.
        """
        out, far = (math.sin(math.radians(deg)), math.cos(math.radians(deg))), 2.0 * self.reach_mm + 1.0
        start = aside_mm * out[1], -aside_mm * out[0]
        end = start[0] + far * out[0], start[1] + far * out[1]
        found = (p for side in self.sides for p in side.crossings(start, end))
        return min((p[0] * out[0] + p[1] * out[1] for p in found), default=0.0)

    def fault(self) -> tuple[int, int, Point] | None:
        """The first two sides (indices) that cross, touch or fold back on each other, and where; None if sound."""
        count = len(self.sides)
        for i, j in itertools.combinations(range(count), 2):
            one, other = self.sides[i], self.sides[j]
            shared = [one.end] if j == i + 1 else []
            shared += [one.start] if (j + 1) % count == i else []
            for point in one.meets(other):
                if all(math.dist(point, p) > 10 * SAME_MM for p in shared):
                    return i, j, point
        for i in range(count):
            one, other = self.sides[i - 1], self.sides[i]
            if math.pi - abs(_turn(one.heading(1.0), other.heading(0.0))) < SPIKE_RAD:
                return (i - 1) % count, i, other.start
        return None


def through(corners: Sequence[Point], via: Sequence[Point | None]) -> Outline:
    """The closed outline through the corners; `via[k]` makes the side that ends at corner k an arc through that point.

    The first side runs from the first corner to the second.
    """
    count = len(corners)
    ends = [(k + 1) % count for k in range(count)]
    return Outline(tuple(Side(corners[k], corners[e], via[e]) for k, e in enumerate(ends)))


def circle(d_mm: float) -> Outline:
    """A circle about the axis, as two arcs."""
    r = d_mm / 2.0
    return through([(-r, 0.0), (r, 0.0)], [(0.0, r), (0.0, -r)])


def rectangle(width_mm: float, height_mm: float, corner_mm: float = 0.0) -> Outline:
    """A rectangle about the axis, its corners rounded by `corner_mm`."""
    x, y, c = width_mm / 2.0 - corner_mm, height_mm / 2.0 - corner_mm, corner_mm
    corners: list[Point] = []
    via: list[Point | None] = []
    for k, (cx, cy) in enumerate(((x, -y), (x, y), (-x, y), (-x, -y))):
        first, middle, last = (_polar((cx, cy), c, (k - 1 + part) * math.pi / 2.0) for part in (0.0, 0.5, 1.0))
        if not corners or math.dist(corners[-1], first) > SAME_MM:
            corners.append(first)
            via.append(None)
        if c > 0.0:
            corners.append(last)
            via.append(middle)
    if math.dist(corners[0], corners[-1]) < SAME_MM:
        corners.pop()
        via[0] = via.pop()
    return through(corners, via)


def _polar(centre: Point, radius: float, turn: float) -> Point:
    return centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn)


def _neighbours(sides: Sequence[Side]) -> Iterator[tuple[Side, Side]]:
    return zip(sides, [*sides[1:], sides[0]], strict=True)


def _cross(origin: Point, a: Point, b: Point) -> float:
    return (a[0] - origin[0]) * (b[1] - origin[1]) - (a[1] - origin[1]) * (b[0] - origin[0])


def _turn(a: Point, b: Point) -> float:
    """Angle from direction a to direction b [rad], anticlockwise positive."""
    return math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])


def _seen(side: Side, point: Point) -> float:
    """Angle [rad] through which the line of sight from `point` turns along the side.

    Along an arc as along its chord, but from inside its circle always the way that the arc runs: where the point lies
    between arc and chord (or on the chord) that is a whole turn more.
    """
    flat = _turn(_from(point, side.start), _from(point, side.end))
    if side.via is None or math.dist(point, side.centre) >= side.radius_mm:
        return flat
    way = math.copysign(1.0, side.sweep_rad)
    return flat if flat * way > 0.0 else flat + way * math.tau


def _from(point: Point, to: Point) -> Point:
    return to[0] - point[0], to[1] - point[1]


def _mapped(point: Point, scale: float, shift: Point) -> Point:
    return point[0] * scale + shift[0], point[1] * scale + shift[1]


def _to_straight(p: Point, a: Point, b: Point) -> float:
    along = b[0] - a[0], b[1] - a[1]
    whole = along[0] ** 2 + along[1] ** 2
    share = ((p[0] - a[0]) * along[0] + (p[1] - a[1]) * along[1]) / whole if whole > 0.0 else 0.0
    share = min(1.0, max(0.0, share))
    return math.dist(p, (a[0] + share * along[0], a[1] + share * along[1]))


def _straights(a: Point, b: Point, c: Point, d: Point) -> list[Point]:
    u, v = _from(a, b), _from(c, d)
    det = u[0] * v[1] - u[1] * v[0]
    if abs(det) < 1e-12 * math.hypot(*u) * math.hypot(*v):
        return []
    w = _from(a, c)
    share = (w[0] * v[1] - w[1] * v[0]) / det
    p = a[0] + share * u[0], a[1] + share * u[1]
    on_both = _to_straight(p, a, b) <= SAME_MM and _to_straight(p, c, d) <= SAME_MM
    return [p] if on_both else []


def _line_on_circle(a: Point, b: Point, centre: Point, radius: float) -> list[Point]:
    """Where the endless line through a and b meets a circle (once where it touches within SAME_MM)."""
    length = math.dist(a, b)
    u = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    along = (centre[0] - a[0]) * u[0] + (centre[1] - a[1]) * u[1]
    foot = a[0] + along * u[0], a[1] + along * u[1]
    off = math.dist(foot, centre)
    if off > radius + SAME_MM:
        return []
    half = math.sqrt(max(0.0, radius * radius - off * off))
    return [(foot[0] + k * half * u[0], foot[1] + k * half * u[1]) for k in ((-1, 1) if half > 0.0 else (1,))]


def _circles(c0: Point, r0: float, c1: Point, r1: float) -> list[Point]:
    apart = math.dist(c0, c1)
    if apart < SAME_MM or apart > r0 + r1 + SAME_MM or apart < abs(r0 - r1) - SAME_MM:
        return []
    u = (c1[0] - c0[0]) / apart, (c1[1] - c0[1]) / apart
    along = (apart * apart + r0 * r0 - r1 * r1) / (2.0 * apart)
    half = math.sqrt(max(0.0, r0 * r0 - along * along))
    foot = c0[0] + along * u[0], c0[1] + along * u[1]
    return [(foot[0] - k * half * u[1], foot[1] + k * half * u[0]) for k in ((-1, 1) if half > 0.0 else (1,))]
