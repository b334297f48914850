"""The command `hose`: examples that work, runs that must fail, exit codes, files, other commands on a run."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from fitwright.cli.main import main
from fitwright.cli.paths import yaml_files

ROOT = Path(__file__).parents[2]
RUNS = sorted((ROOT / "configs" / "runs").glob("*.yaml"))
MUST_FAIL = {
    "spacing_doubled": ("hose.sag", "100 mm permitted"),
    "short_for_the_far_corner": ("hose.reach", "too short by 77 mm"),
    "kinks_at_the_port": ("hose.fold", "105 mm is the least"),
}
Captured = pytest.CaptureFixture[str]


@pytest.mark.parametrize("path", RUNS, ids=lambda path: path.stem)
def test_an_example_works(path: Path, tmp_path: Path, capsys: Captured) -> None:
    for folder in ("1", "2"):
        assert main(["hose", str(path), "-o", str(tmp_path / folder)]) == 0
    said = capsys.readouterr().out
    assert "the run works" in said and "BLOCKS" not in said
    first, second = (tmp_path / folder / path.stem for folder in ("1", "2"))
    assert sorted(one.name for one in first.iterdir()) == sorted([f"{path.stem}.png", "report.json", "report.txt"])
    for one in first.iterdir():
        assert one.read_bytes() == (second / one.name).read_bytes()


@pytest.mark.parametrize("name", MUST_FAIL)
def test_a_run_that_must_fail(name: str, tmp_path: Path, capsys: Captured) -> None:
    code, words = MUST_FAIL[name]
    assert main(["hose", str(ROOT / "configs" / "must_fail" / "runs" / f"{name}.yaml"), "-o", str(tmp_path)]) == 1
    said = capsys.readouterr().out
    assert f"BLOCKS {code}" in said and words in " ".join(said.split()) and "does not work as it is" in said
    told = json.loads((tmp_path / name / "report.json").read_text(encoding="utf-8"))
    assert told["good"] is False and code in [one["code"] for one in told["findings"] if one["severity"] == "fail"]


def test_every_run_that_must_fail_is_tried() -> None:
    assert {one.stem for one in (ROOT / "configs" / "must_fail" / "runs").glob("*.yaml")} == set(MUST_FAIL)


def test_lengths_in_inches_in_a_file_that_counts_in_mm(tmp_path: Path, capsys: Captured) -> None:
    """sqrt(52^2 + 35^2) = 62.7 from port to hook; sqrt(28^2 + 9^2) = 29.4 from port to head."""
    path = tmp_path / "shed.yaml"
    path.write_text(
        "hose_run: moving_head\nhose: {over_ribs: 77.4, inside: 70, kind: ribbed PVC}\n"
        "port: {at: {right: -28, away: 16, up: 59}, faces: up, label: wall port}\n"
        "hangers: [{at: {right: 24, away: 16, up: 94}, runs: turns}]\n"
        "head: {at: {up: 45}, travel: {right: 47, away: 31, up: 5}, faces: up}\n"
    )
    assert main(["hose", str(path), "-o", str(tmp_path / "out")]) == 2
    said = capsys.readouterr().err.splitlines()
    allowed = "allowed: 77.5 mm or more"
    assert [one.partition("shed.yaml:")[2].partition(": the hose")[0] for one in said] == [
        f"4:16: hangers[1].at: found a place 62.68 mm from wall port; {allowed}",
        f"5:12: head.at: found a place 29.41 mm from wall port; {allowed}",
        f"5:30: head.travel: found a travel of 47 mm at most; {allowed} in some direction",
    ]
    assert all("if they are inches, add `units: in`" in one for one in said)
    assert not (tmp_path / "out").exists()


def test_several_files_the_worst_counts_and_equal_names_are_refused(tmp_path: Path, capsys: Captured) -> None:
    bad = ROOT / "configs" / "must_fail" / "runs" / "spacing_doubled.yaml"
    row = next(one for one in RUNS if one.stem == "joist_row")
    assert main(["hose", str(row), str(bad), "-o", str(tmp_path)]) == 1
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text("hose_run: row\n")
    assert main(["hose", str(row), str(wrong), "-o", str(tmp_path)]) == 2
    assert "wrong.yaml:1:1: hose: found nothing" in capsys.readouterr().err
    (tmp_path / "joist_row.yaml").write_text(row.read_text(encoding="utf-8"))
    assert main(["hose", str(row), str(tmp_path / "joist_row.yaml"), "-o", str(tmp_path)]) == 2
    assert "both called 'joist_row'" in capsys.readouterr().err


def test_missing_file_and_folder(tmp_path: Path, capsys: Captured) -> None:
    assert main(["hose", str(tmp_path / "gone.yaml")]) == 2
    assert main(["hose", str(tmp_path)]) == 2
    said = capsys.readouterr().err
    assert "gone.yaml: file: found No such file" in said and "Traceback" not in said


def test_a_folder_that_cannot_be_written(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "out").write_text("a file")
    row = next(one for one in RUNS if one.stem == "joist_row")
    assert main(["hose", str(row), "-o", str(tmp_path / "out")]) == 1
    assert "cannot write to" in capsys.readouterr().err


def test_build_leaves_runs_out_and_names_the_command(tmp_path: Path, capsys: Captured) -> None:
    assert not [one for one in yaml_files([ROOT / "configs"]) if one.parent.name == "runs"]
    assert main(["check", str(RUNS[0])]) == 2
    assert "this file holds a hose run: run `fitwright hose FILE`" in capsys.readouterr().err


def test_files_of_a_part_in_the_same_folder_are_set_aside(tmp_path: Path, capsys: Captured) -> None:
    folder = tmp_path / "joist_row"
    folder.mkdir()
    (folder / "joist_row.stl").write_text("solid")
    (folder / "report.json").write_text(json.dumps({"files": ["joist_row.stl", "report.json"]}))
    row = next(one for one in RUNS if one.stem == "joist_row")
    assert main(["hose", str(row), "-o", str(tmp_path)]) == 0
    assert (folder / "joist_row.earlier.stl").is_file() and not (folder / "joist_row.stl").exists()
    assert "joist_row.earlier.stl" in capsys.readouterr().out
