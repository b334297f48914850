"""The band in which handbooks differ, and its words without false digits."""

from __future__ import annotations

import math
import statistics
from collections.abc import Iterable
from dataclasses import dataclass

from fitwright.errors import DataError


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
        """`25-45 Pa, about 34`, with no more digits than the spread bears; `under 1 Pa`; `about 34 Pa`."""
        if abs(self.low) < 1.0 and abs(self.high) < 1.0 and unit == "Pa":
            return f"under 1 {unit}"
        step = _step(self)
        low, middle, high = (_rounded(value, step) for value in (self.low, self.middle, self.high))
        if low == high:
            return f"about {middle} {unit}".rstrip()
        joint = " to " if self.low < 0 else "-"
        return f"{low}{joint}{high} {unit}".rstrip() + f", about {middle}"


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


def _step(band: Band) -> float:
    """The rounding step: two digits of the highest value, one where the band is wider than a third of its middle."""
    size = max(abs(band.low), abs(band.high))
    if size == 0.0:
        return 1.0
    two_digits = 10.0 ** (math.floor(math.log10(size)) - 1)
    wide = band.high - band.low > abs(band.middle) / 3.0
    step = two_digits * 5.0 if wide and size / two_digits >= 30.0 else two_digits
    return max(step, 1.0) if size >= 1.0 else step


def _rounded(value: float, step: float) -> str:
    digits = max(0, -math.floor(math.log10(step) + 1e-9))
    return f"{round(value / step) * step + 0.0:.{digits}f}"
