"""What prints teach: how a printer misses a size, and how much looser or tighter a fit is wanted than the table says.

Plain floats in mm, on the diameter; no YAML, no tables. The formulae stand in docs/measuring/log.md.

Sources: the mean and the variance of normal readings under a prior are in any textbook (Gelman et al., Bayesian Data
Analysis, 3rd ed., 2.5 and 2.6, from memory). A Gaussian times a Gaussian's distribution function: Rasmussen and
Williams, Gaussian Processes for Machine Learning, 2006, 3.9, eq. 3.80 to 3.87 (numbers from memory; the tests repeat
them by numerical integration). The widths below are common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, get_args

Went = Literal["loose", "right", "tight", "split"]
WENT: tuple[Went, ...] = get_args(Went)

EXCESS_PRIOR_MM = 0.15
"""Before any print: the clearance wanted lies this far (one standard deviation) from the table's."""
RIGHT_MM = 0.10
"""A fit is called right within this of the clearance wanted: half the width of the guide's sliding fit, 0.2 to 0.4."""
SAY_SO_MM = 0.05
"""By so much (one standard deviation) a hand is unsure of loose, right and tight."""
SPLIT_MM = 0.15
"""A print that split was tighter by this than one that is merely called tight."""
CALIPER_SD_MM = 0.05
"""One caliper reading by hand is good to +-0.1 mm, which is taken for two standard deviations."""
PRINT_SHARE = 0.5
"""Prints of one printer and filament differ among themselves by this share of how printers differ from each other."""
ENOUGH_PRINTS = 5
"""From so many prints with readings on, their own scatter stands in place of the printer profile's."""
PRIOR_WEIGHT = 4
"""What is assumed of the scatter between prints counts as much as so many prints."""
LEAST_SCATTER_MM = 0.05
_STEP_MM, _COARSE, _REACH = 0.005, 6, 10.0
_TAIL = -35.0


@dataclass(frozen=True)
class Belief:
    """What is held of a number [mm]: mean, standard deviation, the interval that holds it 95 times of 100."""

    mean_mm: float
    sd_mm: float
    low_mm: float
    high_mm: float
    prints: int

    @property
    def give_or_take_mm(self) -> float:
        """Half of the 95 % interval."""
        return (self.high_mm - self.low_mm) / 2


@dataclass(frozen=True)
class Missed:
    """By how much one print came out larger than its printer's calibration says [mm], and how surely."""

    error_mm: float
    sd_mm: float


@dataclass(frozen=True)
class Verdict:
    """How one print went on: its clearance over the table's allowance [mm], how surely that is known, the say-so."""

    excess_mm: float
    sd_mm: float
    went: Went

    def log_likelihood(self, wanted_mm: float) -> float:
        """Logarithm of the chance of this say-so where the clearance wanted is `wanted_mm` over the table's."""
        looser = self.excess_mm - wanted_mm
        if self.went == "loose":
            return log_phi((looser - RIGHT_MM) / self.sd_mm)
        if self.went == "right":
            return _log_between((-RIGHT_MM - looser) / self.sd_mm, (RIGHT_MM - looser) / self.sd_mm)
        step = SPLIT_MM if self.went == "split" else 0.0
        return log_phi((-RIGHT_MM - step - looser) / self.sd_mm)


def reading_sd_mm(count: int) -> float:
    """Standard deviation [mm] of the mean of `count` caliper readings."""
    return CALIPER_SD_MM / math.sqrt(count)


def say_so_sd_mm(size_sd_mm: float) -> float:
    """Standard deviation [mm] of a verdict on a print whose size is known to `size_sd_mm`."""
    return math.hypot(SAY_SO_MM, size_sd_mm)


def size_error(missed: Sequence[Missed], prior_sd_mm: float) -> Belief:
    """By how much prints come out too large [mm]: normal readings under the prior N(0, prior_sd^2).

    >>> round(size_error([Missed(0.3, 0.1), Missed(0.1, 0.1)], 0.1).mean_mm, 6)
    0.133333
    """
    weights = [1.0 / one.sd_mm**2 for one in missed]
    total = math.fsum([1.0 / prior_sd_mm**2, *weights])
    mean = math.fsum(w * one.error_mm for w, one in zip(weights, missed, strict=True)) / total
    sd = 1.0 / math.sqrt(total)
    return Belief(mean, sd, mean - 1.96 * sd, mean + 1.96 * sd, len(missed))


def print_sd_mm(errors_mm: Sequence[float], assumed_sd_mm: float) -> float:
    """Standard deviation [mm] from print to print: the prints' own, drawn to what is assumed with PRIOR_WEIGHT.

    The assumed variance counts as the mean square of PRIOR_WEIGHT prints beside the n - 1 that differ from their mean.

    >>> print_sd_mm([0.2], 0.08)
    0.08
    """
    count = len(errors_mm)
    if count < 2:
        return assumed_sd_mm
    mean = math.fsum(errors_mm) / count
    squares = math.fsum((error - mean) ** 2 for error in errors_mm)
    return math.sqrt((PRIOR_WEIGHT * assumed_sd_mm**2 + squares) / (PRIOR_WEIGHT + count - 1))


def own_scatter_mm(errors_mm: Sequence[float], assumed_sd_mm: float, mean_sd_mm: float) -> float | None:
    """Half-range [mm], two standard deviations, within which the next print misses; None before ENOUGH_PRINTS.

    `mean_sd_mm`: how surely the mean error is known, which was taken off.
    """
    if len(errors_mm) < ENOUGH_PRINTS:
        return None
    return max(LEAST_SCATTER_MM, 2.0 * math.hypot(print_sd_mm(errors_mm, assumed_sd_mm), mean_sd_mm))


def wanted_excess(verdicts: Sequence[Verdict], prior_sd_mm: float = EXCESS_PRIOR_MM) -> Belief:
    """How much more clearance than the table's is wanted [mm]: verdicts under the prior N(0, prior_sd^2), on a grid.

    The order of the verdicts does not matter, to the last bit.
    """
    if not verdicts:
        return Belief(0.0, prior_sd_mm, -1.96 * prior_sd_mm, 1.96 * prior_sd_mm, 0)
    places, logs = _grid(verdicts, prior_sd_mm)
    top = max(logs)
    weights = [math.exp(value - top) for value in logs]
    total = math.fsum(weights)
    mean = math.fsum(w * x for w, x in zip(weights, places, strict=True)) / total
    variance = math.fsum(w * (x - mean) ** 2 for w, x in zip(weights, places, strict=True)) / total
    low, high = (_quantile(places, weights, share * total) for share in (0.025, 0.975))
    return Belief(mean, math.sqrt(variance), low, high, len(verdicts))


def _grid(verdicts: Sequence[Verdict], prior_sd_mm: float) -> tuple[list[float], list[float]]:
    """Places [mm], _STEP_MM apart, and the logarithm of prior times chances there, as far as it is worth anything.

    The logarithms are concave and so is their sum: a coarse grid finds the one stretch in which the product lies within
    e^-40 of its greatest value.
    """

    def weigh(steps: range) -> list[float]:
        xs = [i * _STEP_MM for i in steps]
        return [math.fsum([-0.5 * (x / prior_sd_mm) ** 2, *(v.log_likelihood(x) for v in verdicts)]) for x in xs]

    half = _COARSE * math.ceil(_REACH * prior_sd_mm / (_STEP_MM * _COARSE))
    coarse = range(-half, half + 1, _COARSE)
    logs = weigh(coarse)
    least = max(logs) - 40.0
    worth = [step for step, value in zip(coarse, logs, strict=True) if value > least]
    fine = range(max(worth[0] - _COARSE, -half), min(worth[-1] + _COARSE, half) + 1)
    return [i * _STEP_MM for i in fine], weigh(fine)


def log_phi(t: float) -> float:
    """Logarithm of the standard normal distribution function, also far out in its tail.

    >>> round(log_phi(0.0), 6), round(log_phi(-40.0), 3)
    (-0.693147, -804.608)
    """
    if t > 0.0:
        return math.log1p(-0.5 * math.erfc(t / math.sqrt(2.0)))
    if t > _TAIL:
        return math.log(0.5 * math.erfc(-t / math.sqrt(2.0)))
    return -0.5 * t * t - math.log(-t * math.sqrt(2.0 * math.pi)) + math.log1p(-1.0 / t**2 + 3.0 / t**4)


def _log_between(low: float, high: float) -> float:
    """Logarithm of the chance of a standard normal number between the two."""
    if low > 0.0:  # the same on the other side, where the distribution function is small and exact
        low, high = -high, -low
    upper, lower = log_phi(high), log_phi(low)
    return upper + math.log1p(-math.exp(lower - upper))


def _quantile(places: Sequence[float], weights: Sequence[float], wanted: float) -> float:
    """Where the sum of the weights, taken as straight between the places, comes to `wanted`."""
    reached = 0.0
    for (x0, w0), (x1, w1) in pairwise(zip(places, weights, strict=True)):
        piece = (w0 + w1) / 2
        if piece > 0.0 and reached + piece >= wanted:
            return x0 + (x1 - x0) * max(0.0, wanted - reached) / piece
        reached += piece
    return places[-1]
