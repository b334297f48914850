"""The statics of a cylinder beside the gate: thrust, guide rod, piston rod and yoke at running force and stall."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.errors import RefusalError
from fitwright.parts.gate.alongside_collar import Collar
from fitwright.parts.gate.alongside_guide import BUSH_FRICTION, GuidePlan, running_drag_n
from fitwright.parts.gate.coupling_plan import ACROSS_MM
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_strength import stall_n
from fitwright.physics.slide.beside import Yoke, yoke_gives
from fitwright.physics.slide.bridge import Bridge, bare_rod, bent_guide, equal_side_n, permitted_side_n
from fitwright.physics.slide.frames import LIMIT_DEG, LIMIT_MM, POISSON, Movement
from fitwright.physics.slide.jamming import PERMITTED_RATIO, Drawer
from fitwright.spec.models import GateBracketSpec
from fitwright.units import format_length

ASIDE_MM = ACROSS_MM / 2
"""So far the blade's pin may wander in the coupling."""
BARS_MM = (8.0, 10.0, 12.0, 14.0, 16.0, 18.0, 20.0, 25.0, 30.0)
"""Diameters that plain steel bar is sold in (common practice, no source)."""
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


def statics(
    plan: GatePlan, spec: GateBracketSpec, yoke: Yoke, guide: GuidePlan | None, collar: Collar | None
) -> Statics:
    """All of it; the yoke's modulus is what a lasting load leaves of the material's."""
    drag, out = running_drag_n(plan, spec), spec.cylinder.rod_stub_mm + spec.cylinder.stroke_mm
    bridge = None if guide is None else Bridge(guide.offset_mm, guide.apart_mm, guide.bush_mm, BUSH_FRICTION)
    thrust = drag * (bridge.thrust_over_drag if bridge else 1.0)
    yoke = Yoke(**{**vars(yoke), "modulus_mpa": spec.material.lasting_modulus_mpa})
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


def guide_bends(plan: GatePlan, d_mm: float | None = None) -> tuple[float, float]:
    """Aside [mm] and tilt [deg] of the bush, open, at running force; of a bar of `d_mm` in its place.

    The bar's own bending (as 1 / d^4), and the turn of its root over its length.
    """
    assert plan.beside is not None and plan.beside.guide is not None
    found, guide = plan.beside.statics, plan.beside.guide
    share = (guide.d_mm / (d_mm or guide.d_mm)) ** 4
    aside = share * found.guide.aside_mm + math.radians(found.root_deg) * guide.free_mm(plan.moved_mm)
    return aside, share * found.guide.tilt_deg + found.root_deg


def will_do(plan: GatePlan, d_mm: float | None = None) -> bool:
    """Whether the guide rod bends no further than the coupling has room, and tilts no more than is allowed."""
    aside, tilt = guide_bends(plan, d_mm)
    return aside <= ASIDE_MM and tilt <= LIMIT_DEG


def refuse_bent_guide(plan: GatePlan, spec: GateBracketSpec) -> None:
    """Refuses a guide rod that bends too far."""
    if will_do(plan):
        return
    found, say = spec.guide_d_mm, spec.units
    aside, tilt = guide_bends(plan)
    why = f"open it gives way by {aside:.2f} mm and {tilt:.2f} deg at running force"
    why += f" ({ASIDE_MM:g} and {LIMIT_DEG:g} are allowed)"
    enough = next((d for d in BARS_MM if d > found and will_do(plan, d)), None)
    works = f"diameter {format_length(enough, say)}" if enough else "layout: in_line, or a guided cylinder"
    raise RefusalError("second_guide", f"diameter {format_length(found, say)}", works, why)


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
