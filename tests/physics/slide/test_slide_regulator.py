"""The regulator's range, against a plain walk over all pressures."""

from __future__ import annotations

import math
import random

import pytest

from fitwright.physics.slide.regulator import PressureRange, pressure_range
from fitwright.physics.slide.thrust import Cylinder

SMALL, LARGE = Cylinder(16, 6, 125), Cylinder(32, 12, 125)


def test_the_4_in_gate_with_a_16_mm_cylinder() -> None:
    # opening pulls: 2 x 20.2 = 0.85 p 172.8 mm2: 2.75 bar; stall 6 x 20.2 = p 201.1: 6.03; blade 166 N: 8.26
    found = pressure_range(SMALL, "in", 20.2, 20.2, permitted_push_n=166.1)
    assert (found.opening_bar, found.shutting_bar) == pytest.approx((2.751, 2.364), abs=1e-3)
    assert (found.stall_bar, found.buckling_bar) == pytest.approx((6.028, 8.261), abs=1e-3)
    assert found.setting_bar == 3.0
    assert found.stall_over_drag == pytest.approx(60.32 / 20.2, abs=1e-2)
    assert not found.over_stall


def test_a_32_mm_cylinder_is_much_for_it() -> None:
    found = pressure_range(LARGE, "in", 20.2, 20.2, permitted_push_n=166.1)
    assert found.least_bar == pytest.approx(0.688, abs=1e-3)
    assert found.setting_bar == 1.5
    assert not found.over_stall
    # at 6 bar it would push with 483 N: 24 times the drag, and the blade bows out at 332
    assert LARGE.stall_n("out", 6.0) / 20.2 == pytest.approx(23.9, abs=0.05)
    # a 40 mm cylinder cannot be set low enough: 1.5 bar is 189 N, 9 times the drag and more than the blade's 166
    assert pressure_range(Cylinder(40, 16, 125), "in", 20.2, 20.2, 166.1).setting_bar is None
    over = pressure_range(Cylinder(40, 16, 125), "in", 20.2, 20.2)
    assert (over.setting_bar, over.over_stall) == (1.5, True)


def test_the_thin_blade_with_the_16_mm_cylinder() -> None:
    # 2 mm: 98 N critical, 49 permitted: 2.44 bar at most, and opening takes 2.75
    assert pressure_range(SMALL, "in", 20.2, 20.2, permitted_push_n=49.2).setting_bar is None
    # alongside, shutting pulls with the smaller area and opening pushes: 2.36 and 2.75 against 2.85
    beside = pressure_range(SMALL, "out", 20.2, 20.2, permitted_push_n=49.2)
    assert beside.setting_bar == 2.8


def test_a_supply_that_is_too_weak() -> None:
    assert pressure_range(SMALL, "in", 45.4, 45.4).setting_bar is None
    assert pressure_range(SMALL, "in", 45.4, 45.4, supply_bar=7.0).setting_bar == 6.5
    assert pressure_range(SMALL, "in", 40.0, 40.0, supply_bar=5.7).setting_bar == 5.5
    assert pressure_range(SMALL, "in", 41.0, 41.0, supply_bar=5.7).setting_bar == 5.7


def test_a_spring_too_weak_to_shut_never_works() -> None:
    spring = Cylinder(16, 6, 50, spring_n=(10.0, 20.0), spring_moves="out")
    found = pressure_range(spring, "in", 20.2, 20.2)
    assert math.isinf(found.least_bar)
    assert found.setting_bar is None


def walked(cylinder: Cylinder, opening: float, shutting: float, permitted: float, supply: float) -> list[float]:
    """All tenths of a bar that move the blade both ways with margin 2 and spare it."""
    good = []
    for tenth in range(15, round(supply * 10) + 1):
        bar = tenth / 10
        moves = (
            0.85 * bar / 10 * cylinder.pull_area_mm2 >= 2 * opening
            and 0.85 * bar / 10 * cylinder.push_area_mm2 >= 2 * shutting
        )
        if moves and bar / 10 * cylinder.push_area_mm2 <= permitted:
            good.append(bar)
    return good


def check_walk(found: PressureRange, good: list[float]) -> None:
    if not good:
        assert found.setting_bar is None
        return
    assert found.setting_bar is not None
    assert any(abs(found.setting_bar - bar) < 1e-9 for bar in good)
    halves = [bar for bar in good if abs(bar * 2 - round(bar * 2)) < 1e-9]
    assert found.setting_bar == pytest.approx(halves[0] if halves else good[-1])


def test_against_a_walk_over_all_pressures() -> None:
    dice = random.Random(7)
    for _ in range(300):
        bore = dice.choice([12, 16, 20, 25, 32, 40])
        cylinder = Cylinder(bore, bore * 0.375, 125)
        opening, shutting, permitted = dice.uniform(2, 60), dice.uniform(2, 60), dice.uniform(20, 400)
        found = pressure_range(cylinder, "in", opening, shutting, permitted)
        check_walk(found, walked(cylinder, opening, shutting, permitted, 6.0))
