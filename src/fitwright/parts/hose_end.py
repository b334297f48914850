"""Ends for wire-ribbed hose: the helical ridge that fits its ribs, and the lug that its wire is bonded to."""

from __future__ import annotations

import math

from fitwright.errors import RefusalError
from fitwright.physics.bond_room import channel_depth_mm, channel_width_mm
from fitwright.physics.ridge_room import (
    CLEAR_MM,
    LEAST_TURNS,
    RidgeSection,
    least_pitch_mm,
    ridge_section,
    run_mm,
    turns_in,
)
from fitwright.shapes.bond import BondSizes
from fitwright.shapes.hose_tail import HoseTailSizes
from fitwright.shapes.joint import lead_run
from fitwright.shapes.ridge import RidgeSizes, Trapezoid
from fitwright.spec.joints import Ridge
from fitwright.spec.models import HoseTail, Socket

LAND_MM = 15.0
SEAM_DEG = 90.0
"""Round faces begin and end at the frame's right: a run-out that met that seam would leave a sliver."""


def tail_land_mm(joint: HoseTail) -> float:
    """The plain land that the tail's hose clamp needs [mm]; 0 without one."""
    return max(LAND_MM, joint.band_mm + 2.0) if joint.band_mm else 0.0


def tail_ridge(joint: HoseTail, sizes: HoseTailSizes, key: str) -> RidgeSizes | None:
    """The ridge on a hose tail: from the mouth's ramp to the hose stop, or to the clamp's land where there is one."""
    if joint.ridge is None:
        return None
    key = f"{key}.hose_tail"
    section = _section(joint.ridge, key)
    front, land = sizes.land_from, tail_land_mm(joint)
    turns = _turns(joint.ridge, section, joint.depth_mm, front + land, key)
    avoid = (SEAM_DEG, joint.bond.at_deg) if joint.bond else (SEAM_DEG,)
    return _placed(joint.ridge, section, sizes.outside_d / 2, turns, front, 1, avoid)


def socket_ridge(joint: Socket, bore_d: float, lead_in_mm: float, key: str) -> RidgeSizes | None:
    """The ridge inside a socket, from its lead-in to its stop."""
    if joint.ridge is None:
        return None
    key = f"{key}.socket"
    section, front = _section(joint.ridge, key), lead_run(lead_in_mm)
    turns = _turns(joint.ridge, section, joint.depth_mm, front, key)
    return _placed(joint.ridge, section, bore_d / 2, turns, front, -1, (SEAM_DEG,))


def _section(ridge: Ridge, key: str) -> RidgeSection:
    """The ridge's section; refused where it finds no room between two ribs."""
    section = ridge_section(ridge.wire_mm, ridge.height_mm)
    need = least_pitch_mm(section, ridge.wire_mm)
    if ridge.pitch_mm < need - 1e-9:
        raise RefusalError(
            f"{key}.ridge.pitch",
            f"{ridge.pitch_mm:.2f} mm",
            f"{need:.2f} mm or more (or a smaller height or wire)",
            f"the ridge's foot of {section.foot_mm:.2f} mm finds no room beside a rib of {ridge.wire_mm:.2f} mm",
        )
    return section


def _turns(ridge: Ridge, section: RidgeSection, depth: float, taken: float, key: str) -> float:
    """The turns asked for, or as many as there is room for; refused with the depth that works."""
    fits = turns_in(section, ridge.pitch_mm, depth - taken)
    wanted = LEAST_TURNS if ridge.turns is None else ridge.turns
    if fits < wanted - 1e-9:
        need = math.ceil(10.0 * (taken + run_mm(section, ridge.pitch_mm, wanted)) - 1e-6) / 10.0
        few = f"{max(fits, 0.0):.2f} turns of the ridge fit, {wanted:g} {'are wanted' if ridge.turns else 'at least'}"
        raise RefusalError(f"{key}.depth", f"{depth:.1f} mm", f"{need:.1f} mm or more, or auto", few)
    return fits if ridge.turns is None else ridge.turns


def _placed(
    ridge: Ridge,
    section: RidgeSection,
    radius: float,
    turns: float,
    front: float,
    side: int,
    avoid_deg: tuple[float, ...],
) -> RidgeSizes:
    s0 = front + CLEAR_MM + section.foot_mm / 2
    first = _first_deg(360.0 * turns * (1.0 if ridge.hand == "right" else -1.0), avoid_deg)
    shape = Trapezoid(section.height_mm, section.crest_mm)
    return RidgeSizes(radius, shape, ridge.pitch_mm, ridge.hand, turns, s0, math.radians(first), side)


def _first_deg(whole_deg: float, avoid_deg: tuple[float, ...]) -> float:
    """Where the ridge begins, so that both its run-outs keep as far as they can from the places to avoid."""

    def apart(first: float) -> float:
        ends = (first, first + whole_deg)
        return min(abs((end - place + 180.0) % 360.0 - 180.0) for end in ends for place in avoid_deg)

    return max((10.0 * k for k in range(36)), key=lambda first: (round(apart(first), 6), -first))


def bond_sizes(joint: HoseTail, sizes: HoseTailSizes, wall_mm: float, pilot_d_mm: float, key: str) -> BondSizes | None:
    """Channel, lug and pilot; refused where the wall under the channel leaves no passage."""
    bond = joint.bond
    if bond is None:
        return None
    made = BondSizes(
        deep=channel_depth_mm(bond.wire_mm),
        wide=channel_width_mm(bond.wire_mm),
        major=bond.major_mm,
        pilot_d=pilot_d_mm,
        seat_d=bond.seat_d_mm,
        at_deg=bond.at_deg,
        wall=wall_mm,
        r=sizes.outside_d / 2,
        passage_r=sizes.passage_r,
        depth=sizes.depth,
    )
    key = f"{key}.hose_tail.bond"
    if made.foot_r < made.passage_r + wall_mm / 2:
        why = f"a lug {made.across:.1f} mm wide finds no footing on a tail of {sizes.outside_d:.1f} mm"
        raise RefusalError(f"{key}.screw", bond.screw, "a smaller screw", why)
    return made
