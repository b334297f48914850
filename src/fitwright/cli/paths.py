"""Which YAML files a command means, and whether their parts can share one output folder."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from fitwright.errors import Problem, SpecError
from fitwright.spec.text_file import kind_of

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase

LEFT_OUT = "must_fail"
"""Folders of examples that are meant to be refused; only named outright are they read."""


def yaml_files(paths: Sequence[Path]) -> list[Path]:
    """The files named, and all *.yaml and *.yml below the folders named, each once, in order; of these only parts.

    Raises
    ------
    SpecError
        A path does not exist, or a folder holds no YAML; lists all of them.
    """
    found: dict[Path, Path] = {}
    problems = []
    for path in paths:
        files = _below(path) if path.is_dir() else [path] if path.is_file() else []
        if not files:
            problems.append(_missing(path))
        for file in files:
            found.setdefault(file.resolve(), file)
    if problems:
        raise SpecError(problems)
    return list(found.values())


def refuse_equal_names(specs: Sequence[PartBase]) -> None:
    """Raise SpecError where two parts would write into one folder (to some disks upper and lower case are the same)."""
    first: dict[str, PartBase] = {}
    problems = []
    for spec in specs:
        other = first.setdefault(spec.name.casefold(), spec)
        if other is not spec:
            where = f"a part in {other.source_file} has this name too, and both would write into one folder"
            hint = f"{where}: give one of them another `name:`, or build them one after the other with -o"
            problems.append(Problem(spec.source_file, 0, 0, "name", repr(spec.name), "a name of its own", hint))
    if problems:
        raise SpecError(problems)


def _below(folder: Path) -> list[Path]:
    files = [file for ending in ("*.yaml", "*.yml") for file in folder.rglob(ending)]
    return sorted(file for file in files if _wanted(file.relative_to(folder)) and kind_of(file) == "part")


def _wanted(inside: Path) -> bool:
    return LEFT_OUT not in inside.parts[:-1] and not any(step.startswith(".") for step in inside.parts)


def _missing(path: Path) -> Problem:
    found = "a folder without any *.yaml" if path.is_dir() else "no such file or folder"
    if path.is_dir() and not os.access(path, os.R_OK | os.X_OK):
        found = "a folder that you may not read"
    return Problem(str(path), 0, 0, "PATH", found, "a YAML file or a folder that holds some")
