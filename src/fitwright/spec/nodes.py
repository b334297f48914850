"""YAML text -> maps, lists and text, each with its line and column. No value is guessed at: every scalar stays text.

PyYAML scans and parses; what could load as something else than what stands there (yes, 010, 1:30, a key written twice,
an alias bomb) is refused here by name.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from fitwright.errors import Problem, SpecError
from fitwright.spec.faults import Fault, Path, dotted, shown
from fitwright.spec.syntax import explain, hint_in_line

Value = str | list["Value"] | dict[str, "Value"]

MAX_BYTES = 256_000
MAX_DEPTH = 24
MAX_NODES = 20_000
"""Counted after aliases are followed, so that a small file cannot unfold into a huge one."""


@dataclass
class Tree:
    """What was read. `marks` leads from a path to (line, column) of the value, `key_marks` to that of its key."""

    file: str
    value: Value
    marks: dict[Path, tuple[int, int]] = field(default_factory=dict)
    key_marks: dict[Path, tuple[int, int]] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)

    def problem(self, fault: Fault) -> Problem:
        """The fault with file, line and column; where its key is missing, those of the map that lacks it."""
        path = fault.path
        marks = self.key_marks if fault.at == "key" else self.marks
        place = fault.place or marks.get(path)
        while place is None:
            path = path[:-1]
            place = self.key_marks.get(path) or self.marks.get(path) or (None if path else (1, 1))
        return Problem(self.file, *place, dotted(fault.path) or "file", fault.found, fault.allowed, fault.hint)


class _TextLoader(yaml.SafeLoader):
    """A SafeLoader for which every plain scalar is text, and which does not dive without bound."""

    yaml_implicit_resolvers: dict[str, list[tuple[str, object]]] = {}  # noqa: RUF012 (PyYAML's own attribute)
    depth = 0

    def compose_node(self, parent: Node | None, index: object) -> Node | None:
        self.depth += 1
        if self.depth > MAX_DEPTH:
            raise yaml.composer.ComposerError(None, None, "too deep", self.peek_event().start_mark)  # type: ignore[no-untyped-call]
        node: Node | None = super().compose_node(parent, index)  # type: ignore[arg-type]
        self.depth -= 1
        return node


def read(text: str, file: str) -> Tree:
    """The tree of one YAML document whose top is a map; SpecError with line and column where it cannot be read."""
    text = text.removeprefix("\ufeff")
    if len(text.encode("utf-8", "replace")) > MAX_BYTES:
        found, allowed = f"more than {MAX_BYTES // 1000} kB", f"at most {MAX_BYTES // 1000} kB of text"
        raise SpecError([Problem(file, 1, 1, "file", found, allowed, "is this the right file?")])
    root = _compose(text, file)
    if root is None:
        allowed = "keys and values; `fitwright new reducer` writes a file to start from"
        raise SpecError([Problem(file, 1, 1, "file", "an empty file", allowed)])
    if not isinstance(root, MappingNode):
        found = "a list at the top" if isinstance(root, SequenceNode) else f"only the text {shown(root.value)}"
        hint = hint_in_line(text.splitlines(), root.start_mark.line)
        allowed = "keys and values at the top, such as `part: reducer`"
        raise SpecError([Problem(file, *_place(root), "file", found, allowed, hint)])
    return _Reader(text.splitlines(), Tree(file, {})).read(root)


def _compose(text: str, file: str) -> Node | None:
    try:
        loader = _TextLoader(text)
        try:
            node: Node | None = loader.get_single_node()
            return node
        finally:
            loader.dispose()
    except yaml.YAMLError as error:
        raise SpecError([explain(error, text, file)]) from None


def _place(node: Node) -> tuple[int, int]:
    return node.start_mark.line + 1, node.start_mark.column + 1


@dataclass
class _Reader:
    lines: list[str]
    tree: Tree
    nodes: int = 0
    open: list[Node] = field(default_factory=list)

    def read(self, root: Node) -> Tree:
        self.tree.value = self._value(root, ())
        return self.tree

    def _value(self, node: Node, path: Path) -> Value:
        self._count(node, path)
        self.tree.marks[path] = _place(node)
        self.open.append(node)
        try:
            if isinstance(node, MappingNode):
                return {key: self._value(child, (*path, key)) for key, child in self._pairs(node, path)}
            if isinstance(node, SequenceNode):
                return [self._value(child, (*path, i)) for i, child in enumerate(node.value)]
            assert isinstance(node, ScalarNode)
            return self._text(node, path)
        finally:
            self.open.pop()

    def _count(self, node: Node, path: Path) -> None:
        self.nodes += 1
        if any(node is one for one in self.open):
            found, hint = "an alias (*) to something that it is itself part of", "write it out"
        elif self.nodes > MAX_NODES:
            found, hint = "aliases (*) that unfold to too much", f"at most {MAX_NODES} values"
        else:
            return
        fault = Fault(path, found, "a file that says each thing once", hint, place=_place(node))
        raise SpecError([self.tree.problem(fault)])

    def _text(self, node: ScalarNode, path: Path) -> str:
        text: str = node.value
        if not node.tag.startswith("tag:yaml.org,2002:str"):
            self._fault(path, f"a tag ({node.tag.rsplit(':', 1)[-1]})", "a plain value", "leave the ! away")
        elif not text.strip() and path and isinstance(path[-1], str) and node.style is None:
            hint, place = self._hint_for_empty(node, str(path[-1])), self.tree.key_marks.get(path)
            self._fault(path, "nothing", "a value after the colon", hint, place)
        return text

    def _hint_for_empty(self, node: ScalarNode, key: str) -> str:
        line = self.lines[node.start_mark.line] if node.start_mark.line < len(self.lines) else ""
        if ":" in key:
            name, _, rest = key.partition(":")
            return f"put a space after the colon: {name}: {rest}"
        if "#" in line[max(0, node.start_mark.column - 1) :]:
            return "# begins a comment; write No. 8 for #8"
        return "needs a value; leave the line away for the default"

    def _pairs(self, node: MappingNode, path: Path) -> Iterator[tuple[str, Node]]:
        """Own pairs first, then merged ones (`<<`) whose key is not there yet."""
        own: dict[str, Node] = {}
        merged: list[Node] = []
        for key_node, child in node.value:
            if isinstance(key_node, ScalarNode) and key_node.value == "<<" and key_node.style is None:
                merged.append(child)
            elif self._is_key(key_node, path) and self._is_new(key_node, path, own):
                own[key_node.value] = child
        yield from own.items()
        seen = set(own)
        for child in merged:
            for key, value in self._merged(child, path):
                if key not in seen:
                    seen.add(key)
                    yield key, value

    def _merged(self, node: Node, path: Path) -> Iterator[tuple[str, Node]]:
        self._count(node, path)
        if isinstance(node, MappingNode):
            self.open.append(node)
            yield from list(self._pairs(node, path))
            self.open.pop()
        elif isinstance(node, SequenceNode):
            for child in node.value:
                yield from self._merged(child, path)
        else:
            self._fault((*path, "<<"), shown(node.value), "a map, or an alias (*) to one", place=_place(node))

    def _is_key(self, key_node: Node, path: Path) -> bool:
        if isinstance(key_node, ScalarNode):
            if key_node.tag.startswith("tag:yaml.org,2002:str"):
                return True
            self._fault((*path, key_node.value), f"a tag before the key {key_node.value!r}", "a plain key")
        else:
            self._fault((*path, "?"), "a map or list as a key", "a word as a key", place=_place(key_node))
        return False

    def _is_new(self, key_node: ScalarNode, path: Path, own: dict[str, Node]) -> bool:
        here = (*path, key_node.value)
        if key_node.value not in own:
            self.tree.key_marks[here] = _place(key_node)
            return True
        first, second = self.tree.key_marks[here][0], key_node.start_mark.line + 1
        hint = f"delete the one of line {first} or the one of line {second}"
        found = f"the key {key_node.value!r} twice, in line {first} and line {second}"
        self._fault(here, found, "each key once", hint, place=_place(key_node))
        return False

    def _fault(
        self, path: Path, found: str, allowed: str, hint: str = "", place: tuple[int, int] | None = None
    ) -> None:
        self.tree.faults.append(Fault(path, found, allowed, hint, place=place))
