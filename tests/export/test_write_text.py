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
