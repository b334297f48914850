"""What stands between a shaft and a bore: the gap and how sure it is, and which nominal sizes the two may be.

Plain numbers in mm. The tolerance that a nominal size is made to is passed in (ISO 286): no table is known here.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

import numpy as np

from fitwright.measure.scatter import sigma_mm

Kind = Literal["shaft", "bore"]
System = Literal["mm", "in"]

CALIPER_SIGMA_MM = 0.025
"""One caliper reading on turned metal is good to +-0.05 mm, twice its standard deviation (common practice)."""
CALIPER_BIAS_MM = 0.015
"""What more readings do not average away: the caliper's own error, +-0.03 mm (the usual limit of a 150 mm caliper,
from memory)."""
NEAR_SDS = 3.0
"""Further off than this a nominal size is not the one that was made."""
TWIN_MM = 0.6
"""A metric and an inch size no further apart than this are taken for one another: 25 mm and 1 in, 16 mm and 5/8 in."""
MM_PER_INCH = 25.4
SHIMS_MM = (0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5)
"""Thicknesses of steel shim strip that shops keep (common practice, no source)."""


@dataclass(frozen=True)
class Nominal:
    """A size that a shaft or bore may have been made to: 25 mm, 5/8 in."""

    name: str
    mm: float
    system: System


@dataclass(frozen=True)
class Candidate:
    """A nominal size beside the reading: `off_mm` the reading less the nominal, `sds` in standard deviations."""

    nominal: Nominal
    off_mm: float
    sds: float

    @property
    def near(self) -> bool:
        """True where the reading may well be of that size."""
        return abs(self.sds) <= NEAR_SDS


@dataclass(frozen=True)
class Read:
    """A diameter with the standard deviation of its mean [mm]."""

    d_mm: float
    sd_mm: float

    @property
    def error_mm(self) -> float:
        """Twice the standard deviation [mm]."""
        return 2.0 * self.sd_mm


def read_of(readings_mm: Sequence[float]) -> Read:
    """The mean of readings on turned metal, and its standard deviation, never less than the caliper's own error."""
    readings = np.asarray(readings_mm, dtype=float)
    mean = float(readings.mean())
    sigma, _ = sigma_mm(readings - mean, len(readings) - 1, CALIPER_SIGMA_MM)
    return Read(round(mean, 6), max(sigma / math.sqrt(len(readings)), CALIPER_BIAS_MM))


def candidates(read: Read, kind: Kind, tolerance_mm: Callable[[float], float], most: int = 3) -> tuple[Candidate, ...]:
    """The nominal sizes, metric and inch, nearest first by the standard deviations that the reading is off.

    A shaft is made up to `tolerance_mm(nominal)` under its nominal (h), a bore as much over it (H); evenly over that
    range, so that its middle is half of it off and its standard deviation is tolerance / sqrt 12. The nearest of each
    system is always among the answers, so that both are shown.
    """
    side = -1.0 if kind == "shaft" else 1.0
    ranked = sorted((_candidate(n, read, side * tolerance_mm(n.mm)) for n in _around(read.d_mm)), key=_rank)
    first = {c.nominal.system: c for c in reversed(ranked)}
    kept = [c for c in ranked if c in first.values() or c.near]
    return tuple(kept[:most])


def sure(found: Sequence[Candidate]) -> Candidate | None:
    """The one nominal size that a reading may be of; None where none is near, or two are."""
    near = [one for one in found if one.near]
    return near[0] if len(near) == 1 else None


def twins(shaft: Candidate | None, bore: Candidate | None) -> bool:
    """True where the two are, as read, a metric and an inch size that pass for one another, and are not the same."""
    if shaft is None or bore is None:
        return False
    apart = abs(shaft.nominal.mm - bore.nominal.mm)
    return shaft.nominal.system != bore.nominal.system and 0.0 < apart <= TWIN_MM


def twin_of(nominal: Nominal) -> Nominal | None:
    """The size of the other system for which this one is taken; None where none is that near."""
    others = [n for n in _around(nominal.mm) if n.system != nominal.system and 0.0 < abs(n.mm - nominal.mm) <= TWIN_MM]
    return min(others, key=lambda n: abs(n.mm - nominal.mm), default=None)


def shims(gap_mm: float) -> tuple[float, ...]:
    """Strips [mm], thickest first, two at the most, that together come nearest to a gap on the radius without passing.

    >>> shims(0.23), shims(0.62)
    ((0.2,), (0.5, 0.1))
    """
    options = [(a,) for a in SHIMS_MM] + [(a, b) for a in SHIMS_MM for b in SHIMS_MM if b <= a]
    fitting = [one for one in options if sum(one) <= gap_mm + 1e-9]
    return max(fitting, key=lambda one: (round(sum(one), 6), -len(one), one), default=())


def _rank(candidate: Candidate) -> float:
    return abs(candidate.sds)


def _candidate(nominal: Nominal, read: Read, tolerance_mm: float) -> Candidate:
    off = read.d_mm - nominal.mm
    sd = math.hypot(read.sd_mm, tolerance_mm / math.sqrt(12.0))
    return Candidate(nominal, off, (off - tolerance_mm / 2.0) / sd)


def _around(d_mm: float) -> Iterator[Nominal]:
    """Nominal sizes near a diameter: whole mm (fives above 120); sixteenths of an inch to 3 in, eighths above."""
    step = 1 if d_mm <= 120.0 else 5
    middle = round(d_mm / step) * step
    yield from (Nominal(f"{mm} mm", float(mm), "mm") for mm in range(middle - 2 * step, middle + 2 * step + 1, step))
    parts = 16 if d_mm <= 76.2 else 8
    middle = round(d_mm / MM_PER_INCH * parts)
    for count in range(middle - 2, middle + 3):
        if count > 0:
            yield Nominal(_inches(Fraction(count, parts)), count / parts * MM_PER_INCH, "in")


def _inches(inches: Fraction) -> str:
    whole, rest = divmod(inches.numerator, inches.denominator)
    fraction = f"{rest}/{inches.denominator}" if rest else ""
    return " ".join(part for part in (str(whole) if whole else "", fraction) if part) + " in"
