"""Threaded rod against ISO 898-1 and ASME B1.1 stress areas typed a second time."""

import pytest

from fitwright.data.rods import all_rods, threaded_rod
from fitwright.data.thread_words import thread_named
from fitwright.errors import DataError


@pytest.mark.parametrize(
    ("thread", "area_mm2", "proof_n"),
    [  # ISO 898-1: nominal stress area, proof load of class 4.6 in a published table of it
        ("M6", 20.1, 4520),
        ("M8", 36.6, 8240),
        ("M10", 58.0, 13000),
        ("M12", 84.3, 19000),
    ],
)
def test_iso_898_1(thread, area_mm2, proof_n):
    row = threaded_rod(thread)
    assert row.stress_area_mm2 == pytest.approx(area_mm2, abs=0.05)
    assert row.stress_area_mm2 * row.proof_mpa == pytest.approx(proof_n, rel=0.005)
    assert row.sold_len_mm == 1000.0


@pytest.mark.parametrize(("thread", "area_in2"), [("1/4-20", 0.0318), ("5/16-18", 0.0524), ("3/8-16", 0.0775)])
def test_asme_b1_1(thread, area_in2):
    """Tensile stress areas of ASME B1.1, handbook table."""
    row = threaded_rod(thread)
    assert row.stress_area_mm2 == pytest.approx(area_in2 * 25.4**2, rel=0.002)
    assert row.sold_len_mm == pytest.approx(36 * 25.4)


@pytest.mark.parametrize("row", all_rods(), ids=lambda row: row.thread)
def test_stress_area_is_that_of_the_mean_of_pitch_and_root_diameter(row):
    """ISO 898-1, 9.1.6.1: (pi/4) ((d2 + d3) / 2)^2; d3 = d1 - H/6."""
    thread = thread_named(row.thread)
    assert row.core_mm == pytest.approx(thread.minor_mm - 0.866025 * thread.pitch_mm / 6.0, abs=0.003)
    mean = (thread.pitch_d_mm + row.core_mm) / 2.0
    near = 0.02 if thread.threads_per_in else 0.0005  # ASME B1.1 counts the root deeper: 0.9743 P, not 0.9382 P
    assert row.stress_area_mm2 == pytest.approx(0.785398 * mean**2, rel=near)
    assert (row.major_mm, row.pitch_mm) == (thread.major_mm, thread.pitch_mm)


def test_unknown():
    with pytest.raises(DataError, match=r"no threaded rod 'M7' is known; there are M6 x 1, M8 x 1.25"):
        threaded_rod("M7")
