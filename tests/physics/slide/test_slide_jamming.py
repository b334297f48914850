"""The drawer rule against a brute-force friction equilibrium: linear programming over all contact forces."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy.optimize import linprog

from fitwright.physics.slide.jamming import (
    Drawer,
    apart_mm,
    can_wedge,
    greatest_offset_mm,
    greatest_skew_deg,
    least_engaged_mm,
)

FOUR_INCH = Drawer(offset_mm=53, engaged_open_mm=19, travel_mm=105.6)


def least_pull(offset: float, engaged: float, width: float, mu: float) -> float:
    """Least pull that moves a blade with 1 N of drag in its middle; inf where none does.

    Four corners may touch, each with its normal force across the travel and full sliding friction against the motion.
    Unknowns: pull, and the four normal forces, all 0 or more. Columns: force across, force along, moment about the
    mouth's middle.
    """
    corners = [(side * width / 2, -depth, -side) for side in (-1, 1) for depth in (0.0, engaged)]
    columns = [(0.0, 1.0, offset)]
    for x, y, normal in corners:
        columns.append((normal, -mu, x * -mu - y * normal))
    answer = linprog([1, 0, 0, 0, 0], A_eq=np.array(columns).T, b_eq=[0.0, 1.0, 0.0], bounds=[(0, None)] * 5)
    return float(answer.fun) if answer.status == 0 else math.inf


def stays_stuck(engaged: float, width: float, mu: float) -> bool:
    """Whether two opposite corners can press on each other with no other force, inside their friction cones."""
    # mouth right, inner end left: normals -x and +x, friction free within mu N
    corners = [(width / 2, 0.0, -1.0), (-width / 2, -engaged, 1.0)]
    rows = [[], [], []]
    for x, y, normal in corners:
        for column in ((normal, 0.0, -y * normal), (0.0, 1.0, x)):
            for row, value in zip(rows, column, strict=True):
                row.append(value)
    limits = [[-mu, 1, 0, 0], [-mu, -1, 0, 0], [0, 0, -mu, 1], [0, 0, -mu, -1], [-1, 0, -1, 0]]
    bounds = [(0, None), (None, None)] * 2
    answer = linprog([0] * 4, A_ub=limits, b_ub=[0, 0, 0, 0, -1], A_eq=rows, b_eq=[0, 0, 0], bounds=bounds)
    return bool(answer.status == 0)


def test_it_jams_at_71_6_of_105_6() -> None:
    # 2 x 0.5 x 53 = 53 mm must be engaged; 124.6 are in when shut: 71.6 mm of the way
    assert FOUR_INCH.worst_ratio == pytest.approx(53 / 19)
    assert FOUR_INCH.jams_at_mm == pytest.approx(19 + 105.6 - 53)
    assert FOUR_INCH.pull_over_drag(71.5) > 500
    assert math.isinf(FOUR_INCH.pull_over_drag(71.61))
    # at 70 mm it still goes, with 34 times the drag: no cylinder for this gate gives that (6 x)
    assert FOUR_INCH.pull_over_drag(70.0) == pytest.approx(54.6 / 1.6)


def test_it_passes_six_times_the_drag_long_before() -> None:
    # 1 / (1 - 53 / L) = 6 at L = 63.6: 61 mm of 105.6
    assert FOUR_INCH.pull_over_drag(124.6 - 63.6) == pytest.approx(6.0)


def test_a_cylinder_beside_the_body_stands_further_out_yet() -> None:
    # body 150 wide and an 18 mm barrel: 75 + 9 = 84 mm at least
    assert Drawer(84, 19, 105.6).worst_ratio == pytest.approx(4.42, abs=0.01)
    assert Drawer(84, 19, 105.6).jams_at_mm == pytest.approx(40.6)


def test_limits() -> None:
    assert greatest_offset_mm(19, 0.5, permitted=1.0) == 19.0
    assert Drawer(9.5, 19, 105.6).pull_over_drag(105.6) == pytest.approx(2.0)
    assert Drawer(18.9, 19, 105.6).jams_at_mm is None
    assert Drawer(19.1, 19, 105.6).jams_at_mm == pytest.approx(105.5)
    assert Drawer(200, 19, 105.6).jams_at_mm == 0.0
    assert least_engaged_mm(greatest_offset_mm(19)) == pytest.approx(19)


def test_the_rule_against_linear_programming() -> None:
    dice = random.Random(11)
    jammed = 0
    for _ in range(200):
        offset, engaged = dice.uniform(0, 60), dice.uniform(10, 130)
        width, mu = dice.uniform(40, 300), dice.uniform(0.1, 0.9)
        drawer = Drawer(offset, engaged, 0.0, mu)
        found = least_pull(offset, engaged, width, mu)
        jammed += math.isinf(found)
        assert drawer.pull_over_drag(0.0) == pytest.approx(found, rel=1e-6), (offset, engaged, width, mu)
    assert 20 < jammed < 180


def test_the_width_drops_out() -> None:
    pulls = {round(least_pull(20, 60, width, 0.5), 9) for width in (30.0, 118.0, 500.0)}
    assert pulls == {1.5}


def test_wedging_against_linear_programming() -> None:
    dice = random.Random(12)
    for _ in range(200):
        engaged, width, mu = dice.uniform(10, 130), dice.uniform(40, 300), dice.uniform(0.1, 0.9)
        if abs(mu * width / engaged - 1) > 1e-6:
            assert can_wedge(engaged, width, mu) == stays_stuck(engaged, width, mu)
    # open, every gate of this shape can be knocked askew and stay so; shut it cannot
    assert can_wedge(19, 118)
    assert not can_wedge(124.6, 118)


def test_a_cylinder_askew() -> None:
    # 0.5 deg over 105.6 mm: 0.92 mm
    near, far = apart_mm(0.0, 0.5, 105.6)
    assert (near, far) == pytest.approx((0.0, 105.6 * math.tan(math.radians(0.5))))
    skew = greatest_skew_deg(0.75, 0.3, 105.6)
    assert apart_mm(0.3, skew, 105.6)[1] == pytest.approx(0.75)
    assert greatest_skew_deg(0.75, 0.8, 105.6) == 0.0
