"""Threads by what people say: `m10x1.25`, `M6`, `5/16-24`, `G1/8`."""

from __future__ import annotations

import re
from difflib import get_close_matches

from fitwright.data.threads import ThreadRow, all_threads
from fitwright.errors import DataError
from fitwright.units import plain_text


def thread_named(said: str) -> ThreadRow:
    """The thread of this name; of a size alone (`M6`, `1/4 in`) the coarse one. DataError where none is known."""
    wanted = _bare(said)
    for row in all_threads():
        if wanted in _short_names(row):
            return row
    near = get_close_matches(wanted, [_bare(row.name) for row in all_threads()], n=1)
    hint = next((f"; did you mean {row.name}?" for row in all_threads() if near and _bare(row.name) == near[0]), "")
    raise DataError(f"no thread is called {said!r}{hint}")


def thread_name(said: str) -> str:
    """The name that the tables have for what was said: `m10x1.25` -> `M10 x 1.25`, `M6` -> `M6 x 1`.

    What no table knows comes back as it was said.
    """
    try:
        return thread_named(said).name
    except DataError:
        return said


def _bare(name: str) -> str:
    """Small letters without blanks, signs of inches and the word thread: `M10 × 1.25` -> `m10x1.25`."""
    text = plain_text(name).casefold().replace("\u00d7", "x").replace("*", "x").replace(",", ".")
    text = re.sub(r"\b(thread|in|inch)\b|[\s\"]", "", text)
    return re.sub(r"(\.\d*?)0+(?!\d)", r"\1", text).replace(".x", "x").rstrip(".")


def _short_names(row: ThreadRow) -> set[str]:
    """Ways of saying a thread: in full, without UNC or UNF, and, of a coarse one, its size alone."""
    if row.is_pipe:
        return {_bare(row.name)}
    short = {_bare(row.name), _bare(row.name.removesuffix(row.series))}
    return short | {_bare(row.nominal)} if row.series in ("coarse", "UNC") else short
