"""The face of a mouth or a bolt pattern, as it is drawn 1:1: lines, holes and words; plain numbers, no part, no YAML.

Points are (right, up) [mm] from the face's centre, as seen by who looks at its front. All sizes are those that a
caliper finds on the real thing.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Literal

from fitwright.drawing.sheet import Point

Style = Literal["edge", "cut", "hidden"]
"""What one sees; where a paper is cut to be tried on; what is only there for orientation (dashed)."""
SAME_MM = 0.05
"""A face whose mirror image is nowhere further than this from itself looks the same from both sides."""
TRIED_POINTS = 60


@dataclass(frozen=True)
class FaceLine:
    """A circle about `centre` (`d_mm` > 0), or the closed polygon through `points` [mm]; `name` says what it is."""

    name: str
    d_mm: float = 0.0
    points: tuple[Point, ...] = ()
    style: Style = "edge"
    centre: Point = (0.0, 0.0)

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, lower, right, upper [mm]."""
        if self.d_mm:
            (x, y), r = self.centre, self.d_mm / 2
            return x - r, y - r, x + r, y + r
        xs, ys = zip(*self.points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    def distance_mm(self, point: Point) -> float:
        """Least distance [mm] of a point from the line."""
        if self.d_mm:
            return abs(math.dist(point, self.centre) - self.d_mm / 2)
        ends = zip(self.points, (*self.points[1:], self.points[0]), strict=True)
        return min(_to_straight(point, a, b) for a, b in ends)

    def some_points(self) -> Sequence[Point]:
        """Points along it, enough to tell it from another."""
        if self.d_mm:
            (x, y), r = self.centre, self.d_mm / 2
            return [(x + r, y), (x - r, y), (x, y + r), (x, y - r)]
        return self.points[:: max(1, len(self.points) // TRIED_POINTS)]


@dataclass(frozen=True)
class FaceHole:
    """A round hole [mm], 0 where only its centre is known; `bolt` names what goes through, empty where unknown.

    A slot is `long_mm` longer than its width `d_mm`, along `turned_deg` (clockwise from up), with round ends.
    """

    at: Point
    d_mm: float
    bolt: str = ""
    long_mm: float = 0.0
    turned_deg: float = 0.0

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, lower, right, upper [mm]."""
        (x, y), r = self.at, self.d_mm / 2
        u, v = (abs(mm) for mm in self.half_way)
        return x - u - r, y - v - r, x + u + r, y + v + r

    @property
    def half_way(self) -> Point:
        """From the middle of a slot to the middle of one round end [mm]; nothing for a round hole."""
        turn, half = math.radians(self.turned_deg), self.long_mm / 2
        return half * math.sin(turn), half * math.cos(turn)


@dataclass(frozen=True)
class Face:
    """What one template shows.

    `key` is short and good for a file name (`end_a`); `name` is what people call it; `says` are lines of advice.
    `front` and `back` say in words who sees it as it is drawn, and who sees its mirror image.
    """

    key: str
    name: str
    lines: tuple[FaceLine, ...]
    holes: tuple[FaceHole, ...] = ()
    says: tuple[str, ...] = ()
    front: str = "as you look at the face"
    back: str = "as you look from behind, through the face"
    needed: bool = True
    """False for a plain round ring, which a build leaves out unless something else is drawn."""
    upwards: str = "up"
    """What the direction of the points' second coordinate is called; on a turned page it is not the page's up."""

    @property
    def bounds_mm(self) -> tuple[float, float, float, float]:
        """Left, lower, right, upper [mm] of all lines and holes."""
        boxes = [*(line.bounds_mm for line in self.lines), *(hole.bounds_mm for hole in self.holes)]
        lows, highs = [box[:2] for box in boxes], [box[2:] for box in boxes]
        return (
            min(x for x, _ in lows),
            min(y for _, y in lows),
            max(x for x, _ in highs),
            max(y for _, y in highs),
        )

    def is_symmetric(self) -> bool:
        """Whether it looks the same from both sides: right and left may change places."""
        holes = all(any(_same_hole(_mirrored(h), other) for other in self.holes) for h in self.holes)
        lines = all(line.distance_mm((-x, y)) <= SAME_MM for line in self.lines for x, y in line.some_points())
        return holes and lines

    def longest(self, count: int = 3) -> list[tuple[int, int, float]]:
        """The longest distances between hole centres [mm], each with the numbers (from 1) of its two holes."""
        pairs = combinations(enumerate(self.holes, start=1), 2)
        apart = [(i, j, math.dist(a.at, b.at)) for (i, a), (j, b) in pairs]
        return sorted(apart, key=lambda found: (-round(found[2], 3), found[:2]))[:count]

    def hole_sizes(self) -> Iterator[tuple[int, FaceHole]]:
        """Each kind of hole (size and bolt) with how many of it there are."""
        kinds = {_kind(hole): hole for hole in self.holes}
        for kind, hole in kinds.items():
            yield sum(1 for h in self.holes if _kind(h) == kind), hole


def pattern_face(
    key: str,
    name: str,
    centres: Sequence[Point],
    d_mm: float = 0.0,
    bolt: str = "",
    opening_d_mm: float = 0.0,
    opening_at: Point = (0.0, 0.0),
) -> Face:
    """A bolt pattern alone, as seen by who measured it: centres as (right, up) [mm], and the diameter of its holes.

    `opening_d_mm`: a round opening about `opening_at`; 0 leaves it out.
    """
    lines = (FaceLine("opening", opening_d_mm, centre=opening_at),) if opening_d_mm else ()
    return Face(key, name, lines, tuple(FaceHole(centre, d_mm, bolt) for centre in centres))


def _mirrored(hole: FaceHole) -> FaceHole:
    return replace(hole, at=(-hole.at[0], hole.at[1]), turned_deg=-hole.turned_deg)


def _kind(hole: FaceHole) -> tuple[float, float, str]:
    return round(hole.d_mm, 3), round(hole.long_mm, 3), hole.bolt


def _same_hole(one: FaceHole, other: FaceHole) -> bool:
    if (
        math.dist(one.at, other.at) > SAME_MM
        or _kind(one)[2] != _kind(other)[2]
        or abs(one.d_mm - other.d_mm) > SAME_MM
    ):
        return False
    (a, b), (c, d) = one.half_way, other.half_way
    return min(math.dist((a, b), (c, d)), math.dist((a, b), (-c, -d))) <= SAME_MM


def _to_straight(point: Point, a: Point, b: Point) -> float:
    run = (b[0] - a[0], b[1] - a[1])
    square = run[0] ** 2 + run[1] ** 2
    share = ((point[0] - a[0]) * run[0] + (point[1] - a[1]) * run[1]) / square if square else 0.0
    share = min(max(share, 0.0), 1.0)
    return math.dist(point, (a[0] + share * run[0], a[1] + share * run[1]))
