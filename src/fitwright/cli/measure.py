"""`measure`: from readings at the bench to a size, a bolt pattern, a thread, a sleeve, a printer's profile."""

from __future__ import annotations

import argparse
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.cli.exit_codes import BLOCKED, GOOD
from fitwright.errors import FitwrightError
from fitwright.export.write_text import write_text
from fitwright.spec.faults import nearest
from fitwright.spec.grammar.measuring import MEASURES
from fitwright.spec.measure_file import Asked, asked_of_file, asked_of_words

if TYPE_CHECKING:
    from fitwright.report.measured.answer import Answer


def run(options: argparse.Namespace) -> int:
    """Answer one measuring file, or the words of the command line; 1 where the readings do not go together."""
    _refuse(options.output)
    asked = _asked(options.words)
    answer: Answer = import_module(f"fitwright.report.measured.{asked.kind}").answer(asked)
    print(answer.text)
    if answer.yaml and options.output is None:
        print(f"\nfor the YAML:\n{answer.yaml.rstrip()}")
    files = [*answer.files, *([(options.output, answer.yaml.rstrip() + "\n")] if options.output else [])]
    if options.output and not answer.yaml:
        raise FitwrightError(f"nothing to write into {options.output}: these readings give no YAML")
    for path, text in files:
        write_text(path, text)
        print(f"wrote {path}")
    return GOOD if answer.good else BLOCKED


def _refuse(output: Path | None) -> None:
    """What stands there already is kept: the readings themselves, or a part, would be lost."""
    if output is not None and (output.exists() or output.is_symlink()):
        what = "is a folder" if output.is_dir() else "exists already and is kept"
        raise FitwrightError(f"{output} {what}; name another file with -o")


def _asked(words: list[str]) -> Asked:
    """`KIND WORD...`, `KIND FILE` or `FILE`."""
    kind, *rest = words
    if kind in MEASURES:
        if len(rest) == 1 and _is_file(rest[0]):
            return asked_of_file(Path(rest[0]), kind)
        return asked_of_words(kind, rest)
    if not rest and _is_file(kind):
        return asked_of_file(Path(kind))
    hint = nearest(kind, list(MEASURES))
    raise FitwrightError(f"cannot measure {kind!r}; allowed: a YAML file, or {', '.join(MEASURES)}. {hint}".strip())


def _is_file(word: str) -> bool:
    return word.casefold().endswith((".yaml", ".yml")) or Path(word).is_file()
