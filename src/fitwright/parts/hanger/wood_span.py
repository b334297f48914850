"""Where wood or channel lies behind the surface: limits along u and along y, and what is left to their edges."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.spec.hanger import HoseHangerSpec


@dataclass(frozen=True)
class Span:
    """Half the width of what carries along u (about `u`) and along y (about `y`) [mm]; infinite where it goes on."""

    half_u: float
    half_y: float
    u: float
    y: float

    def edge_mm(self, u: float, y: float) -> float:
        """From a point to the nearest edge [mm]; 0 where no edge is known."""
        found = min(self.half_u - abs(u - self.u), self.half_y - abs(y - self.y))
        return found if math.isfinite(found) else 0.0


def span_of(spec: HoseHangerSpec, wide: float, u: float = 0.0) -> Span:
    """What lies behind the mount, its middle at u and in the middle of the width."""
    mount, far = spec.mount, math.inf
    if mount.kind == "batten" and mount.batten is not None:
        return Span(far, mount.batten.wide_mm / 2, u, wide / 2)
    if mount.kind not in ("joist_side", "joist_underside"):
        return Span(far, far, u, wide / 2)
    across = mount.wood.wide_mm if mount.kind == "joist_underside" else mount.wood.deep_mm
    half = across / 2 if across is not None else far
    return Span(half, far, u, wide / 2) if mount.along else Span(far, half, u, wide / 2)
