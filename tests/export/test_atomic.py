"""Files are replaced all at once or not at all."""

from __future__ import annotations

import errno
import os
from pathlib import Path
from typing import Any

import pytest

from fitwright.errors import ExportError
from fitwright.export.atomic import set_aside_all, staged, sweep


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_all_files_come_at_once_and_nothing_else_stays(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "part"
    with staged(folder) as staging:
        staging.add("a.stl", b"1")
        staging.add("b.step", b"2")
        assert not (folder / "a.stl").exists()
        assert staging.commit([]) == []
    assert names(folder) == ["a.stl", "b.step"]


def test_a_failed_run_leaves_the_earlier_files_as_they_were(tmp_path: Path) -> None:
    (tmp_path / "a.stl").write_bytes(b"earlier")
    with pytest.raises(ZeroDivisionError), staged(tmp_path) as staging:
        staging.add("a.stl", b"half")
        raise ZeroDivisionError
    assert names(tmp_path) == ["a.stl"]
    assert (tmp_path / "a.stl").read_bytes() == b"earlier"


def test_a_failed_first_run_leaves_no_folder(tmp_path: Path) -> None:
    with pytest.raises(ZeroDivisionError), staged(tmp_path / "part"):
        raise ZeroDivisionError
    assert names(tmp_path) == []


def test_a_full_disk_is_said_plainly(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any) -> int:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(ExportError, match=r"No space left on device.*-o"), staged(tmp_path / "part") as staging:
        staging.add("a.stl", b"1")
    assert names(tmp_path) == []


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a Linux device that is always full")
def test_a_file_where_the_folder_should_be(tmp_path: Path) -> None:
    (tmp_path / "part").write_text("mine")
    with pytest.raises(ExportError, match="-o"), staged(tmp_path / "part"):
        pass
    assert (tmp_path / "part").read_text() == "mine"


def test_files_that_are_not_made_any_more_are_renamed(tmp_path: Path) -> None:
    (tmp_path / "a.stl").write_bytes(b"earlier")
    (tmp_path / "mine.stl").write_bytes(b"not ours")
    with staged(tmp_path) as staging:
        staging.add("report.json", b"{}")
        assert staging.commit(["a.stl", "report.json"]) == ["a.earlier.stl"]
    assert names(tmp_path) == ["a.earlier.stl", "mine.stl", "report.json"]


def test_set_aside_skips_what_is_not_there(tmp_path: Path) -> None:
    assert set_aside_all(tmp_path, ["a.stl"]) == []


def test_a_killed_process_leaves_nothing_after_the_sweep(tmp_path: Path) -> None:
    hidden = tmp_path / "part" / ".unfinished-4711"
    hidden.mkdir(parents=True)
    (hidden / "a.stl").write_bytes(b"half")
    sweep(tmp_path / "part", 4711)
    assert names(tmp_path) == []
    sweep(tmp_path / "part", 4711)
