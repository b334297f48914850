"""The parts of one file side by side; areas are pi d^2 / 4, worked out by hand."""

from __future__ import annotations

from fitwright.report.model import Report
from fitwright.report.set_table import set_table
from fitwright.spec.load import load_text
from fitwright.spec.models import AdapterSpec

TEXT = "part: reducer\nend_a: {label: saw, socket: {over: 60 mm}}\nend_b: {hose_tail: {hose_inside: 50 mm}}\n"


def one(passages_mm: dict[str, float], units: str = "mm") -> tuple[AdapterSpec, Report]:
    [spec] = load_text(f"{TEXT}units: {units}\n")
    return spec, Report("toad", "reducer", spec.units, "p", "PETG", (), (), {}, {}, (), passages_mm=passages_mm)


def test_areas_and_their_ratio() -> None:
    """100 mm: 78.54 cm2 = 12.17 in2; 50 mm: a quarter of it."""
    line = set_table([one({"end_a": 100.0, "end_b": 50.0})]).splitlines()[1]
    assert [word.strip() for word in line.split("  ") if word.strip()] == [
        "toad",
        "saw (socket)",
        "78.5 cm2",
        "hose tail",
        "19.6 cm2",
        "0.25",
    ]
    assert "12.2 in2" in set_table([one({"end_a": 100.0, "end_b": 50.0}, "in")])


def test_a_part_without_a_passage_keeps_its_row() -> None:
    assert "toad" in set_table([one({})])
    assert set_table([]) == ""
