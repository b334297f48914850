"""A hose that hangs between two points at any heights: the heavy limp curve of given length (a catenary).

Lengths in mm; weight in N/mm. The span begins at (0, 0) and ends at (level, rise), up positive. With parameter a the
curve is y = a cosh((x - x0) / a) + constant; level pull H = w a. The hose does not stretch and does not resist being
bent (see hose_bend for what that leaves out). H. M. Irvine, Cable Structures, 1981, chapter 1, has the same equations.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

LEAST_LEVEL = 1e-6
"""A span steeper than this share of its length is reckoned as if it were so steep: the hose then hangs doubled."""
LEAST_SLACK = 1e-12
_STEPS = 100


@dataclass(frozen=True)
class Span:
    """One hanging piece: `level_mm` across, `rise_mm` to its end, `length_mm` of hose, parameter a (inf: taut).

    A hose that is shorter than the straight line is taut and lacks `short_mm`.
    """

    level_mm: float
    rise_mm: float
    length_mm: float
    parameter_mm: float
    short_mm: float = 0.0

    @property
    def chord_mm(self) -> float:
        """The straight line from end to end."""
        return math.hypot(self.level_mm, self.rise_mm)

    @property
    def taut(self) -> bool:
        """Straight: there is no slack at all."""
        return math.isinf(self.parameter_mm)

    @property
    def lowest_at_mm(self) -> float:
        """Where the curve turns (x0), level from the beginning; outside 0..level where it only falls or only rises."""
        if self.taut:
            return self.level_mm / 2 - math.copysign(math.inf, self.rise_mm) if self.rise_mm else self.level_mm / 2
        a = self.parameter_mm
        return self.level_mm / 2 - a * math.asinh(self.rise_mm / (2.0 * a * math.sinh(self.level_mm / (2.0 * a))))

    @property
    def lowest_mm(self) -> float:
        """Height of its lowest point against the beginning."""
        if self.taut or not 0.0 < self.lowest_at_mm < self.level_mm:
            return min(0.0, self.rise_mm)
        return -_above_lowest(self.lowest_at_mm, self.parameter_mm)

    @property
    def sag_mm(self) -> float:
        """Greatest upright distance below the straight line between its ends."""
        if self.taut:
            return 0.0
        steepness = self.rise_mm / self.level_mm
        at = self.lowest_at_mm + self.parameter_mm * math.asinh(steepness)
        return steepness * at - self.height_mm(at)

    @property
    def radius_mm(self) -> float:
        """The least radius along it: a at its lowest point, more where that lies beyond an end."""
        if self.taut:
            return math.inf
        away = max(-self.lowest_at_mm, self.lowest_at_mm - self.level_mm, 0.0) / self.parameter_mm
        return self.parameter_mm * math.cosh(away) ** 2

    def height_mm(self, at_mm: float) -> float:
        """Height against the beginning, so far across."""
        if self.taut:
            return self.rise_mm * at_mm / self.level_mm if self.level_mm else 0.0
        x0, a = self.lowest_at_mm, self.parameter_mm
        return _above_lowest(at_mm - x0, a) - _above_lowest(x0, a)

    def slope(self, end: bool) -> float:
        """Rise over run there, going towards the end: sinh((x - x0) / a)."""
        if self.taut:
            return self.rise_mm / self.level_mm if self.level_mm else math.copysign(math.inf, self.rise_mm)
        at = self.level_mm if end else 0.0
        return math.sinh((at - self.lowest_at_mm) / self.parameter_mm)

    def way(self, end: bool) -> tuple[float, float]:
        """Direction (across, up) in which the hose goes there, towards the end; of length 1."""
        slope = self.slope(end)
        if math.isinf(slope):
            return 0.0, math.copysign(1.0, slope)
        across = 1.0 / math.hypot(1.0, slope)
        return across, slope * across

    def level_n(self, weight_n_mm: float) -> float:
        """Level pull, the same all along."""
        return weight_n_mm * self.parameter_mm

    def tension_n(self, weight_n_mm: float, end: bool) -> float:
        """Pull along the hose at its beginning or end; inf where it is taut."""
        return math.inf if self.taut else self.level_n(weight_n_mm) * math.hypot(1.0, self.slope(end))

    def down_n(self, weight_n_mm: float, end: bool) -> float:
        """What its beginning or end weighs on its support, down positive; both make its weight."""
        if self.taut:
            return weight_n_mm * self.length_mm / 2
        return self.level_n(weight_n_mm) * (self.slope(True) if end else -self.slope(False))

    def points(self, count: int = 41) -> list[tuple[float, float]]:
        """(across, up) along it, evenly by the hose's own length, so that a deep loop is round too."""
        if self.taut or count < 2:
            return [(0.0, 0.0), (self.level_mm, self.rise_mm)]
        a, x0 = self.parameter_mm, self.lowest_at_mm
        first = a * math.sinh(-x0 / a)
        along = [first + self.length_mm * k / (count - 1) for k in range(count)]
        found = [(x0 + a * math.asinh(s / a), 0.0) for s in along]
        return [(x, self.height_mm(x)) for x, _ in found]


def hung(level_mm: float, rise_mm: float, length_mm: float) -> Span:
    """The span of a given length of hose; level >= 0, length > 0. Too short: taut, with what it lacks.

    length^2 - rise^2 = (2 a sinh(level / 2 a))^2, by Newton's method on ln(sinh z / z), z = level / 2 a.

    >>> round(hung(1200.0, 0.0, 1205.5).parameter_mm / 1000, 1)
    3.6
    """
    chord = math.hypot(level_mm, rise_mm)
    slack = length_mm - chord
    if slack <= LEAST_SLACK * chord:
        return Span(level_mm, rise_mm, length_mm, math.inf, max(0.0, -slack))
    level = max(level_mm, LEAST_LEVEL * length_mm)
    excess = slack / level * ((length_mm + chord) / level)
    half = _half_angle(0.5 * math.log1p(excess))
    return Span(level, rise_mm, length_mm, level / (2.0 * half))


def hung_with_pull(level_mm: float, rise_mm: float, parameter_mm: float) -> Span:
    """The span that is drawn with a level pull of weight x parameter.

    >>> round(hung_with_pull(1200.0, 0.0, 3608.0).sag_mm, 1)
    50.0
    """
    across = 2.0 * parameter_mm * math.sinh(level_mm / (2.0 * parameter_mm))
    return Span(level_mm, rise_mm, math.hypot(rise_mm, across), parameter_mm)


def hung_with_sag(level_mm: float, rise_mm: float, sag_mm: float) -> Span:
    """The span that hangs so far below the straight line between its ends; sag > 0.

    >>> one = hung_with_sag(1200.0, 0.0, 50.0)
    >>> round(one.parameter_mm / 1000, 3), round(one.length_mm / 1000, 4)
    (3.608, 1.2055)
    """
    low, high = level_mm / 1000.0, level_mm * (level_mm / sag_mm + 1.0) * (1.0 + abs(rise_mm) / level_mm) * 4.0
    for _ in range(_STEPS):
        middle = math.sqrt(low * high)
        if hung_with_pull(level_mm, rise_mm, middle).sag_mm > sag_mm:
            low = middle
        else:
            high = middle
    return hung_with_pull(level_mm, rise_mm, high)


def spacing_for_sag_mm(parameter_mm: float, sag_mm_m: float) -> float:
    """How far apart level hangers may stand at this pull so that the hose sags no more a metre.

    sag / spacing = (cosh u - 1) / 2 u with u = spacing / 2 a; for small sags 4 x the sag a metre x 2 a.

    >>> round(spacing_for_sag_mm(3608.0, 41.7) / 1000, 2)
    1.2
    """
    return 2.0 * parameter_mm * _spread(sag_mm_m / 1000.0)


def parameter_for_sag_mm(spacing_mm: float, sag_mm_m: float) -> float:
    """The parameter, pull over weight, at which level hangers so far apart keep to the sag a metre."""
    return spacing_mm / (2.0 * _spread(sag_mm_m / 1000.0))


def _spread(sag_share: float) -> float:
    """u of (cosh u - 1) / 2 u = share."""
    low, high = 0.0, 20.0
    for _ in range(_STEPS):
        u = (low + high) / 2.0
        if math.sinh(u / 2.0) ** 2 > sag_share * u:
            high = u
        else:
            low = u
    return low


def _above_lowest(x_mm: float, a_mm: float) -> float:
    """a (cosh(x / a) - 1), without losing digits where the hose is nearly straight."""
    return 2.0 * a_mm * math.sinh(x_mm / (2.0 * a_mm)) ** 2


def _half_angle(log_ratio: float) -> float:
    """z > 0 with ln(sinh z / z) = log_ratio."""
    z = math.sqrt(6.0 * log_ratio)
    for _ in range(_STEPS):
        step = (_log_ratio(z) - log_ratio) / _log_slope(z)
        z -= step
        if abs(step) <= 1e-15 * z:
            break
    return z


def _log_ratio(z: float) -> float:
    if z < 0.03:
        return z * z / 6.0 * (1.0 - z * z / 30.0 + 2.0 * z**4 / 945.0)
    return z + math.log1p(-math.exp(-2.0 * z)) - math.log(2.0 * z)


def _log_slope(z: float) -> float:
    return z / 3.0 * (1.0 - z * z / 15.0 + 2.0 * z**4 / 315.0) if z < 0.03 else 1.0 / math.tanh(z) - 1.0 / z
