"""Machine screws, rods, heads and holes in prints against published tables and closed forms."""

import math

import pytest

from fitwright.data.channel_nuts import all_channel_nuts, slot_nut, strut_nut
from fitwright.data.rods import all_rods
from fitwright.errors import DataError
from fitwright.physics import machine_screws as screws


@pytest.mark.parametrize(
    ("major", "pitch", "area"), [(4, 0.7, 8.78), (5, 0.8, 14.2), (6, 1.0, 20.1), (8, 1.25, 36.6), (10, 1.5, 58.0)]
)
def test_stress_areas_of_iso_898(major, pitch, area):
    assert screws.stress_area_mm2(major, pitch) == pytest.approx(area, rel=3e-3)


@pytest.mark.parametrize(("area", "breaks"), [(20.1, 8040), (36.6, 14600), (58.0, 23200)])
def test_breaking_loads_of_iso_898(area, breaks):
    """Class 4.6, minimum ultimate tensile loads of coarse threads, table 4 (from memory)."""
    assert screws.rod_tension_n(area) == pytest.approx(breaks, rel=5e-3)


def test_no_class_breaks_below_its_proof():
    for rod in all_rods():
        assert screws.rod_tension_n(rod.stress_area_mm2) > rod.proof_mpa * rod.stress_area_mm2


def test_a_stiff_drop_rod_is_bent_by_a_snag():
    long = screws.longest_stiff_rod_mm(150.0, 6.466)
    assert screws.rod_bending_mpa(150.0, long, 6.466) == pytest.approx(240.0)
    assert screws.rod_bending_mpa(150.0, 300.0, 6.466) > 6 * 240.0


def test_head_on_print():
    """Ring and rim, by hand: washer 16 over 9: 137.4 mm2; rim 16 pi 3 = 150.8 mm2."""
    head = screws.HeadOnPrint(16.0, 9.0, 3.0)
    assert head.bearing_mm2 == pytest.approx(137.44, abs=0.01)
    assert head.punching_mpa(1508.0) == pytest.approx(10.0, rel=1e-3)
    assert head.pulls_through_n(20.0) == pytest.approx(10.0 * 150.796, rel=1e-4)
    assert screws.HeadOnPrint(16.0, 9.0, 30.0).pulls_through_n(20.0) == pytest.approx(20 * 137.44, rel=1e-4)


def test_hole_near_an_edge_tears():
    hole = screws.HoleInPrint(5.0, 5.5, 5.0, 8.0)
    assert hole.tears_out_n(20.0) == pytest.approx(0.5 * 20 * 2 * 8 * 2.25)
    assert screws.HoleInPrint(5.0, 5.5, 2.0, 8.0).tears_out_n(20.0) == 0.0


@pytest.mark.parametrize(
    ("thread", "pounds", "slip"), [("M6", 600, 300), ("M8", 800, 500), ("M10", 1000, 800)], ids=str
)
def test_strut_nuts_in_pounds(thread, pounds, slip):
    """The same table in the inch edition reads round pounds, with a factor of 3."""
    row = strut_nut(thread)
    assert row.pull_n / 4.448222 == pytest.approx(pounds, rel=2e-3)
    assert row.slip_n / 4.448222 == pytest.approx(slip, rel=6e-3)
    assert row.failure_n == 3 * row.pull_n
    assert row.slips_n == 3 * row.slip_n


def test_slot_nuts():
    assert slot_nut("M5", 5.2).slot_mm == 5
    assert slot_nut("m8", 8.2).pull_n == 3500
    assert slot_nut("M8", 7.8).slot_mm == 8
    assert slot_nut("M6", 8.0).factor == 1
    with pytest.raises(DataError, match="no M10 nut is known for a 8 mm T-slot; there are M6, M8"):
        slot_nut("M10", 8)
    with pytest.raises(DataError, match="no T-slot nut is known for a slot of 3 mm; the narrowest is 5 mm"):
        slot_nut("M4", 3)
    with pytest.raises(DataError, match="no M12 nut is known for 41 mm strut; there are M6, M8, M10"):
        strut_nut("M12")


def test_no_nut_bears_more_than_its_screw():
    areas = {"M4": 8.78, "M5": 14.2, "M6": 20.1, "M8": 36.6, "M10": 58.0}
    for row in all_channel_nuts():
        assert row.pull_n < screws.rod_tension_n(areas[row.thread])
        assert row.slip_n <= row.pull_n


def test_area_is_a_circle():
    assert screws.stress_area_mm2(10.0, 0.0) == pytest.approx(math.pi * 25)
