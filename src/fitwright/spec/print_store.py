"""The prints logged beside a part: `prints.yaml` in the folder of its YAML, read and checked."""

from __future__ import annotations

from functools import lru_cache
from pathlib import Path

from fitwright.errors import Problem, SpecError
from fitwright.spec.faults import FaultError
from fitwright.spec.grammar.prints import PrintKeys, PrintsKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.nodes import Tree, read
from fitwright.spec.text_file import PRINTS, text_of

Prints = tuple[PrintKeys, ...]


def store_beside(folder: Path | str) -> Path:
    """Where the prints of the parts in a folder are logged."""
    return Path(folder) / PRINTS


def prints_in(path: Path) -> Prints:
    """The prints logged in a file, none where there is no such file; SpecError where it is damaged, with each place."""
    try:
        state = path.stat()
    except FileNotFoundError:
        return ()
    except OSError as error:
        raise SpecError([Problem(str(path), 0, 0, "file", f"{error.strerror}", "a file that can be read")]) from None
    return _cached(path, state.st_mtime_ns, state.st_size)


@lru_cache(maxsize=8)
def _cached(path: Path, mtime_ns: int, size: int) -> Prints:
    return prints_of_text(text_of(path), str(path))[0]


def prints_of_text(text: str, name: str) -> tuple[Prints, Tree]:
    """The prints in the text of such a file, and its tree; SpecError with everything that is wrong."""
    if is_blank(text) or _is_bare(text):
        return (), Tree(name, {})
    tree = read(text, name)
    faults = list(tree.faults)
    try:
        keys = PrintsKeys.read(tree.value, Context())
    except FaultError as error:
        said = {fault.path for fault in faults}
        faults += [fault for fault in error.faults if fault.path not in said]
    if faults:
        found = dict.fromkeys(tree.problem(fault) for fault in faults)
        raise SpecError(sorted(found, key=lambda problem: (problem.line, problem.column)))
    return tuple(keys.prints), tree


def _is_bare(text: str) -> bool:
    """Whether `prints:` stands there alone, as where every print was deleted or commented out."""
    lines = [line.partition("#")[0].rstrip() for line in text.removeprefix("\ufeff").splitlines()]
    return [line for line in lines if line] == ["prints:"]


def is_blank(text: str) -> bool:
    """Whether nothing but comments stands in it."""
    lines = text.removeprefix("\ufeff").splitlines()
    return all(not line.strip() or line.lstrip().startswith("#") for line in lines)
