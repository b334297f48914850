"""Fans against ducts: where the curves meet, and what a part takes away."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitwright.errors import DataError
from fitwright.physics.duct import Band, FanCurve, system_coefficient, with_part

STRAIGHT = FanCurve(((0.0, 2000.0), (0.4, 0.0)))


def test_meets_by_hand() -> None:
    """2000 - 5000 q = 5000 q^2: q^2 + q - 0.4 = 0, q = (sqrt(2.6) - 1) / 2."""
    found = STRAIGHT.meets(5000.0)
    assert found.flow_m3_s == pytest.approx((math.sqrt(2.6) - 1.0) / 2.0, rel=1e-12)
    assert found.pressure_pa == pytest.approx(2000.0 - 5000.0 * found.flow_m3_s, rel=1e-12)
    assert not found.beyond


def test_meets_on_a_level_stretch() -> None:
    """1500 Pa level from 0 to 0.2: k 60000 meets it at sqrt(1500 / 60000) = 0.158."""
    fan = FanCurve(((0.0, 1500.0), (0.2, 1500.0), (0.4, 0.0)))
    assert fan.meets(60000.0).flow_m3_s == pytest.approx(math.sqrt(0.025), rel=1e-12)


def test_beyond_the_points() -> None:
    fan = FanCurve(((0.1, 1500.0), (0.3, 500.0)))
    assert fan.meets(1000.0).beyond == "flow"
    assert fan.meets(1000.0).flow_m3_s == 0.3
    closed = fan.meets(1e6)
    assert closed.beyond == "pressure"
    assert closed.flow_m3_s == pytest.approx(math.sqrt(1500.0 / 1e6))
    assert fan.pressure_pa(0.05) == 1500.0
    assert fan.pressure_pa(0.2) == pytest.approx(1000.0)


def test_with_a_part() -> None:
    part = Band(500.0, 1000.0, 2000.0)
    found = with_part(STRAIGHT, 5000.0, part)
    for flow, k in ((found.with_part.low, 7000.0), (found.with_part.middle, 6000.0), (found.with_part.high, 5500.0)):
        assert 2000.0 - 5000.0 * flow == pytest.approx(k * flow**2, rel=1e-9)
    assert found.with_part.high < found.without.flow_m3_s
    assert found.share_kept.high < 1.0


@given(
    st.lists(st.tuples(st.floats(0.01, 1.0), st.floats(0.0, 3000.0)), min_size=2, max_size=6),
    st.floats(1.0, 1e6),
    st.floats(1.0, 10.0),
)
def test_more_resistance_never_gives_more_air(steps: list[tuple[float, float]], system: float, more: float) -> None:
    flows, pressure, points = 0.0, 3000.0 * len(steps) + 1.0, []
    for wide, fall in steps:
        points.append((flows, pressure))
        flows, pressure = flows + wide, pressure - fall
    fan = FanCurve(tuple(points))
    here, there = fan.meets(system), fan.meets(system * more)
    assert there.flow_m3_s <= here.flow_m3_s * (1.0 + 1e-9)
    if not here.beyond:
        assert here.pressure_pa == pytest.approx(system * here.flow_m3_s**2, rel=1e-6)
        assert here.pressure_pa == pytest.approx(fan.pressure_pa(min(here.flow_m3_s, points[-1][0])), rel=1e-6)


@pytest.mark.parametrize(
    ("points", "message"),
    [
        (((0.0, 1000.0),), "two points at least, not 1"),
        (((0.0, 1000.0), (0.0, 500.0)), "flow must rise from point to point; 0 follows 0"),
        (((0.2, 1000.0), (0.1, 500.0)), "flow must rise from point to point; 0.1 follows 0.2"),
        (((0.0, 1000.0), (0.2, 1500.0)), "1500 Pa at 0.2 m3/s follows 1000 Pa at 0: give it from its peak on"),
        (((0.0, 1000.0), (0.2, -1.0)), "point 0.2 m3/s, -1 Pa; allowed: finite, 0 or more"),
        (((0.0, float("nan")), (0.2, 1.0)), "allowed: finite"),
    ],
)
def test_curves_that_cannot_be(points: tuple[tuple[float, float], ...], message: str) -> None:
    with pytest.raises(DataError, match=message):
        FanCurve(points)


def test_numbers_that_cannot_be() -> None:
    with pytest.raises(DataError, match="system's coefficient of 0"):
        STRAIGHT.meets(0.0)
    with pytest.raises(DataError, match=r"says nothing of 0\.5 m3/s; it goes from 0 to 0\.4"):
        STRAIGHT.pressure_pa(0.5)
    with pytest.raises(DataError, match="a flow of 0 m3/s; allowed: above 0"):
        system_coefficient(100.0, 0.0)
    with pytest.raises(DataError, match="a loss of -1 Pa"):
        system_coefficient(-1.0, 0.1)
