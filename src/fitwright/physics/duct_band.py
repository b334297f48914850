"""The band in which handbooks differ, and its words without false digits."""

from __future__ import annotations

import math
import statistics
from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.errors import DataError
from fitwright.units import PRESSURES_PA, Units

ALIKE = 0.05
"""Sources that differ by less than this share are said as one figure."""


@dataclass(frozen=True)
class Band:
    """The lowest, the middle and the highest value that the sources give for one thing (Pa, or a coefficient)."""

    low: float
    middle: float
    high: float

    def __post_init__(self) -> None:
        if not all(math.isfinite(value) for value in (self.low, self.middle, self.high)):
            raise DataError(f"a band needs finite numbers, not {self.low}, {self.middle}, {self.high}")
        if not self.low <= self.middle <= self.high:
            raise DataError(f"a band rises from low to high, not {self.low:g}, {self.middle:g}, {self.high:g}")

    def __add__(self, other: Band) -> Band:
        """Both, one after the other: the lows, the middles and the highs add."""
        return Band(self.low + other.low, self.middle + other.middle, self.high + other.high)

    def times(self, factor: float) -> Band:
        """The band scaled by a factor of 0 or more."""
        return Band(self.low * factor, self.middle * factor, self.high * factor)

    def by(self, factor: Band) -> Band:
        """The band times another, end by end; both 0 or more."""
        return Band(self.low * factor.low, self.middle * factor.middle, self.high * factor.high)

    def less(self, other: Band) -> Band:
        """What remains when `other` is taken off, at its widest: low less high to high less low.

        The low end may be below 0: then the handbooks do not agree that anything remains.
        """
        return Band(self.low - other.high, self.middle - other.middle, self.high - other.low)

    def words(self, unit: str = "Pa") -> str:
        """`25-45 Pa, about 34`: two digits, the ends in fives where they lie far apart; `under 1 Pa`; `about 34 Pa`."""
        if abs(self.low) < 1.0 and abs(self.high) < 1.0 and unit == "Pa":
            return f"under 1 {unit}"
        whole = unit == "Pa"
        wide = self.high - self.low > abs(self.middle) / 3.0
        low, high = (_rounded(end, _step(end, wide, whole)) for end in (self.low, self.high))
        middle = _rounded(self.middle, _two_digits(self.middle, whole))
        if low == high or self.high - self.low < ALIKE * abs(self.middle):
            return f"about {middle} {unit}".rstrip()
        joint = " to " if self.low < 0 else "-"
        return f"{low}{joint}{high} {unit}".rstrip() + f", about {middle}"

    def pressure_words(self, units: Units) -> str:
        """A band of pressures [Pa] in the file's units."""
        return self.words("Pa") if units == "mm" else self.times(1.0 / PRESSURES_PA["inH2O"]).words("inH2O")


NOTHING = Band(0.0, 0.0, 0.0)


def spread(values: Iterable[float]) -> Band:
    """The band of several sources' values: least, median, greatest; DataError without any."""
    sorted_values = sorted(values)
    if not sorted_values:
        raise DataError("no source gives a value here")
    return Band(sorted_values[0], statistics.median(sorted_values), sorted_values[-1])


def total(bands: Iterable[Band]) -> Band:
    """The sum of bands; nothing where there are none."""
    return sum(bands, NOTHING)


def _step(end: float, wide: bool, whole: bool) -> float:
    """An end's rounding step: two digits of it, and fives of them from 20 on where the band is wide."""
    step = _two_digits(end, whole)
    return 5.0 * step if wide and abs(end) >= 20.0 * step else step


def _two_digits(value: float, whole: bool) -> float:
    """The step that leaves two digits of a value; `whole`: 1 at least."""
    step = 10.0 ** (math.floor(math.log10(abs(value))) - 1) if value else 1.0
    return max(step, 1.0) if whole else step


def _rounded(value: float, step: float) -> str:
    """The value to the step, without empty decimals but for one: 0.07, 1.0, 35."""
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    text = f"{round(value / step) * step + 0.0:.{digits}f}"
    whole, point, decimals = text.partition(".")
    return f"{whole}.{decimals.rstrip('0') or '0'}" if point else text
