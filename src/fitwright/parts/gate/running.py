"""What a gate takes and its cylinder gives, before anything is built: drag, regulator, thrust at its setting."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.slide.buckling import Strut
from fitwright.physics.slide.chain import Ends
from fitwright.physics.slide.drag import Drag, blade_drag, blade_mass_kg
from fitwright.physics.slide.regulator import PressureRange, pressure_range
from fitwright.physics.slide.thrust import Cylinder, Way
from fitwright.spec.models import GateBracketSpec

BAR_PER_MPA = 10.0
STEEL_KG_MM3 = 7.85e-6
PISTON_MM = 20.0
"""The piston counts as so much more rod (common practice, no source)."""


@dataclass(frozen=True)
class Running:
    """Forces in N, pressures in bar. `opens`: the way the rod goes when the gate opens."""

    cylinder: Cylinder
    opens: Way
    drag: Drag
    range: PressureRange
    moving_kg: float

    @property
    def shuts(self) -> Way:
        """The rod's other way."""
        return "out" if self.opens == "in" else "in"

    @property
    def setting_bar(self) -> float:
        """What the regulator is set to; where nothing will do, the least pressure or the supply's."""
        if self.range.setting_bar is not None:
            return self.range.setting_bar
        return min(self.range.least_bar, self.range.supply_bar)

    @property
    def force_n(self) -> float:
        """The greater stalled thrust of both ways at the setting."""
        return max(self.cylinder.stall_n(way, self.setting_bar) for way in (self.opens, self.shuts))


def running(spec: GateBracketSpec, at: Ends, blade_long_mm: float, printed_kg: float) -> Running:
    """All of it; `printed_kg`: what of the bracket moves."""
    blade, opens = spec.gate.blade, _opens(spec)
    cylinder = air_cylinder(spec)
    moving = printed_kg + _bought_kg(spec, blade_long_mm)
    drag = _drag(spec, moving)
    strut = Strut(blade.width_mm, blade.thickness_mm, at.blade_open_mm, blade.modulus_mpa)
    found = pressure_range(
        cylinder,
        opens,
        drag.opening_n,
        drag.shutting_n,
        strut.permitted_n,
        margin=spec.margin,
        supply_bar=spec.pressure_mpa * BAR_PER_MPA,
    )
    return Running(cylinder, opens, drag, found, moving)


def air_cylinder(spec: GateBracketSpec) -> Cylinder:
    """The cylinder as the mechanics know it."""
    given, spring = spec.cylinder, spec.cylinder.spring
    forces = (spring.least_n, spring.greatest_n) if spring else None
    return Cylinder(given.bore_mm, given.rod_mm, given.stroke_mm, forces, spring.drives if spring else "in")


def _opens(spec: GateBracketSpec) -> Way:
    return "in" if spec.layout == "in_line" else "out"


def _bought_kg(spec: GateBracketSpec, blade_long_mm: float) -> float:
    """Blade, rod and piston."""
    blade, bought = spec.gate.blade, spec.cylinder
    long = bought.stroke_mm + bought.rod_stub_mm + bought.rod_thread_long_mm + PISTON_MM
    rod = math.pi * bought.rod_mm**2 / 4 * long * STEEL_KG_MM3
    return blade_mass_kg(blade.width_mm, blade_long_mm, blade.thickness_mm, blade.density_g_cm3) + rod


def _drag(spec: GateBracketSpec, moving_kg: float) -> Drag:
    """As read with a spring balance (weight and dirt are in the reading), else from suction and friction."""
    gate = spec.gate
    if gate.drag_n is not None:
        return Drag(gate.drag_n, 0.0, spec.mounted)
    return blade_drag(gate.suction_pa, gate.port.d_mm, moving_kg, spec.mounted, gate.friction, gate.dirt)
