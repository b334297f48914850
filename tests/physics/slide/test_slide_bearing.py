"""The pin in the blade's hole, by hand."""

from __future__ import annotations

import math

import pytest

from fitwright.physics.slide.bearing import BladeHole, pin_bending_mpa, pin_shear_mpa

HOLE = BladeHole(hole_mm=5, pin_mm=4.5, edge_mm=8, thickness_mm=3, width_mm=118)


def test_stresses_at_the_hole() -> None:
    # 120.6 N: / 4.5 / 3; / (2 x 3 x 5.5); / (16 - 5) / 3
    assert HOLE.bearing_mpa(120.6) == pytest.approx(8.933, abs=1e-3)
    assert HOLE.tear_out_mpa(120.6) == pytest.approx(3.655, abs=1e-3)
    assert HOLE.net_section_mpa(120.6) == pytest.approx(3.655, abs=1e-3)
    # 30 MPa / 3: bearing governs, 10 x 13.5 = 135 N
    assert HOLE.permitted_n(30) == pytest.approx(135.0)


def test_a_hole_too_near_the_edge_tears_out() -> None:
    near = BladeHole(5, 4.5, 4, 3, 118)
    # shear 0.577 x 10 = 5.77 on 2 x 3 x 1.5 = 9 mm2: 51.9 N; beside it 3 mm x 3 mm x 10 = 90 N
    assert near.permitted_n(30) == pytest.approx(51.93)
    assert near.permitted_n(30) < 120.6 < HOLE.permitted_n(30)


def test_a_narrow_tongue_is_reckoned_at_its_width() -> None:
    tongue = BladeHole(5, 4.5, 12, 3, 9)
    assert tongue.pulled_width_mm == 9
    assert tongue.permitted_n(30) == pytest.approx(10 * 4 * 3)


@pytest.mark.parametrize("force", [20.0, 60.0, 120.0])
def test_the_least_edge_is_just_enough(force: float) -> None:
    least = HOLE.least_edge_mm(force, 30)
    just = BladeHole(5, 20.0, least, 3, 118)
    assert just.permitted_n(30) == pytest.approx(force)
    assert BladeHole(5, 20.0, least - 0.2, 3, 118).permitted_n(30) < force


def test_the_pin() -> None:
    assert pin_shear_mpa(120.6, 4) == pytest.approx(120.6 / (2 * math.pi * 4))
    # arm 2.5 + 0.2 + 0.75 = 3.45; 60.3 x 3.45 = 208 N mm; W = 6.283 mm3
    assert pin_bending_mpa(120.6, 4, 3.0, 3.4, 5.0) == pytest.approx(208.035 / 6.2832, rel=1e-4)
