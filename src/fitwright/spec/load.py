"""A YAML file -> the specs of its parts, or a SpecError that lists everything wrong with it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from fitwright.errors import Problem, SpecError
from fitwright.spec.faults import Fault, FaultError, dotted, nearest, shown
from fitwright.spec.faults import Path as KeyPath
from fitwright.spec.grammar.families import FAMILIES
from fitwright.spec.grammar.gauge import KINDS as GAUGE_KINDS
from fitwright.spec.grammar.parts import PartKeys, slug
from fitwright.spec.grammar.values import Context
from fitwright.spec.models import PartSpec
from fitwright.spec.nodes import Tree, Value, read
from fitwright.spec.resolve import resolve
from fitwright.spec.text_file import NOT_PARTS, text_of
from fitwright.units import Units

MAX_PARTS = 200


def load_file(path: Path) -> list[PartSpec]:
    """The specs of all parts in a file; SpecError with every problem, each with line, column and cure."""
    return load_text(text_of(path), str(path))


def load_text(text: str, name: str = "part.yaml") -> list[PartSpec]:
    """The specs of all parts in YAML text; `name` is the file it came from, whose folder paths start from."""
    tree = read(text, name)
    _refuse_other_kinds(tree)
    entries = list(_entries(tree))
    specs: list[PartSpec] = []
    faults = list(tree.faults)
    for entry in entries:
        try:
            specs.append(entry.spec(name))
        except FaultError as error:
            faults += [fault for fault in error.faults if not _within(fault, tree.faults)]
    faults += _same_names(entries, specs) if not faults else []
    if faults:
        raise SpecError(_problems(tree, faults))
    return specs


def _refuse_other_kinds(tree: Tree) -> None:
    """A file of readings, of a printer or of prints is no part; say what it is."""
    assert isinstance(tree.value, dict)
    if "part" in tree.value or "parts" in tree.value:
        return
    for key, what in NOT_PARTS.items():
        if key in tree.value:
            fault = Fault((key,), f"the key {key!r}", "a part (part:)", f"this file holds {what}", at="key")
            raise SpecError(_problems(tree, [fault]))


@dataclass(frozen=True)
class _Entry:
    """One part of a file: its values, and where each top key stands in the file."""

    tree: Tree
    value: dict[str, Value]
    own: KeyPath
    stem: str

    @property
    def name(self) -> str:
        """What the part is called."""
        said = self.value.get("name")
        return slug(said if isinstance(said, str) else self.stem) or "part"

    @property
    def family(self) -> str:
        """The word under `part:`, as written."""
        part = self.value.get("part")
        return part.strip() if isinstance(part, str) else ""

    def spec(self, name: str) -> PartSpec:
        """The part's spec; faults carry paths of the file."""
        folder = str(Path(name).parent)
        context = Context(self._units(), folder)
        try:
            keys = self._keys(context)
            return resolve(keys, name, self.stem, self._places(), folder, part_in)
        except FaultError as error:
            raise FaultError(replace(fault, path=self._in_file(fault.path)) for fault in error.faults) from None

    def _keys(self, context: Context) -> PartKeys:
        part = self.value.get("part")
        word = part.strip() if isinstance(part, str) else ""
        family = FAMILIES.get(word)
        if family:
            return family.read({**self.value, "part": word}, context)
        hint = nearest(word, list(FAMILIES)) if word else "add `part:` at the top"
        found = "nothing" if part is None else shown(part)
        faults = [Fault(("part",), found, " | ".join(FAMILIES), hint)]
        guess = FAMILIES[self._guess()]
        try:
            guess.read({**self.value, "part": guess.example[7:].partition(",")[0]}, context)
        except FaultError as error:
            known = {key for keys in FAMILIES.values() for key in keys.keys()}
            faults += [f for f in error.faults if not (f.found.startswith("the unknown key") and f.path[0] in known)]
        mistyped = any(fault.hint == "did you mean part?" for fault in faults)
        raise FaultError(faults[1:] if mistyped else faults)

    def _guess(self) -> str:
        """The family whose keys these look like most."""
        if set(GAUGE_KINDS) & set(self.value):
            return "fit_gauge"
        if {"openings", "holes", "sheet", "gasket", "matches"} & set(self.value):
            return "flange_plate"
        if {"gate", "cylinder"} & set(self.value):
            return "gate_bracket"
        if {"hose", "pipe", "mount", "saddle", "hook", "strap"} & set(self.value):
            return "hose_hanger"
        return "offset_adapter" if "offset" in self.value else "reducer"

    def _units(self) -> Units:
        units = self.value.get("units")
        return "in" if isinstance(units, str) and units.strip() == "in" else "mm"

    def _in_file(self, path: KeyPath) -> KeyPath:
        """A path inside the part as a path of the file: inherited keys stand at the top."""
        inherited = bool(path) and (path[0],) in self.tree.key_marks and (*self.own, path[0]) not in self.tree.key_marks
        return path if inherited else (*self.own, *path)

    def _places(self) -> dict[str, tuple[int, int]]:
        """Line and column of every key of this part, inherited or own, by its dotted path."""
        places = {}
        for path, mark in (*self.tree.marks.items(), *self.tree.key_marks.items()):
            if path and path[0] in self.value and (path[0] != "parts"):
                places[dotted(path)] = mark
        cut = len(self.own)
        for path, mark in (*self.tree.marks.items(), *self.tree.key_marks.items()):
            if cut and path[:cut] == self.own and len(path) > cut:
                places[dotted(path[cut:])] = mark
        return places


def part_in(path: Path, name: str | None) -> PartSpec:
    """The adapter of that name in a file, or its only one; FaultError with paths `part` and `name`.

    Only that part is read, and a plate is none of them: two plates cannot be made for each other.
    """
    try:
        tree = read(text_of(path), str(path))
        _refuse_other_kinds(tree)
        known = {entry.name: entry for entry in _entries(tree) if entry.family != "flange_plate"}
    except SpecError as error:
        raise FaultError([_other_file(path, error.problems[0])]) from None
    if name is None and len(known) == 1:
        name = next(iter(known))
    entry = known.get(slug(name or ""))
    if entry is None:
        found = f"{path.name}, which holds {', '.join(known) or 'no adapter'}"
        if name is None or not known:
            key = "name" if known else "part"
            cure = f"add `name:`, one of {', '.join(known)}" if known else "a reducer or offset_adapter with a flange"
            raise FaultError([Fault((key,), found, cure, at="key" if known else "value")])
        raise FaultError([Fault(("name",), shown(name), ", ".join(known), nearest(name, list(known)))])
    try:
        return entry.spec(str(path))
    except FaultError as error:
        raise FaultError([_other_file(path, tree.problem(error.faults[0]))]) from None


def _other_file(path: Path, problem: Problem) -> Fault:
    """What is wrong with another file, at the key that names it."""
    if not problem.line:
        return Fault(("part",), f"{str(path)!r}: {problem.found}", "a YAML file that can be read")
    found = f"{path.name}, whose line {problem.line} is wrong: {problem.key}: found {problem.found}"
    return Fault(("part",), found, "a file that builds", f"mend it there: allowed is {problem.allowed}")


def _entries(tree: Tree) -> Iterator[_Entry]:
    top = tree.value
    assert isinstance(top, dict)
    stem = Path(tree.file).stem
    if "parts" not in top:
        yield _Entry(tree, top, (), stem)
        return
    listed = top["parts"]
    if not isinstance(listed, list) or not 1 <= len(listed) <= MAX_PARTS:
        allowed = f"a list of 1 to {MAX_PARTS} parts, each a map"
        single = isinstance(listed, str) and listed.strip() in FAMILIES
        hint = f"did you mean part: {listed}?" if single else "begin each part with `- name: ...`"
        fault = Fault(("parts",), shown(listed), allowed, hint)
        raise SpecError(_problems(tree, [*tree.faults, fault]))
    shared = {key: value for key, value in top.items() if key not in ("parts", "name")}
    for i, one in enumerate(listed):
        if isinstance(one, dict):
            yield _Entry(tree, {**shared, **one}, ("parts", i), f"{stem}-{i + 1}")
        else:
            tree.faults.append(Fault(("parts", i), shown(one), "a map, such as `- name: saw`"))


def _same_names(entries: list[_Entry], specs: list[PartSpec]) -> list[Fault]:
    """Two parts of one name would write the same files."""
    seen: dict[str, int] = {}
    faults = []
    for i, (entry, spec) in enumerate(zip(entries, specs, strict=True)):
        if spec.name in seen:
            found = f"{spec.name!r}, the name of part {seen[spec.name] + 1} as well"
            faults.append(Fault((*entry.own, "name"), found, "a name of its own for each part"))
        seen.setdefault(spec.name, i)
    return faults


def _within(fault: Fault, others: list[Fault]) -> bool:
    """True where the same value, or what holds it, was already complained about."""
    return any(fault.path[: len(other.path)] == other.path for other in others if other.path)


def _problems(tree: Tree, faults: list[Fault]) -> list[Problem]:
    """In the order of the file, each once (an inherited key is read for every part)."""
    found = dict.fromkeys(tree.problem(fault) for fault in faults)
    return sorted(found, key=lambda problem: (problem.line, problem.column))
