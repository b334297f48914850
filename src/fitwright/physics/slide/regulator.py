"""At which pressure a gate's cylinder is run: enough for the drag, too little to break the blade.

Pressures are gauge pressures in bar, forces in N.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.slide.thrust import (
    EFFICIENCY,
    LEAST_WORKING_BAR,
    MARGIN,
    REGULATOR_STEP_BAR,
    STALL_LIMIT,
    Cylinder,
    Way,
)


@dataclass(frozen=True)
class PressureRange:
    """From which pressure on the gate moves for certain, and up to which nothing breaks [bar].

    `least_bar` serves opening and shutting; `buckling_bar` is where the blade's permitted thrust ends; `stall_bar`
    where the stalled thrust is STALL_LIMIT x drag. `setting_bar` is what to set, None where no pressure both moves and
    spares the blade. `stall_over_drag` is what the setting comes to.
    """

    opening_bar: float
    shutting_bar: float
    buckling_bar: float
    stall_bar: float
    supply_bar: float
    setting_bar: float | None
    stall_over_drag: float

    @property
    def least_bar(self) -> float:
        """The greater of opening and shutting."""
        return max(self.opening_bar, self.shutting_bar)

    @property
    def over_stall(self) -> bool:
        """True where the setting pushes with more than STALL_LIMIT x drag: a smaller cylinder would do."""
        return self.setting_bar is not None and self.setting_bar > self.stall_bar + 1e-9


def pressure_range(
    cylinder: Cylinder,
    opens: Way,
    opening_n: float,
    shutting_n: float,
    permitted_push_n: float = math.inf,
    margin: float = MARGIN,
    efficiency: float = EFFICIENCY,
    least_working_bar: float = LEAST_WORKING_BAR,
    supply_bar: float = 6.0,
    stall_limit: float = STALL_LIMIT,
) -> PressureRange:
    """The regulator's range and setting [bar].

    Parameters
    ----------
    opens
        The way the rod moves when the gate opens: `in` in line, `out` alongside. Shutting is the other way, and it is
        shutting that presses the blade like a strut.
    opening_n, shutting_n
        Drag both ways [N], dirt and weight counted (`drag.blade_drag`).
    permitted_push_n
        What the blade bears as a strut [N], its factor taken off (`buckling`).
    margin
        Thrust over drag, 1 or more.

    The setting is the least pressure rounded up to 0.5 bar, not under `least_working_bar`; where that is over the
    buckling limit or the supply, the tenth of a bar under both; where even that is under the least pressure, None.

    >>> one = pressure_range(Cylinder(16, 6, 125), "in", 20.2, 20.2, permitted_push_n=166.0)
    >>> round(one.least_bar, 2), one.setting_bar, round(one.stall_bar, 2), round(one.buckling_bar, 2)
    (2.75, 3.0, 6.03, 8.26)
    >>> two = pressure_range(Cylinder(32, 12, 125), "in", 20.2, 20.2, permitted_push_n=166.0)
    >>> round(two.least_bar, 2), two.setting_bar, round(two.buckling_bar, 2)
    (0.69, 1.5, 2.06)
    """
    shuts: Way = "out" if opens == "in" else "in"
    opening = cylinder.least_bar(opens, margin * opening_n, efficiency)
    shutting = cylinder.least_bar(shuts, margin * shutting_n, efficiency)
    buckling = cylinder.greatest_bar(shuts, permitted_push_n)
    drag = max(opening_n, shutting_n, 0.0)
    stall = min(cylinder.greatest_bar(way, stall_limit * drag) for way in (opens, shuts))
    setting = _setting(max(opening, shutting), least_working_bar, min(buckling, supply_bar))
    most = max(cylinder.stall_n(way, setting or 0.0) for way in (opens, shuts))
    return PressureRange(
        opening, shutting, buckling, stall, supply_bar, setting, most / drag if drag > 0.0 else math.inf
    )


def _setting(least_bar: float, working_bar: float, greatest_bar: float) -> float | None:
    """The next 0.5 bar up from the least; where that is too much, the tenth of a bar under the greatest."""
    floor = max(least_bar, working_bar)
    if floor > greatest_bar + 1e-9:
        return None
    up = REGULATOR_STEP_BAR * math.ceil(floor / REGULATOR_STEP_BAR - 1e-9)
    if up <= greatest_bar + 1e-9:
        return up
    under = math.floor(greatest_bar * 10.0 + 1e-9) / 10.0
    return under if under >= floor - 1e-9 else None
