"""From a part to its folder of files: what is written, what is held back, what happens to earlier files."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from fitwright import pipeline
from fitwright.errors import BuildError, ExportError
from fitwright.export import body
from fitwright.finding import Finding
from fitwright.part import Part
from fitwright.spec.models import Printer
from fitwright.spec.part_base import InfillOf

SPEC: Any = SimpleNamespace(
    part="reducer",
    name="bush",
    units="mm",
    printer=Printer(name="generic_220", bed_x_mm=220.0, bed_y_mm=220.0, bed_z_mm=240.0),
    material=SimpleNamespace(name="PETG", density_g_cm3=1.27, origin=None),
    wall_mm=2.4,
    thickest_wall_mm=2.4,
    infill=InfillOf(),
    near_heat_c=None,
)
GOOD = Finding("solid", "pass", "bush", 1.0, 1.0, "", "", "one closed solid")
BAD = Finding("wall", "fail", "bush", 1.9, 2.4, "mm", "end_a", "too thin", "raise wall")
ALL = ["bush.png", "bush.step", "bush.stl", "bush_try.stl", "report.json", "report.txt"]
Judge = Callable[[Finding], None]


@pytest.fixture
def judge(bush: Part, monkeypatch: pytest.MonkeyPatch) -> Judge:
    """Set what the checks find; the part is the hand-made bush."""
    monkeypatch.setattr(pipeline, "BUILDERS", {"reducer": lambda spec: bush})

    def find(finding: Finding) -> None:
        monkeypatch.setattr(pipeline, "CHECKS", (("some", lambda part, meshes, spec: [finding]),))

    find(GOOD)
    return find


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def manifest(folder: Path) -> Any:
    return json.loads((folder / "report.json").read_bytes())


def test_a_good_part_gets_all_its_files(judge: Judge, tmp_path: Path) -> None:
    result = pipeline.build_part(SPEC, tmp_path)
    assert names(tmp_path / "bush") == ALL
    assert sorted(path.name for path in result.files) == ALL and all(path.is_file() for path in result.files)
    assert manifest(tmp_path / "bush")["files"] == ALL
    assert result.report.exported and not result.report.forced
    [body] = result.report.bodies
    assert body.genus == 4 and body.bbox_mm == pytest.approx((90, 80, 90), abs=0.02)
    assert body.mass_g == pytest.approx(1.27e-3 * body.volume_mm3)


def test_the_same_part_gives_the_same_bytes(judge: Judge, tmp_path: Path) -> None:
    pipeline.build_part(SPEC, tmp_path / "one")
    pipeline.build_part(SPEC, tmp_path / "two")
    for name in ALL:
        assert (tmp_path / "one/bush" / name).read_bytes() == (tmp_path / "two/bush" / name).read_bytes(), name


def test_check_writes_nothing(judge: Judge, tmp_path: Path) -> None:
    judge(BAD)
    result = pipeline.build_part(SPEC, tmp_path, write=False)
    assert result.report.blocked and result.files == () and names(tmp_path) == []


def test_a_blocked_body_is_reported_but_not_exported(judge: Judge, tmp_path: Path) -> None:
    judge(BAD)
    result = pipeline.build_part(SPEC, tmp_path)
    assert names(tmp_path / "bush") == ["bush.png", "report.json", "report.txt"]
    assert not result.report.exported and result.report.bodies[0].blocked
    assert manifest(tmp_path / "bush")["exported"] is False


def test_a_finding_on_the_whole_part_blocks_every_body(judge: Judge, tmp_path: Path) -> None:
    judge(Finding("clearance", "fail", "", 0.0, 2.0, "mm", "envelope", "clash", "move it"))
    assert not pipeline.build_part(SPEC, tmp_path).report.exported


def test_a_blocked_body_is_written_when_asked_and_said_so(judge: Judge, tmp_path: Path) -> None:
    judge(BAD)
    result = pipeline.build_part(SPEC, tmp_path, force=True)
    assert names(tmp_path / "bush") == ALL
    assert result.report.forced and manifest(tmp_path / "bush")["forced"] is True
    assert "ALTHOUGH A CHECK BLOCKS" in (tmp_path / "bush/report.txt").read_text()


def test_asking_for_a_good_part_anyway_is_not_called_forced(judge: Judge, tmp_path: Path) -> None:
    assert not pipeline.build_part(SPEC, tmp_path, force=True).report.forced


def test_earlier_files_of_a_part_that_is_now_blocked_do_not_look_current(judge: Judge, tmp_path: Path) -> None:
    pipeline.build_part(SPEC, tmp_path)
    (tmp_path / "bush/mine.stl").write_bytes(b"somebody's own")
    earlier = (tmp_path / "bush/bush.stl").read_bytes()
    judge(BAD)
    result = pipeline.build_part(SPEC, tmp_path)
    assert names(tmp_path / "bush") == [
        "bush.earlier.step",
        "bush.earlier.stl",
        "bush.png",
        "bush_try.earlier.stl",
        "mine.stl",
        "report.json",
        "report.txt",
    ]
    assert (tmp_path / "bush/bush.earlier.stl").read_bytes() == earlier
    assert any("bush.earlier.stl" in note for note in result.report.notes)


def test_a_check_that_cannot_do_its_work_blocks(judge: Judge, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(part: Any, meshes: Any, spec: Any) -> list[Finding]:
        raise BuildError("the envelope's mesh is open")

    monkeypatch.setattr(pipeline, "CHECKS", (("clearance", broken),))
    [finding] = pipeline.build_part(SPEC, tmp_path, write=False).findings
    assert finding.blocks and finding.code == "clearance" and "open" in finding.message


@pytest.mark.parametrize("step", ["step_bytes", "stl_bytes", "report_txt"])
def test_a_failed_export_leaves_the_earlier_files(
    step: str, judge: Judge, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuses(*_: Any) -> bytes:
        raise ExportError("no")

    pipeline.build_part(SPEC, tmp_path)
    before = {path.name: path.read_bytes() for path in (tmp_path / "bush").iterdir()}
    monkeypatch.setattr(pipeline if step == "report_txt" else body, step, refuses)
    with pytest.raises(ExportError):
        pipeline.build_part(SPEC, tmp_path)
    assert {path.name: path.read_bytes() for path in (tmp_path / "bush").iterdir()} == before


def test_losing_the_picture_costs_the_picture_only(
    judge: Judge, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pipeline.build_part(SPEC, tmp_path)
    monkeypatch.setattr("fitwright.report.picture.PROGRAM", "no_such_program")
    result = pipeline.build_part(SPEC, tmp_path)
    assert names(tmp_path / "bush") == ["bush.earlier.png", *(name for name in ALL if name != "bush.png")]
    assert any(note.startswith("no picture") for note in result.report.notes)
    assert result.report.exported
