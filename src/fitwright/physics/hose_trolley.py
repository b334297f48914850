"""A trolley on a rail that carries the hose: it rolls to where the hose on both sides pulls it equally.

Lengths in mm, forces in N. The trolley rolls without friction; a real one stays behind by what its wheels ask for.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from fitwright.frame import Vec
from fitwright.physics.hose_head import Limits, Reach, Stand, Way
from fitwright.physics.hose_piece import Piece, hung_piece, together

_HALVINGS = 26


@dataclass(frozen=True)
class Rail:
    """From one end stop to the other, heights of the hose's axis; it slopes or is level."""

    start: Vec
    end: Vec

    def at(self, share: float) -> Vec:
        """The place at a share of its length."""
        x, y, z = (a + (b - a) * share for a, b in zip(self.start, self.end, strict=True))
        return x, y, z

    def shifted(self, by: Vec) -> Rail:
        """The same rail elsewhere."""
        start, end = ((one[0] + by[0], one[1] + by[1], one[2] + by[2]) for one in (self.start, self.end))
        return Rail(start, end)

    def nearest(self, point: Vec) -> Vec:
        """The place on it that is nearest to a point."""
        run = [b - a for a, b in zip(self.start, self.end, strict=True)]
        square = math.fsum(r * r for r in run)
        share = math.fsum(r * (p - a) for r, p, a in zip(run, point, self.start, strict=True)) / square
        return self.at(min(max(share, 0.0), 1.0))


@dataclass(frozen=True)
class Rolling:
    """What is before the trolley (a fixed place, and hose to it), and how the hose meets the head."""

    fixed: Vec
    leaves: Way
    before_mm: float
    rail: Rail
    arrives: Way
    radius_mm: float
    weight_n_mm: float

    def least_mm(self, head: Vec) -> float:
        """The shortest hose from trolley to head, with the trolley as near as the rail lets it."""
        return self._after(self.rail.nearest(head), head).least_mm

    def stand(self, head: Vec, length_mm: float) -> Rolled:
        """Where the trolley comes to rest, and how both pieces hang then."""
        low, high = 0.0, 1.0
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            if self._pulled_on(middle, head, length_mm) > 0.0:
                low = middle
            else:
                high = middle
        share = 0.0 if high < 1e-7 else 1.0 if low > 1.0 - 1e-7 else (low + high) / 2
        trolley = self.rail.at(share)
        return Rolled(self._before(trolley).stand(self.before_mm), self._after(trolley, head).stand(length_mm), trolley)

    def _pulled_on(self, share: float, head: Vec, length_mm: float) -> float:
        """What pulls the trolley on along the rail [N]; of taut hose only the sign counts."""
        trolley = self.rail.at(share)
        before = hung_piece(self.fixed, trolley, self.before_mm)
        after = hung_piece(trolley, head, length_mm)
        rail = [b - a for a, b in zip(self.rail.start, self.rail.end, strict=True)]
        if before.span.taut or after.span.taut:
            short = before.span.short_mm >= after.span.short_mm if after.span.taut else True
            towards = self.fixed if before.span.taut and short else head
            return math.fsum((t - a) * r for t, a, r in zip(towards, trolley, rail, strict=True))
        pull = together(before.force(self.weight_n_mm, end=True), after.force(self.weight_n_mm, end=False))
        return math.fsum(p * r for p, r in zip(pull, rail, strict=True))

    def _before(self, trolley: Vec) -> Reach:
        return Reach(self.fixed, self.leaves, trolley, "free", self.radius_mm, self.weight_n_mm)

    def _after(self, trolley: Vec, head: Vec) -> Reach:
        return Reach(trolley, "follows", head, self.arrives, self.radius_mm, self.weight_n_mm)


@dataclass(frozen=True)
class Rolled:
    """Both pieces with the trolley at rest; the worse of the two counts."""

    before: Stand
    after: Stand
    trolley: Vec

    @property
    def slack(self) -> Piece:
        """The piece from trolley to head."""
        return self.after.slack

    @property
    def short_mm(self) -> float:
        """What both pieces lack together."""
        return self.before.short_mm + self.after.short_mm

    @property
    def pull_n(self) -> float:
        """On the head."""
        return self.after.pull_n

    @property
    def lowest_mm(self) -> float:
        """Of both centrelines."""
        return min(self.before.lowest_mm, self.after.lowest_mm)

    @property
    def limp_mm(self) -> float:
        """The tighter bend if they were quite limp."""
        return min(self.before.limp_mm, self.after.limp_mm)

    @cached_property
    def roundest_mm(self) -> float:
        """The tighter bend if they were as stiff as can be."""
        return min(self.before.roundest_mm, self.after.roundest_mm)

    @property
    def best_leaves_mm(self) -> float:
        """Hose left between the bends at the ends, at best."""
        return min(self.before.best_leaves_mm, self.after.best_leaves_mm)

    def faults(self, limits: Limits) -> tuple[str, ...]:
        """Of both."""
        own = Limits(limits.radius_mm, math.inf, limits.lowest_mm)
        return tuple(dict.fromkeys((*self.after.faults(limits), *self.before.faults(own))))

    def may_fold(self, limits: Limits) -> bool:
        """Of either."""
        return self.before.may_fold(limits) or self.after.may_fold(limits)
