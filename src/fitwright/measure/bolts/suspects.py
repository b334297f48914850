"""Which reading is wrong: data snooping (W. Baarda 1968), each suspect confirmed by fitting without it.

A standardised residual beyond what chance gives in 98 of 100 good sets (shared out over all readings) makes its reading
suspect. Without it, the rest must agree; readings whose removal helps about as well are rivals, and the distance that
would tell them apart is named.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from scipy.stats import norm

from fitwright.measure.bolts.adjust import UNCONTROLLED, Fit, modelled, slopes
from fitwright.measure.bolts.readings import Numbers, Reading, Readings
from fitwright.measure.bolts.rigidity import unread

FALSE_ALARM = 0.02
"""Chance that a set of good readings raises a false alarm."""
RIVAL = 9.0
"""Sum of squares by which leaving out another reading may help less and it still be a suspect (3 sd)."""
MOST = 3
"""So many wrong readings are looked for at most, one after another, and no more than a quarter of them all."""
Refit = Callable[[Readings], Fit]


@dataclass(frozen=True)
class Suspect:
    """A reading that the others contradict: what it was and what it should be near [mm], give or take."""

    name: str
    read_mm: float
    near_mm: float
    give_mm: float
    reading: Reading | None


@dataclass(frozen=True)
class Decider:
    """A distance that is still to be read: what it should be near [mm] by either explanation."""

    reading: Reading
    if_first_mm: float
    if_rival_mm: float


@dataclass(frozen=True)
class Verdict:
    """`wrong` one after another; `rivals` of the first where it cannot be told which, `decide` what would tell.

    `kept` is the fit without what is wrong, `instead` the fits without each rival. `settled`: only without the first is
    the pattern of a simple shape, and that told it from its rivals. `scattered`: the rest does not agree as good
    readings do; where leaving out the worst ones one after another does not help either, none is left out.
    """

    kept: Fit
    wrong: tuple[Suspect, ...] = ()
    rivals: tuple[Suspect, ...] = ()
    decide: Decider | None = None
    scattered: bool = False
    instead: tuple[Fit, ...] = ()
    settled: bool = False

    def by_shape(self, simple: Callable[[Fit], bool]) -> Verdict:
        """The same, decided by the shape where leaving out just one of wrong and rivals makes it a simple one."""
        if not self.rivals or len(self.wrong) != 1:
            return self
        named, fits = (*self.wrong, *self.rivals), (self.kept, *self.instead)
        able = [k for k, fit in enumerate(fits) if simple(fit)]
        if len(able) != 1:
            return self
        others = tuple(one for k, one in enumerate(named) if k != able[0])
        return Verdict(fits[able[0]], (named[able[0]],), others, settled=True)


def limit(count: int) -> float:
    """The standardised residual that chance exceeds in FALSE_ALARM of sets of `count` readings."""
    return float(norm.isf(FALSE_ALARM / 2 / max(count, 1)))


def judge(fit: Fit, refit: Refit) -> Verdict:
    """What the residuals say; `refit` fits the same model to fewer readings."""
    every, wrong = fit, list[Suspect]()
    rivals: tuple[Suspect, ...] = ()
    instead: tuple[Fit, ...] = ()
    decide = None
    most = max(1, min(MOST, fit.readings.observed // 4))
    while len(wrong) < most and _worst(fit) > limit(fit.readings.observed):
        ranked = _ranked(fit, refit)
        if not ranked:
            break
        if not wrong:
            rivals = tuple(_suspect(fit, row, one) for row, one in ranked[1:])
            instead = tuple(one for _, one in ranked[1:])
            decide = deciding(fit.readings, ranked[0][1], instead[0]) if rivals else None
        row, best = ranked[0]
        wrong.append(_suspect(fit, row, best))
        fit = best
    if _worst(fit) > limit(fit.readings.observed):
        return Verdict(every, scattered=True)
    return Verdict(fit, tuple(wrong), rivals, decide, _scattered(fit), instead)


def _scattered(fit: Fit) -> bool:
    return fit.spare > 0 and fit.likely < FALSE_ALARM / 2


def _worst(fit: Fit) -> float:
    controlled = fit.redundancy > UNCONTROLLED
    return float(np.max(np.abs(fit.standardised[controlled]), initial=0.0))


def _ranked(fit: Fit, refit: Refit) -> list[tuple[int, Fit]]:
    """The reading whose removal helps most, then its rivals."""
    w = np.nan_to_num(np.abs(fit.standardised))
    beyond = [int(row) for row in np.argsort(-w) if w[row] > limit(fit.readings.observed)]
    tried = [(row, refit(fit.readings.without(row))) for row in beyond]
    tried.sort(key=lambda one: one[1].chi2)
    return [one for one in tried if one[1].chi2 <= tried[0][1].chi2 + RIVAL] if tried else []


def _suspect(fit: Fit, row: int, without: Fit) -> Suspect:
    readings = fit.readings
    distances = len(readings.distances)
    one = readings.distances[row] if row < distances else None
    if one is not None:
        near, give = expected(without, one)
    else:
        at = -2 if readings.name(row) == "hole" else -1
        near, give = float(without.unknowns[at]), float(2 * np.sqrt(max(without.covariance[at, at], 0.0)))
    return Suspect(readings.name(row), float(readings.values[row]), near, give, one)


def expected(fit: Fit, reading: Reading) -> tuple[float, float]:
    """What a reading should be [mm] by this fit, and two standard deviations of that."""
    mean = replace(fit.readings, distances=(reading, *fit.readings.distances))
    row: Numbers = slopes(mean, fit.unknowns)[0]
    return float(modelled(mean, fit.unknowns)[0]), float(2 * np.sqrt(max(float(row @ fit.covariance @ row), 0.0)))


def deciding(readings: Readings, one: Fit, other: Fit) -> Decider | None:
    """The distance not in `readings` that two explanations disagree on most; None where they agree on all of them."""
    best: Decider | None = None
    most = 4 * readings.sd_mm
    for new in unread(readings):
        here, there = expected(one, new)[0], expected(other, new)[0]
        if abs(here - there) > most * 1.02:
            best, most = Decider(new, here, there), abs(here - there)
    return best
