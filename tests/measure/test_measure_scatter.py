"""Student's t, the wave's factor and the suspect reading: printed tables and a published example."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.measure.scatter import PRIOR, sigma_mm, student_t, studentised, suspect_in, wave_factor


@pytest.mark.parametrize(("free", "t"), [(1, 12.706), (4, 2.776), (10, 2.228), (30, 2.042), (120, 1.980)])
def test_student_t_is_that_of_the_printed_table(free: int, t: float) -> None:
    """Two-sided 5 % points of t, any statistical table."""
    assert student_t(free) == pytest.approx(t, abs=5e-4)


@pytest.mark.parametrize(("free", "f"), [(4, 6.94), (10, 4.10), (60, 3.15)])
def test_wave_factor_is_from_the_printed_f_table(free: int, f: float) -> None:
    """Upper 5 % points of F with 2 and n degrees of freedom, any statistical table."""
    assert wave_factor(free) == pytest.approx(math.sqrt(2.0 * f), abs=2e-3)


def test_few_readings_lean_on_the_tool() -> None:
    assert sigma_mm(np.zeros(3), 0, 0.05) == (0.05, PRIOR)
    sigma, free = sigma_mm(np.full(100, 0.2), 99, 0.05)
    assert free == 99 + PRIOR
    assert sigma == pytest.approx(0.2, rel=0.03)


def test_the_outlier_of_a_published_set_is_named() -> None:
    """Age at first word and ability score of 21 children, Mickey, Dunn and Clark (1967): child 19 is at 3.607.

    The set and its figures (intercept 109.874, slope -1.127, studentised residual 3.607) stand in most books on
    regression diagnostics, such as Rousseeuw and Leroy, Robust Regression (1987), ch. 2; typed from memory.
    """
    x = [15, 26, 10, 9, 15, 20, 18, 11, 8, 20, 7, 9, 10, 11, 11, 10, 12, 42, 17, 11, 10]
    y = [95, 71, 83, 91, 102, 87, 93, 100, 104, 94, 113, 96, 83, 84, 102, 100, 105, 57, 121, 86, 100]
    design = np.column_stack([np.ones(21), np.asarray(x, dtype=float)])
    fitted = np.linalg.lstsq(design, np.asarray(y, dtype=float), rcond=None)[0]
    assert fitted == pytest.approx([109.874, -1.127], abs=1e-3)
    residuals = np.asarray(y, dtype=float) - design @ fitted
    far = studentised(design, residuals)
    assert int(np.argmax(np.abs(far))) == 18
    assert far[18] == pytest.approx(3.607, abs=1e-3)
    assert suspect_in(design, residuals) is None  # one set in 24 shows as much by chance: not one in a hundred


def test_a_small_difference_is_no_slip() -> None:
    values = np.array([60.0, 60.01, 60.0, 60.01, 60.15, 60.0, 60.01])
    assert suspect_in(np.ones((7, 1)), values - values.mean()) is None


def test_one_reading_over_is_needed() -> None:
    assert suspect_in(np.ones((2, 1)), np.array([-3.0, 3.0])) is None
