"""Slack that stands out aside: by compasses, by pins and string, and by trying."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest

from fitwright.frame import Vec
from fitwright.physics.hose_bow import arc_reaches, most_reaches

HERE: Vec = (0.0, 0.0, 0.0)


def test_a_sixth_of_a_circle_and_half_of_one() -> None:
    """Chord 1000 is the radius of an arc of 60 deg: it bows out by 1000 (1 - cos 30) = 134.0."""
    long = 1000.0 * math.pi / 3
    assert arc_reaches(HERE, (1000.0, 0.0, 0.0), long, 1) == pytest.approx((-133.97, 133.97), abs=0.01)
    assert arc_reaches(HERE, (1000.0, 0.0, 0.0), long, 0) == (0.0, 1000.0)
    for length in (500.0 * math.pi, 3000.0):
        assert arc_reaches(HERE, (1000.0, 0.0, 0.0), length, 2) == pytest.approx((-500.0, 500.0))
        assert arc_reaches(HERE, (1000.0, 0.0, 0.0), length, 0) == pytest.approx((0.0, 1000.0))


def test_no_slack_does_not_bow() -> None:
    assert arc_reaches(HERE, (300.0, 400.0, 0.0), 500.0, 0) == (0.0, 300.0)
    assert arc_reaches(HERE, HERE, 500.0, 0) == (0.0, 0.0)


def test_pins_and_string() -> None:
    """3, 4, 5: pins 800 apart, a string of 1000 draws an ellipse 300 to each side, and 100 beyond each pin."""
    assert most_reaches(HERE, (800.0, 0.0, 0.0), 1000.0, 1) == pytest.approx((-300.0, 300.0))
    assert most_reaches(HERE, (800.0, 0.0, 0.0), 1000.0, 0) == pytest.approx((-100.0, 900.0))


@pytest.mark.parametrize("seed", range(40))
def test_by_trying(seed: int) -> None:
    """The arc turned about its chord, point by point; and kinks anywhere on the string stay inside."""
    rng = random.Random(seed)
    end = (rng.uniform(-1000, 1000), rng.uniform(-1000, 1000), rng.uniform(-1000, 1000))
    p = np.array(end)
    chord = float(np.linalg.norm(p))
    half = rng.uniform(0.05, math.pi / 2)
    radius, length = chord / 2 / math.sin(half), chord * half / math.sin(half)
    e = p / chord
    a = np.cross(e, (0.3, 0.5, 0.8))
    a /= np.linalg.norm(a)
    b = np.cross(e, a)
    t, turn = np.meshgrid(np.linspace(-half, half, 801), np.linspace(0, 2 * math.pi, 721))
    out = radius * (np.cos(t) - math.cos(half))
    points = p / 2 + radius * np.sin(t)[..., None] * e
    points = points + out[..., None] * (np.cos(turn)[..., None] * a + np.sin(turn)[..., None] * b)
    kinks = [p / 2 + radius * np.array([rng.gauss(0, 1) for _ in range(3)]) for _ in range(400)]
    kinks = [one for one in kinks if np.linalg.norm(one) + np.linalg.norm(one - p) <= length]
    for axis in range(3):
        low, high = arc_reaches(HERE, end, length, axis)
        assert low == pytest.approx(float(points[..., axis].min()), abs=2e-4 * length)
        assert high == pytest.approx(float(points[..., axis].max()), abs=2e-4 * length)
        least, most = most_reaches(HERE, end, length, axis)
        assert least <= low + 1e-9 and most >= high - 1e-9
        assert all(least <= one[axis] <= most for one in kinks)


@pytest.mark.parametrize("end", [(900.0, 300.0, -500.0), (-200.0, 700.0, 100.0)])
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_one_kink_reaches_as_far_as_any_hose_can(end: Vec, axis: int) -> None:
    """A string of 1300 with one kink, the kink square above the straight line as seen along the axis: both halves are
    then equally long in the plane square to the axis, d / 2, and it just reaches."""
    low, high = most_reaches(HERE, end, 1300.0, axis)
    across = math.sqrt(math.fsum(end[k] ** 2 for k in range(3) if k != axis))
    for top in (low, high):
        # the two halves: from 0 and from end[axis] to the top along the axis, their shares of d by like triangles
        rises = abs(top), abs(top - end[axis])
        share = rises[0] / sum(rises)
        assert math.hypot(rises[0], share * across) + math.hypot(rises[1], (1 - share) * across) == pytest.approx(
            1300.0
        )
