"""Files are written beside their place and renamed: links stay, and what is no file is never replaced."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from fitwright.errors import ExportError
from fitwright.export.write_text import write_text


def test_a_link_stays_and_its_file_is_written(tmp_path: Path) -> None:
    (tmp_path / "real.yaml").write_text("before")
    (tmp_path / "link.yaml").symlink_to("real.yaml")
    write_text(tmp_path / "link.yaml", "after")
    assert (tmp_path / "link.yaml").is_symlink() and (tmp_path / "real.yaml").read_text() == "after"
    assert sorted(file.name for file in tmp_path.iterdir()) == ["link.yaml", "real.yaml"]


def test_who_reads_the_old_file_meanwhile_reads_it_whole(tmp_path: Path) -> None:
    """A file that was renamed into place is another file: nobody ever sees half of the new one."""
    (tmp_path / "log.yaml").write_text("before\n" * 1000)
    with (tmp_path / "log.yaml").open() as reader:
        assert reader.readline() == "before\n"
        write_text(tmp_path / "log.yaml", "after\n")
        assert reader.read() == "before\n" * 999
        assert os.fstat(reader.fileno()).st_ino != (tmp_path / "log.yaml").stat().st_ino
    assert [file.name for file in tmp_path.iterdir()] == ["log.yaml"]


def test_a_pipe_is_not_replaced_by_a_file(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(ExportError, match="pipe is no plain file"):
        write_text(tmp_path / "pipe", "text")
    assert (tmp_path / "pipe").is_fifo()


def test_a_link_to_itself_and_a_folder_are_said_plainly(tmp_path: Path) -> None:
    (tmp_path / "loop").symlink_to("loop")
    for name in ("loop", "."):
        with pytest.raises(ExportError, match="cannot write to"):
            write_text(tmp_path / name, "text")
