"""The text of a YAML file, and what kind of file it is before it is read in full."""

from __future__ import annotations

import re
from pathlib import Path

from fitwright.errors import Problem, SpecError
from fitwright.spec.nodes import MAX_BYTES

NOT_PARTS = {
    "measure": "readings: run `fitwright measure FILE`",
    "printer_profile": "a printer's profile: name it in a part, `printer: NAME`",
    "material_profile": "a filament's profile: name it in a part, `material: NAME`",
    "prints": "the log of prints, which parts read by themselves",
    "hose_run": "a hose run: run `fitwright hose FILE`",
}
"""Top keys of files that are no parts, with what such a file is; folders of parts may hold them."""
PRINTS = "prints.yaml"
"""What the log of prints is called, in the folder of the parts that read it."""


def text_of(path: Path) -> str:
    """The whole text; SpecError where it cannot be read or is not UTF-8."""
    name = str(path)
    try:
        with Path(path).open("rb") as file:
            data = file.read(MAX_BYTES + 1)
    except OSError as error:
        raise SpecError([Problem(name, 0, 0, "file", f"{error.strerror}", "a YAML file that can be read")]) from None
    return decoded(data, name)


def decoded(data: bytes, name: str) -> str:
    """The bytes as text; SpecError names line and column of what is not UTF-8."""
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: error.start]
        if error.start >= MAX_BYTES - 3:
            return before.decode("utf-8") + " " * 4  # cut in the middle of a character: `read` refuses its length
        line, column = before.count(b"\n") + 1, error.start - before.rfind(b"\n")
        found, hint = f"the byte 0x{data[error.start]:02X}, which is not UTF-8", "save the file as UTF-8"
        raise SpecError([Problem(name, line, column, "file", found, "text in UTF-8", hint)]) from None


def kind_of(path: Path) -> str:
    """That of NOT_PARTS which is a top key of the file, else `part`; never raises."""
    try:
        with path.open("rb") as file:
            text = file.read(MAX_BYTES).decode("utf-8", "replace")
    except OSError:
        return "part"
    if path.name == PRINTS:  # whatever is wrong with it, or nothing logged yet
        return "prints"
    found = re.search(rf"^({'|'.join(NOT_PARTS)})[ \t]*:", text, re.MULTILINE)
    return found[1] if found else "part"
