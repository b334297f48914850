"""The exceptions of Fitwright.

FitwrightError
|-- SpecError        the YAML is wrong: a list of Problems, each with its place and cure   (exit 2)
|-- RefusalError     the YAML is well formed but no sound part can come of it: names the key to change   (exit 2)
|-- BuildError       the kernel gave a solid that is not what was asked for   (exit 1)
|-- ExportError      a file could not be written or does not read back   (exit 1)
`-- DataError        a table of ours is damaged or lacks the row asked for
"""

from __future__ import annotations

from dataclasses import dataclass


class FitwrightError(Exception):
    """Anything that Fitwright says on purpose; its text is meant for the user."""


@dataclass(frozen=True)
class Problem:
    """One thing wrong in a YAML file.

    `line` and `column` count from 1; 0 means unknown. `key` is the dotted YAML path (`end_a.socket.over`).
    """

    file: str
    line: int
    column: int
    key: str
    found: str
    allowed: str
    hint: str = ""

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        text = f"{place}: {self.key}: found {self.found}; allowed: {self.allowed}"
        return f"{text}. {self.hint}" if self.hint else text


class SpecError(FitwrightError):
    """The YAML cannot be used as it stands; `problems` lists everything that is wrong with it."""

    def __init__(self, problems: list[Problem]) -> None:
        super().__init__("\n".join(str(p) for p in problems))
        self.problems = problems

    def __reduce__(self) -> tuple[type[SpecError], tuple[list[Problem]]]:
        return SpecError, (self.problems,)


class RefusalError(FitwrightError):
    """A sound part cannot be made from these numbers.

    `key` is the YAML path to change, `found` what it says now, `allowed` what would work (mm, degrees or words).
    """

    def __init__(self, key: str, found: str, allowed: str, why: str) -> None:
        super().__init__(f"{key}: {why} (found {found}; would work: {allowed})")
        self.key, self.found, self.allowed, self.why = key, found, allowed, why

    def __reduce__(self) -> tuple[type[RefusalError], tuple[str, str, str, str]]:
        return RefusalError, (self.key, self.found, self.allowed, self.why)


class BuildError(FitwrightError):
    """The kernel returned something other than what was asked for (volume, number of solids, validity)."""


class ExportError(FitwrightError):
    """A file could not be written, or did not read back as what was written."""


class DataError(FitwrightError):
    """A table of ours is damaged, or has no row of the name asked for."""
