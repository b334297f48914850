"""What people run into when they measure and print, each told to the tool as its user would, by command or YAML.

The situations are reports of users, restated; the numbers are theirs, or chosen to make the case run.
"""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.data.fasteners import fastener
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
