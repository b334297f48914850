"""The forces of one gate and cylinder, worked out once: drag both ways, the blade as a strut, the regulator's range."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fitwright.mechanism import Guide
from fitwright.physics.slide.bridge import Bridge
from fitwright.physics.slide.buckling import Strut
from fitwright.physics.slide.drag import Drag, blade_drag, blade_mass_kg
from fitwright.physics.slide.regulator import PressureRange, pressure_range
from fitwright.physics.slide.thrust import Cylinder
from fitwright.spec.gate import GateBracketSpec

Way = Literal["in", "out"]
BAR_PER_MPA = 10.0
STEEL_KG_MM3 = 7.85e-6
THREAD_MM = 20.0
"""Of the rod inside the cylinder, about."""
PRINTED_KG = 0.03
"""Coupling and sleeve, at the least."""


@dataclass(frozen=True)
class Load:
    """What pushes and what holds back; forces in N, pressures in bar.

    `opens`: the way the rod goes when the gate opens. `force_n`: the thrust at which it is run: stalled, at the
    regulator's setting (where there is none that will do: at the least pressure, or the supply's).
    """

    cylinder: Cylinder
    opens: Way
    drag: Drag
    moving_kg: float
    strut: Strut
    range: PressureRange
    toll: float = 1.0
    """Thrust over drag that a second guide's friction asks for."""

    @property
    def shuts(self) -> Way:
        """The rod's other way."""
        return "out" if self.opens == "in" else "in"

    @property
    def setting_bar(self) -> float:
        """What the regulator is set to; without a setting that will do, what it takes to move the blade."""
        least = min(self.range.least_bar, self.range.supply_bar)
        return self.range.setting_bar if self.range.setting_bar is not None else least

    @property
    def most_bar(self) -> float:
        """Where the regulator ends: supply, blade bowing out, or STALL_LIMIT x the drag (never under the setting).

        Rounded down to a tenth of a bar: all who say a limit say this one.
        """
        found = self.range
        spares = min(found.buckling_bar, found.supply_bar)
        hurts = max(found.stall_bar, found.setting_bar or 0.0)
        return math.floor(10.0 * min(spares, hurts) + 1e-9) / 10.0

    @property
    def force_n(self) -> float:
        """The greater stalled thrust of both ways at that pressure."""
        return max(self.stalled_n("in"), self.stalled_n("out"))

    def stalled_n(self, way: Way) -> float:
        """The stalled thrust one way at that pressure."""
        return self.cylinder.stall_n(way, self.setting_bar)


def guide_toll(guide: Guide | None) -> float:
    """Thrust over the blade's drag that a second guide asks for; 1 where there is none."""
    if guide is None:
        return 1.0
    return Bridge(guide.offset_mm, guide.apart_mm, guide.bush_mm, guide.mu).thrust_over_drag


def gate_load(
    spec: GateBracketSpec, open_mm: float, blade_long_mm: float, printed_kg: float = PRINTED_KG, toll: float = 1.0
) -> Load:
    """All forces of a gate whose blade stands out by `open_mm` when open; `printed_kg`: what moves of the print.

    `toll`: thrust over drag, 1 without a second guide.
    """
    cylinder = air_cylinder(spec)
    opens: Way = "in" if spec.layout == "in_line" else "out"
    moving = _moving_kg(spec, blade_long_mm) + printed_kg
    drag = _drag(spec, moving)
    blade = spec.gate.blade
    strut = Strut(blade.width_mm, blade.thickness_mm, open_mm, blade.modulus_mpa)
    supply = spec.pressure_mpa * BAR_PER_MPA
    found = pressure_range(
        cylinder,
        opens,
        toll * drag.opening_n,
        toll * drag.shutting_n,
        toll * strut.permitted_n,
        margin=spec.margin,
        supply_bar=supply,
    )
    return Load(cylinder, opens, drag, moving, strut, found, toll)


def air_cylinder(spec: GateBracketSpec) -> Cylinder:
    """The cylinder as the mechanics know it."""
    given, spring = spec.cylinder, spec.cylinder.spring
    if spring is None:
        return Cylinder(given.bore_mm, given.rod_mm, given.stroke_mm)
    moves: Literal["in", "out"] = spring.drives
    return Cylinder(given.bore_mm, given.rod_mm, given.stroke_mm, (spring.least_n, spring.greatest_n), moves)


def _moving_kg(spec: GateBracketSpec, blade_long_mm: float) -> float:
    """Blade and rod."""
    blade, cylinder = spec.gate.blade, spec.cylinder
    long = cylinder.stroke_mm + cylinder.rod_stub_mm + cylinder.rod_thread_long_mm + THREAD_MM
    rod = math.pi * cylinder.rod_mm**2 / 4 * long * STEEL_KG_MM3
    return blade_mass_kg(blade.width_mm, blade_long_mm, blade.thickness_mm, blade.density_g_cm3) + rod


def _drag(spec: GateBracketSpec, moving_kg: float) -> Drag:
    """As read with a spring balance (weight and dirt are in the reading), else from suction and friction."""
    gate = spec.gate
    if gate.drag_n is not None:
        return Drag(gate.drag_n, 0.0, spec.mounted)
    return blade_drag(gate.suction_pa, gate.port.d_mm, moving_kg, spec.mounted, gate.friction, gate.dirt)
