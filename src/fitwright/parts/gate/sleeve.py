"""The sleeve on the rod that takes up what the stroke is longer than the travel."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid, Vector

from fitwright.data.nuts import nut
from fitwright.part import Body, Feature, HoleFit, Pose
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.gate.piece import Piece, body_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.physics.slide.coupling import ring_mm2
from fitwright.spec.gate_coupling import (
    JAM_ROOM_MM,
    ROD_LOOSE_MM,
    SLEEVE_LEAST_WALL_MM,
    WASHER_FACE,
    nose_end_mm,
    rod_in_n,
    rod_washer,
    sleeve_outside_mm,
)
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

LEAST_LONG_MM = 3.0
"""Shorter than this washers do better."""
STANDING = (Pose("standing", (0.0, -1.0, 0.0)),)
OVER = TOLERANCES.overshoot_mm


@dataclass(frozen=True)
class SleeveSizes:
    """As printed, mm: where it stands shut (y), its length, bore and outside."""

    y0: float
    long_mm: float
    bore_mm: float
    outside_mm: float


def sleeve_sizes(plan: GatePlan, spec: GateBracketSpec) -> SleeveSizes | None:
    """The sleeve's sizes; None where none is printed.

    It rides with the rod, against the jam nut (or the washer on it), whose face stands JAM_ROOM_MM short of the
    shoulder: so much longer is it than from shoulder to nose.
    """
    if plan.stop != "sleeve" or plan.ends.sleeve_mm < LEAST_LONG_MM:
        return None
    long = plan.ends.sleeve_mm + JAM_ROOM_MM
    nut_face = plan.shoulder_shut_mm - plan.way * JAM_ROOM_MM
    y0 = nut_face if plan.way > 0 else nut_face - long
    return SleeveSizes(y0, long, spec.cylinder.rod_mm + ROD_LOOSE_MM, sleeve_outside_mm(spec))


def sleeve_mpa(spec: GateBracketSpec) -> float:
    """Pressure [MPa] by the stalled cylinder on the sleeve's more loaded end: at the nose, or at jam nut or washer.

    What bears it for good is a quarter of the print's strength.
    """
    bore, outside = spec.cylinder.rod_mm + ROD_LOOSE_MM, sleeve_outside_mm(spec)
    washer_h, washer_d = rod_washer(spec)
    on_nut = washer_d if washer_h else WASHER_FACE * nut(spec.cylinder.rod_thread, "thin").af_mm
    return rod_in_n(spec) / min(ring_mm2(min(outside, wide), bore) for wide in (nose_end_mm(spec), on_nut))


def sleeve_bodies(plan: GatePlan, spec: GateBracketSpec) -> tuple[Body, ...]:
    """The sleeve; none where none is asked for, or where it would be so short that washers do better."""
    sizes = sleeve_sizes(plan, spec)
    if sizes is None:
        return ()
    x, start = plan.axis_x_mm, (plan.axis_x_mm, sizes.y0, 0.0)
    outer = modelled(sizes.outside_mm, "outside", spec.printer) / 2
    bore = small_hole(sizes.bore_mm, spec.printer)
    tool = Solid.makeCylinder(bore / 2, sizes.long_mm + 2 * OVER, Vector(x, sizes.y0 - OVER, 0.0), Vector(0, 1, 0))
    tube = Solid.makeCylinder(outer, sizes.long_mm, Vector(*start), Vector(0, 1, 0)).cut(tool)
    piece = Piece(
        name="sleeve",
        solid=tube.Solids()[0],
        genus=1,
        volume_mm3=math.pi * (outer**2 - bore**2 / 4) * sizes.long_mm,
        features=(Feature("sleeve bore", "cut", tool),),
        holes=(HoleFit("sleeve bore", start, (0.0, 1.0, 0.0), sizes.long_mm, bore, "cylinder.rod"),),
    )
    return (body_of(piece, min(spec.wall_mm, SLEEVE_LEAST_WALL_MM - 0.2), STANDING, moving=True),)
