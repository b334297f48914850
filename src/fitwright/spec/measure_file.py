"""A measuring file, or words on the command line -> the keys of its kind, or a SpecError that lists what is wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from fitwright.errors import Problem, SpecError
from fitwright.spec.faults import Fault, FaultError, dotted, nearest, shown
from fitwright.spec.grammar.measuring import MEASURES, MeasureKeys
from fitwright.spec.grammar.values import Context
from fitwright.spec.nodes import Tree, Value, read
from fitwright.spec.text_file import text_of

COMMAND_LINE = "command line"


@dataclass(frozen=True)
class Asked:
    """What is to be measured: the kind's keys as read, and how a fault in them is told with its place.

    `file` is the YAML file, or `command line`; `context` holds its units and folder.
    """

    kind: str
    keys: MeasureKeys
    context: Context
    file: str
    tree: Tree

    def wrong(self, faults: Sequence[Fault]) -> SpecError:
        """The error that tells of these faults."""
        return _error(self.tree, faults)


def asked_of_file(path: Path, kind: str = "") -> Asked:
    """What a measuring file asks; `kind` is what the command named, where it named one."""
    return asked_of_text(text_of(path), str(path), kind)


def asked_of_text(text: str, name: str, kind: str = "") -> Asked:
    """What the text of a measuring file asks."""
    tree = read(text, name)
    assert isinstance(tree.value, dict)
    said = tree.value.get("measure", kind)
    word = said.strip() if isinstance(said, str) else ""
    if word not in MEASURES:
        hint = nearest(word, list(MEASURES)) if word else "add `measure:` at the top"
        raise _error(tree, [Fault(("measure",), shown(said) if said else "nothing", " | ".join(MEASURES), hint)])
    if kind and word != kind:
        raise _error(tree, [Fault(("measure",), shown(word), kind, f"or run: fitwright measure {word} {name}")])
    return _asked(word, {**tree.value, "measure": word}, tree, str(Path(name).parent))


def asked_of_words(kind: str, words: Sequence[str]) -> Asked:
    """What `fitwright measure KIND WORD...` asks: `key=value` words, or plain ones for the kind's main list."""
    tree = Tree(COMMAND_LINE, {})
    try:
        values = MEASURES[kind].from_words(words)
    except FaultError as error:
        raise _error(tree, error.faults) from None
    return _asked(kind, {**values, "measure": kind}, tree, ".")


def _asked(kind: str, values: Mapping[str, Value], tree: Tree, folder: str) -> Asked:
    units = values.get("units")
    context = Context("in" if isinstance(units, str) and units.strip() == "in" else "mm", folder)
    faults = list(tree.faults)
    try:
        keys = MEASURES[kind].read(values, context)
    except FaultError as error:
        faults += error.faults
    if faults:
        raise _error(tree, faults)
    return Asked(kind, keys, context, tree.file, tree)


def _error(tree: Tree, faults: Sequence[Fault]) -> SpecError:
    if tree.file == COMMAND_LINE:
        return SpecError([Problem(tree.file, 0, 0, dotted(f.path), f.found, f.allowed, f.hint) for f in faults])
    found = dict.fromkeys(tree.problem(fault) for fault in faults)
    return SpecError(sorted(found, key=lambda problem: (problem.line, problem.column)))
