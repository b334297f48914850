"""Centrelines against plane geometry."""

from __future__ import annotations

import math
import random

import pytest

from fitwright.shapes.path import joined


@pytest.mark.parametrize(("offset", "length"), [(20, 60), (60, 200), (60, 145), (5, 400), (-60, 200)])
def test_a_parallel_offset_has_the_two_arc_radius(offset: float, length: float) -> None:
    # two equal arcs that meet half way: R = (L^2 + o^2) / (4 o), each turning 2 atan(o / L)
    path = joined((0.0, 0.0, 0.0), (offset, length, 0.0))
    assert path is not None
    assert path.radius_mm == pytest.approx((length**2 + offset**2) / (4 * abs(offset)), rel=1e-12)
    turn = 2 * math.degrees(math.atan(abs(offset) / length))
    assert path.bends_deg == pytest.approx((turn, turn))
    assert path.steepest_rad == pytest.approx(math.radians(turn))


def test_45_deg_is_reached_at_2_414_offsets() -> None:
    # 2 atan(o / L) = 45 deg  <=>  L = o / tan(22.5 deg) = 2.4142 o
    path = joined((0.0, 0.0, 0.0), (50.0, 50.0 / math.tan(math.pi / 8), 0.0))
    assert path is not None
    assert math.degrees(path.steepest_rad) == pytest.approx(45.0)


def test_a_single_bend_takes_the_shorter_tangent() -> None:
    # axes meet 100 before and 60 behind the corner at 45 deg: R = 60 / tan(22.5 deg), 40 left straight
    a = math.pi / 4
    path = joined((0.0, 0.0, 0.0), (60 * math.sin(a), 100 + 60 * math.cos(a), a), enough_mm=100.0)
    assert path is not None
    assert path.radius_mm == pytest.approx(60 / math.tan(math.pi / 8))
    assert path.pieces[0].length_mm == pytest.approx(40.0)


def test_a_given_radius_leaves_a_straight_between_the_bends() -> None:
    path = joined((0.0, 0.0, 0.0), (60.0, 200.0, 0.0), radius_mm=100.0)
    assert path is not None
    assert path.radius_mm == pytest.approx(100.0)
    assert len(path.pieces) == 3 and path.pieces[1].turn_rad == 0.0
    assert joined((0.0, 0.0, 0.0), (60.0, 200.0, 0.0), radius_mm=182.0) is None


def test_every_path_is_smooth_and_arrives() -> None:
    rng = random.Random(1)
    found = 0
    for _ in range(2000):
        end = (rng.uniform(-200, 200), rng.uniform(20, 400), math.radians(rng.uniform(-45, 45)))
        path = joined((0.0, 0.0, 0.0), end)
        if path is None or not path.pieces:
            continue
        found += 1
        pose = (0.0, 0.0, 0.0)
        for piece in path.pieces:
            assert piece.start == pytest.approx(pose, abs=1e-7)
            pose = piece.at(1.0)
        assert pose == pytest.approx(end, abs=1e-6)
    assert found > 1000
