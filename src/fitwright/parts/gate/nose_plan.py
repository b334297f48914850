"""The nose plate's numbers: a beam of two chords seen from above, no larger than its stiffness and its screws ask for.

From the cylinder's mounting face towards the gate: the web that the cylinder bears on; a bay for its nut, open above
and below, so that an open spanner reaches in; the front chord. Beside the bay there are windows between both chords.
Where the cylinder is held otherwise the middle is solid.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property

from fitwright.errors import RefusalError
from fitwright.parts.gate.coupling_plan import CouplingPlan
from fitwright.parts.gate.nose_hold import (
    SPANNER_WIDE,
    ClampHold,
    Hold,
    SquareHold,
    ThreadHold,
    clamp_hold,
    square_hold,
    thread_hold,
)
from fitwright.parts.gate.nose_stiffness import AIM_MM, LASTING, MOST_MM, Beam, Gives, Panel, Run, gives, two_chords_mm4
from fitwright.spec.models import GateBracketSpec

WALL_MM = 5.0
"""The thinnest chord, and what is left beside an opening."""
WALLS_MM = (5.0, 8.0, 12.0)
"""Cross walls."""
PANEL_MM, LEAST_PANEL_MM, LEAST_BAY_MM = 28.0, 10.0, 5.0
"""The longest window between two cross walls; what is shorter or narrower stays solid."""
ROOF_MM = 10.0
"""A roof this wide prints clean; a wider opening gets slopes at 45 deg."""
PASS_MM = 2.0
"""Room round the coupling where it goes through the front chord."""
MOVES_MM = 1.0
"""What goes along the rod stays this far off."""
EDGE = 1.5
"""Edge distance of a screw in a print, in diameters."""
CHORDS_MM = tuple(5.0 + k for k in range(9))
DEEPER_MM = tuple(4.0 * k for k in range(8))
HIGHER_MM = tuple(4.0 * k for k in range(11))


@dataclass(frozen=True)
class NoseEnds:
    """Where the plate ends: the rails' axes at +-`rail_x`, solid from `inner_x` to `outer_x`; `high_mm` at least.

    `rod_in_mm`: mounting face to the rod's shoulder, rod in.
    """

    rail_x: float
    inner_x: float
    outer_x: float
    high_mm: float
    rod_in_mm: float


@dataclass(frozen=True)
class NosePlan:
    """All in mm; x from the thrust line. `middle_x`: half width of the bay (`nose`) or of the solid middle.

    `open_x`, `open_z`: half width of the opening in the front chord and its upper edge; 0 where there is none.
    `windows`: (x0, x1) on the right side; the left is the same.
    """

    hold: Hold
    high: float
    web: float
    chord: float
    deep: float
    middle_x: float
    open_x: float
    open_z: float
    wall: float
    windows: tuple[tuple[float, float], ...]
    ends: NoseEnds

    @property
    def bay(self) -> float:
        """Between web and front chord."""
        return self.deep - self.web - self.chord

    @property
    def volume_mm3(self) -> float:
        """Without screw and nose holes: for choosing."""
        free = sum(x1 - x0 for x0, x1 in self.windows) + (self.middle_x if isinstance(self.hold, ThreadHold) else 0.0)
        return 2.0 * self.high * (self.ends.outer_x * self.deep - free * self.bay)

    @cached_property
    def beam(self) -> Beam:
        """What the plate is for its stiffness."""
        ends, high = self.ends, self.high
        apart = self.bay + (self.web + self.chord) / 2
        two = two_chords_mm4(high, self.chord, self.web, apart, high)
        middle = self._middle_runs(two, apart)
        between = []
        if ends.inner_x > self.middle_x:
            beside = self._solid_run(self.middle_x, ends.inner_x, high)
            between = [Run(self.middle_x, ends.inner_x, two) if self.windows else beside]
        end = self._solid_run(max(ends.inner_x, self.middle_x), ends.rail_x, high)
        panels = tuple(Panel(x1 - x0, apart, (self.chord, self.web), self.wall) for x0, x1 in self.windows)
        free = self.middle_x - self.hold.clamped_mm / 2 if isinstance(self.hold, ThreadHold) else 0.0
        return Beam(ends.rail_x, high, (*middle, *between, end), panels, free, self.web)

    def _middle_runs(self, two: float, apart: float) -> list[Run]:
        hold, high = self.hold, self.high
        if isinstance(hold, ThreadHold):
            left = two_chords_mm4(high, self.chord, self.web, apart, high - 2 * self.open_z)
            return [Run(0.0, self.open_x, left), Run(self.open_x, self.middle_x, two)]
        hole = hold.hole_mm / 2
        screws = 2 * hold.screw_hole_mm if isinstance(hold, SquareHold) else 0.0
        net = high - hole * (1.0 + math.sqrt(2.0))
        return [self._solid_run(0.0, hole, net), self._solid_run(hole, self.middle_x, high - screws)]

    def _solid_run(self, x0: float, x1: float, high: float) -> Run:
        return Run(x0, x1, high * self.deep**3 / 12.0, high * self.deep)

    def gives(self, force_n: float, modulus_mpa: float) -> Gives:
        """Both bounds of its movement, a clamp's neck with it."""
        moved = gives(self.beam, force_n, modulus_mpa)
        if not isinstance(self.hold, ClampHold):
            return moved
        along, tilt = self.hold.neck(force_n, modulus_mpa)
        return Gives(moved.pinned_mm + along, moved.built_in_mm + along, moved.tilt_deg + tilt)


def thrust_n(spec: GateBracketSpec) -> float:
    """The running force: what the piston pushes with at the set pressure, nothing taken off."""
    return math.pi / 4.0 * spec.cylinder.bore_mm**2 * spec.pressure_mpa


def nose_plan(spec: GateBracketSpec, ends: NoseEnds, coupling: CouplingPlan) -> NosePlan:
    """The lightest plate that gives no more than AIM_MM; else MOST_MM; RefusalError where none does."""
    if spec.material.soft:
        raise RefusalError(
            "material", spec.material.name, "a stiff material (PLA, PETG)", "a soft plate only stretches"
        )
    shapes = list(_shapes(spec, ends, coupling))
    if not shapes:
        raise _no_room(spec, ends)
    for limit in (AIM_MM, MOST_MM):
        if (best := _lightest(shapes, spec, limit)) is not None:
            return best
    force, modulus = thrust_n(spec), spec.sized_for.lasting_modulus_mpa / LASTING
    highest = (replace(plan, high=plan.high + HIGHER_MM[-1]) for plan in shapes)
    raise _too_soft(spec, min(plan.gives(force, modulus).pinned_mm for plan in highest) / MOST_MM)


def _lightest(shapes: list[NosePlan], spec: GateBracketSpec, limit_mm: float) -> NosePlan | None:
    """Each shape as high as it must be; the one of least volume."""
    force, modulus, best = thrust_n(spec), spec.sized_for.lasting_modulus_mpa / LASTING, None
    for shape in shapes:
        for higher in HIGHER_MM:
            plan = replace(shape, high=shape.high + higher)
            if best is not None and plan.volume_mm3 >= best.volume_mm3:
                break
            if plan.gives(force, modulus).within(limit_mm):
                best = plan
                break
    return best


def _shapes(spec: GateBracketSpec, ends: NoseEnds, coupling: CouplingPlan) -> Iterator[NosePlan]:
    if spec.hold == "nose":
        yield from _threaded(spec, ends, coupling)
    else:
        yield from _solid(spec, ends)


def _threaded(spec: GateBracketSpec, ends: NoseEnds, coupling: CouplingPlan) -> Iterator[NosePlan]:
    hold = thread_hold(spec)
    middle = SPANNER_WIDE * hold.nut_af_mm / 2 + 2.0
    for chord in CHORDS_MM:
        for deeper in DEEPER_MM:
            deep = hold.web_mm + hold.spanner_mm + deeper + chord
            passes = deep + MOVES_MM > ends.rod_in_mm
            if passes and spec.layout == "alongside":
                continue
            opening = _opening(spec, coupling, hold, passes)
            least = max(ends.high_mm, hold.bears_mm + 4.0, 2 * opening[1] + 2 * WALL_MM)
            bay = max(middle, opening[0])
            for wall, windows in _window_rows(bay, ends.inner_x, bay_wall=True):
                yield NosePlan(hold, least, hold.web_mm, chord, deep, bay, *opening, wall, windows, ends)


def _opening(spec: GateBracketSpec, coupling: CouplingPlan, hold: ThreadHold, passes: bool) -> tuple[float, float]:
    """Half width and upper edge of the opening in the front chord: for what goes along the rod, or the coupling."""
    if passes:
        half, up = coupling.wide_mm / 2 + PASS_MM, coupling.high_mm / 2 + PASS_MM
    else:
        half = up = hold.hole_mm / 2 + MOVES_MM
    return half, up + max(0.0, half - ROOF_MM / 2)


def _window_rows(middle: float, x1: float, bay_wall: bool) -> Iterator[tuple[float, tuple[tuple[float, float], ...]]]:
    """Rows of equal windows beside the middle, with each thickness of their walls; and none at all."""
    yield WALL_MM, ()
    for wall in WALLS_MM:
        x0 = middle + (wall if bay_wall else 0.0)
        if x1 - x0 >= LEAST_PANEL_MM:
            count = math.ceil((x1 - x0 + wall) / (PANEL_MM + wall))
            long = (x1 - x0 + wall) / count - wall
            yield wall, tuple((x0 + k * (long + wall), x0 + k * (long + wall) + long) for k in range(count))


def _solid(spec: GateBracketSpec, ends: NoseEnds) -> Iterator[NosePlan]:
    clamp = clamp_hold(spec, thrust_n(spec)) if spec.hold == "clamp" else None
    for deep in (8.0 + 2 * k for k in range(24)):
        hold: Hold | None = clamp or square_hold(spec, deep)
        if hold is None or deep + _stands_out(hold) + MOVES_MM > ends.rod_in_mm:
            continue
        middle, least = _middle(hold), max(ends.high_mm, _least_high(hold))
        for chord in CHORDS_MM:
            slim = deep - 2 * chord >= LEAST_BAY_MM
            for wall, windows in _window_rows(middle, ends.inner_x, bay_wall=False) if slim else [(WALL_MM, ())]:
                yield NosePlan(hold, least, chord, chord, deep, middle, 0.0, 0.0, wall, windows, ends)
            if not slim:
                break


def _stands_out(hold: Hold) -> float:
    """What stands on the plate's gate side: heads with their washers."""
    return hold.washer_h_mm + hold.head_k_mm if isinstance(hold, SquareHold) else 0.0


def _middle(hold: Hold) -> float:
    if isinstance(hold, SquareHold):
        return hold.apart_mm / 2 + max(EDGE * hold.d_mm, hold.washer_d_mm / 2 + 1.0)
    assert isinstance(hold, ClampHold)
    return hold.half_mm


def _least_high(hold: Hold) -> float:
    if isinstance(hold, SquareHold):
        screws = hold.apart_mm + 2 * max(EDGE * hold.d_mm, hold.washer_d_mm / 2 + 1.0)
        return max(screws, hold.hole_mm * math.sqrt(2.0) + 2 * WALL_MM)
    assert isinstance(hold, ClampHold)
    return max(2 * hold.down_mm, hold.hole_mm * math.sqrt(2.0) + 2 * WALL_MM)


def _no_room(spec: GateBracketSpec, ends: NoseEnds) -> RefusalError:
    found = f"{ends.rod_in_mm:.1f} mm from its mounting face to the rod's shoulder, rod in"
    why = "there is no room for a nose plate before the coupling"
    return RefusalError("cylinder", found, "a stroke 10 mm longer, or another hold", why)


def _too_soft(spec: GateBracketSpec, times: float) -> RefusalError:
    why = f"the nose plate would give {MOST_MM * times / LASTING:.2f} mm under the full thrust ({thrust_n(spec):.0f} N)"
    found, most = spec.pressure_mpa * 10, math.floor(spec.pressure_mpa * 100 / times) / 10
    return RefusalError("pressure", f"{found:.1f} bar", f"{most:.1f} bar or less, or a smaller bore", why)
