"""The table of passed checks: one row for each code, the worst of many, in plain words and the file's units."""

from __future__ import annotations

from fitwright.checks import CODES
from fitwright.finding import Finding
from fitwright.report.checked import WORDS, numbered, table


def wall(value: float, limit: float) -> Finding:
    return Finding("wall", "pass", "toad", value, limit, "mm", "x", f"least wall {value} mm, asked {limit} mm")


def test_one_row_for_each_code_with_the_worst() -> None:
    built = [Finding("fit.built", "pass", "toad", d, 6.8, "mm", "x", f"hole {d} measures {d} mm") for d in (6.8, 6.83)]
    rows = dict(table([wall(2.6, 2.5), wall(2.5, 2.5), wall(4.0, 1.0), *built], "mm"))
    assert rows["thinnest wall"] == "least wall 2.5 mm, asked 2.5 mm (the least of 3)"
    assert (
        rows["diameters"].startswith("2 faces and holes within 0.05 mm") and "6.83 mm for 6.80 mm" in rows["diameters"]
    )


def test_rows_are_in_the_files_units() -> None:
    [(_, words)] = table([wall(2.54, 2.54)], "in")
    assert words == "least wall 0.1 in, asked 0.1 in"


def test_what_warns_and_what_is_told_elsewhere_has_no_row() -> None:
    warn = Finding("printing.tall", "warn", "toad", 6.0, 5.0, "", "x", "tall")
    fit = Finding("fit.result", "pass", "toad", 0.1, 0.3, "mm", "x", "snug")
    assert table([warn, fit], "mm") == []


def test_every_check_has_plain_words() -> None:
    assert all(code in WORDS or any(known.startswith(f"{code}.") for known in WORDS) for code in CODES)


def test_numbered_things_are_named_once() -> None:
    assert numbered("end_a screw 1, end_a screw 2, end_a screw 3, end_b hose") == "end_a screw 1-3, end_b hose"
    assert numbered("end_a screw 1 and 2 more") == "end_a screw 1 and 2 more"
