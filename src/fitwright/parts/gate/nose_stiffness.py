"""How far the nose plate gives way under the thrust: a beam of two chords between the rails, seen from above.

Lengths in mm, forces in N, moduli in MPa, angles in degrees. Bending by the unit-load theorem over the true section at
each place; the chords' own bending between the cross walls as in a battened column (S. P. Timoshenko and J. M. Gere,
Theory of Elastic Stability, 2nd ed., section 2.18: a^2 b / (12 E Ib) + a^3 / (24 E Ic) for a panel of length a, from
memory), each made softer by its shear, 12 E I / (k G A l^2) with k = 5/6.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from fitwright.physics.filament import CREEP_SHARE

LIMIT_MM, LIMIT_DEG = 0.5, 0.5
"""What the whole frame may give (common practice, no source)."""
LASTING = CREEP_SHARE
AIM_MM, MOST_MM = 0.2, 0.205
"""What the nose plate may take of it at once; the second where nothing less can be had. Twice that lasts: what is left
is for rails or rods, and for what slices of the finished plate show more (up to a fifth)."""
POISSON = 0.36
"""Printed plastics (from memory)."""
_SHEAR = 2.0 * (1.0 + POISSON) / (5.0 / 6.0)
"""12 E I / (k G A l^2) of a rectangle is this times (t / l)^2."""


@dataclass(frozen=True)
class Run:
    """A stretch of the half beam: from `x0_mm` to `x1_mm` off the middle, with this second moment of area [mm4].

    `shear_mm2`: its section's area where it is solid; 0 where two chords carry the shear, as `Panel` says, or none is
    to be counted.
    """

    x0_mm: float
    x1_mm: float
    deep_mm4: float
    shear_mm2: float = 0.0


@dataclass(frozen=True)
class Panel:
    """A window between two chords: its clear length, between the chords' middles, how thick chords and wall are."""

    long_mm: float
    apart_mm: float
    chords_mm: tuple[float, float]
    wall_mm: float


@dataclass(frozen=True)
class Beam:
    """Half of a plate that is the same on both sides of the thrust line.

    `half_mm`: thrust line to the rail's axis. `free_mm`: how far the web stands free on each side between what the
    nose nut and the cylinder clamp and the bay's wall (0: it does not), `web_mm` thick; all are `high_mm` high.
    """

    half_mm: float
    high_mm: float
    runs: tuple[Run, ...]
    panels: tuple[Panel, ...] = ()
    free_mm: float = 0.0
    web_mm: float = 0.0


@dataclass(frozen=True)
class Gives:
    """Movement along the thrust: ends free to turn (`pinned_mm`, the upper bound) and held (`built_in_mm`, the lower).

    `tilt_deg`: the steepest slope of the plate, at the rails, ends free to turn.
    """

    pinned_mm: float
    built_in_mm: float
    tilt_deg: float

    def within(self, limit_mm: float = LIMIT_MM, limit_deg: float = LIMIT_DEG) -> bool:
        """True where even the upper bound is allowed."""
        return self.pinned_mm <= limit_mm + 1e-9 and self.tilt_deg <= limit_deg + 1e-9


def two_chords_mm4(high_mm: float, front_mm: float, back_mm: float, apart_mm: float, front_high_mm: float) -> float:
    """Second moment of area of two chords, `apart_mm` between their middles; `front_high_mm` is left of the front one.

    >>> round(two_chords_mm4(40, 5, 5, 20, 40))
    40833
    """
    front, back = front_mm * front_high_mm, back_mm * high_mm
    own = (front * front_mm**2 + back * back_mm**2) / 12.0
    return own + (front * back / (front + back) * apart_mm**2 if front > 0.0 else 0.0)


def gives(beam: Beam, force_n: float, modulus_mpa: float) -> Gives:
    """Both bounds for a force in the middle.

    A plain beam 200 long of 1 mm4 per 1e-6 of E bends by F L^3 / (48 EI), and a quarter of that with its ends held:

    >>> plain = gives(Beam(100.0, 30.0, (Run(0.0, 100.0, 1e4),)), 120.0, 2000.0)
    >>> round(plain.pinned_mm, 3), round(plain.built_in_mm, 3), round(plain.tilt_deg, 3)
    (1.0, 0.25, 0.859)
    """
    half, share = beam.half_mm, force_n / 2.0
    free = _bending(beam.runs, half, 0.0) * share / modulus_mpa
    held = _bending(beam.runs, half, half / 2.0) * share / modulus_mpa
    shear = _shear_mm(beam, share, modulus_mpa)
    slope = sum(_slope(run, half) for run in beam.runs) * share / modulus_mpa
    return Gives(free + shear, held + shear, math.degrees(slope))


def _bending(runs: Sequence[Run], half_mm: float, shift_mm: float) -> float:
    """The integral of (half - x - shift)^2 / I over the half beam [1/mm]."""

    def cubed(x: float) -> float:
        return (half_mm - x - shift_mm) ** 3 / 3.0

    return sum((cubed(run.x0_mm) - cubed(run.x1_mm)) / run.deep_mm4 for run in runs)


def _slope(run: Run, half_mm: float) -> float:
    """The integral of (half - x) / I over one run."""
    return ((half_mm - run.x0_mm) ** 2 - (half_mm - run.x1_mm) ** 2) / 2.0 / run.deep_mm4


def _shear_mm(beam: Beam, share_n: float, modulus_mpa: float) -> float:
    """Shear of what is solid, the chords' own bending in the windows, and the web's in the bay."""
    high = beam.high_mm
    found = sum(_SHEAR * (run.x1_mm - run.x0_mm) / run.shear_mm2 for run in beam.runs if run.shear_mm2 > 0.0)
    for panel in beam.panels:
        long = panel.long_mm
        chords = sum(t**3 / (1.0 + _SHEAR * (t / long) ** 2) for t in panel.chords_mm) * high / 12.0
        wall = high * panel.wall_mm**3 / 12.0 / (1.0 + _SHEAR * (panel.wall_mm / panel.apart_mm) ** 2)
        pitch = long + panel.wall_mm
        found += long**3 / (12.0 * chords) + pitch**2 * panel.apart_mm / (12.0 * wall)
    if beam.free_mm > 0.0:
        web = beam.web_mm**3 / (1.0 + _SHEAR * (beam.web_mm / beam.free_mm) ** 2) * high / 12.0
        found += beam.free_mm**3 / (12.0 * web)
    return share_n / modulus_mpa * found
