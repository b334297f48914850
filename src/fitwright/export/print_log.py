"""The log of prints is appended to: what stands in it stays byte for byte, and two commands at once both get in.

A command locks the folder (the lock is the system's own and ends with the process; it leaves no file), reads the log
anew, adds its print at the end, reads the result to see that it still says all it said before, writes it beside and
renames it.
"""

from __future__ import annotations

import json
import os
import re
import sys
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from fitwright.errors import ExportError, Problem, SpecError
from fitwright.export.write_text import write_bytes
from fitwright.spec.nodes import Tree, Value
from fitwright.spec.print_entry import print_of
from fitwright.spec.print_store import Prints, is_blank, prints_of_text
from fitwright.spec.text_file import decoded

if sys.platform != "win32":
    import fcntl

WAIT_S = 10.0
_PLAIN = re.compile(r"[A-Za-z0-9][\w.-]*(?: [\w.-]+)*")
HEAD = """\
# What came off the printer and how it fitted, as `fitwright log` was told. The parts in this folder read it.
# Yours to read, mend and comment. Lengths are in mm where no unit is written.
prints:
"""


def append_print(path: Path, entry: Mapping[str, Value]) -> Prints:
    """Add one print to the log and return all that it then holds.

    Raises
    ------
    SpecError
        The log is damaged, or laid out so that nothing can be added at its end; it stays as it is.
    ExportError
        It cannot be written, or another command keeps it locked.
    """
    path = path.resolve()
    with locked(path.parent):
        data = _bytes_of(path)
        old = decoded(data, str(path))
        before, tree = prints_of_text(old, str(path))
        added = _added(old, entry, _indent(old, tree))
        after = _checked(path, old + added, (*before, print_of(entry)))
        _write(path, data + added.encode("utf-8"))
    return after


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Hold the folder for ourselves, waiting for up to WAIT_S seconds; ExportError where another command keeps it.

    Windows neither opens nor locks folders: there nothing is held, and two commands at once may lose one of two prints.
    """
    if sys.platform == "win32":
        yield
        return
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError as error:
        raise ExportError(f"cannot open {folder}: {error.strerror}") from error
    try:
        _wait_for(handle, folder)
        yield
    finally:
        os.close(handle)


def _wait_for(handle: int, folder: Path) -> None:
    assert sys.platform != "win32"
    until = time.monotonic() + WAIT_S
    while True:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
            return
        except BlockingIOError:
            if time.monotonic() > until:
                raise ExportError(
                    f"another command is writing the log in {folder}; try again when it is done"
                ) from None
            time.sleep(0.02)
        except OSError as error:
            raise ExportError(f"cannot lock {folder}: {error.strerror}") from error


def _bytes_of(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        return b""
    except OSError as error:
        raise ExportError(f"cannot read {path}: {error.strerror}; the print was not logged") from error


def _write(path: Path, data: bytes) -> None:
    mode = path.stat().st_mode if path.exists() else None
    try:
        write_bytes(path, data)
        if mode is not None:
            path.chmod(mode)
    except (ExportError, OSError) as error:
        cause = error if isinstance(error, OSError) else error.__cause__
        raise ExportError(
            f"cannot write {path}: {getattr(cause, 'strerror', error)}; the print was not logged"
        ) from error


def _indent(text: str, tree: Tree) -> int | None:
    """Columns before the dash of each print; None where the list is not written with dashes."""
    place = tree.marks.get(("prints",))
    if place is None:
        return 2
    line = text.removeprefix("\ufeff").splitlines()[place[0] - 1]
    return place[1] - 1 if line[place[1] - 1 :].startswith("-") else None


def _added(old: str, entry: Mapping[str, Value], indent: int | None) -> str:
    head = HEAD if not old else "prints:\n" if is_blank(old) else ""
    lines = [f"{key}: {_value(value)}" for key, value in entry.items()]
    space = " " * (2 if indent is None else indent)
    text = head + "".join(f"{space}{'  ' if i else '- '}{line}\n" for i, line in enumerate(lines))
    if old and not old.endswith("\n"):
        text = "\n" + text
    return text.replace("\n", "\r\n") if "\r\n" in old else text


def _value(value: Value) -> str:
    if isinstance(value, list):
        return f"[{', '.join(_value(one) for one in value)}]"
    text = str(value)
    return (
        text
        if _PLAIN.fullmatch(text) or re.fullmatch(r"-[0-9.]+(?: in)?", text)
        else json.dumps(text, ensure_ascii=False)
    )


def _checked(path: Path, text: str, wanted: Prints) -> Prints:
    """The prints in the new text, which must be the old ones and the new one."""
    found: Prints = ()
    said = ""
    try:
        found = prints_of_text(text, str(path))[0]
    except SpecError as error:
        said = error.problems[0].found
    if found != wanted:
        allowed = "a list with a line of its own for each dash, and nothing after it"
        hint = "write it so, then log the print again; the file was left as it is"
        found_words = f"a layout to which nothing can be added at its end{f' ({said})' if said else ''}"
        raise SpecError([Problem(str(path), 0, 0, "prints", found_words, allowed, hint)])
    return found
