"""Files of one part, written beside their place and renamed all at once.

A run that fails, is stopped or is killed leaves either every file of the earlier run or every file of the new one; a
killed process leaves at most one hidden folder, which `sweep` removes.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path

from fitwright.errors import ExportError

_PREFIX = ".unfinished-"


class Staging:
    """A hidden folder inside `folder` that collects the new files until all of them are complete."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.hidden = folder / f"{_PREFIX}{os.getpid()}"
        self.names: list[str] = []

    def add(self, name: str, data: bytes) -> None:
        """Write `data` as the future file `name`; raises ExportError when the disk refuses."""
        with said_plainly(self.folder):
            (self.hidden / name).write_bytes(data)
        self.names.append(name)

    def commit(self, leftovers: Iterable[str]) -> list[str]:
        """Move everything into place; `leftovers` that this run did not make are renamed, their new names returned."""
        with said_plainly(self.folder):
            aside = set_aside_all(self.folder, [name for name in leftovers if name not in self.names])
            for name in self.names:
                os.replace(self.hidden / name, self.folder / name)
        return aside


@contextmanager
def staged(folder: Path) -> Iterator[Staging]:
    """A Staging for `folder`, which is made where missing; what was not committed is thrown away at the end."""
    made = not folder.exists()
    staging = Staging(folder)
    try:
        with said_plainly(folder):
            folder.mkdir(parents=True, exist_ok=True)
            shutil.rmtree(staging.hidden, ignore_errors=True)
            staging.hidden.mkdir()
        yield staging
    finally:
        shutil.rmtree(staging.hidden, ignore_errors=True)
        if made:
            _remove_if_empty(folder)


def set_aside_all(folder: Path, names: Iterable[str]) -> list[str]:
    """Rename `name.stl` to `name.earlier.stl` and so on, so that they no longer look current; returns the new names."""
    renamed = []
    for path in (folder / name for name in names):
        if path.is_file():
            target = path.with_name(f"{path.stem}.earlier{path.suffix}")
            os.replace(path, target)
            renamed.append(target.name)
    return renamed


def sweep(folder: Path, pid: int) -> None:
    """Remove what a killed process of number `pid` left behind in `folder`."""
    hidden = folder / f"{_PREFIX}{pid}"
    if hidden.is_dir():
        shutil.rmtree(hidden, ignore_errors=True)
        _remove_if_empty(folder)


def _remove_if_empty(folder: Path) -> None:
    if folder.is_dir() and not any(folder.iterdir()):
        _quietly(folder.rmdir)


def _quietly(action: Callable[[], None]) -> None:
    try:
        action()
    except OSError:  # somebody else used the folder meanwhile: then it stays
        return


@contextmanager
def said_plainly(folder: Path) -> Iterator[None]:
    """Turn what the system says about a file in `folder` into an ExportError with its cure."""
    try:
        yield
    except OSError as error:
        reason = error.strerror or str(error)
        raise ExportError(
            f"cannot write to {folder}: {reason}. Free the place, or name another folder with -o"
        ) from error
