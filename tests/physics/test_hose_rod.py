"""The heavy springy hose against Euler's elastica, a boundary value solver, the catenary, and what must hold."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy import integrate, special

from fitwright.frame import Vec
from fitwright.physics.hose_bend import springs_takes_mm
from fitwright.physics.hose_piece import hung_piece
from fitwright.physics.hose_rod import Rod, stood

HERE: Vec = (0.0, 0.0, 0.0)
RIGHT: Vec = (1.0, 0.0, 0.0)
UP: Vec = (0.0, 0.0, 1.0)
LIGHT = 1e-7
"""Next to no weight [N/mm]."""


def rod(leaves: Vec | None, end: Vec, arrives: Vec | None, length: float, stiff: float, weight: float) -> Rod:
    found = stood(HERE, leaves, end, arrives, length, stiff, weight)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("alpha", "load", "across"),
    [
        # S. P. Timoshenko and J. M. Gere, Theory of Elastic Stability, 1961, table 2-4 (from memory): end slope, load
        # over Euler's, and how near both ends have come
        (20.0, 1.015, 0.970),
        (40.0, 1.063, 0.881),
        (60.0, 1.152, 0.741),
        (80.0, 1.293, 0.560),
        (100.0, 1.518, 0.349),
    ],
)
def test_a_strut_that_has_buckled(alpha: float, load: float, across: float) -> None:
    """Both ends free to turn, pushed together: half of it is the book's cantilever."""
    p = math.sin(math.radians(alpha) / 2)
    k, e = special.ellipk(p * p), special.ellipe(p * p)
    assert load == pytest.approx((k / (math.pi / 2)) ** 2, abs=1e-3) and across == pytest.approx(
        2 * e / k - 1, abs=1e-3
    )
    stiff, length = 1e5, 1000.0
    one = rod(None, ((2 * e / k - 1) * length, 0.0, 0.0), None, length, stiff, LIGHT)
    euler = math.pi**2 * stiff / length**2
    assert -one.on_start[0] == pytest.approx(load * euler, rel=5e-3)
    # the tightest bend is in the middle: moment = load x deflection there, 2 p / sqrt(P / E I)
    assert one.radius_mm == pytest.approx(1.0 / (2 * p * math.sqrt(load * euler / stiff)), rel=5e-3)


@pytest.mark.parametrize("turn_deg", [30.0, 60.0, 90.0, 120.0])
def test_a_springy_bend_at_a_clamp(turn_deg: float) -> None:
    """Pulled straight far from the clamp, c = sqrt(E I / pull): f' = -2 sin(f / 2) / c, by hand: R at the clamp
    c / 2 sin(b / 2), 2 c (1 - cos(b / 2)) more hose than the straight, 2 c sin(b / 2) to the side of it."""
    turn, radius, straight, stiff = math.radians(turn_deg), 80.0, 2000.0, 1e5
    c = 2 * radius * math.sin(turn / 2)
    assert springs_takes_mm(turn, radius) == pytest.approx(2 * c * (1 - math.cos(turn / 2)))
    leaves, end = (math.cos(turn), 0.0, math.sin(turn)), (straight, 0.0, 2 * c * math.sin(turn / 2))
    one = rod(leaves, end, None, straight + springs_takes_mm(turn, radius), stiff, LIGHT)
    assert one.radius_mm == pytest.approx(radius, rel=0.02)
    assert -one.on_end[0] == pytest.approx(stiff / c**2, rel=0.03)
    assert one.on_end[2] == pytest.approx(0.0, abs=0.01 * stiff / c**2)


def by_integration(
    leaves: Vec, end: Vec, length: float, stiff: float, weight: float, guess: Rod
) -> tuple[float, float]:
    """Level and upward force on the end, by a boundary value solver for f'' in the upright plane; free at the end."""
    f0 = math.atan2(leaves[2], leaves[0])

    def slopes(s: np.ndarray, y: np.ndarray, p: np.ndarray) -> np.ndarray:
        level, up = p[0], p[1] - weight * (length - s)
        return np.vstack([y[1], (level * np.sin(y[0]) - up * np.cos(y[0])) / stiff, np.cos(y[0]), np.sin(y[0])])

    def ends(a: np.ndarray, b: np.ndarray, p: np.ndarray) -> np.ndarray:
        return np.array([a[0] - f0, b[1] * 100, a[2], a[3], b[2] - end[0], b[3] - end[2]])

    points = np.array(guess.points)
    steps = np.diff(points, axis=0)
    s = np.concatenate([[0.0], np.cumsum(np.linalg.norm(steps, axis=1))]) * length / guess_length(points)
    slope = np.arctan2(steps[:, 2], steps[:, 0])
    slope = np.concatenate([slope, slope[-1:]])
    y = np.vstack([slope, np.gradient(slope, s), points[:, 0], points[:, 2]])
    found = integrate.solve_bvp(slopes, ends, s, y, p=[-guess.on_end[0], -guess.on_end[2]], tol=1e-6, max_nodes=20_000)
    assert found.success, found.message
    return -float(found.p[0]), -float(found.p[1])


def guess_length(points: np.ndarray) -> float:
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


@pytest.mark.parametrize(
    ("length", "stiff"), [(1612.0, 46e3), (1612.0, 368e3), (1650.0, 100e3), (1700.0, 368e3), (1599.0, 368e3)]
)
def test_up_out_of_a_port_to_a_hook_by_another_solver(length: float, stiff: float) -> None:
    """1300 across and 900 up, 8.354 N/m: E I f'' = -H sin f + V cos f, solved for both ends with scipy's solve_bvp."""
    weight, end = 8.354e-3, (1300.0, 0.0, 900.0)
    one = rod(UP, end, None, length, stiff, weight)
    level, up = by_integration(UP, end, length, stiff, weight, one)
    assert one.on_end[0] == pytest.approx(level, rel=0.015) and one.on_end[2] == pytest.approx(up, rel=0.015)


@pytest.mark.parametrize(("length", "end"), [(1300.0, (1200.0, 0.0, 0.0)), (1500.0, (800.0, 600.0, -800.0))])
def test_without_stiffness_it_is_the_catenary(length: float, end: Vec) -> None:
    weight = 8e-3
    one, limp = rod(None, end, None, length, 1.0, weight), hung_piece(HERE, end, length)
    assert one.on_end == pytest.approx(limp.force(weight, end=True), abs=2e-3 * weight * length)
    assert one.on_start == pytest.approx(limp.force(weight, end=False), abs=2e-3 * weight * length)
    assert one.lowest_mm == pytest.approx(limp.lowest_mm, abs=1.0)


def test_a_clamped_beam_that_hardly_sags() -> None:
    """Level between two clamps a millionth longer than they are apart, very stiff: w L / 2 on each, ends that stay
    level; its own slack decides the rest, so only the sum is told."""
    one = rod(RIGHT, (1000.0, 0.0, 0.0), RIGHT, 1000.01, 1e8, 0.01)
    assert one.on_start[2] == pytest.approx(-5.0, rel=1e-3) and one.on_end[2] == pytest.approx(-5.0, rel=1e-3)


def test_taut_has_no_shape() -> None:
    assert stood(HERE, UP, (600.0, 0.0, 800.0), None, 1000.0, 1e5, 8e-3) is None
    assert stood(HERE, UP, (600.0, 0.0, 800.0), None, 990.0, 1e5, 8e-3) is None


def a_case(seed: int) -> tuple[Vec | None, Vec, Vec | None, float, float, float]:
    rng = random.Random(seed)
    ways = [(1.0, 0.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, -1.0, 0.0), UP, (0.0, 0.0, -1.0), None]
    end = (rng.uniform(200, 2500), rng.uniform(-800, 800), rng.uniform(-1200, 1200))
    length = math.hypot(*end) * rng.uniform(1.01, 1.8)
    return rng.choice(ways), end, rng.choice(ways), length, 10 ** rng.uniform(4.5, 6), rng.uniform(3e-3, 2e-2)


@pytest.mark.parametrize("seed", range(60))
def test_what_holds_for_every_rod(seed: int) -> None:
    leaves, end, arrives, length, stiff, weight = a_case(seed)
    one = rod(leaves, end, arrives, length, stiff, weight)
    # it joins both ends with just that much hose, and both bear its weight
    points = np.array(one.points)
    assert guess_length(points) == pytest.approx(length, rel=1e-9)
    assert points[-1] == pytest.approx(np.array(end), abs=1e-5 * length)
    total = np.array(one.on_start) + np.array(one.on_end)
    assert total == pytest.approx(np.array((0.0, 0.0, -weight * length)), abs=1e-9 * weight * length)
    # moments about the end: what its start is turned by is left over, none where it is free there and at the end
    if leaves is None and arrives is None:
        middles, links = (points[1:] + points[:-1]) / 2, np.linalg.norm(np.diff(points, axis=0), axis=1)
        weighs = np.column_stack([np.zeros(len(links)), np.zeros(len(links)), -weight * links])
        moment = np.cross(middles - points[-1], weighs).sum(axis=0)
        moment -= np.cross(points[0] - points[-1], np.array(one.on_start))
        assert np.abs(moment).max() < 1e-4 * weight * length**2
    # leaving in the direction that holds it: the first link is off by no more than half its own bend
    if leaves is not None:
        first = (points[1] - points[0]) / np.linalg.norm(points[1] - points[0])
        assert math.acos(float(np.clip(first @ np.array(leaves), -1, 1))) < 0.6


@pytest.mark.parametrize("seed", range(20))
def test_turned_about_the_plumb_line_it_stands_alike(seed: int) -> None:
    leaves, end, arrives, length, stiff, weight = a_case(seed)

    def quarter(way: Vec | None) -> Vec | None:
        return None if way is None else (-way[1], way[0], way[2])

    one = rod(leaves, end, arrives, length, stiff, weight)
    other = stood(HERE, quarter(leaves), (-end[1], end[0], end[2]), quarter(arrives), length, stiff, weight)
    assert other is not None
    assert other.on_end == pytest.approx(quarter(one.on_end), abs=2e-3 * weight * length)
    assert other.radius_mm == pytest.approx(one.radius_mm, rel=5e-3)


@pytest.mark.parametrize(("slack", "held", "shape"), [(20.0, UP, 4.0), (40.0, UP, 4.0), (20.0, None, 2.0)])
def test_a_column_that_bows(slack: float, held: Vec | None, shape: float) -> None:
    """Straight up, longer than the room: y = A (1 - cos 2 pi x / L) between clamps, A sin(pi x / L) between free
    ends (Euler's first shapes; S. P. Timoshenko and J. M. Gere, sections 2.1 and 2.2): R = L^1.5 / shape pi sqrt(s)."""
    long = 2000.0
    one = rod(held, (0.0, 0.0, long), held, long + slack, 1e8, LIGHT)
    assert one.radius_mm == pytest.approx(long**1.5 / (shape * math.pi * math.sqrt(slack)), rel=0.03)
    euler = (1e8 * (math.pi / long) ** 2) * (4.0 if held else 1.0)
    assert one.on_end[2] == pytest.approx(euler, rel=0.03)


@pytest.mark.parametrize("share", [1.005, 1.02, 1.2, 1.6])
@pytest.mark.parametrize("stiff", [5e4, 4e5])
def test_straight_up_it_is_never_folded_onto_itself(share: float, stiff: float) -> None:
    one = rod(UP, (0.0, 0.0, 2000.0), UP, share * 2000.0, stiff, 8e-3)
    assert one.radius_mm > 45.0
