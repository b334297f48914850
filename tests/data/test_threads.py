"""Thread tables against the standards' formulae, an independent library's copy and published limits, typed again."""

from __future__ import annotations

import math
import re

import pytest

from fitwright.data import tables
from fitwright.data.fasteners import all_fasteners
from fitwright.data.threads import ThreadRow, all_threads, screw_of
from fitwright.units import parse_length

ROWS = {row.name: row for row in all_threads()}
H = math.sqrt(3) / 2
METRIC = [row for row in ROWS.values() if row.series in ("coarse", "fine")]
INCH = [row for row in ROWS.values() if row.series in ("UNC", "UNF", "UNS", "8-UN")]
WHITWORTH = [row for row in ROWS.values() if row.name.startswith(("G ", "R ", "Rp "))]
NPT = [row for row in ROWS.values() if row.name.endswith("NPT")]


def name(row: ThreadRow) -> str:
    return row.name


def inches(row: ThreadRow) -> float:
    """The basic major diameter [in] from the name: ASME B1.1, number sizes are 0.060 + 0.013 x number."""
    number = re.match(r"No\. (\d+)", row.nominal)
    return 0.060 + 0.013 * int(number[1]) if number else parse_length(row.nominal) / 25.4


def test_every_row_is_of_one_standard():
    assert len(METRIC) + len(INCH) + len(WHITWORTH) + len(NPT) == len(ROWS) == len(all_threads())


@pytest.mark.parametrize("row", METRIC, ids=name)
def test_metric_basic_profile_and_tolerances(row):
    """ISO 68-1 and 724; ISO 965-1 formulae for 6g and 6H, from memory (the tables round to R40 numbers)."""
    size, pitch = re.fullmatch(r"M([\d.]+) x ([\d.]+)", row.name).groups()
    d, p = float(size), float(pitch)
    assert (row.major_mm, row.pitch_mm, row.nominal) == (d, p, f"M{size}")
    assert row.pitch_d_mm == pytest.approx(d - 0.649519 * p, abs=0.0006)
    assert row.minor_mm == pytest.approx(d - 1.082532 * p, abs=0.0006)
    low, high = row.outside_mm
    assert high == pytest.approx(d - (15 + 11 * p) / 1000, abs=0.0006)
    assert high - low == pytest.approx((180 * p ** (2 / 3) - 3.15 / math.sqrt(p)) / 1000, rel=0.035)
    bore = 433 * p - 190 * p**1.22 if p < 1 else 230 * p**0.7
    assert row.inside_mm[0] == pytest.approx(row.minor_mm, abs=1e-9)
    assert row.inside_mm[1] - row.inside_mm[0] == pytest.approx(bore / 1000, rel=0.04)


@pytest.mark.parametrize("row", INCH, ids=name)
def test_unified_basic_profile_and_tolerances(row):
    """ASME B1.1-2003, clauses 5.8.1 to 5.8.3 (2A allowance, major tolerance; 2B minor tolerance), from memory."""
    d, p = inches(row), 1 / row.threads_per_in
    assert row.pitch_mm == pytest.approx(25.4 * p, abs=6e-5)
    assert row.major_mm == pytest.approx(25.4 * d, abs=0.0006)
    assert row.pitch_d_mm == pytest.approx(25.4 * (d - 0.649519 * p), abs=0.0006)
    assert row.minor_mm == pytest.approx(25.4 * (d - 1.082532 * p), abs=0.0006)
    engaged = d if row.series in ("UNC", "UNF") else 9 * p
    allowance = 0.3 * (0.0015 * d ** (1 / 3) + 0.0015 * math.sqrt(engaged) + 0.015 * p ** (2 / 3))
    low, high = (limit / 25.4 for limit in row.outside_mm)
    assert high == pytest.approx(d - allowance, abs=8e-5)
    assert high - low == pytest.approx(0.060 * p ** (2 / 3), abs=8e-5)
    coarse = 0.25 * p - 0.4 * p * p
    fine = min(max(0.05 * p ** (2 / 3) + 0.03 * p / d - 0.002, coarse), 0.394 * p)
    bore = (row.inside_mm[1] - row.inside_mm[0]) / 25.4
    assert bore == pytest.approx(fine if d < 0.25 else coarse, abs=8e-5)


@pytest.mark.parametrize("row", WHITWORTH, ids=name)
def test_whitworth_basic_profile(row):
    """ISO 228-1 and ISO 7-1: h = 0.640327 P on a side, 55 deg; 1:16 and the gauge plane for R."""
    assert row.pitch_mm == pytest.approx(25.4 / row.threads_per_in, abs=6e-5)
    assert row.pitch_d_mm == pytest.approx(row.major_mm - 0.640327 * row.pitch_mm, abs=0.0011)
    assert row.minor_mm == pytest.approx(row.major_mm - 2 * 0.640327 * row.pitch_mm, abs=0.0011)
    assert row.taper == (1 / 16 if row.name.startswith("R ") else 0)
    if row.taper:
        low, high = row.outside_mm
        assert low < row.major_mm - row.gauge_mm / 16 < row.major_mm < high
        assert row.major_mm + (row.useful_mm - row.gauge_mm) / 16 < high


# bd_warehouse 0.4.0 (Apache-2.0), data/*_parameters.csv and tap_hole_sizes.csv: sizes and pitches it holds, M2 to M30
LIBRARY_METRIC = """
2-0.4 2.2-0.45 2.5-0.45 3-0.5 3.5-0.6 4-0.7 4.5-0.75 5-0.8 6-0.75 6-1 7-0.75 7-1 8-1 8-1.25 10-1 10-1.25 10-1.5
12-1.25 12-1.5 12-1.75 14-1.25 14-1.5 14-2 16-1.5 16-2 18-1.5 18-2 18-2.5 20-2.5 22-2.5 24-3 27-3 30-3.5
"""
# two tap makers' tables (basic major, pitch, minor diameter)
TAPS = {
    "M4.5 x 0.5": (4.5, 4.175, 3.959),
    "M5 x 0.5": (5.0, 4.675, 4.459),
    "M8 x 0.75": (8.0, 7.513, 7.188),
    "M8 x 1": (8.0, 7.350, 6.917),
    "M10 x 1.25": (10.0, 9.188, 8.647),
    "M10 x 0.75": (10.0, 9.513, 9.188),
    "M7 x 0.75": (7.0, 6.513, 6.188),
    "M8 x 1.25": (8.0, 7.188, 6.647),
    "M10 x 1.5": (10.0, 9.026, 8.376),
    "M14 x 2": (14.0, 12.701, 11.835),
    "M18 x 2.5": (18.0, 16.376, 15.294),
}
CYLINDERS = ("M20 x 1.5", "M22 x 1.5", "M27 x 2")
"""Rod and nose threads of ISO 6432 and ISO 15552 cylinders, read in public tables of them."""
# the same library: inch threads
LIBRARY_INCH = """
#0-80 #1-64 #1-72 #2-56 #2-64 #3-48 #4-40 #4-48 #5-40 #5-44 #6-32 #6-40 #8-32 #8-36 #10-24 #10-32 #12-24 #12-28
1/4-20 1/4-28 5/16-18 5/16-24 3/8-16 3/8-24 7/16-14 7/16-20 1/2-13 1/2-20 9/16-12 9/16-18 5/8-11 5/8-18 3/4-10 3/4-16
7/8-9 7/8-14 1-8 1-12 1-14 #3-56
"""


def test_every_confirmed_metric_row_is_in_another_copy():
    copied = {f"M{one.split('-')[0]} x {one.split('-')[1]}" for one in LIBRARY_METRIC.split()}
    known = copied | set(TAPS) | set(CYLINDERS)
    assert {row.name for row in METRIC if row.status == "confirmed"} <= known
    assert copied <= set(ROWS)


@pytest.mark.parametrize("thread", TAPS)
def test_a_tap_makers_basic_diameters(thread):
    row = ROWS[thread]
    assert (row.major_mm, row.pitch_d_mm, row.minor_mm) == pytest.approx(TAPS[thread], abs=0.0011)


def test_every_confirmed_inch_row_is_in_another_copy():
    copied = {one.replace("#", "No. ") for one in LIBRARY_INCH.split()}
    ours = {row.name.rsplit(" ", 1)[0]: row for row in INCH}
    assert {short for short, row in ours.items() if row.status == "confirmed"} <= copied
    assert copied <= set(ours)


@pytest.mark.parametrize(
    ("size", "per_inch", "major", "pitch_d", "minor", "bore", "crest"),
    [  # bd_warehouse 0.4.0, iso_228_1.csv: every row from 1/8 to 1
        ("1/8", 28, 9.728, 9.147, 8.566, 0.282, 0.214),
        ("1/4", 19, 13.157, 12.301, 11.445, 0.445, 0.250),
        ("3/8", 19, 16.662, 15.806, 14.950, 0.445, 0.250),
        ("1/2", 14, 20.955, 19.793, 18.631, 0.541, 0.284),
        ("5/8", 14, 22.911, 21.749, 20.587, 0.541, 0.284),
        ("3/4", 14, 26.441, 25.279, 24.117, 0.541, 0.284),
        ("7/8", 14, 30.201, 29.039, 27.877, 0.541, 0.284),
        ("1", 11, 33.249, 31.770, 30.291, 0.640, 0.360),
    ],
)
def test_iso_228_in_another_copy(size, per_inch, major, pitch_d, minor, bore, crest):
    row = ROWS[f"G {size}"]
    assert row.threads_per_in == per_inch
    assert (row.major_mm, row.pitch_d_mm, row.minor_mm) == pytest.approx((major, pitch_d, minor), abs=0.0011)
    assert row.outside_mm == pytest.approx((major - crest, major), abs=0.0006)
    assert row.inside_mm == pytest.approx((minor, minor + bore), abs=0.0011)


def test_iso_7_gauge_lengths():
    """A public table of these threads: gauge lengths 1/8 to 1; its gauge diameters are those of G."""
    lengths = {"1/8": 4.0, "1/4": 6.0, "3/8": 6.4, "1/2": 8.2, "3/4": 9.5, "1": 10.4}
    for size, gauge in lengths.items():
        assert ROWS[f"R {size}"].gauge_mm == gauge
        assert ROWS[f"R {size}"].major_mm == ROWS[f"Rp {size}"].major_mm == ROWS[f"G {size}"].major_mm


@pytest.mark.parametrize(
    ("size", "per_inch", "e1", "l1", "l2"),
    [  # ASME B1.20.1, a published table: pitch diameter at the gauge plane, L1, L2 [in]
        ("1/8", 27, 0.37360, 0.162, 0.2639),
        ("1/4", 18, 0.49163, 0.228, 0.4018),
        ("3/8", 18, 0.62701, 0.240, 0.4078),
        ("1/2", 14, 0.77843, 0.320, 0.5337),
        ("3/4", 14, 0.98887, 0.339, 0.5457),
        ("1", 11.5, 1.23863, 0.400, 0.6828),
    ],
)
def test_npt(size, per_inch, e1, l1, l2):
    row = ROWS[f"{size}-{per_inch:g} NPT"]
    assert (row.threads_per_in, row.taper) == (per_inch, 1 / 16)
    assert row.pitch_d_mm == pytest.approx(25.4 * e1, abs=0.001)
    assert (row.gauge_mm, row.useful_mm) == pytest.approx((25.4 * l1, 25.4 * l2), abs=0.016)


@pytest.mark.parametrize(
    ("thread", "greatest", "least"),
    [  # ISO 965-2 / ASME B1.13M, class 6g, two published tables
        ("M2 x 0.4", 1.981, 1.886),
        ("M2.5 x 0.45", 2.480, 2.380),
        ("M3 x 0.5", 2.980, 2.874),
        ("M3.5 x 0.6", 3.479, 3.354),
        ("M4 x 0.7", 3.978, 3.838),
        ("M5 x 0.8", 4.976, 4.826),
        ("M6 x 1", 5.974, 5.794),
        ("M8 x 1.25", 7.972, 7.760),  # this and the next from memory, not read in a table
        ("M10 x 1.5", 9.968, 9.732),
    ],
)
def test_published_6g_limits(thread, greatest, least):
    assert ROWS[thread].outside_mm == pytest.approx((least, greatest), abs=0.0016)


@pytest.mark.parametrize(
    ("threads", "tolerance"),
    [  # ISO 965-4 (hot-dip galvanised threads have the same tolerance 6 of the major diameter), a published table
        (("M10 x 1.5",), 0.236),
        (("M12 x 1.75",), 0.265),
        (("M14 x 2", "M16 x 2"), 0.280),
        (("M18 x 2.5", "M20 x 2.5", "M22 x 2.5"), 0.335),
        (("M24 x 3", "M27 x 3"), 0.375),
        (("M30 x 3.5",), 0.425),
    ],
)
def test_published_tolerance_of_the_major_diameter(threads, tolerance):
    for thread in threads:
        low, high = ROWS[thread].outside_mm
        assert high - low == pytest.approx(tolerance, abs=0.0011)


@pytest.mark.parametrize(
    ("thread", "greatest", "least", "bore_least", "bore_greatest"),
    [  # ASME B1.1, classes 2A and 2B [in], published tables (0.001 in there for bores from No. 6 on)
        ("No. 0-80 UNF", 0.0595, 0.0563, 0.0465, 0.0514),
        ("No. 1-64 UNC", 0.0724, 0.0686, 0.0561, 0.0623),
        ("No. 1-72 UNF", 0.0724, 0.0689, 0.0580, 0.0635),
        ("No. 2-56 UNC", 0.0854, 0.0813, 0.0667, 0.0737),
        ("No. 2-64 UNF", 0.0854, 0.0816, 0.0691, 0.0753),
        ("No. 3-48 UNC", 0.0983, 0.0938, 0.0764, 0.0845),
        ("No. 3-56 UNF", 0.0983, 0.0942, 0.0797, 0.0865),
        ("No. 4-40 UNC", 0.1112, 0.1061, 0.0849, 0.0939),
        ("No. 4-48 UNF", 0.1113, 0.1068, 0.0894, 0.0968),
        ("No. 5-40 UNC", 0.1242, 0.1191, 0.0979, 0.1062),
        ("No. 5-44 UNF", 0.1243, 0.1195, 0.1004, 0.1079),
        ("No. 6-32 UNC", 0.1372, 0.1312, 0.104, 0.114),
        ("No. 6-40 UNF", 0.1372, 0.1321, 0.111, 0.119),
        ("No. 8-32 UNC", 0.1631, 0.1571, 0.130, 0.139),
        ("No. 8-36 UNF", 0.1632, 0.1577, 0.134, 0.142),
        ("No. 10-24 UNC", 0.1890, 0.1818, 0.145, 0.156),
        ("No. 10-32 UNF", 0.1891, 0.1831, 0.156, 0.164),
        ("No. 12-24 UNC", 0.2150, 0.2078, 0.171, 0.181),
        ("No. 12-28 UNF", 0.2150, 0.2085, 0.177, 0.186),
        ("1/4-20 UNC", 0.2489, 0.2408, 0.196, 0.207),  # crests of this and the next from memory
        ("5/16-18 UNC", 0.3113, 0.3026, 0.252, 0.265),
        ("5/8-11 UNC", 0.6234, 0.6113, 0.527, 0.546),
        ("5/8-18 UNF", 0.6236, 0.6149, 0.565, 0.578),
        ("7/8-9 UNC", None, None, 0.755, 0.778),
        ("1-8 UNC", None, None, 0.865, 0.890),
        ("1 1/8-7 UNC", None, None, 0.970, 0.998),
    ],
)
def test_published_unified_limits(thread, greatest, least, bore_least, bore_greatest):
    row = ROWS[thread]
    if greatest:
        assert row.outside_mm == pytest.approx((25.4 * least, 25.4 * greatest), abs=0.004)
    assert row.inside_mm == pytest.approx((25.4 * bore_least, 25.4 * bore_greatest), abs=0.02)


def test_names_are_unique_and_tables_ascend():
    assert len({row.name for row in all_threads()}) == len(all_threads())
    for table in (name for name in tables.NAMES if name.startswith("threads/")):
        majors = [row.required("major_mm") for row in tables.load(table).rows]
        assert majors == sorted(majors), table


def test_threads_of_rods_noses_and_fittings_are_there():
    """ISO 6432 and ISO 15552 rod and nose threads, and those of small tube fittings."""
    for thread in ("M10 x 1.25", "M12 x 1.25", "M16 x 1.5", "M20 x 1.5", "M22 x 1.5", "M27 x 2", "M10 x 1"):
        assert thread in ROWS


def test_screws_and_threads_agree():
    """The two tables: every machine screw of a part's YAML has its thread here, with the same major and pitch."""
    screws = [screw for screw in all_fasteners() if screw.thread.startswith(("coarse", "UNC", "UNF"))]
    assert len(screws) == 21
    for screw in screws:
        series, *per_inch = screw.thread.split()
        found = [
            row
            for row in ROWS.values()
            if row.nominal == screw.name and row.series == series and (not per_inch or f"-{per_inch[0]} " in row.name)
        ]
        assert len(found) == 1, screw.name
        assert found[0].major_mm == pytest.approx(screw.major_mm, abs=0.001)
        assert found[0].pitch_mm == pytest.approx(screw.pitch_mm, abs=0.001)
        assert screw_of(found[0]).name == screw.name


@pytest.mark.parametrize(
    "thread", ["G 1/4", "R 1/2", "Rp 1/8", "1/4-18 NPT", "M14 x 1.5", "9/16-12 UNC", "No. 12-24 UNC"]
)
def test_no_screw_by_a_likeness_of_names(thread):
    """1/4 in is a screw, G 1/4 is none; No. 12 is a wood screw of 5.49 mm, and no machine screw of our tables."""
    assert screw_of(ROWS[thread]) is None
