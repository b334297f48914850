"""What a mount is drawn for: the spec, the sizes, what is round each hose, and how far its axis is from the surface."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.outline import Outline
from fitwright.parts.hanger.fixing import Fixing
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.spec.hanger import HoseHangerSpec

AWAY = 0.7
"""A carrier opens away from the surface where so much of its opening's direction does."""
HOSE_CLEAR_MM = 1.0
"""A head in a recess stays so far below the hose."""
STEP_MM = 1.0


@dataclass(frozen=True)
class Site:
    """All of it, in (u, v)."""

    spec: HoseHangerSpec
    sizes: Sizes
    carriers: tuple[Carrier, ...]
    axis: float

    @property
    def placed(self) -> Placed:
        """Where the surface lies."""
        return Placed(self.spec.mount.side, self.axis)

    @property
    def reach_u(self) -> tuple[float, float]:
        """How far all carriers reach along u (low, high)."""
        both = list(zip(self.sizes.axes_u, self.carriers, strict=True))
        return min(u + one.reach_u[0] for u, one in both), max(u + one.reach_u[1] for u, one in both)

    @property
    def opens_away(self) -> bool:
        """Whether a driver reaches the ground of the bore through the opening."""
        return self.sizes.opens[1] > AWAY

    def stands(self, u: float, half: float, v0: float, v1: float) -> bool:
        """Whether anything of a carrier (neck left out) stands between v0 and v1 within `half` of u."""
        for step in range(-4, 5):
            at = u + half * step / 4
            for axis_u, one in zip(self.sizes.axes_u, self.carriers, strict=True):
                if self._covers(one, axis_u, at, v0, v1):
                    return True
        return False

    def _covers(self, one: Carrier, axis_u: float, u: float, v0: float, v1: float) -> bool:
        count = max(2, math.ceil((v1 - v0) / STEP_MM))
        for k in range(count + 1):
            at = (u, v0 + (v1 - v0) * k / count)
            if math.dist(at, (axis_u, self.axis)) < self.sizes.bore_r:
                continue
            if _inside(one.adds, at) and not _inside(one.takes, at):
                return True
        return False

    def hose_v(self, u: float, half: float) -> float:
        """The least v of the hose within `half` of u, at the axis that is nearest."""
        off = max(0.0, min(abs(u - one) for one in self.sizes.axes_u) - half)
        return self.axis - math.sqrt(max(0.0, self.sizes.bore_r**2 - off**2))


def _inside(outlines: tuple[Outline, ...], at: tuple[float, float]) -> bool:
    return any(one.contains(at) for one in outlines)


def sunk_mm(fixing: Fixing) -> float:
    """How far under the ground of the bore a head's bearing face lies at the least."""
    return fixing.high + HOSE_CLEAR_MM
