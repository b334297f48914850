"""How long `length: auto` makes a reducer: cones measured on the finished mesh, angles worked out by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from tests.whole import circles, fact, mesh_of

TALL = "{plain: {inside: 150}}", "{plain: {inside: 50}}"
"""A change of 50 mm of radius: 283.6 mm of cone at 10 deg, more than the default printer's 240; 137.4 mm at 20."""
SHORT = "{plain: {inside: 100}}", "{plain: {inside: 60}}"
"""A change of 20 mm of radius: 113.4 mm at 10 deg, which with its ends fits 240; 54.9 mm at 20."""
HUGE = "{plain: {inside: 200}}", "{plain: {inside: 40}}"
"""A change of 80 mm of radius: 219.8 mm even at 20 deg, with its ends more than 240."""


def text(ends: tuple[str, str], more: str = "") -> str:
    return f"{{part: reducer, {more}end_a: {ends[0]}, end_b: {ends[1]}}}"


def high(yaml: str) -> float:
    """From mouth to mouth [mm], on the mesh."""
    return float(np.ptp(mesh_of(yaml).bounds[:, 1]))


def half_angle_deg(yaml: str) -> float:
    """Of the passage's cone, from its diameters at two fifths and three fifths of the length."""
    at = 0.4 * high(yaml), 0.6 * high(yaml)
    one, other = (min(d for _, _, d in circles(yaml, y)) for y in at)
    return math.degrees(math.atan(abs(one - other) / 2 / (at[1] - at[0])))


@pytest.mark.parametrize("ends", [SHORT, SHORT[::-1]], ids=["narrowing", "widening"])
def test_a_part_that_is_not_taller_than_the_printer_keeps_ten_degrees(ends: tuple[str, str]) -> None:
    yaml = text(ends)
    assert high(yaml) < 240 and half_angle_deg(yaml) == pytest.approx(10.0, abs=0.05)


def test_a_part_that_would_be_taller_is_steepened_until_it_fits() -> None:
    yaml = text(TALL)
    assert 235 < high(yaml) < 240
    # what its two ends take is at least 10 mm each, so the cone is at least as steep as over 220 mm
    assert math.degrees(math.atan(50 / 220)) < half_angle_deg(yaml) < 20.0


def test_a_taller_printer_or_a_lower_one_moves_the_limit() -> None:
    printer = "printer: {name: own, bed_x: 220, bed_y: 220, bed_z: %d}, "
    assert half_angle_deg(text(TALL, printer % 400)) == pytest.approx(10.0, abs=0.05)
    low = text(SHORT, printer % 120)
    assert 115 < high(low) < 120 and 10.0 < half_angle_deg(low) < 20.0


def test_it_never_grows_steeper_than_twenty_degrees_on_its_own() -> None:
    yaml = text(HUGE)
    assert half_angle_deg(yaml) == pytest.approx(20.0, abs=0.05) and high(yaml) > 240


@pytest.mark.parametrize("deg", [8.0, 12.0, 25.0])
@pytest.mark.parametrize("ends", [SHORT, TALL], ids=["short", "tall"])
def test_a_half_angle_that_is_given_is_kept(ends: tuple[str, str], deg: float) -> None:
    yaml = text(ends, f"half_angle: {deg} deg, ")
    assert half_angle_deg(yaml) == pytest.approx(deg, abs=0.05)
    assert fact(yaml, "cone, half angle").startswith(f"{deg:.1f} deg")


def test_an_eccentric_cones_steepest_line_decides() -> None:
    # 20 mm of radius and 40 mm aside: the steepest line moves by 60 mm, which takes 164.8 mm at 20 deg, not 113.4
    yaml = text(SHORT, "eccentricity: {up: 40}, ")
    assert half_angle_deg(yaml) == pytest.approx(
        math.degrees(math.atan(20 / (60 / math.tan(math.radians(20))))), abs=0.05
    )
    assert fact(yaml, "cone, half angle").endswith("20.0 at its steepest")


def test_a_level_cone_of_ten_degrees_is_gentle_enough_as_it_is() -> None:
    # both changes of radius on one line: 40 mm over 113.4 mm is 19.4 deg
    yaml = text(SHORT, "line: level, ")
    assert half_angle_deg(yaml) == pytest.approx(10.0, abs=0.05)
    assert fact(yaml, "cone, half angle").endswith("19.4 at its steepest")
