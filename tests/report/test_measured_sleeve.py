"""`measure sleeve` as its user sees it: nothing printed for what turns, near-equal sizes, limits of what is bought."""

from __future__ import annotations

import math
import re
from pathlib import Path

import pressfit
import pytest

from fitwright.cli.main import main
from fitwright.parts import BUILDERS
from fitwright.report.measured.sleeve import answer
from fitwright.spec.load import load_text
from fitwright.spec.measure_file import asked_of_text

Captured = pytest.CaptureFixture[str]


def ask(text: str) -> tuple[str, str, bool]:
    """Text (unwrapped), YAML and whether it is good."""
    found = answer(asked_of_text(f"measure: sleeve\n{text}", "sleeve.yaml"))
    return re.sub(r"\n +", " ", found.text), found.yaml, found.good


@pytest.mark.parametrize("fit", ["sliding", "location", "press"])
@pytest.mark.parametrize(
    ("shaft", "bore"), [("24.94", "32.01"), ("40", "60"), ("12", "30"), ("24.94", "25.3"), ("20", "20")]
)
def test_nothing_is_printed_for_what_turns(shaft: str, bore: str, fit: str) -> None:
    text, yaml, good = ask(f"shaft: {shaft}\nbore: {bore}\nfit: {fit}\nturns: yes\n")
    assert not good and not yaml
    assert "part: reducer" not in text and "Printed" not in text
    assert "the right part" in text and "unplug first" in text


def test_why_and_what_instead() -> None:
    text, _, _ = ask("shaft: 24.94\nbore: 32.01\nturns: yes\nlength: 30\nfit: sliding\n")
    for word in ("creeps", "run true", "heat", "lets go", "machinist's bush", "bored for 25 mm", "length 30 mm"):
        assert word in text, word


def test_a_one_inch_shaft_that_is_25_mm() -> None:
    """Public account: a motor shaft sold as 1 in read 0.982 in = 24.94 mm."""
    text, yaml, good = ask("units: in\nshaft: 0.982\nbore: 1.000\nturns: no\n")
    assert not good and not yaml
    assert "25 mm" in text and "1 in" in text and "Refused" in text
    assert "the bore 1 in: both go by the same name" in text
    assert "is that a reading, or only what it is called?" in text


def test_a_5_8_in_bore_on_a_16_mm_shaft() -> None:
    """Public account: 15.875 on 16 mm, honed in the end."""
    text, yaml, good = ask("shaft: 16\nbore: 5/8 in\nturns: no\n")
    assert not good and not yaml
    assert "0.125 mm larger than the bore" in text and "sleeve wall 0" in text and "Refused" in text
    assert "Hone or ream the bore to 16 H7, 16.000 to 16.018 mm" in text  # ISO 286-2, H7 of 10 to 18 mm: 0/+0.018
    assert "the right part, bored for 16 mm" in text


def test_19_mm_and_3_4_in_are_not_guessed_between() -> None:
    text, _, good = ask("shaft: 19.0\nbore: 25.0\nturns: yes\n")
    assert not good and "bored for 3/4 in or 19 mm, a micrometer tells which" in text


def test_no_gap_within_the_readings() -> None:
    text, _, good = ask("shaft: 20.00\nbore: 20.02\nturns: no\n")
    assert not good and "no gap to fill" in text


@pytest.mark.parametrize(("fit", "outside"), [("location", "n6"), ("press", "p6")])
def test_limits_of_a_bush_are_those_of_the_independent_library(fit: str, outside: str) -> None:
    text, _, good = ask(f"shaft: 12.00\nbore: 20.00\nturns: no\nfit: {fit}\n")
    other = pressfit.fit(f"20 H7/{outside}")
    low, high = other.shaft_limits_mm
    assert good and f"outside {low:.3f} to {high:.3f} mm" in text


def test_limits_of_a_sliding_bush_are_the_published_ones() -> None:
    """G7 of 18 to 30 mm +28/+7, r6 of 30 to 40 mm +50/+34, H7 +21/0 (JIS B 0401 tables, the numbers of ISO 286-2)."""
    text, _, _ = ask("shaft: 25.0\nbore: 32.0\nturns: no\nfit: sliding\n")
    assert "inside 25.007 to 25.028 mm" in text and "outside 32.034 to 32.050 mm" in text
    assert "25.000 to 25.021 mm" in text


@pytest.mark.parametrize(
    ("shaft", "bore", "strip", "round_mm"),
    [(30.0, 30.46, "0.2", math.pi * 30.23), (12.0, 12.75, "0.3 and 0.05", math.pi * 12.375)],
)
def test_a_thin_gap_takes_shim_strip(shaft: float, bore: float, strip: str, round_mm: float) -> None:
    text, yaml, good = ask(f"shaft: {shaft}\nbore: {bore}\nturns: no\n")
    assert good and not yaml and "Not printed" in text
    assert f"Steel shim strip {strip} mm, cut {round_mm:.2f}".rstrip("0") in text


@pytest.mark.parametrize("fit", ["sliding", "location", "press"])
@pytest.mark.parametrize("length", ["", "length: 40\n"])
@pytest.mark.parametrize(("units", "shaft", "bore"), [("mm", "40.03", "50.1"), ("in", "4", "4.5")])
def test_a_printed_sleeve_loads(units: str, shaft: str, bore: str, length: str, fit: str) -> None:
    _, yaml, good = ask(
        f"units: {units}\nshaft: {shaft}\nbore: {bore}\nturns: no\nfit: {fit}\n{length.replace('40', '40 mm')}"
    )
    [spec] = load_text(yaml)
    assert good and spec.line == "nested"  # type: ignore[union-attr]
    assert not length or spec.end_a.joint.depth_mm == pytest.approx(36.5)  # type: ignore[union-attr]
    assert spec.end_b.joint.taper_deg == 0.0  # type: ignore[union-attr]


def test_a_wall_of_less_than_four_lines_is_not_printed() -> None:
    """Four lines of 0.42 mm are 1.68; fits of both faces take (0.2 % + 0.1 + 0.2) / 2 of each diameter."""
    for gap, printed in ((3.6, False), (3.8, True)):
        text, yaml, _ = ask(f"shaft: 40.0\nbore: {40.0 + gap}\nturns: no\n")
        wall = (gap - (0.002 * 40 + 0.3) / 2 - (0.002 * (40 + gap) + 0.3) / 2) / 2
        assert bool(yaml) is printed is (wall >= 1.68), wall
        assert ("Not printed" in text) is not printed


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("shaft: 20\nbore: 30\n", "sleeve.yaml:1:1: turns: found nothing; allowed: yes where anything of it turns"),
        ("shaft: 24.94,25\nbore: 30\nturns: no\n", "shaft: found '24.94,25'"),
        ("shaft: 24.94,25\nbore: 30\nturns: no\n", "several are written [24.94,25]"),
        ("bore: 30\nturns: no\n", "sleeve.yaml:1:1: shaft: found nothing"),
        ("shaft: 20\nbore: 30\nturns: maybe\n", "sleeve.yaml:4:8: turns: found 'maybe'; allowed: yes | no"),
        (
            "shaft: 20\nbore: 30\nturns: no\nfit: snug\n",
            "sleeve.yaml:5:6: fit: found 'snug'; allowed: sliding | location",
        ),
        (
            "shaft: [20, 21]\nbore: 30\nturns: no\n",
            "found 20 mm beside 21 mm; allowed: readings of one turned diameter",
        ),
        (
            "shaft: 2\nbore: 30\nturns: no\n",
            "sleeve.yaml:2:8: shaft: found '2'; allowed: a length from 3.5 mm to 315 mm",
        ),
        ("shaft: 20\nbore: 30\nturns: no\nlength: 200\n", "sleeve.yaml:5:9: length: found '200'"),
        ("shaft: 20\nbore: 30\nturns: no\nwall: 3\n", "sleeve.yaml:5:1: wall: found the unknown key 'wall'"),
    ],
    ids=lambda value: value[:40],
)
def test_what_must_be_refused(
    lines: str, said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.chdir(tmp_path)
    Path("sleeve.yaml").write_text(f"measure: sleeve\n{lines}")
    assert main(["measure", "sleeve.yaml"]) == 2
    out, err = capsys.readouterr()
    assert said in err and not out


def test_exit_1_and_no_file_where_it_turns(tmp_path: Path, capsys: Captured) -> None:
    words = ["measure", "sleeve", "shaft=24.94", "bore=32.01", "turns=yes"]
    assert main(words) == 1
    assert main([*words, "-o", str(tmp_path / "part.yaml")]) != 0
    assert not list(tmp_path.iterdir())


@pytest.mark.slow
@pytest.mark.parametrize(("shaft", "bore", "length"), [(24.94, 32.01, 25.0), (40.03, 50.1, 40.0), (100.0, 110.0, 50.0)])
def test_the_printed_sleeve_is_as_long_as_asked(shaft: float, bore: float, length: float) -> None:
    _, yaml, _ = ask(f"shaft: {shaft}\nbore: {bore}\nturns: no\nlength: {length}\n")
    [body] = BUILDERS["reducer"](load_text(yaml)[0]).bodies
    box = body.solid.BoundingBox()
    assert box.ylen == pytest.approx(length, abs=1e-3)
    assert box.xlen == pytest.approx(bore - (0.002 * bore + 0.3) / 2, abs=0.02)  # snug: half of scatter + 0.2
