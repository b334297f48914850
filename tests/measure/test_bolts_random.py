"""Bolt patterns by the hundred: how near the centres are, how surely a slip is named, how rarely an alarm is false."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray

from fitwright.measure.bolts.readings import CALIPER_SD_MM, Reading, Readings
from fitwright.measure.bolts.solve import laid_on, solve

Array = NDArray[np.float64]
pytestmark = pytest.mark.slow
PATTERNS = 200
SLIP_MM = 2.0


@dataclass(frozen=True)
class Tried:
    """One pattern: root mean square of its centres [mm], an alarm without a slip, and whether a slip was named."""

    rms_mm: float
    alarm: bool
    first: bool | None
    alone: bool | None


def places(random: np.random.Generator) -> Array:
    count = int(random.integers(3, 13))
    turns = 2 * np.pi * (np.arange(count) + random.uniform(-0.3, 0.3, count)) / count
    radii = random.uniform(40, 100) * random.uniform(0.85, 1.15, count)
    return np.column_stack([np.sin(turns) * radii, np.cos(turns) * radii])


def pairs(count: int) -> list[tuple[int, int]]:
    """All of few holes; of many each to the next, the next but one, and across."""
    if count <= 6:
        return list(combinations(range(count), 2))
    return sorted({(min(k, m), max(k, m)) for k in range(count) for s in (1, 2, count // 2) for m in [(k + s) % count]})


def tried(random: np.random.Generator) -> Tried:
    true = places(random)
    exact = [(a, b, float(np.linalg.norm(true[a] - true[b]))) for a, b in pairs(len(true))]
    read = [Reading(a, b, d + random.normal(0, CALIPER_SD_MM)) for a, b, d in exact]
    solved = solve(Readings(len(true), tuple(read)), "no")
    off = laid_on(solved.verdict.kept.holes, true) - true
    rms = float(np.sqrt(np.mean(np.sum(off**2, axis=1))))
    alarm = bool(solved.verdict.wrong) or solved.verdict.scattered
    controlled = np.flatnonzero(solved.first.redundancy >= 0.1)
    if solved.first.spare < 2 or not len(controlled):
        return Tried(rms, alarm, None, None)
    row = int(random.choice(controlled))
    one = read[row]
    read[row] = Reading(one.first, one.second, one.value_mm + SLIP_MM * random.choice([-1, 1]))
    verdict = solve(Readings(len(true), tuple(read)), "no").verdict
    first = bool(verdict.wrong) and verdict.wrong[0].name == one.name
    return Tried(rms, alarm, first, first and not verdict.rivals)


@cache
def all_tried() -> tuple[Tried, ...]:
    random = np.random.default_rng(20)
    return tuple(tried(random) for _ in range(PATTERNS))


def test_centres_are_near() -> None:
    rms = np.array([one.rms_mm for one in all_tried()])
    assert float(np.sqrt(np.mean(rms**2))) <= 0.15


def test_a_slip_of_two_millimetres_is_named() -> None:
    named = [one for one in all_tried() if one.first is not None]
    assert len(named) >= 140
    assert sum(one.first is True for one in named) >= 0.95 * len(named)
    assert sum(one.alone is True for one in named) >= 0.95 * len(named)


def test_good_readings_raise_few_alarms() -> None:
    assert sum(one.alarm for one in all_tried()) <= 0.05 * PATTERNS


def test_even_circles_are_taken_for_even_and_uneven_ones_are_not() -> None:
    random = np.random.default_rng(21)
    even = uneven = 0
    for _ in range(100):
        count = int(random.integers(3, 9))
        turns = 2 * np.pi * np.arange(count) / count
        true = 65 * np.column_stack([np.sin(turns), np.cos(turns)])
        moved = true.copy()
        moved[0] += random.choice([-1, 1], 2) * 0.7
        for holes in (true, moved):
            read = tuple(
                Reading(a, b, float(np.linalg.norm(holes[a] - holes[b])) + random.normal(0, CALIPER_SD_MM))
                for a, b in pairs(count)
            )
            name = solve(Readings(count, read)).shape.name
            even += holes is true and name == "circle"
            uneven += holes is moved and name != "circle"
    assert even >= 95 and uneven >= 95
