"""The sleeve on the rod that takes up what the stroke is longer than the travel."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Solid, Vector

from fitwright.data.nuts import nut
from fitwright.data.thread_words import thread_named
from fitwright.part import Body, Feature, HoleFit, Pose
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.gate.piece import Piece, body_of
from fitwright.parts.gate.plan import GatePlan
from fitwright.physics.slide.coupling import ring_mm2
from fitwright.spec.gate_coupling import JAM_ROOM_MM, ROD_LOOSE_MM, WASHER_FACE, rod_in_n, rod_washer
from fitwright.spec.models import GateBracketSpec
from fitwright.tolerances import TOLERANCES

LEAST_LONG_MM = 3.0
"""Shorter than this washers do better."""
LEAST_WALL_MM, WALL_MM = 2.5, 5.0
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


def sleeve_outside_mm(spec: GateBracketSpec) -> float:
    """No wider than the nose that it strikes, where its wall then is thick enough."""
    bore = spec.cylinder.rod_mm + ROD_LOOSE_MM
    return min(max(_nose_mm(spec), bore + 2 * LEAST_WALL_MM), bore + 2 * WALL_MM)


def sleeve_mpa(spec: GateBracketSpec) -> float:
    """Pressure [MPa] by the stalled cylinder on the sleeve's more loaded end: at the nose, or at jam nut or washer.

    What bears it for good is a quarter of the print's strength.
    """
    bore, outside = spec.cylinder.rod_mm + ROD_LOOSE_MM, sleeve_outside_mm(spec)
    washer_h, washer_d = rod_washer(spec)
    on_nut = washer_d if washer_h else WASHER_FACE * nut(spec.cylinder.rod_thread, "thin").af_mm
    return rod_in_n(spec) / min(ring_mm2(min(outside, wide), bore) for wide in (_nose_mm(spec), on_nut))


def _nose_mm(spec: GateBracketSpec) -> float:
    """Outside of the nose's end: its thread's or its boss's; where neither is known, the wall alone decides."""
    cylinder = spec.cylinder
    if cylinder.nose_thread is not None:
        return thread_named(cylinder.nose_thread).major_mm
    return cylinder.boss_d_mm or cylinder.rod_mm + ROD_LOOSE_MM + 2 * WALL_MM


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
    return (body_of(piece, min(spec.wall_mm, LEAST_WALL_MM - 0.2), STANDING, moving=True),)
