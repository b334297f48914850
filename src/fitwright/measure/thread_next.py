"""Which further reading tells the leading threads apart best?

For each reading that can still be taken: the chance-weighted share of pairs of candidates that it would separate,
1 - BC, where BC is the Bhattacharyya coefficient of the two expected readings taken as normal (Kailath, IEEE
Transactions on Communication Technology 15, 1967; from memory).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

from fitwright.measure.thread import CALIPER_SD_MM, CREST_SD_MM, Candidate, Judged, ThreadReadings

Reading = Literal["pitch", "taper", "diameter"]

LENGTH_SD_MM = 0.1
"""A length over some crests, with caliper or rule (common practice, no source)."""
OVER_THREADS = {"outside": 10, "inside": 5}
"""Crests that a bolt has at least, and a rubbing of a nut."""
MORE_DIAMETERS = 5
TAPER_APART_MM = 10.0
WORTH_SAYING = 0.1
"""A reading that separates less is not worth taking."""
ALIKE = 0.03
"""Readings that are worth the same within this: the easier one is said."""


@dataclass(frozen=True)
class NextReading:
    """A reading to take next; `worth` is the share of doubt that it removes, 0 to 1."""

    reading: Reading
    worth: float


def next_readings(leading: Sequence[Judged], readings: ThreadReadings) -> list[NextReading]:
    """What to read next, the most telling first; empty where nothing more would help."""
    pairs = [(a, b, a.share * b.share) for a, b in combinations(leading, 2)]
    whole = math.fsum(weight for _, _, weight in pairs)
    found = []
    for reading in _open(readings):
        told = math.fsum(w * _told_apart(reading, a.candidate, b.candidate, readings) for a, b, w in pairs)
        if whole > 0 and told / whole >= WORTH_SAYING:
            found.append(NextReading(reading, told / whole))
    return sorted(found, key=lambda one: -round(one.worth / ALIKE))


def part_after(a: Candidate, b: Candidate) -> float:
    """After how many threads two that are held together crest to crest part by half a pitch; inf where they do not.

    >>> round(part_after(Candidate("a", 1, 2, 1.25, 0, 1), Candidate("b", 1, 2, 25.4 / 18, 0, 1)), 1)
    4.1
    """
    apart = abs(a.pitch_mm - b.pitch_mm)
    return (a.pitch_mm + b.pitch_mm) / 4 / apart if apart > 0 else math.inf


def _open(readings: ThreadReadings) -> list[Reading]:
    """Readings not taken yet, the easiest first."""
    found: list[Reading] = []
    if not any(read.high_mm == read.low_mm and read.sd_mm <= 2 * _pitch_sd(readings) for read in readings.pitches):
        found.append("pitch")
    if readings.tapers is None:
        found.append("taper")
    if len(readings.diameters_mm) < MORE_DIAMETERS:
        found.append("diameter")
    return found


def _pitch_sd(readings: ThreadReadings) -> float:
    return LENGTH_SD_MM / OVER_THREADS[readings.face]


def _told_apart(reading: Reading, a: Candidate, b: Candidate, readings: ThreadReadings) -> float:
    if reading == "pitch":
        return _apart(a.pitch_mm - b.pitch_mm, _pitch_sd(readings), _pitch_sd(readings))
    one = CREST_SD_MM[readings.face]
    if reading == "taper":
        return _apart((a.taper - b.taper) * TAPER_APART_MM, one * math.sqrt(2), one * math.sqrt(2))
    mean = math.hypot(CALIPER_SD_MM, one / math.sqrt(MORE_DIAMETERS))
    middles = (a.least_mm + a.greatest_mm - b.least_mm - b.greatest_mm) / 2
    spreads = [math.hypot(mean, (c.greatest_mm - c.least_mm) / math.sqrt(12)) for c in (a, b)]
    return _apart(middles, *spreads)


def _apart(distance: float, sd_a: float, sd_b: float) -> float:
    squares = sd_a**2 + sd_b**2
    return 1 - math.sqrt(2 * sd_a * sd_b / squares) * math.exp(-(distance**2) / (4 * squares))
