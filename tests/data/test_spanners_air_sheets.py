"""Spanners, air fittings, tubes and sheet materials: figures of the trade, typed a second time where one was read."""

import math

import pytest

from fitwright.data.air import all_fittings, all_tubes, fitting, tube
from fitwright.data.cylinders import all_cylinders
from fitwright.data.nuts import all_nuts
from fitwright.data.sheets import OTHER_NAMES, sheet, sheets
from fitwright.data.spanners import all_spanners, spanner
from fitwright.data.thread_words import thread_named
from fitwright.errors import DataError


@pytest.mark.parametrize("row", all_spanners(), ids=lambda row: f"{row.af_mm:g}")
def test_spanner_proportions(row):
    """Common practice, no source: 2.1 x AF + 7 is remembered of ISO 3318; a head covers the nut's corners."""
    assert row.head_greatest_mm == pytest.approx(2.1 * row.af_mm + 7.0, abs=0.06)
    assert row.af_mm * 2.0 / math.sqrt(3.0) < row.head_usual_mm < row.head_greatest_mm
    assert row.status == "common practice"


def test_every_nut_and_every_rod_has_its_spanner():
    for row in all_nuts():
        assert abs(spanner(row.af_mm).af_mm - row.af_mm) < 0.2
    for cylinder in all_cylinders():
        if cylinder.nose_nut_af_mm:
            assert spanner(cylinder.nose_nut_af_mm).af_mm == cylinder.nose_nut_af_mm
    with pytest.raises(DataError, match="no spanner fits 9 mm across flats; there are 7, 8, 10"):
        spanner(9.0)


@pytest.mark.parametrize(("outside", "inside", "bend"), [(4, 2, 10), (6, 4, 20), (8, 5, 30), (10, 6.5, 40)])
def test_tubes(outside, inside, bend):
    """Urethane tube in a second printing of a valve maker's manual."""
    row = tube(outside)
    assert (row.inside_mm, row.bend_radius_mm, row.status) == (inside, bend, "confirmed")


def test_every_port_has_a_fitting_and_every_fitting_a_tube():
    for row in all_cylinders():
        assert fitting(row.port).port == row.port
    for row in all_fittings():
        assert tube(row.tube_mm).tube_mm == row.tube_mm
        assert row.body_mm > thread_named(row.port).major_mm
        assert row.reach_mm > row.body_mm / 2.0
        assert row.status == "memory"
    assert fitting("G1/8", 6).tube_mm == 6
    assert fitting("M5").tube_mm == 4


def test_no_such_fitting():
    with pytest.raises(DataError, match=r"no fitting is known for the port 'G1'; there are M5 x 0.8, G 1/8"):
        fitting("G1")
    with pytest.raises(DataError, match=r"no fitting M5 x 0.8 takes a tube of 8 mm; there are 4, 6 mm"):
        fitting("M5", 8)
    with pytest.raises(DataError, match=r"no air tube 5 mm; there are 4, 6, 8, 10 mm"):
        tube(5)
    assert [row.bend_radius_mm for row in all_tubes()] == sorted(row.bend_radius_mm for row in all_tubes())


@pytest.mark.parametrize(
    ("name", "gravity", "modulus_ksi"),
    [  # a published table of engineering plastics: specific gravity, tensile (PVC: flexural) modulus in 1000 psi
        ("ABS", 1.05, 275),
        ("acrylic", 1.19, 400),
        ("PVC", 1.39, 400),
        ("HDPE", 0.95, 156),
        ("polycarbonate", 1.19, 345),
        ("MDF", 0.75, 350),  # a woodworking list
    ],
)
def test_sheets_that_were_read(name, gravity, modulus_ksi):
    row = sheet(name)
    assert row.density_g_cm3 == gravity
    assert row.modulus_mpa == pytest.approx(modulus_ksi * 6.894757, rel=0.01)
    assert (row.density_status, row.modulus_status) == ("confirmed", "confirmed")


def test_plastic_alone():
    """The figures that a blade gets where no more is said: common practice, no source."""
    row = sheet("plastic")
    assert (row.modulus_mpa, row.density_g_cm3, row.bearing_mpa, row.friction) == (2000, 1.2, 20, 0.5)
    assert {row.modulus_status, row.density_status, row.bearing_status, row.friction_status} == {"common practice"}


def test_names():
    assert sheet("Aluminum").name == "aluminium"
    assert sheet("stainless  steel").name == "stainless"
    assert all(meant in sheets() for meant in OTHER_NAMES.values())
    with pytest.raises(
        DataError, match=r"no sheet material is called 'plywod'; known: plastic, ABS.*did you mean plywood"
    ):
        sheet("plywod")
