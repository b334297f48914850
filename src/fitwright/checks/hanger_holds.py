"""What each screw, bolt, nut, rod or tie of a hanger bears until something gives, in wood, channel, thread, print."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.data.channel_nuts import slot_nut, strut_nut
from fitwright.data.fasteners import fastener
from fitwright.data.woods import wood, wood_screw
from fitwright.hanging import HeldBy
from fitwright.physics.machine_screws import HeadOnPrint, HoleInPrint, rod_tension_n, stress_area_mm2
from fitwright.physics.wood import SHEAR_SHARE, Hold, Kind, Screw, Timber
from fitwright.physics.wood_joint import PlateAtScrew, depth, hold_in_wood
from fitwright.spec.hanger import HoseHangerSpec
from fitwright.spec.part_base import Material

CLASS = "4.8"
"""Strength of a machine screw of which nothing is known (ISO 898-1)."""
ROD_CLASS = "4.6"
"""Unmarked rod from a shop, the weakest class that is sold."""
TIE_MPA = 37.0
"""A nylon cable tie over its section: 4.8 x 1.3 mm is sold for 220 N, 7.6 x 1.9 mm for 540 N (from memory)."""


@dataclass(frozen=True)
class Holds:
    """What it bears, and in words what that rests on."""

    hold: Hold
    words: str


def what_holds(one: HeldBy, thick_mm: float, edge_mm: float, spec: HoseHangerSpec) -> Holds:
    """Of one fixing that goes through `thick_mm` of print, `edge_mm` from the print's edge; DataError: not known."""
    if one.into == "wood":
        return _in_wood(one, thick_mm, edge_mm, spec.material)
    if one.into == "tie":
        force = TIE_MPA * spec.mount.tie_wide_mm * spec.mount.tie_thick_mm
        return Holds(Hold(force, force, force, force), f"a nylon tie of {force:.0f} N (from memory)")
    row = fastener(one.size)
    area = stress_area_mm2(row.major_mm, row.pitch_mm or 0.2 * row.major_mm)
    steel = rod_tension_n(area, ROD_CLASS if one.into == "rod" else CLASS)
    head, side = _head_n(one, thick_mm, spec.material), _print_n(one, thick_mm, edge_mm, spec.material)
    if one.into in ("channel", "slot"):
        nut = strut_nut(row.name) if one.into == "channel" else slot_nut(row.name, spec.mount.slot_mm or 0.0)
        hold = Hold(nut.failure_n, steel, min(side, nut.slips_n), SHEAR_SHARE * steel, head)
        return Holds(hold, f"{nut.name} nut at {nut.torque_nm:g} N m ({nut.status})")
    if one.into == "rod":
        return Holds(Hold(steel, steel, side, SHEAR_SHARE * steel, head), f"{one.size} rod of class {ROD_CLASS}")
    words = f"{one.size} of class {CLASS} in a metal thread at least {row.major_mm:.0f} mm deep (assumed: look at it)"
    return Holds(Hold(steel, steel, side, SHEAR_SHARE * steel, head), words)


def _in_wood(one: HeldBy, thick_mm: float, edge_mm: float, material: Material) -> Holds:
    row, timber = wood_screw(one.size), wood(one.wood or "spruce")
    kind: Kind = "lag" if row.kind == "coach" else "wood"
    screw = Screw(kind, row.major_mm, row.core_mm, row.tensile_mpa, row.bending_mpa)
    plank = Timber(timber.gravity, timber.withdrawal_share, timber.kind == "chipboard")
    deep = depth(one.grip_mm + thick_mm, thick_mm, 0.0, row.tip_mm, one.deep_mm or timber.board_mm)
    bears = max(one.washer_d_mm, one.d_mm)
    plate = PlateAtScrew(max(thick_mm, 0.1), one.hole_d_mm or one.d_mm, bears, material.strength_across_mpa)
    found = hold_in_wood(screw, plank, deep, plate)
    hold = replace(found, side_n=min(found.side_n, _print_n(one, thick_mm, edge_mm, material)))
    return Holds(
        hold, f"screw {one.size}, {deep.in_wood_mm:.0f} mm deep in {timber.name}, {deep.thread_mm:.0f} mm of it thread"
    )


def _head_n(one: HeldBy, thick_mm: float, material: Material) -> float:
    """What pulls its head through the print, whose layers lie across the rim on two of its sides."""
    if one.washer_d_mm <= 0.0:
        return math.inf
    hole = one.hole_d_mm or one.d_mm
    return HeadOnPrint(one.washer_d_mm, hole, max(thick_mm, 0.1)).pulls_through_n(material.strength_across_mpa)


def _print_n(one: HeldBy, thick_mm: float, edge_mm: float, material: Material) -> float:
    """What pushes it out of the print's edge, or crushes its hole."""
    hole = one.hole_d_mm or one.d_mm
    found = HoleInPrint(one.d_mm, hole, max(edge_mm, hole / 2), max(thick_mm, 0.1))
    return found.tears_out_n(material.strength_across_mpa)
