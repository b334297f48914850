"""Diameters round a port: exact waves, definition of least squares, published ellipse formulae, random seeded ports."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.measure.oval import DirectionsError, directions, once_round_mm, oval_of, suspect_reading


def test_an_exact_wave_is_found() -> None:
    angles = [0, 20, 50, 75, 110, 140, 165]
    readings = [120.0 + 1.5 * math.cos(2 * math.radians(a - 30.0)) for a in angles]
    oval = oval_of(readings, angles)
    assert oval.mean_mm == pytest.approx(120.0, abs=1e-9)
    assert oval.oval_mm == pytest.approx(3.0, abs=1e-9)
    assert oval.wide_at_deg == pytest.approx(30.0, abs=1e-7)
    assert oval.at(30.0) == pytest.approx(121.5) and oval.at(120.0) == pytest.approx(118.5)
    assert oval.is_oval


def test_no_other_wave_leaves_less() -> None:
    """The definition: a small change of any of the three numbers never makes the sum of squares smaller."""
    angles, readings = [5, 33, 61, 100, 128, 170], [80.3, 80.9, 80.8, 79.7, 79.9, 79.8]
    oval = oval_of(readings, angles)
    least = sum(r * r for r in oval.residuals_mm)
    a, b = (oval.oval_mm / 2 * wave(2 * math.radians(oval.wide_at_deg)) for wave in (math.cos, math.sin))
    for d_mean, d_a, d_b in np.vstack([np.eye(3), -np.eye(3)]) * 1e-3:
        other = 0.0
        for angle, reading in zip(angles, readings, strict=True):
            t = 2 * math.radians(angle)
            other += (reading - (oval.mean_mm + d_mean) - (a + d_a) * math.cos(t) - (b + d_b) * math.sin(t)) ** 2
        assert other > least


def test_even_directions_give_the_plain_mean() -> None:
    assert oval_of([110.2, 110.5, 109.9], [0, 60, 120]).mean_mm == pytest.approx(110.2)


def test_the_same_diameter_from_the_other_side() -> None:
    there, back = oval_of([60.0, 60.6, 60.2], [10, 70, 130]), oval_of([60.0, 60.6, 60.2], [190, 250, -50])
    assert there.mean_mm == pytest.approx(back.mean_mm)
    assert there.wide_at_deg == pytest.approx(back.wide_at_deg)


@pytest.mark.parametrize("angles", [[0, 180, 360], [0, 90, 180], [0, 0, 0], [0, 5, 10], [0, 90, 97]])
def test_three_directions_are_needed(angles: list[float]) -> None:
    assert directions(angles) < 3
    with pytest.raises(DirectionsError):
        oval_of([60.0, 60.1, 60.2], angles)


def ramanujan(a: float, b: float) -> float:
    """Ramanujan's second formula (1914): pi (a + b) (1 + 3h / (10 + sqrt(4 - 3h))), h = ((a - b) / (a + b))^2."""
    h = ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


@pytest.mark.parametrize(("longer", "shorter"), [(110.0, 90.0), (37.4, 34.1), (100.0, 100.0), (60.0, 30.0)])
def test_ellipse_once_round(longer: float, shorter: float) -> None:
    assert once_round_mm(longer, shorter) * math.pi == pytest.approx(ramanujan(longer / 2, shorter / 2), rel=1e-7)
    assert once_round_mm(shorter, longer) == once_round_mm(longer, shorter)
    t = np.linspace(0.0, 2.0 * math.pi, 200001)
    x, y = longer / 2 * np.cos(t), shorter / 2 * np.sin(t)
    walked = float(np.hypot(np.diff(x), np.diff(y)).sum())
    assert once_round_mm(longer, shorter) * math.pi == pytest.approx(walked, rel=1e-8)


def test_mean_width_of_an_ellipse_is_its_length_round_by_pi() -> None:
    """Cauchy: the mean of all diameters of a convex form is its circumference by pi."""
    t = np.radians(np.arange(0.0, 180.0, 0.5))
    widths = 2.0 * np.hypot(55.0 * np.cos(t), 45.0 * np.sin(t))
    assert once_round_mm(110.0, 90.0) == pytest.approx(float(widths.mean()), rel=1e-9)


def test_a_three_lobed_form_reads_round() -> None:
    """r = R + e cos 3t (constant width for small e): every diameter is 2 R, whatever the lobes."""
    angles = np.arange(0.0, 180.0, 15.0)
    radius = lambda deg: 50.0 + 0.4 * np.cos(3 * np.radians(deg))  # noqa: E731
    oval = oval_of(list(radius(angles) + radius(angles + 180.0)), list(angles))
    assert oval.mean_mm == pytest.approx(100.0) and oval.oval_mm == pytest.approx(0.0, abs=1e-9)


def random_ports(seed: int) -> tuple[int, int, int, float]:
    """200 ports of 30 to 250 mm, round or up to 3 % oval, 6 to 12 readings, each +-0.1 mm: how often told true."""
    rng = np.random.default_rng(seed)
    mean_in = oval_in = suspects = 0
    furthest = 0.0
    for _ in range(200):
        d, count = rng.uniform(30, 250), int(rng.integers(6, 13))
        oval_mm = float(rng.choice([0.0, rng.uniform(0.3, 0.03 * d)]))
        angles = np.arange(count) * 180.0 / count + rng.uniform(-5, 5, count)
        wave = oval_mm / 2 * np.cos(2 * np.radians(angles - rng.uniform(0, 180)))
        found = oval_of(list(d + wave + rng.uniform(-0.1, 0.1, count)), list(angles))
        mean_in += abs(found.mean_mm - d) <= found.error_mm
        oval_in += abs(found.oval_mm - oval_mm) <= found.oval_error_mm
        suspects += found.suspect is not None
        furthest = max(furthest, abs(found.mean_mm - d))
    return mean_in, oval_in, suspects, furthest


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_random_ports_lie_within_what_is_told(seed: int) -> None:
    mean_in, oval_in, suspects, furthest = random_ports(seed)
    assert mean_in >= 182 and oval_in >= 182  # 95 % of 200 is 190, less three standard deviations of a count
    assert suspects <= 6
    assert furthest < 0.12


def test_a_planted_slip_is_named() -> None:
    rng = np.random.default_rng(11)
    angles = np.arange(8) * 22.5
    for _ in range(200):
        readings = (
            rng.uniform(30, 250) + rng.uniform(0, 1) * np.cos(2 * np.radians(angles - 30)) + rng.normal(0, 0.05, 8)
        )
        at = int(rng.integers(8))
        readings[at] += float(rng.choice([-1.0, 1.0]) * rng.uniform(1.0, 3.0))
        assert oval_of(list(readings), list(angles)).suspect == at


def test_a_slip_among_plain_readings() -> None:
    assert suspect_reading([60, 60.1, 60.05, 61.4, 60.0]) == 3
    assert suspect_reading([60, 60.1, 60.05]) is None
    assert suspect_reading([59.2, 60.8, 59.3, 60.7, 59.2, 60.8]) is None  # oval, and read that often
