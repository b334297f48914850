"""Profiles of one's own: `printers/NAME.yaml`, `materials/NAME.yaml` beside the part's YAML or in a folder above it."""

from __future__ import annotations

import datetime
import os
from collections.abc import Iterator
from pathlib import Path
from typing import TypeVar

from fitwright.errors import SpecError
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.base import Grammar
from fitwright.spec.grammar.values import Context
from fitwright.spec.nodes import Tree, read
from fitwright.spec.text_file import kind_of, text_of

EARLIER = ".earlier"
"""A profile that was measured anew is kept under this ending."""
K = TypeVar("K", bound=Grammar)


def date_text(text: str) -> str:
    """A day such as 2026-11-20; FaultError where it is none."""
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        raise FaultError([Fault((), shown(text), "a day such as 2026-11-20")]) from None


def own_files(below: str, folder: str) -> Iterator[Path]:
    """All YAML files in folders of this name (`printers`) that a part in `folder` may use, nearest first."""
    here = Path(folder).resolve()
    for above in (here, *here.parents):
        try:
            found = sorted(file for file in (above / below).iterdir() if file.suffix in (".yaml", ".yml"))
        except OSError:  # no such folder, or one that may not be read
            continue
        yield from found


def own_file(name: str, below: str, folder: str) -> Path | None:
    """The file of the profile of this name, capitals or not, that is nearest to a folder."""
    for file in own_files(below, folder):
        if file.stem.casefold() == name.strip().casefold():
            return file
    return None


def own_names(kind: str, below: str, folder: str) -> list[str]:
    """Names of all profiles of this kind (their top key) that a part in this folder may use, nearest first."""
    return list(dict.fromkeys(file.stem for file in own_files(below, folder) if kind_of(file) == kind))


def read_own(file: Path, folder: str, keys: type[K], kind: str) -> tuple[K, str]:
    """What a profile's file says, and its path as seen from the part's folder; SpecError with all that is wrong.

    `kind` is the key that holds the profile's name, which must be the file's.
    """
    seen = os.path.relpath(file, folder)
    tree = read(text_of(file), os.path.normpath(os.path.join(folder, seen)))
    assert isinstance(tree.value, dict)
    units = tree.value.get("units")
    context = Context("in" if isinstance(units, str) and units.strip() == "in" else "mm", str(file.parent))
    try:
        made = keys.read(tree.value, context)
    except FaultError as error:
        faults = [fault for fault in error.faults if not any(fault.path == other.path for other in tree.faults)]
        raise _error(tree, [*tree.faults, *faults]) from None
    faults, name = list(tree.faults), str(getattr(made, kind))
    if name.casefold() != file.stem.casefold().removesuffix(EARLIER):
        faults.append(Fault((kind,), shown(name), file.stem, "the name of its file"))
    if faults:
        raise _error(tree, faults)
    return made, Path(seen).as_posix()


def _error(tree: Tree, faults: list[Fault]) -> SpecError:
    problems = dict.fromkeys(tree.problem(fault) for fault in faults)
    return SpecError(sorted(problems, key=lambda problem: (problem.line, problem.column)))
