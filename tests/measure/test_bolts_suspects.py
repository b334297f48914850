"""Which readings of a bolt pattern are wrong, which cannot be told apart, what is missing."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from test_bolts import UNEVEN, changed, noisy, read, ring

from fitwright.measure.bolts.readings import Reading, Readings
from fitwright.measure.bolts.rigidity import best_extra, loose
from fitwright.measure.bolts.solve import solve

HUNG = [*combinations(range(4), 2), (0, 4), (3, 4), (2, 4)]
"""Hole 5 hangs on three readings only: any one of them may be wrong."""


def test_what_can_still_move_is_named_with_the_readings_that_hold_it() -> None:
    pairs = [(0, 1), (1, 2), (0, 2), (2, 3), (3, 4)]
    missing = loose(read(UNEVEN, pairs))
    assert missing is not None and missing.moving == (3, 4)
    assert len(missing.add) == 2
    assert loose(read(UNEVEN, [*pairs, *((one.first, one.second) for one in missing.add)])) is None
    with pytest.raises(ValueError, match="do not hold"):
        solve(read(UNEVEN, [(0, 1)]))


def test_enough_readings_in_the_wrong_place_leave_a_hole_loose() -> None:
    """G. Laman 1970: 2n - 3 readings hold n holes only where no part of them has more than its share."""
    missing = loose(read(UNEVEN, [*combinations(range(4), 2), (3, 4)]))
    assert missing is not None and missing.moving == (4,)
    assert loose(read(UNEVEN, [(0, 1), (1, 2), (2, 3), (3, 4), (4, 0), (0, 2), (0, 3)])) is None


def test_the_best_further_reading_is_one_that_was_not_read() -> None:
    pairs = [(0, 1), (1, 2), (2, 3), (3, 4), (4, 0), (0, 2), (0, 3)]
    extra = best_extra(read(UNEVEN, pairs), UNEVEN)
    assert extra is not None and (extra.first, extra.second) not in pairs
    assert best_extra(read(UNEVEN), UNEVEN) is None


def test_where_redundancy_cannot_tell_all_suspects_are_rivals() -> None:
    """Four holes, six distances, one to spare: any of the six may be the wrong one."""
    square = read(np.array([(0.0, 61.0), (83.0, 60.0), (80.0, 0.0), (0.0, 0.0)]))
    verdict = solve(changed(square, 4, 2.0), "no").verdict
    assert {one.name for one in (*verdict.wrong, *verdict.rivals)} == {"1-2", "1-3", "1-4", "2-3", "2-4", "3-4"}


def test_two_suspects_are_told_apart_by_a_further_distance() -> None:
    """Of the three, 1-5 stands nearly square to the other two, which check each other."""
    solved = solve(changed(read(UNEVEN, HUNG), 7, 2.0), "no")
    verdict = solved.verdict
    assert {one.name for one in (*verdict.wrong, *verdict.rivals)} == {"3-5", "4-5"}
    assert solved.first.redundancy[HUNG.index((0, 4))] < 0.02
    assert verdict.decide is not None and verdict.decide.reading.name == "2-5"
    assert abs(verdict.decide.if_first_mm - verdict.decide.if_rival_mm) > 0.4


def test_an_even_circle_tells_rivals_apart() -> None:
    verdict = solve(changed(read(ring(5), HUNG), 7, 2.0)).verdict
    assert verdict.settled and [one.name for one in verdict.wrong] == ["4-5"]
    assert {one.name for one in verdict.rivals} == {"1-5", "3-5"}


def test_one_reading_against_an_even_circle_is_hinted_at() -> None:
    """Nothing to spare, so the free places say nothing; were the holes even, one reading would be wrong."""
    pairs = [(k, (k + s) % 5) for s in (1, 2) for k in range(5)][:7]
    solved = solve(changed(read(ring(5), pairs), 2, 2.0))
    assert not solved.verdict.wrong and solved.if_even is not None
    assert solved.if_even.name == "3-4" and solved.if_even.read_mm - solved.if_even.near_mm == pytest.approx(2.0)


def test_two_wrong_readings_are_both_named() -> None:
    wrong = changed(changed(read(ring(7) * [1.0, 1.1]), 3, 2.0), 12, -1.5)
    names = {one.name for one in solve(wrong, "no").verdict.wrong}
    assert names == {wrong.distances[3].name, wrong.distances[12].name}


def test_a_wrong_hole_diameter_is_named() -> None:
    mixed = tuple(
        Reading(r.first, r.second, r.value_mm + (6.6 if k % 2 else -6.6), "outer" if k % 2 else "inner")
        for k, r in enumerate(read(UNEVEN).distances)
    )
    (one,) = solve(Readings(5, mixed, (8.0,)), "no").verdict.wrong
    assert one.name == "hole" and one.near_mm == pytest.approx(6.6, abs=1e-6)


def test_readings_that_all_scatter_accuse_no_single_one() -> None:
    rough = noisy(read(ring(8) * [1.0, 1.2]), np.random.default_rng(6), 0.45)
    assert solve(rough, "no").verdict.scattered
