"""Bolts through the lips of two halves: their sizes, holes, stand-ins, and what the report says to buy."""

from __future__ import annotations

import math
from collections.abc import Sequence

from cadquery import Solid

from fitwright.frame import Frame, Vec
from fitwright.part import Feature, HoleFit, Pair, StandIn
from fitwright.parts.compensation import small_hole
from fitwright.parts.parting import EDGE_OF_HOLE, Whole
from fitwright.parts.stand_ins import DRIVER_MM
from fitwright.shapes.joint import OVERSHOOT_MM
from fitwright.shapes.solids import bar, cylinder, fused
from fitwright.spec.models import HalvesBolts

SEATS_IN = "halves"
BESIDE_MM = 1.0
"""A washer stays this far from the skin."""
LENGTHS_MM = (6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100)
"""Bolt lengths that are stocked: ISO 888."""
APART = 0.01


def hole_d_mm(whole: Whole, joint: HalvesBolts) -> float:
    """A bolt's hole as modelled."""
    return small_hole(joint.hole_d_mm, whole.spec.printer)


def washer_r_mm(joint: HalvesBolts) -> float:
    """Half of the widest thing that lies on a lip: washer, or the nut over its corners."""
    return max(joint.washer_d_mm, joint.nut_af_mm * 2 / math.sqrt(3), joint.head_d_mm) / 2


def axis_from_skin_mm(joint: HalvesBolts) -> float:
    """From the skin to a bolt's axis."""
    return washer_r_mm(joint) + BESIDE_MM


def edge_mm(whole: Whole, joint: HalvesBolts) -> float:
    """From a bolt's axis to the lip's edge."""
    d = hole_d_mm(whole, joint)
    return max(EDGE_OF_HOLE * d, d / 2 + whole.wall_mm)


def holes(whole: Whole, joint: HalvesBolts, frame: Frame, places: Sequence[Vec]) -> list[Solid]:
    """A cutter through both lips at each place."""
    long = whole.lip_mm + OVERSHOOT_MM
    return [cylinder(_at(frame, place), hole_d_mm(whole, joint) / 2, -long, long) for place in places]


def declared(
    whole: Whole, joint: HalvesBolts, frame: Frame, places: Sequence[Vec], side: int
) -> tuple[list[Feature], list[HoleFit]]:
    """The holes of one half (side -1: the first) as features and as sizes."""
    n, d = frame.inward, hole_d_mm(whole, joint)
    away: Vec = (side * n[0], side * n[1], side * n[2])
    features, fits = [], []
    for number, place in enumerate(places, start=1):
        name = f"halves bolt hole {number}"
        features.append(Feature(name, "cut", bar(place, away, d / 2, whole.lip_mm + OVERSHOOT_MM)))
        fits.append(HoleFit(name, place, away, whole.lip_mm, d, "halves.joint.bolts"))
    return features, fits


def pairs(whole: Whole, joint: HalvesBolts, places: Sequence[Vec]) -> tuple[Pair, ...]:
    """Each bolt's two holes."""
    d = hole_d_mm(whole, joint)
    return tuple(
        Pair(f"halves bolt hole {number}", place, "hole", d, d, whole.lip_mm)
        for number, place in enumerate(places, start=1)
    )


def stand_ins(whole: Whole, joint: HalvesBolts, frame: Frame, places: Sequence[Vec], heads: int) -> list[StandIn]:
    """Each bolt with its head on the side `heads`, washers and nut, and its driver line."""
    found = []
    for number, place in enumerate(places, start=1):
        axis = _at(frame, place) if heads > 0 else _turned(_at(frame, place))
        t, h = whole.lip_mm + APART, joint.washer_h_mm
        top = t + h + joint.head_k_mm
        low = -(t + h + joint.nut_m_mm)
        pieces = [
            cylinder(axis, joint.major_mm / 2, low - 2 * joint.pitch_mm, top - APART),
            cylinder(axis, joint.head_d_mm / 2, t + h, top),
            cylinder(axis, joint.nut_af_mm / math.sqrt(3), low, -(t + h)),
        ]
        if h > 0:
            pieces += [cylinder(axis, joint.washer_d_mm / 2, *reach) for reach in ((t, t + h), (-(t + h), -t))]
        found.append(StandIn(f"halves bolt {number}", fused(pieces, "bolt"), SEATS_IN, None))
        driver = cylinder(axis, joint.head_d_mm / 2 + 0.5, top + APART, top + DRIVER_MM)
        found.append(StandIn(f"halves driver line {number}", driver, SEATS_IN, None))
    return found


def bought(whole: Whole, joint: HalvesBolts, count: int) -> str:
    """The hardware in words: `6 x M4 x 20 with nuts, two washers each`."""
    grip = 2 * whole.lip_mm + 2 * joint.washer_h_mm + joint.nut_m_mm + 2 * joint.pitch_mm
    washers = ", two washers each" if joint.washer_h_mm else ""
    if joint.size.upper().startswith("M"):
        length = next((one for one in LENGTHS_MM if one >= grip - 1e-6), math.ceil(grip / 10) * 10)
        return f"{count} x {joint.size} x {length} with nuts{washers}"
    eighths = math.ceil(grip / 25.4 * 8 - 1e-6)
    inches = f"{eighths // 8} in" if eighths % 8 == 0 else f"{eighths / 8:.3f} in"
    return f"{count} x {joint.size}, {inches} long, with nuts{washers}"


def _at(frame: Frame, place: Vec) -> Frame:
    return Frame(place, frame.inward, frame.right)


def _turned(frame: Frame) -> Frame:
    n = frame.inward
    return Frame(frame.origin, (-n[0], -n[1], -n[2]), frame.right)
