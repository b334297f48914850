"""Size: a measured or catalogued diameter with its spread, and how each way of measuring gives one."""

from __future__ import annotations

import math
import statistics
from dataclasses import dataclass
from typing import Literal

from fitwright.section import Section

Status = Literal["reading", "catalogue", "confirmed", "derived", "memory", "common practice"]

CALIPER_MM = 0.1
"""One caliper reading by hand on plastic is good to +-0.1 mm (common practice, no source)."""
TAPE_ROUND_MM = 0.3
"""A diameter from a tape or strip laid round is good to +-0.3 mm: 1 mm of tape (common practice, no source)."""
SCATTER_REL = 0.10
"""Readings of one diameter that differ by more than this share of their mean are taken for a slip."""


@dataclass(frozen=True)
class Size:
    """A diameter [mm] of a bought part: `nominal_mm`, between `least_mm` and `greatest_mm`.

    Where the part tapers, `nominal_mm` is at its end face and `further_mm` is measured `apart_mm` further along.
    `source` is in words ("3 readings", "table ASTM D2729 4 in"); `wall_mm` and `inside_mm` come from tables only.
    """

    nominal_mm: float
    least_mm: float
    greatest_mm: float
    source: str
    status: Status
    ovality_mm: float = 0.0
    further_mm: float | None = None
    apart_mm: float | None = None
    wall_mm: float | None = None
    inside_mm: float | None = None
    outline: Section | None = None
    """The section where it is not round; `nominal_mm`, `least_mm`, `greatest_mm` then are its shorter side."""

    @property
    def longest_mm(self) -> float:
        """The longest side [mm], on which a print scatters most; the diameter of what is round."""
        return self.outline.longer_mm if self.outline else self.nominal_mm

    @property
    def equal_d_mm(self) -> float:
        """Diameter [mm] of the circle of the same area."""
        return self.outline.equal_d_mm if self.outline else self.nominal_mm

    @property
    def words(self) -> str:
        """The size in words, in mm: `100`, `150 x 60`."""
        if self.outline is None:
            return f"{self.nominal_mm:.4g}"
        return f"{self.outline.width_mm:.4g} x {self.outline.height_mm:.4g}"

    @property
    def half_angle_deg(self) -> float:
        """Half angle of its own taper [deg]; positive where it widens away from the end face."""
        if self.further_mm is None or not self.apart_mm:
            return 0.0
        return math.degrees(math.atan2((self.further_mm - self.nominal_mm) / 2, self.apart_mm))


def from_readings(readings_mm: tuple[float, ...]) -> Size:
    """The size from one or more caliper readings [mm] of the same diameter, taken round it.

    The mean, give or take twice its standard error, and never less than one caliper reading's +-0.1 mm.

    >>> from_readings((110.2, 110.5, 109.9)).nominal_mm
    110.2
    """
    count = len(readings_mm)
    mean = round(statistics.fmean(readings_mm), 6)
    error = statistics.stdev(readings_mm) / math.sqrt(count) if count > 1 else 0.0
    spread = max(CALIPER_MM, 2 * error)
    source = "one reading" if count == 1 else f"{count} readings"
    ovality = round(max(readings_mm) - min(readings_mm), 6)
    return Size(mean, mean - spread, mean + spread, source, "reading", ovality)


def from_circumference(round_mm: float) -> Size:
    """The size of what a tape laid round it measures as `round_mm`: d = c / pi.

    >>> round(from_circumference(347.0).nominal_mm, 3)
    110.454
    """
    d = round_mm / math.pi
    return Size(d, d - TAPE_ROUND_MM, d + TAPE_ROUND_MM, "circumference", "reading")


def from_catalogue(d_mm: float, deviations_mm: tuple[float, float]) -> Size:
    """A catalogue's diameter [mm] with its lower and upper deviation [mm]."""
    low, high = deviations_mm
    return Size(d_mm, d_mm + low, d_mm + high, "catalogue", "catalogue")


def slip_in(readings_mm: tuple[float, ...]) -> int | None:
    """Index of the reading furthest from the median where the readings scatter too much for one diameter, else None."""
    if max(readings_mm) - min(readings_mm) <= SCATTER_REL * statistics.fmean(readings_mm):
        return None
    middle = statistics.median(readings_mm)
    return max(range(len(readings_mm)), key=lambda i: abs(readings_mm[i] - middle))
