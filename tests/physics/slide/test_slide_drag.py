"""Drag from suction and weight, against hand calculation."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.physics.gravity import GRAVITY
from fitwright.physics.slide.drag import (
    PA_PER_INCH_WATER,
    Mounted,
    blade_drag,
    blade_mass_kg,
    suction_normal_n,
    weight_left_n,
)

TEN_INCHES = 10 * PA_PER_INCH_WATER


def test_suction_over_a_port() -> None:
    # 10 in of water = 254 mm x 9.80665 = 2490.9 Pa; 4 in port 81.07 cm2, 6 in 182.4 cm2
    assert TEN_INCHES == pytest.approx(254 * 9.80665, rel=2e-5)
    assert suction_normal_n(TEN_INCHES, 101.6) == pytest.approx(2490.9 * 0.0081073, rel=1e-4)
    assert round(suction_normal_n(TEN_INCHES, 101.6), 1) == 20.2
    assert round(suction_normal_n(TEN_INCHES, 152.4), 1) == 45.4


def test_half_friction_and_twice_dirt_is_the_suction_itself() -> None:
    for port, drag in ((101.6, 20.2), (152.4, 45.4)):
        assert round(blade_drag(TEN_INCHES, port).greatest_n, 1) == drag
    # 46 N in a 6 in port would take 10.13 in of water, or 153.5 mm
    assert suction_normal_n(10.13 * PA_PER_INCH_WATER, 152.4) == pytest.approx(46.0, abs=0.05)


@pytest.mark.parametrize(
    ("mounted", "opening", "shutting"),
    [
        ("blade_up", 20.19 + 1.96, 20.19 - 1.96),
        ("blade_down", 20.19 - 1.96, 20.19 + 1.96),
        ("sideways", 20.19 + 1.96, 20.19 + 1.96),
        ("any", 20.19 + 1.96 * math.sqrt(2), 20.19 + 1.96 * math.sqrt(2)),
    ],
)
def test_weight_by_mounting(mounted: Mounted, opening: float, shutting: float) -> None:
    # 0.2 kg is 1.96 N; mu x dirt = 1
    drag = blade_drag(TEN_INCHES, 101.6, moving_kg=0.2, mounted=mounted)
    assert (drag.opening_n, drag.shutting_n) == pytest.approx((opening, shutting), abs=0.01)
    assert drag.greatest_n == max(drag.opening_n, drag.shutting_n)


def test_any_is_the_worst_angle() -> None:
    angles = np.radians(np.linspace(-90, 90, 3601))
    worst = (0.5 * GRAVITY * (np.sin(angles) + 0.6 * np.cos(angles))).max()
    assert blade_drag(0.0, 100, moving_kg=0.5, mu=0.3, dirt=2.0).opening_n == pytest.approx(worst, rel=1e-6)


def test_a_heavy_blade_falls_open_or_shut_by_itself() -> None:
    down = blade_drag(0.0, 152.4, moving_kg=1.5, mounted="blade_down")
    assert down.opening_n < 0 < down.shutting_n
    # 1.5 kg: 14.7 N, less 5 N of the seals; with suction on and mu 0.2, 9.1 N more hold it
    assert weight_left_n(1.5, 0.0, 152.4, 0.2, holding_n=5.0) == pytest.approx(9.71, abs=0.01)
    assert weight_left_n(1.5, TEN_INCHES, 152.4, 0.2, holding_n=5.0) == pytest.approx(0.62, abs=0.01)
    assert weight_left_n(0.2, 0.0, 101.6, 0.2, holding_n=5.0) < 0


def test_mass_of_a_steel_blade() -> None:
    # 200 x 300 x 2 mm of steel at 7.85 g/cm3: 120 cm3, 0.942 kg
    assert blade_mass_kg(200, 300, 2, 7.85) == pytest.approx(0.942)


def test_a_mounting_that_is_none_is_named() -> None:
    with pytest.raises(ValueError, match="'upside'; allowed: blade_up, blade_down, sideways, any"):
        blade_drag(0.0, 100, mounted="upside")  # type: ignore[arg-type]
