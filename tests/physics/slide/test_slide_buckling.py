"""The blade as a strut, against handbook cases and a finite-element strut."""

from __future__ import annotations

import math

import pytest
from tests.beam_frames import Frame

from fitwright.physics.slide.buckling import FACTOR, Strut, least_thickness_mm, rod_and_blade_critical_n

BLADE_4IN = Strut(width_mm=118, thickness_mm=3, free_mm=125.6, modulus_mpa=2000)


def finite_element_strut(
    width: float, thickness: float, length: float, modulus: float, held_end: bool = False
) -> float:
    frame = Frame()
    ei, ea = modulus * width * thickness**3 / 12, modulus * width * thickness
    nodes = frame.beam((0, 0), (length, 0), ea, ei, pieces=12)
    held = [0, 1, 3 * nodes[-1] + 1] if not held_end else [0, 1, 2]
    return frame.critical(held)


def test_the_4_in_and_6_in_blades() -> None:
    # pi^2 E b t^3 / 12 / L^2: 265.5 mm4 over 125.6 mm, 382.5 mm4 over 181.6 mm, E 2000
    assert BLADE_4IN.critical_n == pytest.approx(math.pi**2 * 2000 * 265.5 / 125.6**2)
    assert round(BLADE_4IN.critical_n) == 332
    assert round(Strut(170, 3, 181.6, 2000).critical_n) == 229
    assert BLADE_4IN.permitted_n == pytest.approx(BLADE_4IN.critical_n / FACTOR)


def test_2_mm_is_not_64_n() -> None:
    # thickness counts to the third power: (2 / 3)^3 = 8 / 27 of 332 N and of 229 N
    for width, free, whole, thin in ((118, 125.6, 332, 98), (170, 181.6, 229, 68)):
        found = Strut(width, 2, free, 2000).critical_n
        assert found == pytest.approx(whole * 8 / 27, rel=2e-3)
        assert round(found) == thin
    # permitted is half: 49 N and 34 N, and a 16 mm cylinder gives 121 N at 6 bar
    assert Strut(118, 2, 125.6, 2000).permitted_n < 120.6 < BLADE_4IN.permitted_n


@pytest.mark.parametrize(("width", "thickness", "free"), [(118, 3, 125.6), (170, 3, 181.6), (118, 2, 125.6)])
def test_against_finite_elements(width: float, thickness: float, free: float) -> None:
    strut = Strut(width, thickness, free, 2000)
    assert strut.critical_n == pytest.approx(finite_element_strut(width, thickness, free, 2000), rel=1e-4)
    # held in its guides and free at the rod it would bear a quarter (K = 2)
    cantilever = Strut(width, thickness, free, 2000, end_factor=2.0)
    assert cantilever.critical_n == pytest.approx(finite_element_strut(width, thickness, free, 2000, True), rel=1e-4)


def test_handbook_column() -> None:
    # handbook case (from memory): steel 200 GPa, yield 250 MPa: Euler holds above slenderness pi sqrt(2 E / S) = 125.7
    strut = Strut(50, 20, 1000, 200_000, strength_mpa=250)
    assert strut.limit_slenderness == pytest.approx(125.66, abs=0.01)
    assert strut.slenderness == pytest.approx(173.2, abs=0.05)
    assert strut.critical_n == pytest.approx(math.pi**2 * 200_000 * 50 * 20**3 / 12 / 1e6)


def test_euler_and_johnson_meet_at_half_the_strength() -> None:
    base = Strut(118, 3, 1.0, 2000, strength_mpa=40)
    at = base.limit_slenderness * 3 / math.sqrt(12)
    for free in (at * (1 - 1e-6), at * (1 + 1e-6)):
        assert Strut(118, 3, free, 2000, 40).critical_n == pytest.approx(118 * 3 * 40 / 2, rel=1e-5)
    assert Strut(118, 3, 1e-6, 2000, 40).critical_n == pytest.approx(118 * 3 * 40)
    # Euler alone would promise a short blade more than crushes it
    assert Strut(118, 3, 10, 2000).critical_n > 118 * 3 * 40 > Strut(118, 3, 10, 2000, 40).critical_n


def test_the_least_thickness_is_just_enough() -> None:
    least = least_thickness_mm(120.6, 118, 125.6, 2000)
    assert Strut(118, least, 125.6, 2000).permitted_n == pytest.approx(120.6)
    assert Strut(118, least - 0.1, 125.6, 2000).permitted_n < 120.6


@pytest.mark.parametrize(("out", "free"), [(42, 125.6), (147, 125.6), (167, 12), (100, 1e7)])
def test_rod_and_blade_fold_as_finite_elements_do(out: float, free: float) -> None:
    frame = Frame()
    area, moment = math.pi * 9, math.pi * 6**4 / 64
    nodes = frame.beam((0, 0), (out, 0), 205_000 * area, 205_000 * moment, pieces=12)
    found = frame.critical([0, 1, 2], {3 * nodes[-1] + 1: 1.0 / free})
    assert rod_and_blade_critical_n(6, out, free) == pytest.approx(found, rel=1e-3)


def test_a_stocky_rod_is_a_spring_and_a_long_link_a_cantilever() -> None:
    ei = 205_000 * math.pi * 6**4 / 64
    assert rod_and_blade_critical_n(6, 147, 0.1) == pytest.approx(3 * ei * 0.1 / 147**3, rel=2e-3)
    assert rod_and_blade_critical_n(6, 147, 1e9) == pytest.approx(math.pi**2 * ei / (2 * 147) ** 2, rel=1e-4)
