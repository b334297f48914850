"""Pinch gaps, against a walk over the travel."""

from __future__ import annotations

import random

import pytest

from fitwright.physics.slide.gaps import FINGER_MM, TIP_MM, Gap


@pytest.mark.parametrize(
    ("shut", "opened", "pinches"),
    [
        (20, 126, True),  # in line: coupling and body, 20 mm apart when shut
        (25, 131, False),
        (24.9, 131, True),
        (0, 105, True),
        (0, 4, False),
        (0, 4.1, True),
        (-5, 30, True),
        (10, 10, False),
        (147, 42, False),
        (42, 20, True),
    ],
)
def test_limits(shut: float, opened: float, pinches: bool) -> None:
    assert Gap("", shut, opened).pinches == pinches
    assert (Gap("", shut, opened).pinching_share is not None) == pinches


def test_against_a_walk() -> None:
    dice = random.Random(2)
    for _ in range(300):
        gap = Gap("", dice.uniform(-20, 60), dice.uniform(-20, 60))
        shares = [step / 2000 for step in range(2001)]
        inside = [share for share in shares if TIP_MM < gap.at_mm(share) < FINGER_MM]
        if inside:
            assert gap.pinching_share == pytest.approx((inside[0], inside[-1]), abs=1.01e-3)
        else:
            assert gap.pinching_share is None or gap.pinching_share[1] - gap.pinching_share[0] < 1e-3
