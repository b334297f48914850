"""The hanging hose against published figures, a chain of links of least energy, and a plain integration."""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
from scipy import integrate, optimize

from fitwright.physics.hose_span import (
    hung,
    hung_with_pull,
    hung_with_sag,
    parameter_for_sag_mm,
    spacing_for_sag_mm,
)


def test_sag_of_half_an_inch_a_foot_over_1_2_m() -> None:
    """Closed form: a = 3.608 m and 1.2055 m of hose; the parabola L^2 / 8 f says 3.600 m."""
    one = hung_with_sag(1200.0, 0.0, 50.0)
    assert one.parameter_mm == pytest.approx(3608.3, abs=0.5)
    assert one.length_mm == pytest.approx(1205.55, abs=0.05)
    assert 1200.0**2 / (8 * 50.0) == pytest.approx(3600.0)
    assert hung(1200.0, 0.0, one.length_mm).parameter_mm == pytest.approx(one.parameter_mm, rel=1e-9)


def test_a_tight_cable_between_unequal_heights() -> None:
    """20.7 m from (0, 10) to (20, 15): a = 61.9388 m in a worked answer of a mathematics forum ("Catenary cable,
    different heights", Math Help Forum), with the root of 20.7^2 - 5^2 rounded to 20.087. It only rises."""
    one = hung(20_000.0, 5_000.0, 20_700.0)
    assert one.parameter_mm == pytest.approx(61_938.8, rel=5e-4)
    assert 2 * 61_938.8 * math.sinh(10_000 / 61_938.8) == pytest.approx(20_087.0, abs=0.05)
    assert one.lowest_mm == 0.0 and one.lowest_at_mm < 0.0


@pytest.mark.parametrize(
    ("span", "sag", "weight", "level", "length", "most"),
    [
        # R. C. Hibbeler, Engineering Mechanics: Statics, chapter 7, the uniform cable of 5 N/m (from memory)
        (20.0, 6.0, 5.0, 45.9, 24.2, 75.9),
        # F. P. Beer and E. R. Johnston, Statics, chapter 7, the uniform cable of 3 lb/ft (from memory)
        (500.0, 100.0, 3.0, 984.0, 550.0, 1284.0),
    ],
)
def test_textbook_cables(span: float, sag: float, weight: float, level: float, length: float, most: float) -> None:
    one = hung_with_sag(span, 0.0, sag)
    assert one.level_n(weight) == pytest.approx(level, rel=2e-3)
    assert one.length_mm == pytest.approx(length, rel=3e-3)
    assert one.tension_n(weight, end=True) == pytest.approx(most, rel=2e-3)


def chain(level: float, rise: float, length: float, links: int = 60) -> np.ndarray:
    """Corners of a chain of equal stiff links between two points, its energy made least: no catenary in it."""
    link = length / links

    def corners(turns: np.ndarray) -> np.ndarray:
        steps = link * np.column_stack([np.cos(turns), np.sin(turns)])
        return np.vstack([[0.0, 0.0], np.cumsum(steps, axis=0)])

    def energy(turns: np.ndarray) -> float:
        heights = corners(turns)[:, 1]
        return float(np.mean((heights[:-1] + heights[1:]) / 2)) / length

    def energy_slope(turns: np.ndarray) -> np.ndarray:
        after = (links - np.arange(links) - 0.5) / links
        return np.asarray(after * link * np.cos(turns) / length)

    def closes(turns: np.ndarray) -> np.ndarray:
        return np.asarray((corners(turns)[-1] - (level, rise)) / length)

    def closes_slope(turns: np.ndarray) -> np.ndarray:
        return link / length * np.vstack([-np.sin(turns), np.cos(turns)])

    begin = math.atan2(rise, level) + np.linspace(-0.9, 0.9, links)
    found = optimize.minimize(
        energy,
        begin,
        jac=energy_slope,
        method="SLSQP",
        constraints=[{"type": "eq", "fun": closes, "jac": closes_slope}],
        options={"maxiter": 500, "ftol": 1e-13},
    )
    assert found.success, found.message
    return corners(found.x)


@pytest.mark.parametrize(
    ("level", "rise", "length"),
    [(1200.0, 0.0, 1300.0), (1000.0, -800.0, 1500.0), (600.0, 900.0, 1200.0), (300.0, 0.0, 1000.0)],
)
def test_a_chain_of_least_energy_hangs_where_the_hose_does(level: float, rise: float, length: float) -> None:
    one, links = hung(level, rise, length), chain(level, rise, length)
    lowest = float(links[:, 1].min())
    assert one.lowest_mm == pytest.approx(min(lowest, 0.0), abs=0.003 * length)
    off = [one.height_mm(x) - y for x, y in links[1:-1]]
    # half a link stands between a corner and the curve where it turns sharply
    assert max(map(abs, off)) < 0.012 * length


def test_length_and_end_by_integration() -> None:
    """The length of y(x), and where it ends, by quadrature of the slope alone."""
    one = hung(900.0, -400.0, 1500.0)

    def slope(x: float) -> float:
        return math.sinh((x - one.lowest_at_mm) / one.parameter_mm)

    length, _ = integrate.quad(lambda x: math.hypot(1.0, slope(x)), 0.0, 900.0)
    end, _ = integrate.quad(slope, 0.0, 900.0)
    assert length == pytest.approx(1500.0, abs=1e-6) and end == pytest.approx(-400.0, abs=1e-6)


def random_spans(count: int = 200) -> list[tuple[float, float, float]]:
    rng = random.Random(20261126)
    made = []
    for _ in range(count):
        level, rise = 10 ** rng.uniform(-1, 4), rng.choice((-1, 1)) * 10 ** rng.uniform(-1, 4)
        made.append((level, rise, math.hypot(level, rise) * (1 + 10 ** rng.uniform(-8, 1.5))))
    return made


@pytest.mark.parametrize(("level", "rise", "length"), random_spans())
def test_what_holds_for_every_span(level: float, rise: float, length: float) -> None:
    one, weight = hung(level, rise, length), 0.0165
    chord = math.hypot(level, rise)
    assert not one.taut and one.length_mm == length > chord
    # it ends where it should, and both ends together bear its weight; level pulls are equal and opposite
    assert one.height_mm(one.level_mm) == pytest.approx(rise, abs=1e-8 * length)
    ends = one.down_n(weight, end=False), one.down_n(weight, end=True)
    assert sum(ends) == pytest.approx(weight * length, rel=1e-7)
    for end, down in zip((False, True), ends, strict=True):
        assert one.tension_n(weight, end) == pytest.approx(math.hypot(one.level_n(weight), down), rel=1e-7)
    # pull differs between two heights by weight x height (a hose over a frictionless pulley)
    differ = one.tension_n(weight, end=True) - one.tension_n(weight, end=False)
    assert differ == pytest.approx(weight * rise, rel=1e-5, abs=1e-7 * one.tension_n(weight, end=True))
    # never above its ends, never lower than a plumb line of all of it, the bend never tighter than a
    assert min(0.0, rise) - (length - abs(rise)) / 2 - 1e-6 * length <= one.lowest_mm <= min(0.0, rise)
    assert one.radius_mm >= one.parameter_mm * (1 - 1e-12)
    assert all(y <= max(0.0, rise) + 1e-6 * length for _, y in one.points(9))
    # more hose: less pull, lower
    more = hung(level, rise, 1.01 * length)
    assert more.parameter_mm < one.parameter_mm and more.lowest_mm <= one.lowest_mm + 1e-9


def test_taut_and_too_short() -> None:
    for length in (1000.0, 900.0):
        one = hung(600.0, -800.0, length)
        assert one.taut and one.short_mm == pytest.approx(1000.0 - length)
        assert one.lowest_mm == -800.0 and math.isinf(one.tension_n(1.0, end=True)) and one.sag_mm == 0.0
        assert one.way(end=True) == pytest.approx((0.6, -0.8))


def test_straight_below_each_other_it_hangs_doubled() -> None:
    """1 m down with 1.4 m of hose: 0.2 m of it hang below the lower end, and 0.2 m come up again."""
    one = hung(0.0, -1000.0, 1400.0)
    assert one.lowest_mm == pytest.approx(-1200.0, abs=0.1)
    assert one.down_n(1.0, end=False) == pytest.approx(1200.0, abs=0.1)
    assert one.down_n(1.0, end=True) == pytest.approx(200.0, abs=0.1)
    assert one.radius_mm < 1.0


@pytest.mark.parametrize("rise", [-900.0, -100.0, 0.0, 300.0, 2000.0])
@pytest.mark.parametrize("sag", [5.0, 80.0, 900.0])
def test_by_sag_and_by_pull_agree(rise: float, sag: float) -> None:
    one = hung_with_sag(1500.0, rise, sag)
    assert one.sag_mm == pytest.approx(sag, rel=1e-6)
    assert hung_with_pull(1500.0, rise, one.parameter_mm).length_mm == pytest.approx(one.length_mm, rel=1e-12)
    assert hung(1500.0, rise, one.length_mm).sag_mm == pytest.approx(sag, rel=1e-6)
    # the sag by looking for the greatest distance below the chord
    steps = np.linspace(0.0, 1500.0, 3001)
    assert max(rise * x / 1500.0 - one.height_mm(float(x)) for x in steps) == pytest.approx(sag, rel=1e-4)


@pytest.mark.parametrize("span", [400.0, 1200.0, 3000.0])
@pytest.mark.parametrize("share", [0.005, 0.0417, 0.3, 1.0])
def test_level_spans_by_the_textbook(span: float, share: float) -> None:
    """f = a (cosh(L / 2a) - 1) and S^2 = 4 f^2 + 8 f a; flat ones are parabolas, a = L^2 / 8 f."""
    one, sag = hung_with_sag(span, 0.0, share * span), share * span
    assert one.parameter_mm * (math.cosh(span / 2 / one.parameter_mm) - 1) == pytest.approx(sag, rel=1e-9)
    assert one.length_mm**2 == pytest.approx(4 * sag**2 + 8 * sag * one.parameter_mm, rel=1e-9)
    if share < 0.05:
        assert one.parameter_mm == pytest.approx(span**2 / (8 * sag), rel=0.005)


def test_spacing_for_a_sag_limit() -> None:
    """Small sags: f / L = L / 8 a, so L = 8 x 0.0417 a; at twice the distance the sag a metre is twice as large."""
    assert spacing_for_sag_mm(3608.0, 41.7) == pytest.approx(1200.0, abs=2.0)
    assert spacing_for_sag_mm(3608.0, 41.7) == pytest.approx(8 * 0.0417 * 3608.0, rel=5e-3)
    near, far = (hung_with_pull(apart, 0.0, 3608.0) for apart in (1200.0, 2400.0))
    assert far.sag_mm / 2400.0 == pytest.approx(2 * near.sag_mm / 1200.0, rel=0.02)
    assert hung_with_pull(2400.0, 0.0, parameter_for_sag_mm(2400.0, 41.7)).sag_mm == pytest.approx(0.0417 * 2400.0)


def test_the_tightest_bend_where_the_hose_only_rises_is_at_its_lower_end() -> None:
    """The circle through three near points of the curve: R = abc / (4 x area)."""
    one = hung(1000.0, 2000.0, 2260.0)
    assert one.lowest_at_mm < 0.0 or one.lowest_at_mm > 1000.0
    points = [np.array((x, one.height_mm(x))) for x in (0.0, 0.5, 1.0)]
    a, b, c = (float(np.linalg.norm(points[i] - points[j])) for i, j in ((0, 1), (1, 2), (0, 2)))
    (ux, uy), (vx, vy) = points[1] - points[0], points[2] - points[0]
    assert one.radius_mm == pytest.approx(a * b * c / (2.0 * abs(ux * vy - uy * vx)), rel=5e-3)
    assert one.radius_mm > 1.05 * one.parameter_mm
