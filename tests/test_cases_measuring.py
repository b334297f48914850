"""What people run into when they measure and print, each told to the tool as its user would, by command or YAML.

The situations are reports of users, restated; the numbers are theirs, or chosen to make the case run.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.data.fasteners import fastener
from fitwright.parts.compensation import modelled, small_hole
from fitwright.spec.load import load_file

MM_PER_INCH = 25.4
Captured = pytest.CaptureFixture[str]


def measured(capsys: Captured, *words: str) -> tuple[int, str]:
    """Exit code and all that `fitwright measure` says."""
    code = main(["measure", *words])
    said = capsys.readouterr()
    return code, said.out + said.err


# soft hose


def test_a_soft_hose_pressed_oval_is_read_twice_and_a_gauge_is_offered(capsys: Captured) -> None:
    """35 and 33 by the caliper: pressed round it is the circle of the same circumference, never the larger reading."""
    code, said = measured(capsys, "circle", "soft=yes", "inside=yes", "33", "35")
    assert code == 0 and "oval" in said
    assert "circumference" in said and "fit_gauge" in said
    (line,) = (one for one in said.splitlines() if one.startswith("hose_inside:"))
    round_mm = float(line.partition("circumference:")[2].strip(" }"))
    h = ((35 - 33) / (35 + 33)) ** 2
    ramanujan = math.pi * 34 * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))  # Ramanujan 1914, axes halved by pi (a + b)
    assert round_mm == pytest.approx(ramanujan, abs=0.02)


# threads that pass for one another


@pytest.mark.parametrize(("metric", "inch"), [("M8", "5/16 in"), ("M5", "No. 10"), ("M6", "1/4 in")])
def test_near_equal_threads_are_both_named_and_one_hole_clears_both(metric: str, inch: str, capsys: Captured) -> None:
    """Half way between the two nominals, less what a crest is under its nominal: no caliper tells them apart."""
    between = (fastener(metric).major_mm + fastener(inch).major_mm) / 2 - 0.1
    code, said = measured(capsys, "thread", f"outside={between:.2f}")
    assert code == 0 and metric in said and inch.removesuffix(" in") in said
    hole = float(said.partition("clearance hole: ")[2].split()[0])
    assert hole >= max(fastener(metric).hole_mm("fine"), fastener(inch).hole_mm("fine"))


def test_7_95_is_five_sixteenths_or_m8_until_the_pitch_is_read(capsys: Captured) -> None:
    code, said = measured(capsys, "thread", "outside=7.95")
    assert code == 0 and "M8 or 5/16 in: check the pitch" in said
    code, said = measured(capsys, "thread", "outside=7.95", "hole=tapped")
    assert code == 1 and "pitch" in said


# shafts that are called what they are not


def test_a_shaft_called_one_inch_is_25_mm(capsys: Captured) -> None:
    """0.982 in by the caliper is 24.94 mm; a bore of 1 in is 0.46 too wide: both are shown."""
    code, said = measured(capsys, "sleeve", "units=in", "shaft=0.982", "bore=1", "turns=yes")
    assert code == 1 and "25 mm" in said and "1 in" in said
    assert "no printed sleeve" in said and "for the YAML" not in said


def test_five_eighths_on_a_16_mm_shaft_is_interference(capsys: Captured) -> None:
    """5/8 in = 15.875 mm: the shaft is 0.125 mm too large, no sleeve has a wall below nothing."""
    code, said = measured(capsys, "sleeve", "shaft=16", "bore=5/8 in", "turns=no")
    assert code == 1 and "0.125" in said and "for the YAML" not in said


def test_whatever_turns_gets_no_print(capsys: Captured) -> None:
    code, said = measured(capsys, "sleeve", "shaft=20", "bore=40", "turns=yes", "length=30")
    assert code == 1 and "no printed sleeve" in said and "for the YAML" not in said
    assert measured(capsys, "sleeve", "shaft=20", "bore=40", "turns=no", "length=30")[0] == 0


def test_what_the_sleeve_says_for_the_yaml_is_a_part(capsys: Captured, tmp_path: Path) -> None:
    code, said = measured(capsys, "sleeve", "shaft=20", "bore=40", "turns=no", "length=30")
    (tmp_path / "sleeve.yaml").write_text(said.partition("for the YAML:\n")[2])
    (spec,) = load_file(tmp_path / "sleeve.yaml")
    assert code == 0 and spec.part == "reducer"


# bolt patterns with an odd number of holes


@pytest.mark.parametrize("count", [3, 5, 7])
def test_across_works_only_for_even_counts(count: int, capsys: Captured) -> None:
    code, said = measured(capsys, "bolts", f"holes={count}", "across=130", "size=M6")
    assert code == 2 and "even" in said and "adjacent" in said


@pytest.mark.parametrize("count", [3, 5, 6, 7])
def test_from_one_hole_to_the_next_gives_the_circle(count: int, capsys: Captured) -> None:
    """The chord of a regular polygon: circle = s / sin(180 deg / n)."""
    code, said = measured(capsys, "bolts", f"holes={count}", "adjacent=70.5", "size=M6")
    assert code == 0
    circle = float(said.partition("on a circle of ")[2].split()[0])
    assert circle == pytest.approx(70.5 / math.sin(math.pi / count), abs=0.01)
    assert f"circle: {circle:g}" in said.partition("for the YAML:")[2]


def test_a_five_hole_wheel_is_read_from_a_holes_centre_to_the_far_edge(capsys: Captured) -> None:
    """2 R sin(2 pi / 5) from centre to centre of every other hole, and half a hole more to its far edge."""
    far = 114.3 * math.sin(2 * math.pi / 5) + 12.5 / 2
    words = ["holes=5", "hole=12.5", f"1-3={{far_edge: {far:.2f}}}", "regular=yes", "size=M12"]
    code, said = measured(capsys, "bolts", *words)
    assert code == 0, said
    assert float(said.partition("on a circle of ")[2].split()[0]) == pytest.approx(114.3, abs=0.02)


def test_readings_that_contradict_each_other_are_refused(capsys: Captured) -> None:
    """Five holes 70.5 apart lie on a circle of 119.9, not 130: both are shown."""
    code, said = measured(capsys, "bolts", "holes=5", "adjacent=70.5", "circle=130", "size=M6")
    assert code == 2 and "130" in said and "119.9" in said


# the printer


SHRUNK = """measure: printer
name: small
material: ABS
gauges:
  - {hole: 20, read: 19.68}
  - {hole: 60, read: 59.44}
  - {hole: 100, read: 99.20}
  - {outside: 30, read: 29.92}
  - {outside: 70, read: 69.68}
  - {outside: 110, read: 109.44}
"""
"""0.994 x nominal - 0.2 for holes, + 0.1 for outsides: 0.6 % small, and lines a tenth too wide."""


def test_a_print_0_6_percent_small_is_measured_once_and_made_up_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    """A ring that must measure 100 is modelled (100 + 0.2) / 0.994; unmeasured it is modelled 100 and prints 99.2."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "readings.yaml").write_text(SHRUNK)
    assert main(["measure", "readings.yaml"]) == 0
    said = capsys.readouterr().out
    assert "0.994" in said and "-0.2" in said
    for printer, bore in (("small", (100 + 0.2) / 0.994), ("generic_220", 100.0)):
        text = f"part: reducer\nmaterial: ABS\nprinter: {printer}\nend_a: {{plain: {{inside: 100}}}}\n"
        (tmp_path / "ring.yaml").write_text(text + "end_b: {plain: {inside: 100}}\nlength: 40\n")
        (spec,) = load_file(tmp_path / "ring.yaml")
        assert modelled(100.0, "hole", spec.printer) == pytest.approx(bore, abs=0.005)


@pytest.mark.parametrize("printer", ["generic_220", "{name: generic_220, hole_offset: -0.25}"])
def test_a_hole_of_3_mm_is_modelled_3_2_to_3_3(printer: str, tmp_path: Path) -> None:
    """Small printed holes come out tight: opened by the usual 0.2, or by what this printer was measured to need."""
    text = "end_a: {socket: {over: 60}}\nend_b: {plain: {inside: 58}}\n"
    (tmp_path / "part.yaml").write_text(f"part: reducer\nprinter: {printer}\n{text}")
    (spec,) = load_file(tmp_path / "part.yaml")
    assert 3.2 <= small_hole(3.0, spec.printer) <= 3.3
