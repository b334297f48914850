"""One text file, written beside its place and renamed: what was there before is lost only when the new one is whole."""

from __future__ import annotations

import errno
import os
from pathlib import Path

from fitwright.export.atomic import said_plainly


def write_text(path: Path, text: str) -> None:
    """Write `text` as UTF-8 into `path`, whose folder is made where missing; ExportError where the disk refuses."""
    write_bytes(path, text.encode("utf-8"))


def write_bytes(path: Path, data: bytes) -> None:
    """The same for bytes. A link stays and what it leads to is written; pipes and devices are refused."""
    with said_plainly(path.parent):
        path = _led_to(path)
    beside = path.with_name(f".unfinished-{os.getpid()}-{path.name}")
    with said_plainly(path.parent):
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            beside.write_bytes(data)
            os.replace(beside, path)
        finally:
            beside.unlink(missing_ok=True)


def _led_to(path: Path) -> Path:
    """Where a link leads; OSError where something other than a file stands there, which a rename would replace."""
    try:
        path = path.resolve() if path.is_symlink() else path
    except RuntimeError as error:  # before Python 3.13 a link that leads to itself is told so
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP)) from error
    if path.exists() and not path.is_file():
        what = "a folder" if path.is_dir() else "no plain file"
        raise OSError(errno.EINVAL, f"{path.name} is {what}")
    return path
