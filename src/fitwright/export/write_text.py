"""One text file, written beside its place and renamed: what was there before is lost only when the new one is whole."""

from __future__ import annotations

import os
from pathlib import Path

from fitwright.export.atomic import said_plainly


def write_text(path: Path, text: str) -> None:
    """Write `text` as UTF-8 into `path`, whose folder is made where missing; ExportError where the disk refuses."""
    write_bytes(path, text.encode("utf-8"))


def write_bytes(path: Path, data: bytes) -> None:
    """The same for bytes."""
    beside = path.with_name(f".unfinished-{os.getpid()}-{path.name}")
    with said_plainly(path.parent):
        path.parent.mkdir(parents=True, exist_ok=True)
        try:
            beside.write_bytes(data)
            os.replace(beside, path)
        finally:
            beside.unlink(missing_ok=True)
