"""Which thread is it? Diameter over the crests, pitch and taper against every thread of the tables.

Model. The crests of a real bolt lie anywhere in its tolerance range (even density); some are worn smaller, a few are
plated larger; the reading scatters normally about the crest. So a thread's likelihood is the normal density about the
reading, averaged over that range; a pitch adds exp(-z^2/2). Times how common the thread is, made to sum to one, this is
the share (Bayes' rule; Jaynes, Probability Theory, 2003, ch. 4; cited from memory).
The scatters and shares below are common practice, no source.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

Face = Literal["outside", "inside"]
What = Literal["bolt", "fitting", "rod"]
Kind = Literal["coarse", "fine", "pipe"]

CALIPER_SD_MM = 0.02
"""What all readings of one caliper have in common (zero, jaws)."""
CREST_SD_MM = {"outside": 0.045, "inside": 0.065}
"""Scatter of one reading over crests, or of knife jaws between those of a nut."""
WEAR_MM, WEAR_PITCHES = 0.15, 0.25
"""How much less than its tolerance the crest of a worn thread may be (a worn nut: how much more): a quarter pitch at
the most, for a thread is only 0.61 pitches deep."""
PLATED_MM = 0.03
"""How much more a plated crest may be."""
WORN_SHARE, WORN_SAID_SHARE, PLATED_SHARE = 0.08, 0.6, 0.05
"""Share of threads that are worn beyond tolerance; the same where it was said; share of those plated beyond it."""
TAPER_SLIP = 0.02
"""How often a taper is seen wrongly."""
FITS_SD = 3.0
"""A thread further off than this does not fit the readings."""

WEIGHTS: dict[What, dict[Kind, float]] = {
    "bolt": {"coarse": 1.0, "fine": 1.0, "pipe": 0.05},
    "fitting": {"coarse": 0.2, "fine": 1.0, "pipe": 4.0},
    "rod": {"coarse": 1.0, "fine": 3.0, "pipe": 0.05},
}
"""How much the kind of part changes how common a thread is."""


@dataclass(frozen=True)
class Candidate:
    """A thread: the range of its crests (outside) or bore (inside) [mm], pitch [mm], taper [mm/mm], how common."""

    name: str
    least_mm: float
    greatest_mm: float
    pitch_mm: float
    taper: float
    commonness: float

    @property
    def wear_mm(self) -> float:
        """How far worn crests may lie outside the range."""
        return min(WEAR_MM, WEAR_PITCHES * self.pitch_mm)


@dataclass(frozen=True)
class PitchReading:
    """A pitch [mm]: evenly between `low_mm` and `high_mm` (a gauge leaf; equal for a length), blurred by `sd_mm`."""

    low_mm: float
    high_mm: float
    sd_mm: float

    @property
    def middle_mm(self) -> float:
        """The pitch as read."""
        return (self.low_mm + self.high_mm) / 2

    def off_sd(self, pitch_mm: float) -> float:
        """How far a pitch is outside, in standard deviations."""
        return max(0.0, self.low_mm - pitch_mm, pitch_mm - self.high_mm) / self.sd_mm


@dataclass(frozen=True)
class ThreadReadings:
    """What was read: diameters [mm] over the crests (`outside`) or between them (`inside`), pitches, taper seen."""

    face: Face
    diameters_mm: tuple[float, ...]
    pitches: tuple[PitchReading, ...] = ()
    tapers: bool | None = None
    worn: bool = False

    @cached_property
    def diameter_mm(self) -> float:
        """Their mean."""
        return statistics.fmean(self.diameters_mm)

    @cached_property
    def sd_mm(self) -> float:
        """Standard deviation of the mean: one reading outside is good to 0.05 mm, five to 0.03 mm."""
        count, one = len(self.diameters_mm), CREST_SD_MM[self.face]
        if count > 2:
            one = max(one, statistics.stdev(self.diameters_mm))
        return math.hypot(CALIPER_SD_MM, one / math.sqrt(count))


@dataclass(frozen=True)
class Judged:
    """A candidate beside the readings.

    `beyond_mm` is how far the reading lies outside the tolerance range (negative: below); `diameter_off_sd` how far
    outside it even if worn or plated; `share` its part of all candidates' probability, 0 to 1.
    """

    candidate: Candidate
    beyond_mm: float
    diameter_off_sd: float
    pitch_off_sd: float
    taper_agrees: bool
    share: float

    @property
    def off_sd(self) -> float:
        """Diameter and pitch together, in standard deviations."""
        return math.hypot(self.diameter_off_sd, self.pitch_off_sd)

    @property
    def fits(self) -> bool:
        """True where nothing that was read speaks against it."""
        return self.off_sd <= FITS_SD and self.taper_agrees


def judge(candidates: Sequence[Candidate], readings: ThreadReadings) -> list[Judged]:
    """All candidates, the likeliest first.

    >>> m8 = Candidate("M8 x 1.25", 7.76, 7.972, 1.25, 0.0, 1.0)
    >>> inch = Candidate("5/16-18", 7.686, 7.907, 25.4 / 18, 0.0, 1.0)
    >>> readings = ThreadReadings("outside", (7.95,), (PitchReading(1.25, 1.25, 0.01),))
    >>> [one.candidate.name for one in judge([inch, m8], readings)]
    ['M8 x 1.25', '5/16-18']
    """
    logs = [_log_share(one, readings) for one in candidates]
    most = max(logs)
    whole = math.fsum(math.exp(log - most) for log in logs)
    judged = [_judged(one, readings, math.exp(log - most) / whole) for one, log in zip(candidates, logs, strict=True)]
    order = sorted(range(len(judged)), key=lambda i: (-logs[i], judged[i].candidate.name))
    return [judged[i] for i in order]


def nearest(judged: Sequence[Judged], count: int) -> list[Judged]:
    """Where none fits: those least far off, by diameter before pitch; the commoner first where they are equally far."""

    def far(one: Judged) -> tuple[bool, bool, int, float]:
        off = one.diameter_off_sd > FITS_SD
        return not one.taper_agrees, off, round(one.diameter_off_sd if off else one.off_sd), -one.candidate.commonness

    return sorted(judged, key=far)[:count]


def _judged(one: Candidate, readings: ThreadReadings, share: float) -> Judged:
    d = readings.diameter_mm
    beyond = d - one.greatest_mm if d > one.greatest_mm else min(0.0, d - one.least_mm)
    below, above = (one.wear_mm, PLATED_MM) if readings.face == "outside" else (PLATED_MM, one.wear_mm)
    outside = max(0.0, one.least_mm - below - d, d - one.greatest_mm - above)
    pitch = math.sqrt(math.fsum(read.off_sd(one.pitch_mm) ** 2 for read in readings.pitches))
    agrees = readings.tapers is None or readings.tapers == (one.taper > 0)
    return Judged(one, beyond, outside / readings.sd_mm, pitch, agrees, share)


def _log_share(one: Candidate, readings: ThreadReadings) -> float:
    """Logarithm of likelihood times commonness, but for a constant."""
    log = math.log(one.commonness) + _log_diameter(one, readings)
    log -= math.fsum(read.off_sd(one.pitch_mm) ** 2 for read in readings.pitches) / 2
    if readings.tapers is not None:
        log += math.log(1 - TAPER_SLIP if readings.tapers == (one.taper > 0) else TAPER_SLIP)
    return log


def _log_diameter(one: Candidate, readings: ThreadReadings) -> float:
    low, high = one.least_mm, one.greatest_mm
    worn = WORN_SAID_SHARE if readings.worn else WORN_SHARE
    if readings.face == "outside":
        edges = ((low - one.wear_mm, low, worn), (high, high + PLATED_MM, PLATED_SHARE))
    else:
        edges = ((high, high + one.wear_mm, worn), (low - PLATED_MM, low, PLATED_SHARE))
    pieces = ((low, high, 1 - worn - PLATED_SHARE), *edges)
    logs = [math.log(w) + _log_even(readings.diameter_mm, a, b, readings.sd_mm) for a, b, w in pieces]
    most = max(logs)
    return most + math.log(math.fsum(math.exp(log - most) for log in logs))


def _log_even(at: float, low: float, high: float, sd: float) -> float:
    """Logarithm of an even density between `low` and `high`, blurred by a normal of this sd; sound far outside too."""
    near, far = sorted((abs(low - at) / sd, abs(high - at) / sd))
    if low <= at <= high:
        inside = 1 - _above(near) - _above(far)
        return math.log(inside / (high - low))
    if near > 6:  # the far edge no longer matters: Mills' ratio
        return -near * near / 2 - math.log(near * math.sqrt(2 * math.pi)) - math.log(high - low)
    return math.log((_above(near) - _above(far)) / (high - low))


def _above(z: float) -> float:
    """The share of a normal distribution above z standard deviations."""
    return math.erfc(z / math.sqrt(2)) / 2
