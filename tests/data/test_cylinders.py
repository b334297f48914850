"""Cylinders against ISO 6432 and 15552 values and catalogue thrusts typed a second time; names that people use."""

import math
import pickle
from dataclasses import fields
from importlib.resources import files

import pytest

from fitwright.data import tables
from fitwright.data.cylinders import (
    AmbiguousCylinderError,
    CylinderRow,
    _cylinder_row,
    all_cylinders,
    cylinder,
    cylinder_row,
    find_cylinders,
    standard_strokes,
)
from fitwright.data.fasteners import fastener
from fitwright.data.threads import all_threads
from fitwright.errors import DataError

ROWS = {row.words: row for row in all_cylinders()}
THREADS = {row.name: row for row in all_threads()}


@pytest.mark.parametrize(
    ("name", "rod", "rod_thread", "push_n", "pull_n"),
    [  # theoretical thrust at 6 bar as catalogues of such cylinders print it, N
        ("ISO 6432 8", 4, "M4 x 0.7", 30.2, 22.6),
        ("ISO 6432 10", 4, "M4 x 0.7", 47.1, 39.6),
        ("ISO 6432 12", 6, "M6 x 1", 67.9, 50.9),
        ("ISO 6432 16", 6, "M6 x 1", 120.6, 103.7),
        ("ISO 6432 20", 8, "M8 x 1.25", 188.5, 158.3),
        ("ISO 6432 25", 10, "M10 x 1.25", 294.5, 247.4),
        ("ISO 15552 32", 12, "M10 x 1.25", 482.5, 414.7),
        ("ISO 15552 40", 16, "M12 x 1.25", 754.0, 633.3),
        ("ISO 15552 50", 20, "M16 x 1.5", 1178.1, 989.6),
        ("ISO 15552 63", 20, "M16 x 1.5", 1870.3, 1681.9),
        ("ISO 15552 80", 25, "M20 x 1.5", 3015.9, 2721.4),
        ("ISO 15552 100", 25, "M20 x 1.5", 4712.4, 4417.9),
        ("ISO 15552 125", 32, "M27 x 2", 7363.1, 6880.6),
        ("ISO 21287 63", 16, "M12 x 1.25", 1870.3, 1749.7),
    ],
)
def test_rods_and_thrusts(name, rod, rod_thread, push_n, pull_n):
    row = cylinder_row(name)
    assert (row.rod_mm, row.rod_thread) == (rod, rod_thread)
    assert 0.6 * row.push_area_mm2 == pytest.approx(push_n, abs=0.06)
    assert 0.6 * row.pull_area_mm2 == pytest.approx(pull_n, abs=0.06)


@pytest.mark.parametrize(
    ("bore", "square", "boss", "body", "port"),
    [  # ISO 15552: TG, B, E from a second public table (front covers, 32 to 63); ports of another
        (32, 32.5, 30, 45, "G 1/8"),
        (40, 38, 35, 54, "G 1/4"),
        (50, 46.5, 40, 64, "G 1/4"),
        (63, 56.5, 45, 75, "G 3/8"),
    ],
)
def test_iso_15552_front(bore, square, boss, body, port):
    row = cylinder_row(f"ISO 15552 {bore}")
    assert (row.square_mm, row.boss_d_mm, row.body_square_mm, row.port) == (square, boss, body, port)
    assert not any(row.remembered(name) for name in ("square_mm", "boss_d_mm", "body_square_mm", "port"))


@pytest.mark.parametrize(
    ("bore", "nose", "port", "barrel", "length"),
    [  # ISO 6432 component file: nose thread, port, barrel, length
        (8, "M12 x 1.25", "M5 x 0.8", 10, 64),
        (12, "M16 x 1.5", "M5 x 0.8", 14, 75),
        (16, "M16 x 1.5", "M5 x 0.8", 18, 82),
        (20, "M22 x 1.5", "G 1/8", 22, 95),
        (25, "M22 x 1.5", "G 1/8", 27, 104),
    ],
)
def test_iso_6432_body(bore, nose, port, barrel, length):
    row = cylinder_row(f"ISO 6432 {bore}")
    assert (row.nose_thread, row.port, row.body_round_mm, row.length_0_mm) == (nose, port, barrel, length)


def test_bore_16_as_the_trade_remembers_it():
    """WF 22, AM 16, nose 18: from memory, and marked so."""
    row = cylinder_row("ISO 6432 16")
    assert (row.rod_stub_mm, row.rod_thread_len_mm, row.nose_len_mm) == (22, 16, 18)
    assert all(row.remembered(name) for name in ("rod_stub_mm", "rod_thread_len_mm", "nose_len_mm", "mass_0_kg"))
    assert not any(row.remembered(name) for name in ("bore_mm", "rod_mm", "rod_thread", "nose_thread"))


@pytest.mark.parametrize("row", ROWS.values(), ids=ROWS)
def test_every_row_hangs_together(row):
    names = {field.name for field in fields(CylinderRow)}
    assert set(row.from_memory) <= names
    for thread in (row.rod_thread, row.rod_inner_thread, row.nose_thread, row.port):
        assert thread is None or thread in THREADS
    assert THREADS[row.rod_thread].major_mm <= row.rod_mm < row.bore_mm
    assert row.rod_stub_mm >= row.nose_len_mm
    assert row.rod_flats_af_mm is None or 0.75 * row.rod_mm < row.rod_flats_af_mm < row.rod_mm
    if row.nose_thread:
        assert THREADS[row.nose_thread].major_mm > row.rod_mm
        assert row.head_round_mm > THREADS[row.nose_thread].major_mm > row.nose_nut_m_mm
        assert row.body_round_mm > row.bore_mm
    else:
        screw = fastener(row.square_screw)
        corner = row.square_mm / math.sqrt(2.0)  # from the axis to a screw
        assert corner - screw.major_mm / 2.0 > max(row.boss_d_mm or 0.0, row.bore_mm) / 2.0
        assert row.square_mm + screw.major_mm < row.body_square_mm
        assert row.body_square_mm > row.bore_mm


def test_compact_rows_are_flagged_throughout():
    for row in find_cylinders("ISO 21287"):
        assert row.status == "memory"
        assert {"rod_thread", "rod_stub_mm", "square_screw", "length_0_mm", "port"} <= set(row.from_memory)


def test_larger_bores_are_larger():
    for standard in ("ISO 6432", "ISO 15552", "ISO 21287"):
        rows = find_cylinders(standard)
        for name in (
            "bore_mm",
            "rod_mm",
            "rod_thread_len_mm",
            "rod_stub_mm",
            "length_0_mm",
            "mass_0_kg",
            "mass_100_kg",
        ):
            values = [getattr(row, name) for row in rows]
            assert values == sorted(values), (standard, name)


def test_mass_of_the_rod_alone_is_less():
    """Steel, 7.85 g/cm3: 100 mm of stroke cannot weigh less than 100 mm of rod."""
    for row in all_cylinders():
        assert row.mass_100_kg > 7.85e-6 * math.pi / 4.0 * row.rod_mm**2 * 100.0
    assert cylinder_row("ISO 6432 16").mass_kg(125.0) == pytest.approx(0.09 + 1.25 * 0.05)


@pytest.mark.parametrize(
    ("said", "name", "stroke"),
    [
        ("ISO 6432 16 x 125", "ISO 6432 16", 125),
        ("iso6432 16x125", "ISO 6432 16", 125),
        ("ISO 6432-16-125", "ISO 6432 16", 125),
        ("ISO 6432-1 16 x 125", "ISO 6432 16", 125),
        ("DIN ISO 6432 16/125", "ISO 6432 16", 125),
        ("ISO 6432 \u00d816 \u00d7 125 mm", "ISO 6432 16", 125),
        ("ISO 6432 bore 16 stroke 125", "ISO 6432 16", 125),
        ("ISO 6432 stroke 125 bore 16", "ISO 6432 16", 125),
        ("ISO 6432 16 bore 125 stroke", "ISO 6432 16", 125),
        ("ISO 6432 cylinder 16mm x 125mm", "ISO 6432 16", 125),
        ("ISO 6432 16 x 12.5", "ISO 6432 16", 12.5),
        ("ISO6432:2015 16x125", "ISO 6432 16", 125),
        ("ISO 6432 bore: 16, stroke: 125", "ISO 6432 16", 125),
        ("ISO 15552 32 x 160", "ISO 15552 32", 160),
        ("VDMA 24562 32 x 160", "ISO 15552 32", 160),
        ("profile cylinder 32 x 160", "ISO 15552 32", 160),
        ("compact 32 x 50", "ISO 21287 32", 50),
    ],
)
def test_names(said, name, stroke):
    row, found = cylinder(said)
    assert (row.words, found) == (name, stroke)


@pytest.mark.parametrize(
    ("said", "message"),
    [
        ("ISO 6432 17 x 50", "has no bore of 17 mm, but 8, 10, 12, 16, 20, 25; the nearest is ISO 6432 16"),
        ("ISO 6432 32 x 50", "the nearest is ISO 6432 25; 32 is in ISO 15552 32 and ISO 21287 32"),
        ("18 x 40", "no standard has a bore of 18 mm; the nearest is ISO 6432 16, ISO 6432 20, ISO 21287 20"),
        ("ISO 6432 16", "names no stroke; write bore x stroke, such as ISO 6432 16 x 125"),
        ("ISO 15552", "names no bore; write one, such as ISO 15552 32 x 125"),
        ("", "names no bore"),
        ("ISO 6432 16 x", "names no stroke"),
        ("ISO 6432 16,5 x 125", "is unknown"),
        ("ISO 6432 16 x 125 x 3", "is unknown"),
        ("ISO 6432 16 x 0", "a stroke of 0 mm; there are 1 to 2800 mm"),
        ("ISO 6432 16 x 9000", "a stroke of 9000 mm"),
        ("ISO 6432 16 x 125 quick", "'quick' is unknown"),
        ("ISO 6432 16 x 5 in", "5 in is in inches; no table has inch cylinders"),
        ('3/4" x 5"', "3/4 is in inches"),
        ("ISO 9999 16 x 125", "is unknown"),
    ],
)
def test_refused(said, message):
    with pytest.raises(DataError) as caught:
        cylinder(said)
    assert message in str(caught.value)


def test_a_bore_alone_asks_for_the_standard():
    with pytest.raises(
        AmbiguousCylinderError, match=r"ISO 15552 32 x 160 \(profile\), ISO 21287 32 x 160 \(compact\)"
    ) as caught:
        cylinder("32 x 160")
    again = pickle.loads(pickle.dumps(caught.value))
    assert (str(again), [row.words for row in again.candidates]) == (
        str(caught.value),
        ["ISO 15552 32", "ISO 21287 32"],
    )
    with pytest.raises(AmbiguousCylinderError, match=r"which standard: ISO 6432 16 x 125 \(round\)"):
        cylinder("16 x 125")


def test_find():
    assert find_cylinders("cylinder") == list(all_cylinders())
    assert [row.bore_mm for row in find_cylinders("ISO 6432")] == [8, 10, 12, 16, 20, 25]
    assert [row.words for row in find_cylinders("20 x 100")] == ["ISO 6432 20", "ISO 21287 20"]
    assert find_cylinders("4 in") == find_cylinders("hose") == []


def test_strokes_of_iso_4393():
    assert standard_strokes() == (25, 50, 80, 100, 125, 160, 200, 250, 320, 400, 500)


def test_keys_unique_and_every_row_says_what_is_remembered():
    assert len(ROWS) == len(all_cylinders())
    assert all(row.from_memory for row in ROWS.values())


@pytest.mark.parametrize(
    ("was", "is_now", "message"),
    [
        (";rear_over_mm;", ";boss_d_mm;", r"x.csv:7: memory_fields names boss_d_mm, which is empty"),
        (";rear_over_mm;", ";colour;", r"x.csv: no column 'colour'"),
        ("ISO 6432,8,4,", "ISO 6432,8,,", r"x.csv:7: rod_mm is empty"),
        ("M4 x 0.7", "", r"x.csv:7: rod_thread is empty"),
        ("confirmed", "sure", r"x.csv:7: status is 'sure'"),
    ],
)
def test_damaged_rows(was, is_now, message):
    path = files("fitwright.data").joinpath("cylinders/iso_6432.csv")
    head, line = path.read_text(encoding="utf-8").splitlines()[:6], path.read_text(encoding="utf-8").splitlines()[6]
    assert was in line
    table = tables.parse("\n".join([*head, line.replace(was, is_now)]), "x", "x.csv")
    with pytest.raises(DataError, match=message):
        _cylinder_row(table.rows[0], table)
