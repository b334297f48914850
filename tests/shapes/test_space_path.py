"""Centrelines in space against brute force, plane geometry and each other."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest

from fitwright.frame import Frame, Vec
from fitwright.shapes.fold import folded, tube_discs, turned_discs
from fitwright.shapes.path import joined
from fitwright.shapes.space_corners import Ends, of_radius, widest
from fitwright.shapes.space_path import Run, SpacePath, joined_in_space, turned_about, ways_in_space

AWAY: Vec = (0.0, 1.0, 0.0)
MOST = (math.radians(135.0), math.radians(135.0))


def pose(rng: random.Random) -> tuple[Vec, Vec]:
    """Somewhere ahead, turned up to 90 deg any way."""
    turn, way = math.radians(rng.uniform(2, 90)), rng.uniform(0, 2 * math.pi)
    heading = (math.sin(turn) * math.cos(way), math.cos(turn), math.sin(turn) * math.sin(way))
    return (rng.uniform(-200, 200), rng.uniform(50, 400), rng.uniform(-200, 200)), heading


def least_radius(point: Vec, heading: Vec, a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """The largest fillet for corners at a and b, written out from the vectors; 0 where an arc turns too far."""
    p, t0, t1 = np.array(point), np.array(AWAY), np.array(heading)
    corner0, corner1 = a[:, None] * t0, p - b[:, None] * t1
    between = np.linalg.norm(corner1 - corner0, axis=1)
    m = (corner1 - corner0) / between[:, None]
    turns = [np.arccos(np.clip(m @ t, -1, 1)) for t in (t0, t1)]
    first, second = (np.tan(turn / 2) for turn in turns)
    radius = np.minimum(np.minimum(a / first, b / second), between / (first + second))
    allowed = (np.maximum(*turns) <= MOST[0]) & (sum(turns) <= math.radians(225.0))
    return np.where(allowed, radius, 0.0)


def brute_force(point: Vec, heading: Vec, seed: int) -> float:
    """The best of a grid and of a random search that narrows round it."""
    d = math.hypot(*point)
    shares = np.linspace(0, 0.93, 301)[1:]
    runs = d * shares / (1 - shares)
    a, b = (grid.ravel() for grid in np.meshgrid(runs, runs))
    found = least_radius(point, heading, a, b)
    k = int(found.argmax())
    best, at, wide = float(found[k]), (float(a[k]), float(b[k])), 0.05 * d
    rng = np.random.default_rng(seed)
    for _ in range(40):
        a, b = (np.abs(x + wide * rng.standard_normal(1500)) + 1e-9 for x in at)
        found = least_radius(point, heading, a, b)
        k = int(found.argmax())
        if found[k] > best:
            best, at = float(found[k]), (float(a[k]), float(b[k]))
        else:
            wide *= 0.6
    return best


@pytest.mark.parametrize("seed", range(25))
def test_no_corners_found_by_brute_force_are_wider(seed: int) -> None:
    point, heading = pose(random.Random(seed))
    found, best = widest(Ends(AWAY, heading, point), MOST), brute_force(point, heading, seed)
    if found is None:  # so far aside that only a loop would arrive
        assert best == 0.0
        return
    assert found.radius_mm >= best * (1 - 1e-9)
    assert found.radius_mm <= best * (1 + 2e-3)  # brute force comes near, so that the figure is no fantasy
    quick = widest(Ends(AWAY, heading, point), MOST, quick=True)
    assert quick is not None and found.radius_mm * (1 - 1e-3) < quick.radius_mm <= found.radius_mm * (1 + 1e-9)


def test_in_a_plane_it_is_the_closed_form_of_the_plane() -> None:
    rng, compared = random.Random(3), 0
    for _ in range(60):
        turn = math.radians(rng.uniform(-90, 90))
        point = (rng.uniform(-200, 200), rng.uniform(50, 400), 0.0)
        flat = joined((0.0, 0.0, 0.0), (point[0], point[1], turn))
        if flat is None or len(flat.bends_deg) < 2 or sum(flat.bends_deg) > 224:
            continue
        found = widest(Ends(AWAY, (math.sin(turn), math.cos(turn), 0.0), point), MOST)
        assert found is not None
        assert found.radius_mm == pytest.approx(flat.radius_mm, rel=1e-6)
        compared += 1
    assert compared > 20


@pytest.mark.parametrize("length", [100.0, 145.0, 400.0, 900.0, 1500.0])
def test_a_line_that_exists_is_found_whatever_the_rounding(length: float) -> None:
    # two arcs of one sense and the other always join ends 35 deg apart whose axes are this far aside
    for aside in np.linspace(0.02, 0.2, 30):
        path = joined((0.0, 0.0, 0.0), (float(aside) * length, length, math.radians(35)))
        assert path is not None and path.pieces


def same(a: Vec, b: Vec, within: float = 1e-7) -> bool:
    return math.dist(a, b) < within


@pytest.mark.parametrize("seed", range(40))
def test_it_is_smooth_and_arrives_exactly(seed: int) -> None:
    rng = random.Random(seed)
    point, heading = pose(rng)
    path = joined_in_space(((5.0, 7.0, -3.0), AWAY), ((5 + point[0], 7 + point[1], point[2] - 3), heading))
    if path is None:
        assert seed == 2  # so far aside that only a loop would arrive
        return
    at: tuple[Vec, Vec] = ((5.0, 7.0, -3.0), AWAY)
    for run in path.runs:
        assert same(run.start, at[0]) and same(run.heading, at[1])
        assert math.hypot(*run.toward) == pytest.approx(1.0)
        assert sum(x * y for x, y in zip(run.toward, run.heading, strict=True)) == pytest.approx(0.0, abs=1e-12)
        assert run.length_mm > 0.05  # no slivers
        at = run.at(1.0)
    assert same(at[0], (5 + point[0], 7 + point[1], point[2] - 3)) and same(at[1], heading)
    assert max(path.bends_deg) <= 135.0 + 1e-6


def test_a_mirrored_pose_has_the_mirrored_line() -> None:
    point, heading = (40.0, 210.0, -35.0), (-0.5, math.sqrt(0.59), 0.4)
    one = joined_in_space(((0.0, 0.0, 0.0), AWAY), (point, heading))
    other = joined_in_space(((0.0, 0.0, 0.0), AWAY), ((-40.0, *point[1:]), (0.5, *heading[1:])))
    assert one is not None and other is not None and len(one.runs) == len(other.runs)
    for a, b in zip(one.runs, other.runs, strict=True):
        assert a.length_mm == pytest.approx(b.length_mm, rel=1e-9)
        p, q = a.at(0.6)[0], b.at(0.6)[0]
        assert (p[0], p[1], p[2]) == pytest.approx((-q[0], q[1], q[2]), abs=1e-7)


def test_a_given_radius_is_kept_and_refused_where_it_does_not_fit() -> None:
    start, end = ((0.0, 0.0, 0.0), AWAY), ((60.0, 300.0, 40.0), (-0.5, math.sqrt(0.75), 0.0))
    free = joined_in_space(start, end)
    assert free is not None
    held = joined_in_space(start, end, radius_mm=0.6 * free.radius_mm)
    assert held is not None and same(held.end[0], end[0]) and same(held.end[1], end[1])
    assert [r.radius_mm for r in held.runs if r.turn_rad] == pytest.approx([0.6 * free.radius_mm] * 2, rel=1e-6)
    assert held.length_mm < free.length_mm * 1.2
    assert joined_in_space(start, end, radius_mm=1.01 * free.radius_mm) is None
    corners = of_radius(Ends(AWAY, end[1], end[0]), 0.6 * free.radius_mm, MOST)
    assert corners is not None and corners.radius_mm == pytest.approx(0.6 * free.radius_mm, rel=1e-6)


def test_a_gentle_line_with_less_turning_is_taken_before_a_wider_one() -> None:
    start, end = ((0.0, 0.0, 0.0), AWAY), ((60.0, 300.0, 40.0), (-0.5, math.sqrt(0.75), 0.0))
    widest_of_all = joined_in_space(start, end)
    assert widest_of_all is not None
    gentle = ways_in_space(start, end, enough_mm=0.2 * widest_of_all.radius_mm)[0]
    assert gentle.radius_mm >= 0.2 * widest_of_all.radius_mm
    assert gentle.steepest_rad <= math.radians(45) + 1e-9


def test_the_carried_frame_is_the_limit_of_many_small_steps() -> None:
    # carrying a direction without rolling: after each small step, drop its share along the new heading
    path = joined_in_space(((0.0, 0.0, 0.0), AWAY), ((60.0, 200.0, 40.0), (0.0, 0.5, math.sqrt(0.75))))
    assert path is not None
    right = np.array([1.0, 0.0, 0.0])
    for run in path.runs:
        for share in np.linspace(0, 1, 4001)[1:]:
            heading = np.array(run.at(float(share))[1])
            right = right - heading * (right @ heading)
            right /= np.linalg.norm(right)
    last = path.frames((1.0, 0.0, 0.0))[-1][1]
    assert last.right == pytest.approx(tuple(right), abs=1e-3)
    assert last.inward == pytest.approx((0.0, 0.5, math.sqrt(0.75)), abs=1e-9)
    wanted = turned_about(last.right, last.inward, 0.3)
    assert path.roll_rad((1.0, 0.0, 0.0), wanted) == pytest.approx(0.3)


def test_the_steepest_heading_is_that_of_a_dense_sample() -> None:
    rng = random.Random(8)
    for _ in range(20):
        path = joined_in_space(((0.0, 0.0, 0.0), AWAY), pose(rng))
        assert path is not None
        sample = max(math.acos(max(-1, min(1, run.at(k / 400)[1][1]))) for run in path.runs for k in range(401))
        assert path.steepest_rad == pytest.approx(sample, abs=2e-4) and path.steepest_rad >= sample - 1e-9


def u_turn(gap: float) -> SpacePath:
    """Two quarter turns with a straight between: the legs lie `gap` apart."""
    first = Run((0.0, 0.0, 0.0), AWAY, 30 * math.pi / 2, (1.0, 0.0, 0.0), math.pi / 2)
    middle = Run((30.0, 30.0, 0.0), (1.0, 0.0, 0.0), gap - 60.0 + 1e-6, (0.0, -1.0, 0.0))
    last = Run(middle.at(1.0)[0], (1.0, 0.0, 0.0), 30 * math.pi / 2, (0.0, -1.0, 0.0), math.pi / 2)
    return SpacePath((first, middle, last))


def test_a_tube_that_meets_a_flange_is_folded_and_one_that_clears_it_is_not() -> None:
    flange = [(0.0, 45.0), (6.0, 45.0)]
    foot = turned_discs(flange, _frame(-6.0))
    far, near = u_turn(80.0), u_turn(65.0)
    assert not folded([*foot, *tube_discs(far, 25.0)])
    assert not folded([*foot, *tube_discs(near, 15.0)])
    down = Run(near.end[0], near.end[1], 40.0, (1.0, 0.0, 0.0))
    assert folded([*foot, *tube_discs(SpacePath((*near.runs, down)), 25.0)])


def _frame(y: float) -> Frame:
    return Frame((0.0, y, 0.0), AWAY, (1.0, 0.0, 0.0))
