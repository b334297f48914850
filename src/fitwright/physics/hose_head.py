"""A hose from its last hanger to a head that moves: how it stands with the head at one place.

Lengths in mm, forces in N, directions of length 1 (right, away, up). The hose is limp and does not stretch (hose_span);
at its ends it is given the bends that it needs at its least radius (hose_bend). What a bend takes more than the
straight line is counted as hose that is not there when the head pulls, and as hose that is there when it hangs slack:
both on the safe side.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from fitwright.frame import Vec
from fitwright.physics.hose_bend import Bent, bend_takes_mm, bent_way, roundest_mm, turned
from fitwright.physics.hose_piece import Piece, hung_piece

Way = Vec | Literal["follows", "free"]
"""How the hose is held at an end: in a direction (that it goes in), level and turning after it, or free."""


@dataclass(frozen=True)
class Limits:
    """What the hose and the head bear: least radius of the centreline, pull on the head, lowest centreline."""

    radius_mm: float
    pull_n: float
    lowest_mm: float


@dataclass(frozen=True)
class Reach:
    """From an anchor to one place of the head. `leaves` and `arrives` are directions in which the hose goes."""

    anchor: Vec
    leaves: Way
    head: Vec
    arrives: Way
    radius_mm: float
    weight_n_mm: float

    @cached_property
    def straight_mm(self) -> float:
        """The straight line."""
        return math.dist(self.anchor, self.head)

    @cached_property
    def bent(self) -> Bent | None:
        """Bend, straight, bend; None where there is no room for them."""
        leaves, arrives = self.held
        return bent_way(self.anchor, leaves, self.head, arrives, self.radius_mm)

    @property
    def head_way(self) -> Vec:
        """Direction of the straight line."""
        x, y, z = (b - a for a, b in zip(self.anchor, self.head, strict=True))
        long = self.straight_mm or 1.0
        return x / long, y / long, z / long

    @cached_property
    def least_mm(self) -> float:
        """The shortest hose that reaches with its bends kept; inf where there is no room for them."""
        return math.inf if self.bent is None else self.bent.length_mm

    @cached_property
    def held(self) -> tuple[Vec | None, Vec | None]:
        """The directions that it must leave and arrive in; None: free."""
        return self._way(self.leaves), self._way(self.arrives)

    def stand(self, length_mm: float) -> Stand:
        """How so much hose stands."""
        return Stand(self, length_mm)

    def _way(self, way: Way) -> Vec | None:
        if way == "free":
            return None
        if way != "follows":
            return way
        right, away = self.head[0] - self.anchor[0], self.head[1] - self.anchor[1]
        level = math.hypot(right, away)
        return (right / level, away / level, 0.0) if level > 1e-9 else (1.0, 0.0, 0.0)


@dataclass(frozen=True)
class Stand:
    """The hose with the head at one place: two bounds, quite limp and as stiff as can be; a true hose lies between."""

    reach: Reach
    length_mm: float

    @cached_property
    def slack(self) -> Piece:
        """All of it, hanging limp."""
        return hung_piece(self.reach.anchor, self.reach.head, self.length_mm)

    @cached_property
    def pulled(self) -> Piece:
        """Without what its bends at the ends take."""
        bent = self.reach.bent
        extra = 0.0 if bent is None else bent.length_mm - self.reach.straight_mm
        return hung_piece(self.reach.anchor, self.reach.head, self.length_mm - extra) if extra > 1e-9 else self.slack

    @property
    def short_mm(self) -> float:
        """What it lacks; inf where no hose reaches because its bends find no room."""
        return math.inf if self.reach.bent is None else self.pulled.span.short_mm

    @property
    def pull_n(self) -> float:
        """Along the hose on the head; inf where it is taut."""
        return self.pulled.span.tension_n(self.reach.weight_n_mm, end=True)

    @property
    def lowest_mm(self) -> float:
        """Of the centreline, limp: a stiffer one hangs higher."""
        return self.slack.lowest_mm

    @property
    def limp_mm(self) -> float:
        """The tightest bend if it were quite limp."""
        return self.slack.span.radius_mm

    @cached_property
    def roundest_mm(self) -> float:
        """The tightest bend if it were as stiff as can be."""
        span = self.slack.span
        return max(roundest_mm(span.level_mm, span.rise_mm, span.length_mm), span.radius_mm)

    @property
    def limp_leaves_mm(self) -> float:
        """Hose left between the bends at its ends, from where a limp one hangs; negative: they do not go in."""
        ends = zip(self.reach.held, (self.slack.way(end=False), self.slack.way(end=True)), strict=True)
        return self._left([turned(held, goes) for held, goes in ends if held is not None])

    @property
    def best_leaves_mm(self) -> float:
        """The same where the hose itself stands out as one arc that helps to turn."""
        helps = self._arc_turn()
        if helps is None:
            return self.limp_leaves_mm
        straight = self.reach.head_way
        turns = [max(0.0, turned(held, straight) - helps) for held in self.reach.held if held is not None]
        return max(self.limp_leaves_mm, self._left(turns))

    def _arc_turn(self) -> float | None:
        """How far [rad] an arc through both ends goes off the straight line there; None: it hangs in a loop."""
        chord = self.reach.straight_mm
        if self.length_mm >= math.pi / 2 * chord:
            return None
        return min(math.pi / 2, self.length_mm / (2.0 * self.roundest_mm))

    def _left(self, turns: list[float]) -> float:
        return self.length_mm - math.fsum(bend_takes_mm(turn, self.reach.radius_mm) for turn in turns)

    def faults(self, limits: Limits) -> tuple[str, ...]:
        """What is wrong, of: short, pulls, drags, folds, turns (no room for the bends at the ends)."""
        found = {
            "short": self.short_mm > 0.0,
            "pulls": self.short_mm <= 0.0 and self.pull_n > limits.pull_n * (1 + 1e-9),
            "drags": self.lowest_mm < limits.lowest_mm - 1e-6,
            "folds": self.roundest_mm < limits.radius_mm - 1e-6,
            "turns": self.best_leaves_mm < -1e-6,
        }
        return tuple(name for name, is_so in found.items() if is_so)

    def may_fold(self, limits: Limits) -> bool:
        """A limp hose would fold where a stiffer one does not."""
        return self.limp_mm < limits.radius_mm or self.limp_leaves_mm < 0.0
