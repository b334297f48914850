"""Centrelines in a plane: straight, arc, straight, arc, straight, joined without a kink.

A pose is (u, y, heading): u across (towards the offset), y away, heading in radians from y towards u.
Bends of one sense need one arc; an offset needs two arcs of opposite sense. For given end poses the largest least
radius is reached with no straight between the arcs: one equation in R (two circles that touch), solved in closed form.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

Pose2 = tuple[float, float, float]


@dataclass(frozen=True)
class Piece:
    """A straight (`turn_rad` 0) or an arc of the centreline, `length_mm` long, starting at `start`."""

    start: Pose2
    length_mm: float
    turn_rad: float

    @property
    def radius_mm(self) -> float:
        """Radius of the arc; infinite on a straight."""
        return abs(self.length_mm / self.turn_rad) if self.turn_rad else math.inf

    def at(self, share: float) -> Pose2:
        """The pose at this share (0..1) of the piece."""
        u, y, h = self.start
        if not self.turn_rad:
            run = self.length_mm * share
            return u + run * math.sin(h), y + run * math.cos(h), h
        r, h1 = self.length_mm / self.turn_rad, h + self.turn_rad * share
        return u + r * (math.cos(h) - math.cos(h1)), y + r * (math.sin(h1) - math.sin(h)), h1


@dataclass(frozen=True)
class Path:
    """A smooth centreline; `radius_mm` is its least radius (infinite when straight)."""

    pieces: tuple[Piece, ...]

    @property
    def radius_mm(self) -> float:
        return min((p.radius_mm for p in self.pieces), default=math.inf)

    @property
    def length_mm(self) -> float:
        return sum(p.length_mm for p in self.pieces)

    @property
    def steepest_rad(self) -> float:
        """The largest heading away from the start's y direction."""
        return max((max(abs(p.start[2]), abs(p.at(1.0)[2])) for p in self.pieces), default=0.0)

    @property
    def bends_deg(self) -> tuple[float, ...]:
        """The angle of each bend, in order."""
        return tuple(abs(math.degrees(p.turn_rad)) for p in self.pieces if p.turn_rad)


def _chain(start: Pose2, runs: list[tuple[float, float]]) -> Path:
    pieces: list[Piece] = []
    pose = start
    for length, turn in runs:
        if length > 1e-6:
            pieces.append(Piece(pose, length, turn))
            pose = pieces[-1].at(1.0)
    return Path(tuple(pieces))


def joined(start: Pose2, end: Pose2, radius_mm: float | None = None, enough_mm: float = math.inf) -> Path | None:
    """The centreline from `start` to `end` with the largest least radius, or with `radius_mm` where given.

    A single bend of `enough_mm` or more is taken before two that would turn there and back with a larger radius.
    None where no such line of at most two arcs, none turning more than 135 deg, exists.
    """
    single = _one_bend(start, end, radius_mm)
    if single and single.radius_mm >= enough_mm:
        return single
    found = [p for p in (_straight(start, end), single) if p]
    found += [p for side in (1.0, -1.0) if (p := _two_bends(start, end, side, radius_mm))]
    return max(found, key=lambda p: (round(min(p.radius_mm, 1e9), 6), -p.length_mm), default=None)


def _straight(start: Pose2, end: Pose2) -> Path | None:
    du, dy = end[0] - start[0], end[1] - start[1]
    ahead = du * math.sin(start[2]) + dy * math.cos(start[2])
    aside = du * math.cos(start[2]) - dy * math.sin(start[2])
    if abs(aside) > 1e-9 or abs(end[2] - start[2]) > 1e-12 or ahead < 0:
        return None
    return _chain(start, [(ahead, 0.0)])


def _one_bend(start: Pose2, end: Pose2, radius_mm: float | None) -> Path | None:
    turn = end[2] - start[2]
    if abs(turn) < 1e-9:
        return None
    du, dy = end[0] - start[0], end[1] - start[1]
    s0, c0, s1, c1 = math.sin(start[2]), math.cos(start[2]), math.sin(end[2]), math.cos(end[2])
    before = (dy * s1 - du * c1) / math.sin(turn)
    after = (du * c0 - dy * s0) / math.sin(turn)
    tangent = min(before, after)
    if tangent <= 1e-9:
        return None
    radius = tangent / math.tan(abs(turn) / 2)
    if radius_mm is not None:
        if radius_mm > radius:
            return None
        radius, tangent = radius_mm, radius_mm * math.tan(abs(turn) / 2)
    return _chain(start, [(before - tangent, 0.0), (radius * abs(turn), turn), (after - tangent, 0.0)])


def _two_bends(start: Pose2, end: Pose2, side: float, radius_mm: float | None) -> Path | None:
    """First arc turns towards +u for side 1, the second back."""
    a0, a1 = _across(start[2], side), _across(end[2], side)
    d = (end[0] - start[0], end[1] - start[1])
    v = (-(a0[0] + a1[0]), -(a0[1] + a1[1]))
    limit = _touching_radius(d, v)
    radius = limit if radius_mm is None else radius_mm
    if limit is None or radius is None or radius > limit * (1 + 1e-12):
        return None
    link = (d[0] + radius * v[0], d[1] + radius * v[1])
    apart = math.hypot(*link)
    between, lean = 0.0, math.pi / 2
    if radius_mm is not None:  # else the circles touch: a rounding error in 2 R / apart would turn the line by its root
        between = math.sqrt(max(0.0, apart * apart - 4 * radius * radius))
        lean = math.asin(min(1.0, 2 * radius / apart))
    heading = math.atan2(link[0], link[1]) + side * lean
    first, second = _wrapped(side * (heading - start[2])), _wrapped(side * (heading - end[2]))
    if not (0 <= first <= math.radians(135) and 0 <= second <= math.radians(135)):
        return None
    runs = [(radius * first, side * first), (between, 0.0), (radius * second, -side * second)]
    path = _chain(start, runs)
    last = path.pieces[-1].at(1.0) if path.pieces else start
    return path if math.dist(last[:2], end[:2]) < 1e-6 else None


def _across(heading: float, side: float) -> tuple[float, float]:
    return side * math.cos(heading), -side * math.sin(heading)


def _touching_radius(d: tuple[float, float], v: tuple[float, float]) -> float | None:
    """Largest R > 0 with |d + R v| = 2 R."""
    a, b, c = v[0] ** 2 + v[1] ** 2 - 4.0, 2 * (d[0] * v[0] + d[1] * v[1]), d[0] ** 2 + d[1] ** 2
    if abs(a) < 1e-12:
        return -c / b if b < 0 else None
    disc = b * b - 4 * a * c
    if disc < 0:
        return None
    roots = [(-b + k * math.sqrt(disc)) / (2 * a) for k in (1.0, -1.0)]
    return max((r for r in roots if r > 0), default=None)


def _wrapped(angle: float) -> float:
    """Into (-1e-9, 2 pi): tiny negatives count as none."""
    angle = math.fmod(angle, 2 * math.pi)
    if abs(angle) < 1e-9 or abs(abs(angle) - 2 * math.pi) < 1e-9:
        return 0.0
    return angle + 2 * math.pi if angle < 0 else angle
