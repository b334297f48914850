"""Lines of an answer, wrapped for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable

WIDTH = 100


def wrapped(lines: Iterable[str]) -> str:
    """Each line wrapped at WIDTH, what runs over indented by two more than its own indent."""
    return "\n".join(one for line in lines for one in _wrap(line))


def _wrap(line: str) -> list[str]:
    indent = " " * (len(line) - len(line.lstrip()) + 2)
    return textwrap.wrap(line, WIDTH, subsequent_indent=indent, break_on_hyphens=False, break_long_words=False) or [""]
