"""What a bar on two supports tells of a filament when a weight hangs from its middle: stiffness and strength.

S. P. Timoshenko, Strength of Materials, part I: sag F L^3 / (48 E I) with I = b h^3 / 12, greatest moment F L / 4 (from
memory, as in any handbook). Shear adds 2.4 (1 + nu) (h / L)^2 of the sag: 0.4 % where the span is 30 heights.
"""

from __future__ import annotations

from fitwright.physics.gravity import GRAVITY


def weight_n(mass_kg: float) -> float:
    """Force [N] of a mass [kg] that hangs.

    >>> round(weight_n(0.5), 3)
    4.903
    """
    return GRAVITY * mass_kg


def bar_modulus_mpa(force_n: float, span_mm: float, wide_mm: float, high_mm: float, sag_mm: float) -> float:
    """Modulus [MPa] of a bar that sags by `sag_mm` in its middle (all above 0) under a force there.

    >>> round(bar_modulus_mpa(100.0, 100.0, 20.0, 10.0, 0.625), 6)
    2000.0
    """
    return force_n * span_mm**3 / (4.0 * wide_mm * high_mm**3 * sag_mm)


def brittle_mpa(force_n: float, span_mm: float, wide_mm: float, high_mm: float) -> float:
    """Strength [MPa] of a bar that snaps without bending for good first (a standing one: between its layers).

    >>> brittle_mpa(100.0, 100.0, 20.0, 10.0)
    7.5
    """
    return 1.5 * force_n * span_mm / (wide_mm * high_mm**2)


def tough_mpa(force_n: float, span_mm: float, wide_mm: float, high_mm: float) -> float:
    """Strength [MPa] of a bar that gives way in a kink before it breaks: a full plastic hinge, a third less.

    >>> tough_mpa(100.0, 100.0, 20.0, 10.0)
    5.0
    """
    return force_n * span_mm / (wide_mm * high_mm**2)
