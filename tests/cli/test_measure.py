"""The command `measure`: words or a file, what is wrong with either, and where files of readings are left out."""

from __future__ import annotations

from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.cli.paths import yaml_files

Captured = pytest.CaptureFixture[str]
READINGS = "measure: circle\nlabel: saw port\nreadings: [110.2, 110.5, 109.9]\n"
PART = "part: reducer\nend_a: {socket: {over: 60}}\nend_b: {hose_tail: {hose_inside: 50}}\n"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    "words", [["circle", "110.2", "110.5", "109.9"], ["port.yaml"], ["circle", "port.yaml"]], ids=" ".join
)
def test_words_and_file_say_the_same(words: list[str], here: Path, capsys: Captured) -> None:
    (here / "port.yaml").write_text(READINGS)
    assert main(["measure", *words]) == 0
    assert "110.2 mm" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["sphere"], "cannot measure 'sphere'"),
        (["circel", "110"], "did you mean circle?"),
        (["missing.yaml"], "missing.yaml: file: found No such file"),
        (["circle"], "command line: readings: found nothing"),
        (["circle", "x"], "command line: readings[1]: found 'x'"),
        (["circle", "units=in", "units=mm", "4"], "units= twice"),
        (["thread", "outside=7.9", "pitch={over: 12.5"], "pitch: found '{over: 12.5'; allowed: brackets that close"),
        (["thread", "outside=7.9", "pitch={ovr: 12.5}"], "pitch.ovr: found the unknown key"),
        (["circle", "110", "readings=[120]"], "readings: found readings= beside plain words"),
        (["bolts", "holes=4", "between=80", "1-2=80"], "between: found between=80 beside 1-2="),
        (["part.yaml"], "part.yaml:1:1: measure: found nothing"),
    ],
    ids=str,
)
def test_what_is_wrong_is_named(words: list[str], said: str, here: Path, capsys: Captured) -> None:
    (here / "part.yaml").write_text(PART)
    assert main(["measure", *words]) == 2
    assert said in capsys.readouterr().err


def test_the_lines_for_the_yaml_can_be_written(here: Path, capsys: Captured) -> None:
    assert main(["measure", "circle", "110.2", "110.5", "-o", "deep/er/port.yaml"]) == 0
    assert "110.2" in (here / "deep/er/port.yaml").read_text()
    assert [path.name for path in (here / "deep/er").iterdir()] == ["port.yaml"]


def test_readings_are_no_part(here: Path, capsys: Captured) -> None:
    (here / "port.yaml").write_text(READINGS)
    (here / "part.yaml").write_text(PART)
    assert yaml_files([here]) == [here / "part.yaml"]
    assert main(["check", "port.yaml"]) == 2
    assert "run `fitwright measure FILE`" in capsys.readouterr().err


@pytest.mark.parametrize(("output", "said"), [("port.yaml", "exists already and is kept"), (".", "is a folder")])
def test_the_lines_for_the_yaml_are_written_over_nothing(output: str, said: str, here: Path, capsys: Captured) -> None:
    (here / "port.yaml").write_text(READINGS)
    assert main(["measure", "port.yaml", "-o", output]) == 2
    assert said in capsys.readouterr().err
    assert (here / "port.yaml").read_text() == READINGS
