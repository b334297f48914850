"""What the coupling of a gate bracket is put together with, as parts and checks both need it."""

from __future__ import annotations

import math

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.data.nuts import nut
from fitwright.data.thread_words import thread_named
from fitwright.errors import DataError
from fitwright.physics.slide import coupling as strength
from fitwright.spec.gate import Blade, GateBracketSpec

PINS = ("M3", "M4", "M5", "M6", "M8")
TILT_DEG = 2.0
"""Fork and blade may stand askew by this without binding."""
PIN_LOOSE_MM = 0.2
"""The blade's hole is at least so much wider than the pin; more where the blade is so thick that the pin would tilt."""
JAM_ROOM_MM = 0.4
"""The jam nut's outer face to the rod's shoulder: the thread runs out there (common practice, no source)."""
ROD_LOOSE_MM = 0.3
"""A sleeve's bore over the rod, as printed."""
SLEEVE_LEAST_WALL_MM, SLEEVE_WALL_MM = 2.5, 5.0
WASHER_FACE = 0.95
"""A nut bears on so much of its width across flats (its chamfer; common practice, no source)."""


def pin_loose_mm(blade: Blade) -> float:
    """Least hole over pin [mm]: a pin that stands square in the fork leaves the blade TILT_DEG."""
    return max(PIN_LOOSE_MM, blade.thickness_mm * math.tan(math.radians(TILT_DEG)))


def pin_of(blade: Blade) -> FastenerRow | None:
    """The pin: the largest screw that goes through the blade's hole loosely; None where there is none."""
    if blade.hole_mm is None or blade.hole_to_edge_mm is None:
        return None
    widest = blade.hole_mm - pin_loose_mm(blade) + 1e-9
    rows = [row for row in map(fastener, PINS) if row.major_mm <= widest]
    return rows[-1] if rows else None


def pull_n(spec: GateBracketSpec) -> float:
    """What the stalled cylinder pulls the blade open with [N]: rod in where it lies in line, rod out alongside."""
    rod = spec.cylinder.rod_mm if spec.layout == "in_line" else 0.0
    return spec.pressure_mpa * strength.ring_mm2(spec.cylinder.bore_mm, rod)


def push_n(spec: GateBracketSpec) -> float:
    """What the stalled cylinder pushes the blade shut with [N]."""
    rod = 0.0 if spec.layout == "in_line" else spec.cylinder.rod_mm
    return spec.pressure_mpa * strength.ring_mm2(spec.cylinder.bore_mm, rod)


def rod_in_n(spec: GateBracketSpec) -> float:
    """What the stalled cylinder pulls its rod in with [N]: a sleeve between nose and jam nut bears it."""
    return spec.pressure_mpa * strength.ring_mm2(spec.cylinder.bore_mm, spec.cylinder.rod_mm)


def rod_washer(spec: GateBracketSpec) -> tuple[float, float]:
    """Thickness and outside [mm] of a washer on the rod's thread, between jam nut and shoulder; (0, 0): none.

    It is there where a sleeve on a rod much thicker than its thread would be pressed too hard by the jam nut alone.
    """
    thread = spec.cylinder.rod_thread
    ring = strength.ring_mm2(WASHER_FACE * nut(thread, "thin").af_mm, spec.cylinder.rod_mm + ROD_LOOSE_MM)
    if ring > 0.0 and rod_in_n(spec) / ring <= strength.sustained_mpa(spec.material.strength_mpa):
        return 0.0, 0.0
    d = thread_named(thread).major_mm
    try:
        row = fastener(f"M{d:g}")
    except DataError:
        return 3.0, 2.0 * d
    return row.washer_h_mm or 3.0, row.washer_d2_mm or 2.0 * d


def sleeve_outside_mm(spec: GateBracketSpec) -> float:
    """No wider than the nose that it strikes, where its wall then is thick enough."""
    bore = spec.cylinder.rod_mm + ROD_LOOSE_MM
    return min(max(nose_end_mm(spec), bore + 2 * SLEEVE_LEAST_WALL_MM), bore + 2 * SLEEVE_WALL_MM)


def nose_end_mm(spec: GateBracketSpec) -> float:
    """Outside of the nose's end: its thread's or its boss's; where neither is known, the wall alone decides."""
    cylinder = spec.cylinder
    if cylinder.nose_thread is not None:
        return thread_named(cylinder.nose_thread).major_mm
    return cylinder.boss_d_mm or cylinder.rod_mm + ROD_LOOSE_MM + 2 * SLEEVE_WALL_MM
