"""A piece of hose in the room, hung between two points: where it lies, and what it does to what holds it.

Points are (right, away, up) in mm, forces in N along the same directions, weight in N/mm.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.frame import Vec
from fitwright.physics.hose_span import Span, hung, hung_with_pull, hung_with_sag


@dataclass(frozen=True)
class Piece:
    """From `start` to `end`; it hangs in the upright plane through both."""

    start: Vec
    end: Vec
    span: Span

    @property
    def lowest_mm(self) -> float:
        """Height of the lowest point of its centreline."""
        return self.start[2] + self.span.lowest_mm

    def along(self) -> tuple[float, float]:
        """The level direction (right, away) from start to end; (0, 0) where one is straight above the other."""
        right, away = self.end[0] - self.start[0], self.end[1] - self.start[1]
        level = math.hypot(right, away)
        return (right / level, away / level) if level else (0.0, 0.0)

    def way(self, end: bool) -> Vec:
        """Direction in which the hose goes at its start or end, towards the end."""
        across, up = self.span.way(end)
        right, away = self.along()
        return across * right, across * away, up

    def force(self, weight_n_mm: float, end: bool) -> Vec:
        """What it does to whatever holds its start or end: it pulls towards the middle of the piece, and down.

        Taut it has no end: inf.
        """
        if self.span.taut:
            return math.inf, math.inf, math.inf
        pull = self.span.level_n(weight_n_mm) * (-1.0 if end else 1.0)
        right, away = self.along()
        return pull * right, pull * away, -self.span.down_n(weight_n_mm, end)

    def points(self, count: int = 41) -> list[Vec]:
        """Points of its centreline."""
        right, away = self.along()
        x, y, z = self.start
        return [(x + across * right, y + across * away, z + up) for across, up in self.span.points(count)]


def hung_piece(start: Vec, end: Vec, length_mm: float) -> Piece:
    """With so much hose between the two."""
    return Piece(start, end, hung(_level(start, end), end[2] - start[2], length_mm))


def piece_with_pull(start: Vec, end: Vec, parameter_mm: float) -> Piece:
    """Drawn with a level pull of weight x parameter; the two points are not above each other."""
    return Piece(start, end, hung_with_pull(_level(start, end), end[2] - start[2], parameter_mm))


def piece_with_sag(start: Vec, end: Vec, sag_mm: float) -> Piece:
    """Hanging so far below the straight line; the two points are not above each other."""
    return Piece(start, end, hung_with_sag(_level(start, end), end[2] - start[2], sag_mm))


def _level(start: Vec, end: Vec) -> float:
    return math.hypot(end[0] - start[0], end[1] - start[1])


def together(*forces: Vec) -> Vec:
    """The sum of forces on one point."""
    return (
        math.fsum(f[0] for f in forces),
        math.fsum(f[1] for f in forces),
        math.fsum(f[2] for f in forces),
    )
