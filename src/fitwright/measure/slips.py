"""Readings of one and the same size: how far they scatter, and the reading that is a slip."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from fitwright.measure.linear_fit import worst_of

ALARM = 0.025
"""Chance of a false alarm over all readings of a file; the gauges have the same, both together 5 %."""
LEAST_SD_MM = 0.02
"""A caliper on a printed part repeats no better than this (common practice, no source): less is rounding."""
LEAST_DOF = 3


@dataclass(frozen=True)
class Slip:
    """A reading that is off its fellows by `off_mm`; `reading` None: one of two, and nobody knows which."""

    gauge: int
    reading: int | None
    off_mm: float
    chance: float


@dataclass(frozen=True)
class Repeats:
    """Readings without slips, what was left out, and the standard deviation [mm] of one reading (None: no repeats)."""

    readings_mm: tuple[tuple[float, ...], ...]
    slips: tuple[Slip, ...]
    sd_mm: float | None


def repeats(readings_mm: Sequence[Sequence[float]]) -> Repeats:
    """Judge all readings together: each against the mean of its own gauge, by the scatter of all gauges.

    The worst is left out and the rest judged anew, until none is worse than chance allows. Of two readings that differ
    too much both go: the gauge's readings are then empty.
    """
    kept = [dict(enumerate(one)) for one in readings_mm]
    slips: list[Slip] = []
    while (slip := _slip([list(one.values()) for one in kept], [list(one) for one in kept])) is not None:
        slips.append(slip)
        if slip.reading is None:
            kept[slip.gauge] = {}
        else:
            del kept[slip.gauge][slip.reading]
    clean = tuple(tuple(one.values()) for one in kept)
    return Repeats(clean, tuple(slips), _pooled_sd(clean))


def _pooled_sd(readings_mm: Sequence[Sequence[float]]) -> float | None:
    dof = sum(len(one) - 1 for one in readings_mm if one)
    return math.sqrt(sum(_squares(one) for one in readings_mm) / dof) if dof else None


def _squares(values: Sequence[float]) -> float:
    return sum((v - math.fsum(values) / len(values)) ** 2 for v in values) if values else 0.0


def _slip(groups: list[list[float]], numbers: list[list[int]]) -> Slip | None:
    """The worst reading, where it is worse than chance allows."""
    several = [g for g, values in enumerate(groups) if len(values) > 1]
    dof = sum(len(groups[g]) - 1 for g in several)
    if dof - 1 < LEAST_DOF:
        return None
    places = [(g, k) for g in several for k in range(len(groups[g]))]
    count = np.array([len(groups[g]) for g, _ in places], dtype=float)
    off = np.array([groups[g][k] - math.fsum(groups[g]) / len(groups[g]) for g, k in places])
    free = 1.0 - 1.0 / count
    squares = sum(_squares(groups[g]) for g in several)
    sd = np.sqrt(np.maximum((squares - off**2 / free) / (dof - 1), LEAST_SD_MM**2))
    worst, chance = worst_of(off / (sd * np.sqrt(free)), dof - 1)
    if chance >= ALARM:
        return None
    g, k = places[worst]
    apart = float(off[worst] / free[worst])
    return Slip(g, None if count[worst] == 2 else numbers[g][k], apart, chance)
