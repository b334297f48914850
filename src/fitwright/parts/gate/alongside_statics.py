"""The statics of a cylinder beside the gate: what thrust, guide rod, piston rod and yoke do at running force and stall."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.errors import RefusalError
from fitwright.parts.gate.alongside_collar import Collar
from fitwright.parts.gate.alongside_guide import BUSH_FRICTION, GuidePlan
from fitwright.parts.gate.coupling_plan import ACROSS_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_strength import stall_n
from fitwright.physics.slide.beside import Yoke, yoke_gives
from fitwright.physics.slide.bridge import Bridge, bare_rod, bent_guide, equal_side_n, permitted_side_n
from fitwright.physics.slide.drag import blade_drag, blade_mass_kg
from fitwright.physics.slide.frames import LIMIT_DEG, LIMIT_MM, POISSON, Movement
from fitwright.physics.slide.jamming import PERMITTED_RATIO, Drawer
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

LASTING = 0.5
"""A plastic under lasting load gives about twice as much as at once (common practice, no source)."""
ASIDE_MM = ACROSS_MM / 2
"""So far the blade's pin may wander in the coupling."""
BARS_MM = (8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 25.0, 30.0)
"""Diameters that plain steel bar is sold in (common practice, no source)."""
BRIDGE_KG = 0.25
"""What bridge, coupling and rod weigh, roughly."""
ROD_YIELD_MPA = 350.0
"""A piston rod of plain carbon steel (from memory: 350 to 600)."""


@dataclass(frozen=True)
class Statics:
    """Running force: the blade's drag, and the thrust that moves it. `yoke`: how the nose gives way then.

    `root_deg`: how far the guide rod's root turns. `guide`: how the bar bends at the bush, open, its root's turn not
    counted. `couple_nmm`: on the guide rod, or on the piston rod where there is none.
    """

    drag_n: float
    thrust_n: float
    stall_n: float
    yoke: Movement
    root_deg: float
    bridge: Bridge | None
    couple_nmm: float
    guide: Movement

    def stiff(self, root_deg: float, nose_deg: float, nose_mm: float) -> bool:
        """Whether the yoke stays within these."""
        return self.root_deg <= root_deg and self.yoke.within(nose_mm, nose_deg)

    @property
    def thrust_over_drag(self) -> float:
        """What the bush's friction makes of the blade's drag."""
        return self.thrust_n / self.drag_n


def running_drag_n(plan: GatePlan, spec: GateBracketSpec) -> float:
    """As read, or from suction, friction and weight [N]."""
    gate, blade = spec.gate, spec.gate.blade
    if gate.drag_n is not None:
        return gate.drag_n
    mass = blade_mass_kg(blade.width_mm, plan.blade_long_mm, blade.thickness_mm, blade.density_g_cm3) + BRIDGE_KG
    return blade_drag(gate.suction_pa, gate.port.d_mm, mass, spec.mounted, gate.friction, gate.dirt).greatest_n


def statics(plan: GatePlan, spec: GateBracketSpec, yoke: Yoke, guide: GuidePlan | None, collar: Collar | None) -> Statics:
    """All of it; the yoke's modulus is taken as LASTING of the material's."""
    drag, out = running_drag_n(plan, spec), spec.cylinder.rod_stub_mm + spec.cylinder.stroke_mm
    bridge = guide and Bridge(guide.offset_mm, guide.apart_mm, guide.bush_mm, BUSH_FRICTION)
    thrust = drag * (bridge.thrust_over_drag if bridge else 1.0)
    yoke = Yoke(**{**vars(yoke), "modulus_mpa": LASTING * yoke.modulus_mpa})
    moved, root = yoke_gives(yoke, drag, thrust)
    if collar is not None:
        twist = math.degrees(collar.twist_rad(thrust, yoke.modulus_mpa / (2.0 * (1.0 + POISSON))))
        moved = replace(moved, tilt_deg=math.hypot(moved.tilt_deg, twist))
    couple = bridge.couple_nmm(drag) if bridge else -plan.axis_x_mm * drag
    if guide is not None:
        bent = bent_guide(couple, guide.d_mm, guide.free_mm(plan.moved_mm))
    else:
        bent = bare_rod(spec.cylinder.rod_mm, out, couple)
    return Statics(drag, thrust, stall_n(spec), moved, root, bridge, couple, bent)


def refuse_bent_guide(plan: GatePlan, spec: GateBracketSpec) -> None:
    """Refuses a guide rod that bends further than the coupling has room, or tilts more than is allowed.

    Aside at the bush, open: its own bending and its root's turn over its length.
    """
    assert plan.beside is not None
    found, guide = plan.beside.statics, plan.beside.guide
    assert guide is not None
    free, root = guide.free_mm(plan.moved_mm), math.radians(found.root_deg)

    def bends(d: float) -> tuple[float, float]:
        share = (guide.d_mm / d) ** 4
        return share * found.guide.aside_mm + root * free, share * found.guide.tilt_deg + found.root_deg

    def will_do(d: float) -> bool:
        aside, tilt = bends(d)
        return aside <= ASIDE_MM and tilt <= LIMIT_DEG

    if will_do(guide.d_mm):
        return
    say, (aside, tilt) = spec.units, bends(guide.d_mm)
    why = f"open it gives way by {aside:.2f} mm and {tilt:.2f} deg at running force ({ASIDE_MM:g} and {LIMIT_DEG:g} are"
    why += " allowed)"
    enough = next((d for d in BARS_MM if d > guide.d_mm and will_do(d)), None)
    works = f"diameter {format_length(enough, say)}" if enough else "layout: in_line, or a guided cylinder"
    raise RefusalError("second_guide", f"diameter {format_length(guide.d_mm, say)}", works, why)


def refuse_bare_rod(plan: GatePlan, spec: GateBracketSpec) -> None:
    """Refuses a bridge that nothing but the piston rod guides, where neither rod nor blade bears that."""
    assert plan.beside is not None
    found, offset = plan.beside.statics, -plan.axis_x_mm
    out = spec.cylinder.rod_stub_mm + spec.cylinder.stroke_mm
    drawer = Drawer(offset, max(plan.engaged_open_mm, 1e-6), plan.moved_mm, spec.gate.friction)
    if drawer.worst_ratio <= PERMITTED_RATIO:
        return
    stalled = bare_rod(spec.cylinder.rod_mm, out, found.stall_n * offset)
    side = equal_side_n(found.couple_nmm, out)
    if found.guide.within() and stalled.stress_mpa <= ROD_YIELD_MPA and side <= permitted_side_n(found.stall_n):
        return
    jams = drawer.jams_at_mm
    where = f"jams at {jams:.0f} of {plan.moved_mm:.0f} mm" if jams is not None else "drags more than double"
    why = (
        f"pulled {format_length(offset, spec.units)} beside its middle the blade {where} (2 mu e / L is "
        f"{drawer.worst_ratio:.1f}, {PERMITTED_RATIO:g} is allowed), or the rod bends by {found.guide.aside_mm:.1f} mm "
        f"and {found.guide.tilt_deg:.1f} deg ({LIMIT_MM:g} and {LIMIT_DEG:g} are), {stalled.stress_mpa:.0f} MPa stalled"
    )
    works = "yes; or a cylinder on each side, a guided cylinder, or layout: in_line"
    raise RefusalError("second_guide", "no", works, why)
