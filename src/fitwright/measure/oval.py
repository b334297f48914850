"""Diameters read round a port: the mean, how oval it is and where, which is out; what an oval hose is once round.

All sizes in mm, angles in degrees.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.measure.scatter import Array, sigma_mm, student_t, suspect_in, wave_factor

CALIPER_SIGMA_MM = 0.05
"""One caliper reading by hand is good to +-0.1 mm, twice its standard deviation (common practice, no source)."""
LEAST_APART_DEG = 15.0
"""Directions nearer than this say nothing new about the shape."""


class DirectionsError(ValueError):
    """The readings were not taken in three different directions."""


@dataclass(frozen=True)
class Oval:
    """d(t) = mean + half the ovality x cos 2 (t - wide_at): what readings round a port say.

    `error_mm` and `oval_error_mm` are 95 % half-widths; `wide_at_deg` is 0 to 180; `suspect` counts from 0.
    """

    mean_mm: float
    error_mm: float
    oval_mm: float
    oval_error_mm: float
    wide_at_deg: float
    residuals_mm: tuple[float, ...]
    suspect: int | None

    @property
    def is_oval(self) -> bool:
        """True where the ovality is more than its own uncertainty."""
        return self.oval_mm > self.oval_error_mm

    def at(self, deg: float) -> float:
        """The diameter [mm] across this direction."""
        return self.mean_mm + self.oval_mm / 2.0 * math.cos(2.0 * math.radians(deg - self.wide_at_deg))


def directions(angles_deg: Sequence[float]) -> int:
    """How many different directions there are: 180 deg round is the same diameter, and so is one within 15 deg."""
    found: list[float] = []
    for angle in sorted(a % 180.0 for a in angles_deg):
        if all(min(abs(angle - f), 180.0 - abs(angle - f)) >= LEAST_APART_DEG for f in found):
            found.append(angle)
    return len(found)


def oval_of(readings_mm: Sequence[float], angles_deg: Sequence[float]) -> Oval:
    """Least squares of d(t) = D + a cos 2t + b sin 2t; ovality = greatest less least diameter = 2 sqrt(a^2 + b^2).

    DirectionsError where fewer than three directions were read.

    >>> round(oval_of((110.4, 109.8, 110.1), (0, 60, 120)).mean_mm, 3)
    110.1
    """
    if directions(angles_deg) < 3:
        raise DirectionsError(f"{directions(angles_deg)} different directions")
    twice = 2.0 * np.radians(np.asarray(angles_deg, dtype=float))
    design = np.column_stack([np.ones_like(twice), np.cos(twice), np.sin(twice)])
    readings = np.asarray(readings_mm, dtype=float)
    fitted = np.linalg.lstsq(design, readings, rcond=None)[0]
    residuals = readings - design @ fitted
    sigma, free = sigma_mm(residuals, len(readings) - 3, CALIPER_SIGMA_MM)
    spread = sigma * np.sqrt(np.diag(np.linalg.inv(design.T @ design)))
    mean, a, b = (float(one) for one in fitted)
    return Oval(
        mean_mm=mean,
        error_mm=student_t(free) * float(spread[0]),
        oval_mm=2.0 * math.hypot(a, b),
        oval_error_mm=2.0 * wave_factor(free) * _along(a, b, spread),
        wide_at_deg=math.degrees(math.atan2(b, a)) / 2.0 % 180.0,
        residuals_mm=tuple(float(one) for one in residuals),
        suspect=suspect_in(design, residuals),
    )


def _along(a: float, b: float, spread: Array) -> float:
    """Uncertainty of sqrt(a^2 + b^2), no less than that of the less certain of the two for a near-round port."""
    size = math.hypot(a, b)
    greater = float(max(spread[1], spread[2]))
    if size < greater:
        return greater
    return math.hypot(a * float(spread[1]), b * float(spread[2])) / size


def suspect_reading(readings_mm: Sequence[float]) -> int | None:
    """The reading too far from the others for chance, where nobody said where each was taken; else None."""
    readings = np.asarray(readings_mm, dtype=float)
    return suspect_in(np.ones((len(readings), 1)), readings - readings.mean())


def once_round_mm(longer_mm: float, shorter_mm: float) -> float:
    """The diameter [mm] of the circle that an ellipse of these two diameters becomes, its length round kept.

    Circumference = 2 x longer x E(m), m = 1 - (shorter / longer)^2, E the complete elliptic integral of the second
    kind (Abramowitz and Stegun, 17.3.3 and 17.3.29).

    >>> round(once_round_mm(110.0, 90.0), 3)
    100.25
    """
    from scipy.special import ellipe

    longer, shorter = max(longer_mm, shorter_mm), min(longer_mm, shorter_mm)
    return 2.0 * longer * float(ellipe(1.0 - (shorter / longer) ** 2)) / math.pi
