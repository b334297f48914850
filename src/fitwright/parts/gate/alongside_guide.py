"""The second guide: a plain steel bar in the yoke, and a printed bush in the bridge that slides on it.

The bar lies in a V along the yoke's plate, pressed into it by two screws from above through nuts that were slid in from
the front: a V leaves no play, and nothing must be drilled to size.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.data.nuts import nut
from fitwright.data.spanners import spanner
from fitwright.errors import DataError
from fitwright.parts.compensation import modelled
from fitwright.parts.gate.blocks import Point, Span
from fitwright.parts.gate.nose_hold import Hold, SquareHold, ThreadHold
from fitwright.parts.gate.plan import GatePlan
from fitwright.physics.slide.bridge import JAM_MARGIN
from fitwright.physics.slide.drag import blade_drag, blade_mass_kg
from fitwright.physics.slide.thrust import Cylinder
from fitwright.spec.gate_coupling import sleeve_outside_mm
from fitwright.spec.models import GateBracketSpec

if TYPE_CHECKING:
    from fitwright.parts.gate.alongside_bridge_plan import BridgePlan

SEAT_LONG = 2.5
"""Of the bar in the yoke, in its diameters (common practice, no source)."""
LOOSE_MM = 0.25
"""Round the bar beside and above it; the V's flanks touch it."""
SCREW = "M5"
NUT_ROOM_MM, NUT_LOOSE_MM, OVER_SEAT_MM = 0.4, 0.3, 3.0
"""Round a nut in its slot across flats; above it; between seat and slot."""
FRONT_MM = 6.5
"""The first screw from the yoke's front."""
BUSH_FRICTION = 0.25
"""Printed bush, dry on a bright steel bar (common practice: 0.2 to 0.3; grease makes it less)."""
BUSH_LOOSE_MM = 0.3
"""The bush's bore over the bar, as printed."""
BUSH_WALL_MM, HOUSING_MM = 3.0, 4.0
GLUE_MM = 0.2
"""The bridge's bore over the bush: room for glue."""
BRIDGE_KG = 0.25
"""What bridge, coupling and rod weigh, roughly."""
LEAST_BUSH_MM, MOST_BUSH_MM = 45.0, 78.0
"""A longer one would be knocked off the bed as it prints."""
TOLLS = (1.6, 2.5)
"""The bush is made so long that it makes no more than the second of the blade's drag, and less where the thrust asks
for it, but not less than the first."""
BEYOND_MM = 5.0
"""The bar goes on beyond the bush, open."""
CLEAR_MM = 1.5


@dataclass(frozen=True)
class GuidePlan:
    """As modelled but for `d_mm`; y shut. The bar from `y0` to `y1`, the bush's bore and outside, `housing_mm` half.

    `offset_mm`: cylinder to blade's middle (e), `apart_mm`: cylinder to bar (g), towards the blade.
    """

    x_mm: float
    d_mm: float
    y0: float
    y1: float
    bush_y: Span
    bush_in_mm: float
    bush_out_mm: float
    housing_mm: float
    bore_mm: float
    offset_mm: float
    apart_mm: float
    screw: FastenerRow
    screws_y: tuple[float, float]
    front_y: float
    seat: tuple[Point, ...]
    slot_x: Span
    slot_y: Span
    slot_z: Span

    @property
    def bush_mm(self) -> float:
        """Length of the bush."""
        return self.bush_y[1] - self.bush_y[0]

    def free_mm(self, opened_mm: float) -> float:
        """From the yoke's front to the middle of the bush, so far open."""
        return (self.bush_y[0] + self.bush_y[1]) / 2 + opened_mm - self.front_y

    def reaching(self, bridge: BridgePlan, plan: GatePlan) -> GuidePlan:
        """The bar as long as the whole travel needs: whole mm."""
        least = max(self.bush_y[1], bridge.housing_y[1]) + plan.moved_mm + BEYOND_MM - self.y0
        return replace(self, y1=self.y0 + math.ceil(least))


def seat_long_mm(spec: GateBracketSpec) -> float:
    """How deep the yoke is at least."""
    return max(SEAT_LONG * spec.guide_d_mm + 1.0, 25.0)


def seat_half_mm(spec: GateBracketSpec) -> float:
    """Half the width of the seat."""
    return modelled(spec.guide_d_mm + 2 * LOOSE_MM, "hole", spec.printer) / 2


def apart_mm(spec: GateBracketSpec, hold: Hold) -> float:
    """Cylinder to guide rod, as near as housing, sleeve, jam nut's spanner and nose nut let it be."""
    housing, r = housing_half_mm(spec), spec.guide_d_mm / 2
    jam = spec.cylinder.rod_mm
    try:
        jam = spanner(nut(spec.cylinder.rod_thread, "thin").af_mm).head_usual_mm / 2
    except DataError:
        pass
    bears = hold.bears_mm / 2 if isinstance(hold, ThreadHold) else 0.0
    return max(housing + sleeve_outside_mm(spec) / 2, housing + jam, r + bears) + CLEAR_MM


def housing_half_mm(spec: GateBracketSpec) -> float:
    """Half the width of the bridge where it holds the bush."""
    return bush_bore_mm(spec) / 2 + HOUSING_MM


def bush_bore_mm(spec: GateBracketSpec) -> float:
    """The bridge's bore for the bush, as modelled."""
    return modelled(_bush_out_mm(spec) + GLUE_MM, "hole", spec.printer)


def _bush_out_mm(spec: GateBracketSpec) -> float:
    return spec.guide_d_mm + BUSH_LOOSE_MM + 2 * BUSH_WALL_MM


def least_bush_mm(offset_mm: float, apart: float, toll: float, mu: float = BUSH_FRICTION) -> float:
    """So long that thrust over drag, 1 + 2 mu e / (B - 2 mu g), is `toll` at most, and twice what jams; whole mm.

    >>> least_bush_mm(90.0, 24.0, 2.0, 0.3)
    69.0
    """
    asked = 2.0 * mu * offset_mm / (toll - 1.0) + 2.0 * mu * apart
    least = max(LEAST_BUSH_MM, JAM_MARGIN * 2.0 * mu * apart)
    return float(math.ceil(max(least, min(asked, MOST_BUSH_MM)) - 1e-9))


def permitted_toll(plan: GatePlan, spec: GateBracketSpec) -> float:
    """What the bush's friction may make of the blade's drag: what the weaker way's thrust leaves, between TOLLS."""
    bought, spring = spec.cylinder, spec.cylinder.spring
    if spring is not None:
        return TOLLS[0]
    given = Cylinder(bought.bore_mm, bought.rod_mm, bought.stroke_mm).usable_n("in", 10.0 * spec.pressure_mpa)
    need = spec.margin * running_drag_n(plan, spec)
    return min(TOLLS[1], max(TOLLS[0], given / need)) if need > 0.0 else TOLLS[1]


def running_drag_n(plan: GatePlan, spec: GateBracketSpec) -> float:
    """What holds the blade back [N], as read, or from suction, friction and weight."""
    gate, blade = spec.gate, spec.gate.blade
    if gate.drag_n is not None:
        return gate.drag_n
    mass = blade_mass_kg(blade.width_mm, plan.blade_long_mm, blade.thickness_mm, blade.density_g_cm3) + BRIDGE_KG
    return blade_drag(gate.suction_pa, gate.port.d_mm, mass, spec.mounted, gate.friction, gate.dirt).greatest_n


def guide_plan(plan: GatePlan, spec: GateBracketSpec, x: float, hold: Hold) -> GuidePlan:
    """Seat, screws and bush; the bar's length is not known yet."""
    printer, row, frame = spec.printer, fastener(SCREW), plan.frame
    offset, apart = -plan.axis_x_mm, x - plan.axis_x_mm
    front, r = frame.yoke_y1, modelled(spec.guide_d_mm, "hole", printer) / 2
    half, bush = seat_half_mm(spec), _bush_y(plan, spec, hold, apart)
    z0 = half + OVER_SEAT_MM
    nut_half = modelled((row.nut_af_mm or 8.0) + NUT_ROOM_MM, "hole", printer) / 2
    corner = (row.nut_af_mm or 8.0) / math.sqrt(3.0) + NUT_LOOSE_MM
    screws = (front - FRONT_MM, frame.yoke_y0 + corner + FRONT_MM / 2)
    return GuidePlan(
        x_mm=x,
        d_mm=spec.guide_d_mm,
        y0=frame.yoke_y0,
        y1=frame.yoke_y0,
        bush_y=(bush, bush + least_bush_mm(offset, apart, permitted_toll(plan, spec))),
        bush_in_mm=modelled(spec.guide_d_mm + BUSH_LOOSE_MM, "hole", printer),
        bush_out_mm=modelled(_bush_out_mm(spec), "outside", printer),
        housing_mm=housing_half_mm(spec),
        bore_mm=bush_bore_mm(spec),
        offset_mm=offset,
        apart_mm=apart,
        screw=row,
        screws_y=screws,
        front_y=front,
        seat=seat_outline(x, r, half),
        slot_x=(x - nut_half, x + nut_half),
        slot_y=(screws[1] - corner, front),
        slot_z=(z0, z0 + (row.nut_m_mm or 5.0) + NUT_LOOSE_MM),
    )


def seat_outline(x: float, r: float, half: float) -> tuple[Point, ...]:
    """A house upside down in (x, z), its ridge cut off: its V touches a bar of radius r about (x, 0)."""
    low = -r - LOOSE_MM
    side, foot = half - r * math.sqrt(2.0), r * math.sqrt(2.0) + low
    return ((x - half, half), (x - half, side), (x - foot, low), (x + foot, low), (x + half, side), (x + half, half))


def _bush_y(plan: GatePlan, spec: GateBracketSpec, hold: Hold, apart: float) -> float:
    """Where the bush begins, shut: before the blade's edge and the nose nut or screws' heads, or beside the nut."""
    least = max(plan.frame.yoke_y1 + 2.0, plan.ends.blade_shut_mm + 2.0)
    if isinstance(hold, ThreadHold):
        if apart >= housing_half_mm(spec) + hold.bears_mm / 2 + CLEAR_MM:
            return least
        return max(least, plan.frame.yoke_y1 + hold.washer_h_mm + hold.nut_m_mm + CLEAR_MM)
    assert isinstance(hold, SquareHold)
    return max(least, plan.frame.yoke_y1 + hold.head_k_mm + hold.washer_h_mm + CLEAR_MM)
