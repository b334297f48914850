"""Steps of a gauge: by hand, from the rule 0.2 % + 0.1 mm and the fits of the guide (slide = scatter + 0.2)."""

from __future__ import annotations

import pytest

from fitwright.physics.gauge_steps import fit_range, gauge_values_mm, nice_step_mm


def test_all_fits_of_100_mm() -> None:
    """Scatter 0.3; press 0.05, slide 0.5; the pipe +-0.1: from 0.05 - 0.4 to 0.5 + 0.4."""
    assert fit_range(None, 100.0, 0.002, 0.1, 0.1) == pytest.approx((-0.35, 0.9))


def test_one_fit() -> None:
    assert fit_range("slide", 100.0, 0.002, 0.1, 0.0) == pytest.approx((0.2, 0.8))


@pytest.mark.parametrize(("low", "high", "count", "step"), [(-0.35, 0.9, 7, 0.25), (0.2, 0.8, 7, 0.1), (-2, 2, 9, 0.5)])
def test_steps_are_round_and_reach(low: float, high: float, count: int, step: float) -> None:
    assert nice_step_mm(low, high, count) == step


def test_values_are_short_and_even() -> None:
    values = gauge_values_mm(0.275, 0.25, 7)
    assert values == (-0.45, -0.2, 0.05, 0.3, 0.55, 0.8, 1.05)
    inches = gauge_values_mm(100.0, 0.01 * 25.4, 5, inches=True)
    assert [round(one / 25.4, 6) for one in inches] == [3.92, 3.93, 3.94, 3.95, 3.96]
