"""Pattern: the holes' places as somebody sees them who looks at the face, with origin and turn."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from fitwright.measure.bolts.readings import Numbers
from fitwright.measure.bolts.search import clockwise
from fitwright.measure.bolts.shapes import Name, Shape, circle_through

Place = tuple[float, float]
ON_CIRCLE = 0.03
"""Holes that keep to a circle within this share of its radius have its centre for their middle."""
AT_ORIGIN_MM = 1.0


@dataclass(frozen=True)
class Opening:
    """The opening's diameter and centre [mm], right and up."""

    diameter_mm: float
    right_mm: float
    up_mm: float
    give_mm: float


@dataclass(frozen=True)
class Pattern:
    """A solved bolt pattern, to be drawn or built: holes in the order of their numbers, mm, right and up as seen.

    `give_mm` is two standard deviations of each centre. `circle_mm` is the circle through the holes where they keep to
    one, `circle_at` its centre, `departs_mm` the hole farthest off it; `first_at_deg` counts clockwise from up and
    stands only where the holes are spaced evenly about the origin. `origin` and `turn` say in words where right and up
    are measured from and what stands upright.
    """

    shape: Name
    places: tuple[Place, ...]
    give_mm: tuple[float, ...]
    hole_mm: float | None
    origin: str
    turn: str
    opening: Opening | None = None
    circle_mm: float | None = None
    circle_at: Place = (0.0, 0.0)
    departs_mm: float = 0.0
    first_at_deg: float | None = None

    @property
    def count(self) -> int:
        """How many holes."""
        return len(self.places)

    def from_behind(self) -> Pattern:
        """The same holes as seen from the other side: left and right changed."""

        def turned(place: Place) -> Place:
            return 0.0 - place[0], place[1]

        first = self.first_at_deg
        return replace(
            self,
            places=tuple(turned(place) for place in self.places),
            opening=replace(self.opening, right_mm=0.0 - self.opening.right_mm) if self.opening else None,
            circle_at=turned(self.circle_at),
            first_at_deg=None if first is None else _within(-first, 360.0 / self.count),
        )


@dataclass(frozen=True)
class Upright:
    """How the pattern is to stand: hole `up` straight above the origin, or `level` (left, right); holes from 0."""

    up: int | None = None
    level: tuple[int, int] | None = None


def pattern_of(shape: Shape, hole_mm: float | None, upright: Upright) -> Pattern:
    """The fitted shape set upright about its origin."""
    fit = shape.fit
    places, n = fit.places, fit.readings.count
    if shape.name == "free" and not clockwise(places[:n]):
        places = places * [-1.0, 1.0]
    centre, diameter, departs = _round(shape, places[:n])
    origin, words = _origin(shape, places, n, centre)
    turn, said = _turn(shape, places[:n] - origin, upright)
    seen = (places - origin) @ turn.T
    opening = None
    if fit.readings.by_rim:
        opening = Opening(float(fit.unknowns[-1]), *_pair(seen[n]), fit.give_mm(n) * fit.scatter)
    middle = None if centre is None else (centre - origin) @ turn.T
    return Pattern(
        shape.name,
        tuple(_pair(one) for one in seen[:n]),
        tuple(fit.give_mm(k) * fit.scatter for k in range(n)),
        float(fit.unknowns[-2]) if fit.readings.by_edges else hole_mm,
        words,
        said,
        opening,
        diameter,
        (0.0, 0.0) if middle is None else _pair(middle),
        departs,
        _first_at(shape, seen[:n], middle),
    )


def _round(shape: Shape, holes: Numbers) -> tuple[Numbers | None, float | None, float]:
    """Centre and diameter of the circle through the holes where they keep to one, and the worst departure."""
    if shape.name == "circle":
        return np.zeros(2), 2 * float(np.linalg.norm(holes[0])), 0.0
    if shape.name == "row" or len(holes) < 3:
        return None, None, 0.0
    centre, diameter, departs = circle_through(holes)
    inside = _surrounded(holes - centre)
    return (centre, diameter, departs) if inside and departs <= ON_CIRCLE * diameter / 2 else (None, None, departs)


def _surrounded(spokes: Numbers) -> bool:
    """Whether the holes stand all round the centre: no gap of half a turn or more."""
    turns = np.sort(np.arctan2(spokes[:, 1], spokes[:, 0]))
    gaps = np.diff(np.append(turns, turns[0] + 2 * np.pi))
    return bool(np.max(gaps) < np.pi + 0.05)


def _origin(shape: Shape, places: Numbers, n: int, centre: Numbers | None) -> tuple[Numbers, str]:
    if len(places) > n and not shape.concentric:
        return places[n], "the opening's centre"
    if shape.name in ("circle", "rectangle"):
        middle = "circle's centre" if shape.name == "circle" else "rectangle's middle"
        middle = "middle between them" if len(places) == 2 else middle
        return np.zeros(2), f"the {middle}" + (", which is the opening's" if shape.concentric else "")
    if centre is not None:
        return centre, "the centre of the circle through the holes"
    if shape.name == "row":
        return (places[:n].min(axis=0) + places[:n].max(axis=0)) / 2, "the middle between the outermost holes"
    return places[:n].mean(axis=0), "the middle of all holes (the mean of their places)"


def _turn(shape: Shape, holes: Numbers, upright: Upright) -> tuple[Numbers, str]:
    """The rotation that sets them upright, and what it makes upright in words."""
    up, level = upright.up, upright.level
    by_default = up is None and level is None
    if by_default:
        level = (0, 1) if shape.name in ("rectangle", "row") or len(holes) == 2 else None
        up = None if level else 0
    if level is None and up is not None and np.linalg.norm(holes[up]) < AT_ORIGIN_MM:
        level = up, (up + 1) % len(holes)
    tail = " (no `up` or `level` was given)" if by_default else ""
    if level:
        way = holes[level[1]] - holes[level[0]]
        return _rotation(math.atan2(way[1], way[0])), f"{level[0] + 1} and {level[1] + 1} level{tail}"
    assert up is not None
    return _rotation(math.atan2(holes[up][1], holes[up][0]) - math.pi / 2), f"hole {up + 1} straight up{tail}"


def _rotation(by_rad: float) -> Numbers:
    """Takes a direction at `by_rad` to the right."""
    c, s = math.cos(by_rad), math.sin(by_rad)
    return np.array([[c, s], [-s, c]])


def _first_at(shape: Shape, holes: Numbers, middle: Numbers | None) -> float | None:
    if shape.name != "circle" or middle is None or np.linalg.norm(middle) > 1e-9:
        return None
    return _within(math.degrees(math.atan2(holes[0][0], holes[0][1])), 360.0 / len(holes))


def _within(angle_deg: float, step_deg: float) -> float:
    """The same angle of a pattern that repeats every `step_deg`, from 0."""
    inside = round(angle_deg, 9) % step_deg
    return 0.0 if step_deg - inside < 1e-6 else inside


def _pair(place: Numbers) -> Place:
    return round(float(place[0]), 10) + 0.0, round(float(place[1]), 10) + 0.0
