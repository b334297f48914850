"""Nuts against ISO 4035, 8675, 7040 and ASME B18.2.2 values typed a second time."""

import math

import pytest

from fitwright.data.cylinders import all_cylinders
from fitwright.data.fasteners import all_fasteners
from fitwright.data.nuts import all_nuts, nut
from fitwright.data.thread_words import thread_name, thread_named
from fitwright.data.threads import all_threads, screw_of
from fitwright.errors import DataError

THREADS = {row.name: row for row in all_threads()}


@pytest.mark.parametrize(
    ("thread", "af", "height", "af_least", "height_least", "corners_least"),
    [  # BS EN ISO 4035 table 2: s, m, smallest s, smallest m, smallest e
        ("M4", 7, 2.2, 6.78, 1.95, 7.66),
        ("M6", 10, 3.2, 9.78, 2.9, 11.05),
        ("M8", 13, 4, 12.73, 3.7, 14.38),
        ("M10", 16, 5, 15.73, 4.7, 17.77),
        ("M12", 18, 6, 17.73, 5.7, 20.03),
        ("M10 x 1.25", 16, 5, 15.73, 4.7, 17.77),  # ISO 8675: the fine threads have the same
        ("M12 x 1.25", 18, 6, 17.73, 5.7, 20.03),
        ("M16 x 1.5", 24, 8, 23.67, 7.42, 26.75),
        ("M20 x 1.5", 30, 10, 29.16, 9.1, 32.95),
        ("M27 x 2", 41, 13.5, 40, 12.4, 45.2),
    ],
)
def test_iso_thin(thread, af, height, af_least, height_least, corners_least):
    row = nut(thread, "thin")
    assert (row.af_mm, row.m_mm, row.af_least_mm, row.m_least_mm) == (af, height, af_least, height_least)
    assert row.across_corners_mm > corners_least
    assert 1.13 * row.af_least_mm == pytest.approx(corners_least, abs=0.06)  # e = 1.13 s (1.12 above M16), ISO 4759-1


@pytest.mark.parametrize(
    ("thread", "width_in", "thin_in", "full_in"),
    [  # ASME B18.2.2, basic sizes: nominal width across flats, jam nut, nut
        ("1/4-28", 7 / 16, 5 / 32, 7 / 32),
        ("5/16-24", 1 / 2, 3 / 16, 17 / 64),
        ("3/8-24", 9 / 16, 7 / 32, 21 / 64),
        ("7/16-20", 11 / 16, 1 / 4, 3 / 8),
        ("1/2-20", 3 / 4, 5 / 16, 7 / 16),
        ("1/4-20", 7 / 16, 5 / 32, 7 / 32),
    ],
)
def test_b18_2_2(thread, width_in, thin_in, full_in):
    for kind, basic_in in (("thin", thin_in), ("full", full_in)):
        row = nut(thread, kind)
        assert row.af_mm == pytest.approx(25.4 * width_in, abs=0.02)
        assert row.m_least_mm < 25.4 * basic_in < row.m_mm + 0.01
        assert row.m_mm - row.m_least_mm < 0.6


@pytest.mark.parametrize(
    ("thread", "height"), [("M4", 6), ("M6", 8), ("M8", 9.5), ("M10 x 1.25", 11.9), ("M16x1.5", 19.1)]
)
def test_insert_nuts(thread, height):
    """ISO 7040 and 10512, greatest height."""
    assert nut(thread, "insert").m_mm == height


def test_full_nuts_are_those_of_the_screws():
    """ISO 4032 and B18.2.2 stand in the tables of screws as well (there, inch nuts by their basic sizes)."""
    for thread in THREADS.values():
        screw = screw_of(thread)
        found = [row for row in all_nuts() if row.kind == "full" and row.thread == thread.name]
        if screw and found and screw.nut_m_mm:
            assert (found[0].af_mm, found[0].m_mm) == pytest.approx((screw.nut_af_mm, screw.nut_m_mm), abs=0.3)
    metric = {screw.name: screw for screw in all_fasteners() if screw.thread == "coarse"}
    for name in ("M4", "M5", "M6", "M8", "M10", "M12"):
        assert (nut(name).af_mm, nut(name).m_mm) == (metric[name].nut_af_mm, metric[name].nut_m_mm)


def test_every_rod_and_nose_has_its_nuts():
    for row in all_cylinders():
        assert nut(row.rod_thread, "thin").m_mm < nut(row.rod_thread, "full").m_mm
        if row.nose_thread:
            nose = nut(row.nose_thread, "nose")
            assert (nose.af_mm, nose.m_mm, nose.status) == (row.nose_nut_af_mm, row.nose_nut_m_mm, "memory")


@pytest.mark.parametrize("row", all_nuts(), ids=lambda row: f"{row.kind} {row.thread}")
def test_rows_hang_together(row):
    major = THREADS[row.thread].major_mm
    assert row.m_mm >= 0.35 * major
    assert row.af_mm > 1.4 * major
    assert row.across_corners_mm == pytest.approx(row.af_mm / math.cos(math.pi / 6.0))
    for greatest, least in ((row.af_mm, row.af_least_mm), (row.m_mm, row.m_least_mm)):
        assert least is None or 0.88 * greatest < least < greatest


def test_keys_unique():
    keys = [(row.kind, row.thread) for row in all_nuts()]
    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("M6", "M6 x 1"),
        ("m10x1.25", "M10 x 1.25"),
        ("M10 \u00d7 1,25", "M10 x 1.25"),
        ("M12 x 1.250", "M12 x 1.25"),
        ("M12", "M12 x 1.75"),
        ("1/4 in", "1/4-20 UNC"),
        ("\u00bc", "1/4-20 UNC"),
        ("5/16-24", "5/16-24 UNF"),
        ("5/16-24 UNF thread", "5/16-24 UNF"),
        ("G1/8", "G 1/8"),
        ("M60", "M60"),
    ],
)
def test_thread_names(said, name):
    assert thread_name(said) == name


def test_thread_unknown():
    with pytest.raises(DataError, match=r"no thread is called 'M10x1.3'; did you mean M10 x 1"):
        thread_named("M10x1.3")
    assert nut("M10 x 1.25", "thin").major_mm == 10.0


def test_unknown():
    with pytest.raises(
        DataError, match=r"no nose nut is known for the thread 'M6'; there are M12 x 1.25, M16 x 1.5, M22"
    ):
        nut("M6", "nose")
