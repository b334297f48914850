"""Bends at a hose's ends against compass-and-ruler constructions, and folds against arcs of circles."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest

from fitwright.frame import Vec
from fitwright.physics.hose_bend import bend_takes_mm, bent_way, roundest_mm, turned

RIGHT, UP, DOWN = (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
HERE = (0.0, 0.0, 0.0)


def test_a_quarter_turn_and_a_straight() -> None:
    """Level out of a hanger and down into a port 100 below the bend's end: pi R / 2 + 100."""
    one = bent_way(HERE, RIGHT, (150.0, 0.0, -250.0), DOWN, 150.0)
    assert one is not None
    assert one.length_mm == pytest.approx(math.pi * 150 / 2 + 100.0, abs=1e-6)
    assert math.degrees(one.start_turn) == pytest.approx(90.0, abs=1e-4) and one.end_turn == pytest.approx(
        0.0, abs=1e-6
    )


def test_one_bend_by_the_tangent_from_a_point_to_a_circle() -> None:
    """Up out of a wall port, free at the hook 1300 across and 900 up, R 105: the centre of the bend lies 105 across;
    from the hook to it 1496.0, the tangent 1492.3; the bend turns 90 - 36.98 + 4.02 deg."""
    one = bent_way(HERE, UP, (1300.0, 0.0, 900.0), None, 105.0)
    centre = math.hypot(1300.0 - 105.0, 900.0)
    tangent = math.sqrt(centre**2 - 105.0**2)
    turn = math.pi / 2 - math.atan2(900.0, 1195.0) + math.asin(105.0 / centre)
    assert one is not None
    assert one.straight_mm == pytest.approx(tangent, abs=1e-5)
    assert one.length_mm == pytest.approx(tangent + 105.0 * turn, abs=1e-5)


def test_two_equal_bends_of_an_offset() -> None:
    """Level in and level out, 30 deg between: across 2 R sin 30 + L cos 30, down 2 R (1 - cos 30) + L sin 30."""
    r, straight, turn = 100.0, 400.0, math.radians(30.0)
    across = 2 * r * math.sin(turn) + straight * math.cos(turn)
    down = 2 * r * (1 - math.cos(turn)) + straight * math.sin(turn)
    one = bent_way(HERE, RIGHT, (across, 0.0, -down), RIGHT, r)
    assert one is not None and one.length_mm == pytest.approx(2 * r * turn + straight, abs=1e-6)


def unit(rng: random.Random) -> np.ndarray:
    found = np.array([rng.gauss(0, 1) for _ in range(3)])
    return found / np.linalg.norm(found)


def _beside(way: np.ndarray, rng: random.Random) -> np.ndarray:
    """A direction up to 100 deg off the way."""
    across = np.cross(way, unit(rng))
    turn = math.radians(rng.uniform(0, 100))
    return math.cos(turn) * way + math.sin(turn) * across / np.linalg.norm(across)


def vec(point: np.ndarray) -> Vec:
    return float(point[0]), float(point[1]), float(point[2])


@pytest.mark.parametrize("seed", range(200))
def test_ways_in_space_are_found_again(seed: int) -> None:
    """Bend, straight, bend laid out in space from their angles: the same length comes back, or a shorter way."""
    rng = random.Random(seed)
    r, straight = rng.uniform(40, 200), rng.uniform(300, 2000)
    way = unit(rng)
    leaves, arrives = (_beside(way, rng) for _ in range(2))
    first, last = (math.acos(float(np.clip(a @ way, -1, 1))) for a in (leaves, arrives))
    end = r * math.tan(first / 2) * (leaves + way) + straight * way + r * math.tan(last / 2) * (way + arrives)
    one = bent_way(HERE, vec(leaves), vec(end), vec(arrives), r)
    assert one is not None
    assert one.length_mm == pytest.approx(r * (first + last) + straight, rel=1e-6)
    assert one.length_mm >= np.linalg.norm(end) - 1e-9


def test_no_room_to_turn() -> None:
    """Ends that face each other's back within a radius: no bend, straight and bend joins them."""
    assert bent_way(HERE, RIGHT, (10.0, 0.0, 30.0), (-1.0, 0.0, 0.0), 150.0) is None
    assert bent_way(HERE, RIGHT, (-500.0, 0.0, 0.0), RIGHT, 150.0) is None
    assert bent_way(HERE, None, HERE, None, 150.0) is None


def test_free_ends_go_straight() -> None:
    one = bent_way(HERE, None, (300.0, -400.0, 0.0), None, 150.0)
    assert one is not None and one.length_mm == pytest.approx(500.0) and one.start_turn == one.end_turn == 0.0


def test_what_a_bend_takes() -> None:
    assert turned(RIGHT, UP) == pytest.approx(math.pi / 2)
    assert bend_takes_mm(math.pi / 2, 150.0) == pytest.approx(150.0)
    assert bend_takes_mm(math.pi, 150.0) == math.inf


def test_the_roundest_loop() -> None:
    """An arc of 60 deg over its chord has the chord as radius, and is pi / 3 of it long; half a circle half of it."""
    assert roundest_mm(600.0, 800.0, 1000.0 * math.pi / 3) == pytest.approx(1000.0, rel=1e-9)
    assert roundest_mm(1000.0, 0.0, 1000.0 * math.pi / 2 - 1e-6) == pytest.approx(500.0, rel=1e-6)
    assert roundest_mm(300.0, 0.0, 2000.0) == 150.0
    assert math.isinf(roundest_mm(300.0, 400.0, 500.0))
