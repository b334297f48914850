"""The least squares against a certified data set and two independent libraries."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import optimize, stats

from fitwright.measure.linear_fit import linear_fit

# NIST/ITL Statistical Reference Datasets, Norris (J. Norris, Calibration of Ozone Monitors),
# https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml; values typed from two public copies that agree.
NORRIS_X = """0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6 556.0
    228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5"""
NORRIS_Y = """0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8 557.7
    228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2"""
CERTIFIED = {
    "values": (-0.262323073774029, 1.00211681802045),
    "errors": (0.232818234301152, 0.429796848199937e-03),
    "sd": 0.884796396144373,
}


def numbers(text: str) -> list[float]:
    return [float(word) for word in text.split()]


def test_a_certified_data_set() -> None:
    x, y = numbers(NORRIS_X), numbers(NORRIS_Y)
    assert len(x) == len(y) == 36
    fit = linear_fit([[1.0, one] for one in x], y, [1.0] * 36)
    assert fit.values == pytest.approx(CERTIFIED["values"], rel=1e-11)
    assert fit.standard_errors == pytest.approx(CERTIFIED["errors"], rel=1e-11)
    assert fit.sd == pytest.approx(CERTIFIED["sd"], rel=1e-11)
    assert fit.dof == 34


def test_against_two_libraries() -> None:
    rng = np.random.default_rng(11)
    x = rng.uniform(10.0, 120.0, 12)
    y = 0.994 * x + 0.1 + rng.normal(0.0, 0.05, 12)
    rows = np.column_stack([x, np.ones(12)])
    fit = linear_fit(rows.tolist(), y.tolist(), [1.0] * 12)
    line = stats.linregress(x, y)
    assert fit.values == pytest.approx([line.slope, line.intercept], rel=1e-9)
    assert fit.standard_errors == pytest.approx([line.stderr, line.intercept_stderr], rel=1e-9)
    assert fit.chance_of([1.0, 0.0]) == pytest.approx(line.pvalue, abs=1e-12)
    assert fit.values == pytest.approx(np.linalg.lstsq(rows, y, rcond=None)[0], rel=1e-9)


def test_weights_against_a_library() -> None:
    """curve_fit weighs by sigma and scales the covariance by chi squared, as is done here."""
    rng = np.random.default_rng(12)
    x, sigma = rng.uniform(10.0, 120.0, 15), rng.uniform(0.02, 0.2, 15)
    y = 0.99 * x - 0.2 + rng.normal(0.0, sigma)
    fit = linear_fit([[one, 1.0] for one in x], y.tolist(), (1.0 / sigma**2).tolist())
    values, covariance = optimize.curve_fit(lambda d, a, b: a * d + b, x, y, p0=[1.0, 0.0], sigma=sigma)
    assert fit.values == pytest.approx(values, rel=1e-6)
    assert fit.covariance == pytest.approx(covariance, rel=1e-4)


def test_studentised_residuals_leave_each_observation_out() -> None:
    """The closed form against fitting again without the observation: t = (y - its prediction) / its standard error."""
    rng = np.random.default_rng(13)
    rows = [[float(d), 1.0] for d in rng.uniform(20.0, 100.0, 9)]
    y = [0.99 * d + 0.1 + float(rng.normal(0.0, 0.05)) for d, _ in rows]
    fit = linear_fit(rows, y, [1.0] * 9)
    for k in range(9):
        others = linear_fit(rows[:k] + rows[k + 1 :], y[:k] + y[k + 1 :], [1.0] * 8)
        predicted, error = others.of(rows[k])
        assert fit.studentised(0.0)[k] == pytest.approx((y[k] - predicted) / np.hypot(others.sd, error), rel=1e-9)


@pytest.mark.parametrize(
    ("rows", "words"),
    [([[20.0, 1.0], [20.0, 1.0], [20.0, 1.0]], "cannot tell"), ([[20.0, 1.0], [30.0, 1.0]], "2 observations")],
)
def test_what_cannot_be_told_is_refused(rows: list[list[float]], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        linear_fit(rows, [1.0] * len(rows), [1.0] * len(rows))
