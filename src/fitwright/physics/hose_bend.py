"""How a hose turns: the shortest way between two ends that it must leave and meet in a given direction, and folds.

Lengths in mm; points and directions are (right, away, up), directions of length 1. The hose may be bent to its least
radius and no tighter; between the two bends it is straight.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.frame import Vec

MOST_TURN = math.radians(170.0)
"""A sharper turn is a loop: a bend, a straight and a bend do not make it."""
_STEPS = 300


@dataclass(frozen=True)
class Bent:
    """A bend, a straight and a bend: the angles turned [rad] at both ends, all of the hose, and its straight part."""

    start_turn: float
    end_turn: float
    length_mm: float
    straight_mm: float


def bent_way(start: Vec, leaves: Vec | None, end: Vec, arrives: Vec | None, radius_mm: float) -> Bent | None:
    """The shortest hose that leaves `start` along `leaves` and comes into `end` along `arrives`; None: no room.

    None as a direction: free to turn there (a swivel). Each bend of angle b goes from its end to its straight by
    R tan(b / 2) along both; the straight's direction is found by repeating that. It is the shortest where the straight
    is not negative (L. E. Dubins, 1957, for the plane; bend-straight-bend in space likewise); ways with a third bend
    are not looked for.
    """
    apart = _minus(end, start)
    if not _long(apart):
        return None
    way = _unit(apart)
    for _ in range(_STEPS):
        first, last = _turn(leaves, way), _turn(way, arrives) if arrives is not None else 0.0
        if max(first, last) > MOST_TURN:
            return None
        left = apart
        for turn, along in ((first, leaves), (last, arrives)):
            if along is not None:
                left = _minus(left, _times(along, radius_mm * math.tan(turn / 2)))
        straight = _long(left) - radius_mm * (math.tan(first / 2) + math.tan(last / 2))
        if not _long(left):
            return None
        wanted = _unit(left)
        if math.dist(wanted, way) < 1e-10:
            break
        way = _unit(_plus(wanted, way))
    else:
        return None
    if straight < -1e-9:
        return None
    return Bent(first, last, radius_mm * (first + last) + straight, straight)


def turned(one: Vec, other: Vec) -> float:
    """The angle [rad] between two directions."""
    return 2.0 * math.atan2(_long(_minus(one, other)), _long(_plus(one, other)))


def bend_takes_mm(turn: float, radius_mm: float) -> float:
    """How far from the corner a bend begins: R tan(turn / 2)."""
    return math.inf if turn >= math.pi - 1e-9 else radius_mm * math.tan(turn / 2)


def springs_takes_mm(turn: float, radius_mm: float) -> float:
    """How much more hose than the straight line a springy bend takes that is nowhere tighter than the radius.

    A rod that is clamped, and pulled straight far from the clamp, turns by b with a radius R = c / (2 sin(b / 2)) at
    the clamp, and takes 2 c (1 - cos(b / 2)) more than the straight, c = sqrt(E I / pull): Euler's elastica (A. E. H.
    Love, A Treatise on the Mathematical Theory of Elasticity, 1927, section 262, from memory). So 4 R sin(b / 2)
    (1 - cos(b / 2)): half as much again as an arc of R.
    """
    return 4.0 * radius_mm * math.sin(turn / 2) * (1.0 - math.cos(turn / 2))


def roundest_mm(level_mm: float, rise_mm: float, length_mm: float) -> float:
    """The roundest that a hose of this length can lie between its ends: the most that its own stiffness can do.

    Up to half a circle over the straight line it may stand out as one arc through both ends. With more hose it hangs
    down in a loop as wide as its ends are apart, level. inf: no slack.
    """
    chord = math.hypot(level_mm, rise_mm)
    if length_mm <= chord:
        return math.inf
    if length_mm >= math.pi / 2 * chord:
        return level_mm / 2
    low, high = 0.0, math.pi / 2
    for _ in range(60):
        half = (low + high) / 2
        if math.sin(half) * length_mm > half * chord:
            low = half
        else:
            high = half
    return length_mm / (2.0 * low) if low > 1e-7 else math.inf


def _turn(leaves: Vec | None, way: Vec | None) -> float:
    return 0.0 if leaves is None or way is None else turned(leaves, way)


def _plus(one: Vec, other: Vec) -> Vec:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def _minus(one: Vec, other: Vec) -> Vec:
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def _times(one: Vec, by: float) -> Vec:
    return one[0] * by, one[1] * by, one[2] * by


def _long(one: Vec) -> float:
    return math.sqrt(one[0] ** 2 + one[1] ** 2 + one[2] ** 2)


def _unit(one: Vec) -> Vec:
    long = _long(one)
    return _times(one, 1.0 / long) if long else (0.0, 0.0, 1.0)
