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
STRAP_OFF_MM, STRAP_CLEAR_MM = 0.5, 0.1
"""A strap lies so far outside the arms' radius where it leaves its slot, and a head stays so far from it."""


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

    def beside_u(self, fixing: Fixing, room_mm: float, plate_mm: float) -> tuple[float, float]:
        """Where screws beside the hoses stand (low, high): clear of the carriers, and of a strap that lies there."""
        low, high = self.reach_u
        out = fixing.bears_d / 2 + room_mm
        past = self._past_strap(fixing, plate_mm)
        opens = self.sizes.opens[0]
        first, last = min(self.sizes.axes_u), max(self.sizes.axes_u)
        low = min(low - out, first - past) if opens < -AWAY else low - out
        return low, (max(high + out, last + past) if opens > AWAY else high + out)

    def _past_strap(self, fixing: Fixing, plate_mm: float) -> float:
        """From a hose's axis along the surface to a head that its strap passes; 0 where it is low enough."""
        if self.spec.style != "saddle":
            return 0.0
        strap = self.sizes.out_r + STRAP_OFF_MM + self.spec.strap.thick_mm
        free = self.axis - plate_mm - fixing.high - STRAP_CLEAR_MM
        return math.sqrt(max(0.0, strap**2 - free**2)) + fixing.head_d / 2 if free < strap else 0.0

    def hose_v(self, u: float, half: float) -> float:
        """The least v of the hose within `half` of u, at the axis that is nearest."""
        off = max(0.0, min(abs(u - one) for one in self.sizes.axes_u) - half)
        return self.axis - math.sqrt(max(0.0, self.sizes.bore_r**2 - off**2))


def _inside(outlines: tuple[Outline, ...], at: tuple[float, float]) -> bool:
    return any(one.contains(at) for one in outlines)


def sunk_mm(fixing: Fixing) -> float:
    """How far under the ground of the bore a head's bearing face lies at the least."""
    return fixing.high + HOSE_CLEAR_MM
