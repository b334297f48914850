"""What the YAML reader stumbles over, in one line with place and cure."""

from __future__ import annotations

import re

import yaml

from fitwright.errors import Problem

_ALLOWED = "YAML: `key: value`, indented with spaces"
_SPACES = "\u00a0\u2007\u202f\u2009\u3000"
_STRANGE_SPACE = re.compile(rf"^[{_SPACES}\s]*(-\s+)?[\w.]+:[{_SPACES}]|^\s*[{_SPACES}]")
_NO_SPACE = re.compile(r"^\s*(?:-\s+)?(?P<key>[A-Za-z_]\w*):(?P<rest>[^\s:/].*)$")
_WORDS: tuple[tuple[str, str, str], ...] = (
    ("too deep", "maps and lists nested more than 24 deep", "nothing here needs more than six"),
    ("expected a single document", "a second document (---)", "one file holds one; several parts go under `parts:`"),
    ("found undefined alias", "an alias (*) that nothing is called by", "define it first with &name"),
    ("found duplicate anchor", "an anchor (&) used twice", "give each its own name"),
    ("mapping values are not allowed", "a colon where no key can stand", "quote a text that holds a colon"),
    ("could not find expected ':'", "a line without `key: value`", "put a colon and a space after the key"),
    ("while scanning a quoted scalar", "a quotation mark that is never closed", 'close it, or write 4 in for 4"'),
    ("unexpected end of stream", "a quotation mark that is never closed", 'close it, or write 4 in for 4"'),
    (
        "expected '<document start>'",
        "a line that does not line up with its neighbours",
        "keys of one map begin in one column",
    ),
    ("expected <block end>", "a line that does not line up with its neighbours", "keys of one map begin in one column"),
    ("expected ',' or '}'", "a { that is never closed, or a comma that is missing", "write {key: value, key: value}"),
    ("expected ',' or ']'", "a [ that is never closed, or a comma that is missing", "write [110.2, 110.5]"),
    ("cannot start any token", "a character that cannot begin a value", "quote the value"),
    ("could not determine a constructor", "a tag (!)", "leave the ! away"),
)


def explain(error: yaml.YAMLError, text: str, file: str) -> Problem:
    """The reader's complaint as one Problem, with the cure where the cause can be seen in the line."""
    lines = text.splitlines()
    if isinstance(error, yaml.reader.ReaderError):
        return _unprintable(error, text, file)
    context = getattr(error, "context_mark", None)
    mark = getattr(error, "problem_mark", None) or context
    if "quoted scalar" in str(getattr(error, "context", "")):
        mark = context  # where the quotation begins; the reader only notices at the end of the file
    line, column = (mark.line, mark.column) if mark else (0, 0)
    for suspect in (line, context.line if context else line, line - 1):
        hint = hint_in_line(lines, suspect)
        if hint:
            return Problem(file, suspect + 1, 1, "file", f"{lines[suspect].strip()[:40]!r}", _ALLOWED, hint)
    found, hint = _in_words(error, lines, line)
    return Problem(file, min(line, max(0, len(lines) - 1)) + 1, column + 1, "file", found, _ALLOWED, hint)


def hint_in_line(lines: list[str], number: int) -> str:
    """The cure of a line that looks right and is not, else nothing."""
    line = lines[number] if 0 <= number < len(lines) else ""
    indent = line[: len(line) - len(line.lstrip())]
    if "\t" in indent or re.search(r":\t", line):
        return "a tab stands in this line; use spaces"
    if _STRANGE_SPACE.search(line):
        return "a no-break space stands in this line; delete it and type a plain space"
    match = _NO_SPACE.match(line)
    if match:
        return f"put a space after the colon: {match['key']}: {match['rest'][:20]}"
    return ""


def _unprintable(error: yaml.reader.ReaderError, text: str, file: str) -> Problem:
    before = text[: error.position]
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    character = error.character if isinstance(error.character, int) else ord(str(error.character)[0])
    found = f"the character U+{character:04X}, which cannot be printed"
    return Problem(file, line, column, "file", found, _ALLOWED, "delete it")


def _in_words(error: yaml.YAMLError, lines: list[str], number: int) -> tuple[str, str]:
    said = f"{getattr(error, 'context', '')} {getattr(error, 'problem', '')}"
    line = lines[number].strip()[:40] if 0 <= number < len(lines) else "the end of the file"
    for words, found, hint in _WORDS:
        if words in said:
            return f"{found} ({line!r})", hint
    return f"a line that cannot be read ({line!r})", "look for a missing colon, quotation mark or bracket"
