"""Bolt patterns from distances: against closed forms, a handbook's chords and an independent minimiser."""

from __future__ import annotations

import math
from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import minimize

from fitwright.measure.bolts.adjust import free_fit
from fitwright.measure.bolts.pattern import Upright
from fitwright.measure.bolts.readings import HOLE_SHARE, OPENING, Kind, Reading, Readings
from fitwright.measure.bolts.solve import laid_on, solve
from fitwright.measure.bolts.triangles import impossible

Array = NDArray[np.float64]
# Length of chords for spacing off the circumference of a circle of diameter 1, as handbooks of the trade print it
# (Machinery's Handbook, from memory; the same to four places on http://shopswarf.orcon.net.nz/spacing.html).
CHORDS = {
    3: 0.866025,
    4: 0.707107,
    5: 0.587785,
    6: 0.500000,
    7: 0.433884,
    8: 0.382683,
    9: 0.342020,
    10: 0.309017,
    11: 0.281733,
    12: 0.258819,
}
UNEVEN = np.array([(-40.0, 28.0), (41.0, 33.0), (52.0, -8.0), (38.0, -30.0), (-36.0, -25.0)])
"""Clockwise, right and up."""


def read(places: Array, pairs: list[tuple[int, int]] | None = None) -> Readings:
    """What exact distances between these places read."""
    every = pairs or list(combinations(range(len(places)), 2))
    made = tuple(Reading(a, b, float(np.linalg.norm(places[a] - places[b]))) for a, b in every)
    return Readings(len(places), made)


def ring(count: int, diameter: float = 130.0) -> Array:
    turns = 2 * np.pi * np.arange(count) / count
    return np.column_stack([np.sin(turns), np.cos(turns)]) * diameter / 2


def changed(readings: Readings, row: int, by_mm: float) -> Readings:
    """The same with one distance read wrongly."""
    d = list(readings.distances)
    d[row] = Reading(d[row].first, d[row].second, d[row].value_mm + by_mm, d[row].kind)
    return Readings(readings.count, tuple(d), readings.hole_mm, readings.opening_mm, readings.sd_mm)


def noisy(readings: Readings, random: np.random.Generator, sd_mm: float = 0.1) -> Readings:
    made = tuple(Reading(r.first, r.second, r.value_mm + random.normal(0, sd_mm)) for r in readings.distances)
    return Readings(readings.count, made)


@pytest.mark.parametrize("count", CHORDS)
def test_one_adjacent_distance_gives_the_circle_of_the_handbook(count: int) -> None:
    pattern = solve(Readings(count, (Reading(0, 1, 120.0 * CHORDS[count]),)), "yes").pattern
    assert pattern.circle_mm == pytest.approx(120.0, abs=120 * 1e-6 / CHORDS[count])
    assert pattern.first_at_deg == 0.0
    assert np.allclose(pattern.places, ring(count, pattern.circle_mm), atol=1e-9)


@pytest.mark.parametrize("count", range(3, 17))
def test_exact_distances_give_the_exact_places(count: int) -> None:
    random = np.random.default_rng(count)
    turns = 2 * np.pi * (np.arange(count) + random.uniform(-0.25, 0.25, count)) / count
    places = np.column_stack([np.sin(turns), np.cos(turns)]) * random.uniform(50, 70, (count, 1))
    solved = solve(read(places), "no")
    found = np.array(solved.pattern.places)
    assert np.max(np.abs(laid_on(found, places) - places)) < 1e-9
    assert solved.verdict.wrong == () and not solved.verdict.scattered


@pytest.mark.parametrize("count", range(3, 17))
def test_an_even_circle_is_recognised(count: int) -> None:
    solved = solve(read(ring(count)))
    assert solved.shape.name == "circle" and solved.pattern.circle_mm == pytest.approx(130.0, abs=1e-9)
    assert np.allclose(solved.pattern.places, ring(count), atol=1e-9)


def test_it_stands_as_its_reader_saw_it_and_from_behind_the_other_way() -> None:
    pattern = solve(read(UNEVEN), "no", Upright(level=(0, 1))).pattern
    places = np.array(pattern.places)
    assert places[0][1] == pytest.approx(places[1][1], abs=1e-9) and places[0][0] < places[1][0]
    x, y = (places - places.mean(axis=0)).T
    assert np.sum(x * np.roll(y, -1) - y * np.roll(x, -1)) < 0  # clockwise with right and up as seen
    assert np.allclose(np.array(pattern.from_behind().places), places * [-1, 1])


@pytest.mark.parametrize("count", [3, 5])
def test_hole_one_stands_up_unless_another_is_asked_for(count: int) -> None:
    for up in (None, 2):
        place = solve(read(UNEVEN[:count]), "no", Upright(up=up)).pattern.places[up or 0]
        assert place[0] == pytest.approx(0, abs=1e-8) and place[1] > 0


@pytest.mark.parametrize(
    ("count", "level", "first"), [(4, (0, 1), 45.0), (6, (0, 1), 30.0), (5, (3, 2), 0.0), (2, (0, 1), 90.0)]
)
def test_first_at_counts_clockwise_from_up(count: int, level: tuple[int, int], first: float) -> None:
    pattern = solve(read(ring(count)), "yes", Upright(level=level)).pattern
    assert pattern.first_at_deg == pytest.approx(first, abs=1e-9)


@pytest.mark.parametrize("kind", HOLE_SHARE)
def test_readings_by_edges_are_the_centre_distance_and_parts_of_the_hole(kind: Kind) -> None:
    more = {"centre": 0.0, "outer": 6.6, "inner": -6.6, "far_edge": 3.3, "near_edge": -3.3}[kind]
    by_edges = tuple(Reading(r.first, r.second, r.value_mm + more, kind) for r in read(UNEVEN).distances)
    solved = solve(Readings(5, by_edges, (6.6,)), "no")
    assert np.max(np.abs(laid_on(np.array(solved.pattern.places), UNEVEN) - UNEVEN)) < 1e-9


def test_the_redundancy_numbers_of_a_braced_rectangle_are_those_of_its_stress() -> None:
    """A rectangle w x h with both diagonals has one self-stress, proportional to the lengths: r = length^2 / 4 d^2."""
    w, h, d = 80.0, 60.0, 100.0
    corners = read(np.array([(0, h), (w, h), (w, 0), (0, 0)]), [(0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3)])
    fit = solve(corners, "no").first
    assert fit.spare == 1
    assert fit.redundancy == pytest.approx([w * w / 4 / d**2, h * h / 4 / d**2] * 2 + [0.25, 0.25], abs=1e-9)
    assert solve(changed(corners, 4, 0.004), "no").first.residuals[4] == pytest.approx(0.001, rel=1e-3)


@pytest.mark.parametrize("count", [5, 8, 12])
def test_the_sum_of_the_redundancy_numbers_is_what_is_spare(count: int) -> None:
    """Trace of I - H: a theorem of the adjustment."""
    fit = solve(read(ring(count, 100) * [1.0, 1.2]), "no").first
    assert fit.redundancy.sum() == pytest.approx(fit.spare, abs=1e-6)
    assert fit.spare == count * (count - 1) // 2 - (2 * count - 3)


def test_an_independent_minimiser_finds_the_same_places() -> None:
    """scipy's BFGS on the plain sum of squares, all ten coordinates free, against the adjustment."""
    readings = noisy(read(UNEVEN), np.random.default_rng(4))

    def total(x: Array) -> float:
        p = x.reshape(-1, 2)
        return float(sum((np.linalg.norm(p[r.first] - p[r.second]) - r.value_mm) ** 2 for r in readings.distances))

    found = minimize(total, UNEVEN.ravel(), method="BFGS", options={"gtol": 1e-9}).x.reshape(-1, 2)
    ours = np.array(solve(readings, "no").pattern.places)
    assert np.max(np.abs(laid_on(ours, found) - found)) < 1e-5


def test_give_or_take_is_what_many_sets_of_readings_scatter() -> None:
    """Two standard deviations along the worse direction, against 1500 simulated sets aligned on the truth."""
    random = np.random.default_rng(8)
    fit = solve(read(UNEVEN), "no").first
    sets = [free_fit(noisy(read(UNEVEN), random), UNEVEN).places for _ in range(1500)]
    off = np.array([laid_on(places, UNEVEN) - UNEVEN for places in sets])
    for k in range(5):
        worst = 2 * math.sqrt(np.linalg.eigvalsh(np.cov(off[:, k].T))[-1])
        assert fit.give_mm(k) == pytest.approx(worst, rel=0.08)


def test_a_rectangle_is_recognised_and_a_trapezium_is_not() -> None:
    corners = np.array([(0.0, 60.0), (80.0, 60.0), (80.0, 0.0), (0.0, 0.0)])
    assert solve(read(corners)).shape.name == "rectangle"
    assert solve(read(corners + np.array([(1.5, 0), (-1.5, 0), (0, 0), (0, 0)]))).shape.name == "free"


def test_a_row_is_a_row() -> None:
    row = np.array([(0.0, 0.0), (40.0, 0.0), (95.0, 0.0), (130.0, 0.0)])
    solved = solve(read(row))
    assert solved.shape.name == "row"
    assert np.allclose(np.array(solved.pattern.places)[:, 0], row[:, 0] - 65.0, atol=1e-9)


@pytest.mark.parametrize("aside", [(0.0, 0.0), (2.0, -1.5)])
def test_the_opening_gives_the_origin(aside: tuple[float, float]) -> None:
    rim = tuple(Reading(OPENING, k, float(np.linalg.norm(ring(5)[k] - aside)) - 45.0) for k in range(4))
    pattern = solve(Readings(5, (*read(ring(5)).distances, *rim), (), (90.0,))).pattern
    assert pattern.opening is not None and pattern.opening.diameter_mm == pytest.approx(90.0, abs=1e-8)
    assert (pattern.opening.right_mm, pattern.opening.up_mm) == pytest.approx((0, 0), abs=1e-9)
    assert math.hypot(*pattern.circle_at) == pytest.approx(math.hypot(*aside), abs=1e-8)
    assert (pattern.first_at_deg is not None) == (aside == (0.0, 0.0))


@pytest.mark.parametrize("count", range(3, 9))
def test_a_hole_in_the_middle_has_no_place_in_the_round(count: int) -> None:
    places = np.vstack([ring(count) * [1.0, 1.15], [(0.5, 1.0)]])
    solved = solve(read(places), "no")
    assert solved.order >= 1
    assert np.max(np.abs(laid_on(np.array(solved.pattern.places), places) - places)) < 1e-8


def test_a_fold_over_a_hinge_does_not_win_over_the_clockwise_one() -> None:
    """Hole 3 hangs on 2 and 4 only: folded inwards it fits as well."""
    places = ring(8, 120)
    pairs = [p for p in combinations(range(8), 2) if 2 not in p] + [(1, 2), (2, 3)]
    solved = solve(read(places, pairs), "no")
    assert np.max(np.abs(laid_on(np.array(solved.pattern.places), places) - places)) < 1e-8
    assert solved.order == 2 and solved.others == ()


def test_swapped_numbers_are_noticed() -> None:
    assert solve(read(UNEVEN[[0, 2, 1, 3, 4]]), "no").order == 0


def test_a_distance_longer_than_the_way_round_is_impossible() -> None:
    readings = Readings(3, (Reading(0, 1, 50.0), Reading(1, 2, 60.0), Reading(0, 2, 110.9)))
    found = impossible(readings)
    assert found is not None and found.round_mm == pytest.approx(110.0)
    assert [one.apart_mm for one in (found.side, *found.way)] == [110.9, 50.0, 60.0]
    assert impossible(changed(readings, 2, -0.5)) is None  # a row, read a little long
    assert impossible(read(UNEVEN)) is None
