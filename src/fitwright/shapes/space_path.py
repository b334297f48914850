"""Centrelines in space: straights and arcs, each in a plane of its own, joined without a kink.

Two poses in one plane are joined as `path` does it; others by two arcs in different planes (see `space_corners`). Along
the line goes a frame that never rolls about it: on an arc it turns rigidly about the arc's axis, on a straight it
stays.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from fitwright.frame import Frame, Vec
from fitwright.shapes.path import Path, joined
from fitwright.shapes.space_corners import Corners, Ends, of_radius, widest

MOST_RAD = math.radians(135.0)
"""No arc turns further."""
TIERS_RAD = (
    (math.radians(45.0), math.radians(90.0)),
    (math.radians(60.0), math.radians(60.0)),
    (math.radians(90.0), math.radians(90.0)),
    (MOST_RAD, MOST_RAD),
)
"""The most that the two arcs may turn. Where the radius is large enough, a line that leans no more than 45 deg on its
way is taken first, then one whose arcs turn little."""
FLAT_REL = 1e-9
"""Poses that stand out of one plane by less than this share of their distance are in one plane."""
SHORTEST_MM = 1e-6


def _sum(a: Vec, b: Vec, by: float = 1.0) -> Vec:
    return (a[0] + by * b[0], a[1] + by * b[1], a[2] + by * b[2])


def _dot(a: Vec, b: Vec) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _cross(a: Vec, b: Vec) -> Vec:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def _unit(a: Vec) -> Vec:
    size = math.hypot(*a)
    return (a[0] / size, a[1] / size, a[2] / size)


def turned_about(v: Vec, axis: Vec, rad: float) -> Vec:
    """`v` turned by `rad` about a unit axis (right-handed)."""
    c, s, along = math.cos(rad), math.sin(rad), _dot(v, axis)
    across = _cross(axis, v)
    return (
        c * v[0] + s * across[0] + (1 - c) * along * axis[0],
        c * v[1] + s * across[1] + (1 - c) * along * axis[1],
        c * v[2] + s * across[2] + (1 - c) * along * axis[2],
    )


@dataclass(frozen=True)
class Run:
    """A straight (`turn_rad` 0) or an arc, `length_mm` long, from `start` along the unit vector `heading`.

    An arc bends by `turn_rad` > 0 towards the unit vector `toward`, which is square to the heading.
    """

    start: Vec
    heading: Vec
    length_mm: float
    toward: Vec
    turn_rad: float = 0.0

    @property
    def radius_mm(self) -> float:
        """Radius of the arc; infinite on a straight."""
        return self.length_mm / self.turn_rad if self.turn_rad else math.inf

    @property
    def axis(self) -> Vec:
        """Direction about which an arc turns, right-handed."""
        return _cross(self.heading, self.toward)

    @property
    def centre(self) -> Vec:
        """Centre of the arc."""
        return _sum(self.start, self.toward, self.radius_mm)

    def at(self, share: float) -> tuple[Vec, Vec]:
        """Point and heading at this share (0..1) of the run."""
        if not self.turn_rad:
            return _sum(self.start, self.heading, share * self.length_mm), self.heading
        r, turn = self.radius_mm, self.turn_rad * share
        point = _sum(_sum(self.start, self.heading, r * math.sin(turn)), self.toward, r * (1 - math.cos(turn)))
        return point, turned_about(self.heading, self.axis, turn)

    def carried(self, right: Vec, share: float = 1.0) -> Vec:
        """A direction square to the line at the start, carried along without rolling."""
        return turned_about(right, self.axis, self.turn_rad * share) if self.turn_rad else right


@dataclass(frozen=True)
class SpacePath:
    """A smooth centreline in space."""

    runs: tuple[Run, ...]

    @property
    def radius_mm(self) -> float:
        """The least radius; infinite when straight."""
        return min((run.radius_mm for run in self.runs), default=math.inf)

    @property
    def length_mm(self) -> float:
        """Length along the line."""
        return sum(run.length_mm for run in self.runs)

    @property
    def steepest_rad(self) -> float:
        """The largest angle between the line and its first heading."""
        return max((self._steepest_of(run) for run in self.runs), default=0.0)

    def _steepest_of(self, run: Run) -> float:
        """The heading's share along the first one is A cos(turn) + B sin(turn): least at an arc's ends or between."""
        first = self.runs[0].heading
        a, b = _dot(first, run.heading), _dot(first, run.toward)
        lowest = math.atan2(-b, -a) % (2 * math.pi)
        turns = [0.0, run.turn_rad] + ([lowest] if lowest < run.turn_rad else [])
        return max(_angle(first, run.at(t / run.turn_rad if run.turn_rad else 0.0)[1]) for t in turns)

    @property
    def bends_deg(self) -> tuple[float, ...]:
        """The angle of each bend, in order."""
        return tuple(math.degrees(run.turn_rad) for run in self.runs if run.turn_rad)

    @property
    def end(self) -> tuple[Vec, Vec]:
        """Point and heading at the end."""
        return self.runs[-1].at(1.0)

    def frames(self, right: Vec) -> tuple[tuple[Frame, Frame], ...]:
        """For each run the frames at its start and its end, `right` carried along without rolling about the line."""
        found = []
        for run in self.runs:
            here, (point, heading) = Frame(run.start, run.heading, right), run.at(1.0)
            right = run.carried(right)
            found.append((here, Frame(point, heading, right)))
        return tuple(found)

    def roll_rad(self, right: Vec, last_right: Vec) -> float:
        """The angle, right-handed about the last heading, from the carried `right` at the end to `last_right`."""
        carried, heading = self.frames(right)[-1][1].right, self.end[1]
        return math.atan2(_dot(_cross(carried, last_right), heading), _dot(carried, last_right))


def _angle(a: Vec, b: Vec) -> float:
    return math.atan2(math.hypot(*_cross(a, b)), _dot(a, b))


def ways_in_space(
    start: tuple[Vec, Vec],
    end: tuple[Vec, Vec],
    radius_mm: float | None = None,
    enough_mm: float = math.inf,
    quick: bool = False,
    flat_only: bool = False,
) -> tuple[SpacePath, ...]:
    """Centrelines from one pose (point, unit heading) to the other, the one to take first.

    Parameters
    ----------
    radius_mm
        None: the largest least radius [mm]; else that radius, where it fits.
    enough_mm
        Of lines with this radius or more the one whose arcs turn less is taken before one with a larger radius.
    quick
        To about 1e-4 of the radius, for a search; never above the true value.
    flat_only
        Poses in one plane are joined by `path.joined` or not at all.

    Empty where there is no such line of at most two arcs, none turning more than 135 deg.
    """
    (p0, t0), (p1, t1) = start, end
    ends = Ends(t0, t1, _sum(p1, p0, -1.0))
    flat = _in_a_plane(start, ends, radius_mm, enough_mm) if is_flat(ends) else None
    first = [flat] if flat is not None and flat.runs else []
    enough = any(radius_mm is not None or path.radius_mm >= enough_mm for path in first)
    if enough or (flat_only and is_flat(ends)):
        return tuple(first)
    return (*first, *_in_order(_tiers(start, ends, radius_mm, quick), enough_mm))


def joined_in_space(
    start: tuple[Vec, Vec], end: tuple[Vec, Vec], radius_mm: float | None = None, enough_mm: float = math.inf
) -> SpacePath | None:
    """The first of `ways_in_space`, or None."""
    return next(iter(ways_in_space(start, end, radius_mm, enough_mm)), None)


def is_flat(ends: Ends) -> bool:
    """Whether both poses lie in one plane."""
    return abs(_dot(_cross(ends.t0, ends.t1), ends.d)) <= FLAT_REL * max(ends.apart_mm, 1e-9)


def _tiers(start: tuple[Vec, Vec], ends: Ends, radius_mm: float | None, quick: bool) -> Iterator[SpacePath]:
    for most in TIERS_RAD:
        corners = widest(ends, most, quick)
        if corners is None:
            continue
        if radius_mm is not None:
            if radius_mm > corners.radius_mm * (1 + 1e-9):
                continue
            tight = of_radius(ends, radius_mm, most)
            corners = tight or Corners(corners.a_mm, corners.b_mm, (radius_mm, radius_mm))
        yield _filleted(start, ends, corners)


def _in_order(found: Iterator[SpacePath], enough_mm: float) -> list[SpacePath]:
    """Those of enough radius as they come, then the others by their radius; a wider tier must bring something."""
    paths: list[SpacePath] = []
    for path in found:
        if all(path.radius_mm > other.radius_mm * (1 + 1e-6) for other in paths):
            paths.append(path)
            if path.radius_mm >= enough_mm:
                break
    return sorted(paths, key=lambda p: -min(p.radius_mm, enough_mm))


def _filleted(start: tuple[Vec, Vec], ends: Ends, corners: Corners) -> SpacePath:
    """Straight, arc, straight, arc, straight along the polyline with these corners."""
    (p0, t0), a, b = start, corners.a_mm, corners.b_mm
    middle = _sum(_sum(ends.d, t0, -a), ends.t1, -b)
    between, m = math.hypot(*middle), _unit(middle)
    first, second = _angle(t0, m), _angle(m, ends.t1)
    r0, r1 = corners.radii_mm
    used0, used1 = r0 * math.tan(first / 2), r1 * math.tan(second / 2)
    runs = [
        (t0, a - used0, t0, 0.0),
        (t0, r0 * first, m, first),
        (m, between - used0 - used1, m, 0.0),
        (m, r1 * second, ends.t1, second),
        (ends.t1, b - used1, ends.t1, 0.0),
    ]
    return _chain(p0, runs)


def _chain(point: Vec, runs: list[tuple[Vec, float, Vec, float]]) -> SpacePath:
    """Runs as (heading, length, next heading, turn), each starting where the last one ends."""
    made: list[Run] = []
    for heading, length, onward, turn in runs:
        if length > SHORTEST_MM:
            toward = _unit(_sum(onward, heading, -_dot(onward, heading))) if turn else _square_to(heading)
            made.append(Run(point, heading, length, toward, turn))
            point = made[-1].at(1.0)[0]
    return SpacePath(tuple(made))


def _square_to(heading: Vec) -> Vec:
    """Any direction square to this one."""
    k = int(np.argmin(np.abs(heading)))
    other = [0.0, 0.0, 0.0]
    other[k] = 1.0
    return _unit(_cross(heading, (other[0], other[1], other[2])))


def _in_a_plane(start: tuple[Vec, Vec], ends: Ends, radius_mm: float | None, enough_mm: float) -> SpacePath | None:
    """As `path.joined` has it, in the plane of the two poses."""
    point, y = start
    aside = _sum(ends.d, y, -_dot(ends.d, y))
    if math.hypot(*aside) <= FLAT_REL * max(ends.apart_mm, 1e-9):
        aside = _sum(ends.t1, y, -_dot(ends.t1, y))
    u = _unit(aside) if math.hypot(*aside) > 1e-12 else _square_to(y)
    end = (_dot(ends.d, u), _dot(ends.d, y), math.atan2(_dot(ends.t1, u), _dot(ends.t1, y)))
    found = joined((0.0, 0.0, 0.0), end, radius_mm, enough_mm)
    return _lifted(found, point, u, y) if found else None


def _lifted(path: Path, origin: Vec, u: Vec, y: Vec) -> SpacePath:
    """A centreline in the plane of (u, y), put into space."""
    runs = []
    for piece in path.pieces:
        across, along, h = piece.start
        start = _sum(_sum(origin, u, across), y, along)
        heading = _sum(_sum((0.0, 0.0, 0.0), u, math.sin(h)), y, math.cos(h))
        side = math.copysign(1.0, piece.turn_rad)
        toward = _sum(_sum((0.0, 0.0, 0.0), u, side * math.cos(h)), y, -side * math.sin(h))
        runs.append(Run(start, heading, piece.length_mm, toward, abs(piece.turn_rad)))
    return SpacePath(tuple(runs))
