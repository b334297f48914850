"""A hanger's plate screwed to wood: how deep a screw goes, and what it holds there altogether.

Lengths in mm, forces in N, stresses in MPa. Puts together `wood` (pulled), `wood_shear` (pushed aside) and
`machine_screws` (its head on the print).
"""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.physics.machine_screws import HeadOnPrint
from fitwright.physics.wood import Grain, Hold, Screw, Timber, pull_out_n
from fitwright.physics.wood_shear import SideJoint, wood_bearing_mpa

THREADED_SHARE = 2.0 / 3.0
"""Thread over length of a wood screw (Wood Handbook, chapter 8; a civil engineering reference says the same)."""
LEAST_PENETRATION = 6.0
"""In the wood at least, in diameters (NDS 2018, 12.1.5.6: 6 D; from memory)."""
_FAR_MM = 1e-6


@dataclass(frozen=True)
class PlateAtScrew:
    """The print at one screw: its thickness there, the hole, the head or washer on it, and what the print bears.

    `strength_mpa`: tensile, in the weaker direction that counts; it is also what the hole's side bears.
    """

    thickness_mm: float
    hole_mm: float
    head_mm: float
    strength_mpa: float
    washer_mm: float = 0.0


@dataclass(frozen=True)
class Depth:
    """How deep a screw is in the wood [mm]: altogether, its thread, and how far it would stick out behind."""

    in_wood_mm: float
    thread_mm: float
    out_behind_mm: float


def depth(
    long_mm: float, plate_mm: float, washer_mm: float = 0.0, tip_mm: float = 0.0, wood_mm: float | None = None
) -> Depth:
    """Depth of a screw of `long_mm` through plate and washer; `wood_mm`: the wood's thickness, None where it is deep.

    >>> depth(60.0, 8.0)
    Depth(in_wood_mm=52.0, thread_mm=40.0, out_behind_mm=0.0)
    """
    into = max(0.0, long_mm - plate_mm - washer_mm)
    inside = into if wood_mm is None else min(into, wood_mm)
    behind = into - inside
    unthreaded = max(0.0, (1.0 - THREADED_SHARE) * long_mm - plate_mm - washer_mm)
    thread = max(0.0, inside - unthreaded - max(0.0, tip_mm - behind))
    return Depth(inside, thread, behind)


def least_length_mm(major_mm: float, plate_mm: float, washer_mm: float = 0.0, tip_mm: float = 0.0) -> float:
    """The shortest screw [mm] that goes LEAST_PENETRATION diameters in, its point not counted.

    >>> least_length_mm(5.0, 8.0)
    38.0
    """
    return LEAST_PENETRATION * major_mm + plate_mm + washer_mm + tip_mm


def hold_in_wood(
    screw: Screw, timber: Timber, deep: Depth, plate: PlateAtScrew, grain: Grain = "side", across: bool = True
) -> Hold:
    """What one screw bears until something gives, pulled and pushed aside.

    `across`: the sideways force is across the grain of the wood (a hanger on a joist's side), the lesser one. In the
    wood the screw bears with its core, in the print over its thread. In end grain two thirds of it (NDS 2018, 12.5.2:
    0.67); on a wood that holds nothing when pulled, Hold.tension_n is 0.
    """
    head = HeadOnPrint(plate.head_mm, plate.hole_mm, plate.thickness_mm)
    aside = 0.0
    if deep.in_wood_mm > _FAR_MM:
        joint = SideJoint(
            screw.core_mm,
            plate.thickness_mm,
            deep.in_wood_mm,
            plate.strength_mpa,
            wood_bearing_mpa(timber.gravity, screw.core_mm, across),
            screw.bending_mpa,
            in_plate_mm=screw.major_mm,
        )
        aside = joint.yield_n * (0.67 if grain == "end" else 1.0)
    return Hold(
        withdrawal_n=pull_out_n(screw, timber, deep.thread_mm, grain),
        steel_tension_n=screw.steel_tension_n,
        side_n=aside,
        steel_shear_n=screw.steel_shear_n,
        head_n=head.pulls_through_n(plate.strength_mpa),
    )
