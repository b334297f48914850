"""Screws against ISO 273, ISO 7089, ASME B18 values typed a second time."""

import pytest

from fitwright.data.fasteners import all_fasteners, fastener
from fitwright.errors import DataError


@pytest.mark.parametrize(
    ("name", "fine", "medium", "coarse"),
    [  # ISO 273:1979, table 1 (H12, H13, H14)
        ("M3", 3.2, 3.4, 3.6),
        ("M4", 4.3, 4.5, 4.8),
        ("M5", 5.3, 5.5, 5.8),
        ("M6", 6.4, 6.6, 7.0),
        ("M8", 8.4, 9.0, 10.0),
        ("M10", 10.5, 11.0, 12.0),
        ("M12", 13.0, 13.5, 14.5),
    ],
)
def test_iso_273(name, fine, medium, coarse):
    screw = fastener(name)
    assert (screw.hole_mm("fine"), screw.hole_mm(), screw.hole_mm("coarse")) == (fine, medium, coarse)


@pytest.mark.parametrize(
    ("name", "af", "nut", "washer"),
    [  # ISO 4032 and ISO 7089, handbook pages
        ("M3", 5.5, 2.4, (3.2, 7.0, 0.5)),
        ("M5", 8.0, 4.7, (5.3, 10.0, 1.0)),
        ("M8", 13.0, 6.8, (8.4, 16.0, 1.6)),
        ("M12", 18.0, 10.8, (13.0, 24.0, 2.5)),
    ],
)
def test_iso_nuts_and_washers(name, af, nut, washer):
    screw = fastener(name)
    assert (screw.nut_af_mm, screw.nut_m_mm) == (af, nut)
    assert (screw.washer_d1_mm, screw.washer_d2_mm, screw.washer_h_mm) == washer


@pytest.mark.parametrize(
    ("name", "close_in", "normal_in", "loose_in"),
    [  # ASME B18.2.8 table 1
        ("1/4 in", 17 / 64, 9 / 32, 19 / 64),
        ("5/16 in", 21 / 64, 11 / 32, 23 / 64),
        ("3/8 in", 25 / 64, 13 / 32, 27 / 64),
        ("1/2 in", 17 / 32, 9 / 16, 39 / 64),
        ("No. 6", 0.154, 0.1695, 0.185),  # drills 23, 18, 13
        ("No. 8", 0.180, 0.196, 0.213),  # drills 15, 9, 3
        ("No. 10", 0.2055, 0.221, 0.238),  # drills 5, 2, B
    ],
)
def test_b18_2_8(name, close_in, normal_in, loose_in):
    screw = fastener(name)
    holes = (screw.hole_fine_mm, screw.hole_medium_mm, screw.hole_coarse_mm)
    assert holes == pytest.approx((close_in * 25.4, normal_in * 25.4, loose_in * 25.4), abs=0.002)


@pytest.mark.parametrize(
    ("name", "inside_in", "outside_in", "thick_in"),
    [  # ASME B18.21.1-2009, table 1a, type A preferred sizes, narrow
        ("No. 8", 0.188, 0.438, 0.049),
        ("1/4 in", 0.281, 0.625, 0.065),
        ("1/2 in", 0.531, 1.062, 0.095),
    ],
)
def test_b18_21_1_washers(name, inside_in, outside_in, thick_in):
    screw = fastener(name)
    found = (screw.washer_d1_mm, screw.washer_d2_mm, screw.washer_h_mm)
    assert found == pytest.approx((inside_in * 25.4, outside_in * 25.4, thick_in * 25.4), abs=0.002)


@pytest.mark.parametrize(
    ("said", "name", "thread"),
    [
        ("M6", "M6", "coarse"),
        ("m6x1", "M6", "coarse"),
        ("M6 bolt", "M6", "coarse"),
        ("No. 8", "No. 8", "UNC 32"),
        ("#8", "No. 8", "UNC 32"),
        ("no 10", "No. 10", "UNC 24"),
        ("#10-32", "No. 10", "UNF 32"),
        ("1/4", "1/4 in", "UNC 20"),
        ('1/4"', "1/4 in", "UNC 20"),
        ("\u00bc in", "1/4 in", "UNC 20"),
        ("1/4-28 UNF", "1/4 in", "UNF 28"),
        ("No. 8 wood screw", "No. 8", "wood screw"),
        ("No. 12", "No. 12", "wood screw"),
        ("4 mm", "4.0 mm", "chipboard screw"),
        ("4.5 mm chipboard screw", "4.5 mm", "chipboard screw"),
    ],
)
def test_names(said, name, thread):
    screw = fastener(said)
    assert (screw.name, screw.thread) == (name, thread)


@pytest.mark.parametrize("said", ["M7", "M60", "M6x0.75", "8", "", "No. 8.5", "1/3 in", "quarter inch", "1/4-24"])
def test_unknown(said):
    with pytest.raises(DataError, match="known: M3 to M12"):
        fastener(said)


@pytest.mark.parametrize("screw", all_fasteners(), ids=lambda screw: f"{screw.name} {screw.thread}")
def test_order_of_sizes(screw):
    """A pilot of about 0.85 x major is common practice, no source; a clearance hole clears; a head covers its hole."""
    assert 0.84 <= screw.pilot_plastic_mm / screw.major_mm <= 0.865
    assert screw.major_mm < screw.hole_mm("fine") <= screw.hole_mm("medium") <= screw.hole_mm("coarse")
    assert screw.head_d_mm > screw.hole_mm("medium")
    if screw.washer_d2_mm:
        assert screw.major_mm < screw.washer_d1_mm < screw.washer_d2_mm
        assert screw.washer_d2_mm > screw.hole_mm("coarse")


def test_inch_majors():
    """ASME B1.1: number sizes are 0.060 + 0.013 x number in."""
    for number in (6, 8, 10, 12):
        assert fastener(f"No. {number}").major_mm == pytest.approx((0.060 + 0.013 * number) * 25.4, abs=0.002)
