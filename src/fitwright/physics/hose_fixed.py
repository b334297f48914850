"""A piece of hose that stands still between two places: how tightly it bends, and with what it pulls on both.

Lengths in mm, forces in N (right, away, up), weight in N/mm, stiffness in N mm2. How stiff a hose is, nobody publishes;
so three are reckoned: a soft one that bends at its ends down to its least radius and no further, and springy ones
(hose_rod) at both ends of what its stiffness may be. The true pull lies between the least and the greatest of them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from fitwright.frame import Vec
from fitwright.physics.hose_bend import springs_takes_mm
from fitwright.physics.hose_head import Reach, Stand
from fitwright.physics.hose_piece import Piece
from fitwright.physics.hose_rod import Rod, stood

SPARE = 1.001
CLAMP_N = 100.0
"""What a clamped hose end bears along the hose (common practice, no source)."""
STIFFEST = 1000.0
"""So much stiffer than any hose, its weight does not bend it."""
_LONGER, _TRIES = 0.25, 12
TAUT: Vec = (math.inf, math.inf, math.inf)


@dataclass(frozen=True)
class Fixed:
    """So much hose between two ends; `stiff_n_mm2`: from the softest to the stiffest that it may be."""

    reach: Reach
    length_mm: float
    stiff_n_mm2: tuple[float, float]

    @cached_property
    def stand(self) -> Stand:
        """Soft."""
        return self.reach.stand(self.length_mm)

    @property
    def piece(self) -> Piece:
        """Quite limp: it hangs lowest."""
        return self.stand.slack

    @cached_property
    def rods(self) -> tuple[Rod, ...]:
        """Springy, the softest first; those that come to rest."""
        found = (self._rod(stiff) for stiff in self.stiff_n_mm2)
        return tuple(one for one in found if one is not None)

    def _rod(self, stiff_n_mm2: float, hangs: bool = True) -> Rod | None:
        leaves, arrives = self.reach.held
        start, end, weight = self.reach.anchor, self.reach.head, self.reach.weight_n_mm
        return stood(start, leaves, end, arrives, self.length_mm, stiff_n_mm2, weight, hangs)

    @property
    def lacks_mm(self) -> float:
        """What it is shorter than its shortest way with its bends; inf: no room for them."""
        return max(0.0, self.reach.least_mm - self.length_mm)

    @cached_property
    def roundest_mm(self) -> float:
        """The tightest bend if its weight were nothing against its stiffness: the most that its length lets it do."""
        stiffest = (self._rod(STIFFEST * max(self.stiff_n_mm2), hangs) for hangs in (True, False))
        radii = [one.radius_mm for one in (*stiffest, *self.rods) if one is not None]
        return max(radii, default=self.stand.roundest_mm)

    @cached_property
    def bends_mm(self) -> tuple[float, float]:
        """The tightest bend of the softest and of the stiffest that it may be, springy."""
        radii = sorted(one.radius_mm for one in self.rods) or [self.stand.limp_mm, self.roundest_mm]
        return radii[0], radii[-1]

    def faults(self) -> tuple[str, ...]:
        """What is wrong, of: short, folds, turns (no room for the bends at its ends)."""
        if math.isinf(self.lacks_mm):
            return ("turns",)
        if self.lacks_mm > 0.0 or self.piece.span.taut:
            return ("short",)
        return ("folds",) if self.roundest_mm < self.reach.radius_mm * (1 - 1e-6) else ()

    def forces(self, end: bool) -> tuple[Vec, ...]:
        """What it may do to what holds its start or end, soft and springy; inf where it has no slack at all."""
        soft = self.stand.pulled.force(self.reach.weight_n_mm, end)
        springy = [one.on_end if end else one.on_start for one in self.rods]
        return (soft, *springy) if math.isfinite(soft[0]) else tuple(springy) or (TAUT,)

    def level_n(self) -> tuple[float, float]:
        """The least and the greatest level pull; the same at both ends."""
        pulls = [math.hypot(one[0], one[1]) for one in self.forces(end=True)]
        return min(pulls), max(pulls)


def with_room_mm(reach: Reach, drawn_mm: float, stiff_n_mm2: tuple[float, float]) -> float:
    """So much hose that its bends keep to the least radius and no clamp is pulled too much, whole mm.

    `drawn_mm`: as it would hang limp, without bends.
    """
    bent = reach.bent
    if bent is None:
        return math.ceil(drawn_mm)
    turns = [turn for turn in (bent.start_turn, bent.end_turn) if turn > 0.0]
    bends = math.fsum(springs_takes_mm(turn, reach.radius_mm) for turn in turns)
    found = max(drawn_mm + bends, bent.length_mm * SPARE)
    for _ in range(_TRIES):
        one = Fixed(reach, math.ceil(found), stiff_n_mm2)
        if one.roundest_mm >= reach.radius_mm and one.level_n()[1] <= CLAMP_N:
            break
        found += max(_LONGER * bends, 1.0)
    return math.ceil(found)
