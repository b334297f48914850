"""What a printed coupling between a blade and a piston rod holds: pin, fork, web, sleeve, clamping jaw. N, mm, MPa.

All are closed forms of the strength of materials; the shares marked so are common practice.
"""

from __future__ import annotations

import math

from fitwright.physics.filament import sustained_mpa as sustained_mpa

SAFETY = 2.0
"""Printed plastic against a stalled cylinder (common practice, no source)."""
SHEAR_SHARE = 0.5
"""Shear strength over tensile strength: by the greatest shear stress (Tresca's rule)."""
FRICTION = 0.3
"""Print on a blade, dry and dusty (common practice, no source): plastic on plastic or on steel is 0.2 to 0.5."""
PIN_YIELD_MPA = 450.0
"""Yield strength of a stainless screw of class A2-70 (ISO 3506-1); one of class 8.8 has 640 (ISO 898-1)."""


def bearing_mpa(force_n: float, d_mm: float, thick_mm: float) -> float:
    """Pressure of a pin of `d_mm` on the side of a hole in a plate `thick_mm`, over its projected area.

    >>> round(bearing_mpa(120.6, 4.0, 3.0), 2)
    10.05
    """
    return force_n / (d_mm * thick_mm)


def tear_out_n(beyond_mm: float, thick_mm: float, strength_mpa: float) -> float:
    """Force [N] at which a pin tears out of a plate `thick_mm`, `beyond_mm` from the hole's edge to the plate's.

    Two planes shear; `strength_mpa` is the tensile strength across them (between layers, where they lie so).

    >>> tear_out_n(4.0, 10.0, 25.0)
    1000.0
    """
    return 2.0 * beyond_mm * thick_mm * SHEAR_SHARE * strength_mpa


def pin_bending_mpa(force_n: float, core_mm: float, blade_mm: float, slot_mm: float, jaw_mm: float) -> float:
    """Bending stress of a pin between two jaws: the blade pulls in the middle, each jaw holds at its middle.

    `core_mm` is its diameter (of a screw, under the thread); `slot_mm` from jaw to jaw, `jaw_mm` how thick each is.
    A beam under a load spread over `blade_mm`: M = F / 2 x (lever - blade / 4), lever = (slot + jaw) / 2.

    >>> round(pin_bending_mpa(100.0, 4.0, 0.0, 4.0, 4.0), 2)     # M = 200 N mm, W = pi d^3 / 32 = 6.283
    31.83
    """
    moment = force_n / 2.0 * ((slot_mm + jaw_mm) / 2.0 - blade_mm / 4.0)
    return moment / (math.pi * core_mm**3 / 32.0)


def web_mm(force_n: float, span_mm: float, wide_mm: float, stress_mpa: float) -> float:
    """Thickness of a web built in on both sides of a gap `span_mm` that a force in its middle bends: M = F L / 8.

    >>> round(web_mm(480.0, 16.0, 28.0, 22.0), 2)     # M = 960, W = 43.6 = 28 t^2 / 6
    3.06
    """
    return math.sqrt(6.0 * force_n * span_mm / 8.0 / (wide_mm * stress_mpa))


def ring_mm2(outside_mm: float, inside_mm: float) -> float:
    """Area of a ring; 0 where the hole is as large as the ring.

    >>> round(ring_mm2(10.0, 6.0), 2)
    50.27
    """
    return math.pi / 4.0 * max(0.0, outside_mm**2 - inside_mm**2)


def washer_preload_n(washer_mm: float, hole_mm: float, strength_mpa: float) -> float:
    """Preload [N] of a screw that stays, limited by the print under its washer.

    >>> round(washer_preload_n(10.0, 5.5, 44.0), 0)
    603.0
    """
    return ring_mm2(washer_mm, hole_mm) * sustained_mpa(strength_mpa)


def jaw_holds_n(
    preload_n: float, screws: int, screw_to_heel_mm: float, screw_to_blade_mm: float, friction: float = FRICTION
) -> float:
    """Pull [N] that a clamping jaw holds on a plain blade by friction on both of its faces.

    The jaw is a lever: its screws pull between the heel, which rests on the coupling, and the blade.
    N = screws x preload x heel / (heel + blade); hold = 2 x friction x N.

    >>> round(jaw_holds_n(600.0, 2, 6.0, 12.0, 0.3), 1)
    240.0
    """
    pressed = screws * preload_n * screw_to_heel_mm / (screw_to_heel_mm + screw_to_blade_mm)
    return 2.0 * friction * pressed
