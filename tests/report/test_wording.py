"""Sentences and numbers in the file's units; 1 in = 25.4 mm exactly (international agreement, 1959)."""

from __future__ import annotations

import pytest

from fitwright.finding import Finding
from fitwright.report.wording import in_units, numbers, quantity


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("gap 25.4 mm", "gap 1 in"),
        ("gap 12.7-25.4 mm wide", "gap 0.5-1 in wide"),
        ("from 12.7 to 25.4 mm", "from 0.5 to 1 in"),
        ("25.4 x 50.8 x 76.2 mm", "1 x 2 x 3 in"),
        ("107.1mm", "4.217 in"),
        ("M6 x 25.4 mm screw", "M6 x 1 in screw"),
        ("3 holes, 25.4 mm apart", "3 holes, 1 in apart"),
        ("area 645.16 mm2, volume 5 mm3, 5 mm²", "area 1 in2, volume 5 mm3, 5 mm²"),
        ("800 N, 45 deg", "800 N, 45 deg"),
        ("-0.254 mm off", "-0.01 in off"),
        ("±0.254 mm", "±0.01 in"),
        ("round within 0.0254 mm", "round within 0.001 in"),
        ("34 m of 1.75 mm filament", "34 m of 1.75 mm filament"),
    ],
)
def test_lengths_in_sentences(text: str, inches: str) -> None:
    assert in_units(text, "in") == inches
    assert in_units(text, "mm") == text


def test_numbers_of_a_finding() -> None:
    finding = Finding("wall", "fail", "toad", 1.27, 2.54, "mm", "end_a", "thin", "thicker")
    assert numbers(finding, "mm") == "is 1.27 mm, limit 2.54 mm"
    assert numbers(finding, "in") == "is 0.05 in, limit 0.1 in"
    assert quantity(None, "mm", "mm") == ""
    assert quantity(3.0, "", "in") == "3"
    assert quantity(7.5, "deg", "in") == "7.5 deg"


def test_a_number_just_over_its_limit_is_not_shown_as_equal_to_it() -> None:
    finding = Finding("fit.result", "warn", "toad", 0.304, 0.3, "mm", "end_a", "leaks", "tape it")
    assert numbers(finding, "mm") == "is 0.304 mm, limit 0.3 mm"
