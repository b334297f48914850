"""Cylinder thrust, air and time, against published tables and the gas law."""

from __future__ import annotations

import math

import pytest

from fitwright.physics.slide.thrust import Cylinder, end_energy_j, free_air_ratio, tube_litres

PUBLISHED = [
    # bore, rod, push and pull at 6 bar [N]: tables of ISO 6432 and ISO 15552 cylinders, theoretical thrust; bore 50
    # push "1178 N at 6 bar" read in a public data row, the others from memory
    (8, 4, 30.2, 22.6),
    (10, 4, 47.1, 39.6),
    (12, 6, 67.9, 50.9),
    (16, 6, 120.6, 103.7),
    (20, 8, 188.5, 158.3),
    (25, 10, 294.5, 247.4),
    (32, 12, 483, 415),
    (40, 16, 754, 633),
    (50, 20, 1178, 990),
    (63, 20, 1870, 1682),
    (80, 25, 3016, 2721),
    (100, 25, 4712, 4418),
    (125, 32, 7363, 6881),
]


@pytest.mark.parametrize(("bore", "rod", "push", "pull"), PUBLISHED)
def test_published_thrust_at_6_bar(bore: float, rod: float, push: float, pull: float) -> None:
    cylinder = Cylinder(bore, rod, 100)
    assert cylinder.stall_n("out", 6.0) == pytest.approx(push, abs=0.5 if push > 300 else 0.06)
    assert cylinder.stall_n("in", 6.0) == pytest.approx(pull, abs=0.5 if pull > 300 else 0.06)


def test_usable_is_what_seals_leave() -> None:
    cylinder = Cylinder(32, 12, 100)
    assert cylinder.usable_n("out", 6.0) == pytest.approx(0.85 * 482.55, abs=0.01)
    assert cylinder.least_bar("out", cylinder.usable_n("out", 3.7)) == pytest.approx(3.7)
    assert cylinder.greatest_bar("in", cylinder.stall_n("in", 2.9)) == pytest.approx(2.9)


def test_single_acting_works_one_way_against_its_spring() -> None:
    # bore 16, spring 10 to 20 N moves the rod in; out: 0.85 x 120.64 - 20; in: 0.85 x 10, whatever the pressure
    one = Cylinder(16, 6, 50, spring_n=(10.0, 20.0))
    assert one.usable_n("out", 6.0) == pytest.approx(0.85 * 120.637 - 20, abs=0.01)
    assert one.usable_n("in", 6.0) == one.usable_n("in", 0.0) == pytest.approx(8.5)
    assert one.stall_n("out", 6.0) == pytest.approx(110.64, abs=0.01)
    # 20 N of drag: no pressure makes the spring stronger
    assert math.isinf(one.least_bar("in", 20.0))
    assert one.least_bar("in", 8.0) == 0.0
    assert one.greatest_bar("in", 19.0) == 0.0
    assert math.isinf(one.greatest_bar("in", 20.0))
    assert one.least_bar("out", 20.0) == pytest.approx((20 + 20) / (0.85 * 20.1062), abs=1e-4)
    assert one.air_litres(6.0) == pytest.approx(math.pi * 64 * 50e-6 * 7.01325 / 1.01325)


def test_a_spring_that_pushes_out() -> None:
    one = Cylinder(16, 6, 50, spring_n=(10.0, 20.0), spring_moves="out")
    assert one.usable_n("out", 6.0) == pytest.approx(8.5)
    assert one.usable_n("in", 6.0) == pytest.approx(0.85 * 103.67 - 20, abs=0.01)


def test_air_of_a_double_stroke() -> None:
    # bore 50, rod 20, 100 mm: (19.635 + 16.493) cm2 x 10 cm = 361.3 cm3; at 6 bar 6.92 litres a litre: 2.50 litres
    assert free_air_ratio(6.0) == pytest.approx(7.01325 / 1.01325)
    assert Cylinder(50, 20, 100).air_litres(6.0) == pytest.approx(0.36128 * 6.9215, rel=1e-4)
    # half the stroke, half the air
    assert Cylinder(50, 20, 100).air_litres(6.0, stroke_mm=50) == pytest.approx(0.18064 * 6.9215, rel=1e-4)
    # 4 mm tube, 2 m: 25.1 cm3, blown from 6 bar to none: x 5.92
    assert tube_litres(4, 2000, 6.0) == pytest.approx(0.025133 * 6 / 1.01325, rel=1e-4)


def test_flow_and_time_are_one_thing() -> None:
    cylinder = Cylinder(32, 12, 125)
    flow = cylinder.flow_l_min("out", 3.0, seconds=1.0)
    # 100.5 cm3 in a second: 6.03 litres a minute at 3 bar, x 3.96 free
    assert flow == pytest.approx(0.100531 * 60 * 4.01325 / 1.01325, rel=1e-4)
    assert cylinder.seconds("out", 3.0, flow) == pytest.approx(1.0)
    assert cylinder.seconds("in", 3.0, flow) < 1.0


def test_energy_at_the_end() -> None:
    # 0.5 kg, 0.16 m in 0.5 s: mean 0.32, end 0.448 m/s: 0.0502 J; 100 N over 1 mm: 0.1 J more
    assert end_energy_j(0.5, 160, 0.5) == pytest.approx(0.5 * 0.448**2 / 2)
    assert end_energy_j(0.5, 160, 0.5, pushing_n=100, buffer_mm=1.0) == pytest.approx(0.15018, abs=1e-5)
