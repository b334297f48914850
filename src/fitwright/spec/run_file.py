"""A hose run's file -> the run, or a SpecError that lists what is wrong with it."""

from __future__ import annotations

from pathlib import Path

from fitwright.errors import SpecError
from fitwright.spec.faults import Fault, FaultError, nearest, shown
from fitwright.spec.grammar.runs import RUNS
from fitwright.spec.grammar.values import Context
from fitwright.spec.nodes import Tree, read
from fitwright.spec.run import RunSpec
from fitwright.spec.run_of import run_of
from fitwright.spec.text_file import text_of

KEY = "hose_run"


def run_of_file(path: Path) -> RunSpec:
    """The run of a file."""
    return run_of_text(text_of(path), str(path))


def run_of_text(text: str, name: str = "run.yaml") -> RunSpec:
    """The run of YAML text; `name` is the file it came from. SpecError with every problem, its line and cure."""
    tree = read(text, name)
    assert isinstance(tree.value, dict)
    said = tree.value.get(KEY)
    word = said.strip() if isinstance(said, str) else ""
    if word not in RUNS:
        raise _error(tree, [_no_kind(tree, word, said)])
    units = tree.value.get("units")
    context = Context("in" if isinstance(units, str) and units.strip() == "in" else "mm", str(Path(name).parent))
    faults = list(tree.faults)
    try:
        keys = RUNS[word].read({**tree.value, KEY: word}, context)
    except FaultError as error:
        faults += error.faults
    if faults:
        raise _error(tree, faults)
    return run_of(keys, name)


def _no_kind(tree: Tree, word: str, said: object) -> Fault:
    assert isinstance(tree.value, dict)
    kinds = " | ".join(RUNS)
    if said is None and ("part" in tree.value or "parts" in tree.value):
        return Fault(("part",), "a part", f"hose_run: {kinds}", "build it: fitwright build FILE", at="key")
    if said is None and "measure" in tree.value:
        return Fault(("measure",), "readings", f"hose_run: {kinds}", "run: fitwright measure FILE", at="key")
    if said is None:
        return Fault((KEY,), "nothing", kinds, f"add `{KEY}:` at the top")
    return Fault((KEY,), shown(said), kinds, nearest(word, list(RUNS)))


def _error(tree: Tree, faults: list[Fault]) -> SpecError:
    found = dict.fromkeys(tree.problem(fault) for fault in faults)
    return SpecError(sorted(found, key=lambda problem: (problem.line, problem.column)))
