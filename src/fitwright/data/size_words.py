"""What people say for a size (`4 in sewer-and-drain`, `DN110`, `sch 40 1-1/2"`), split into series and size."""

from __future__ import annotations

import re
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import cache
from typing import Literal

from fitwright.data import tables
from fitwright.units import plain_text

_SIZE = re.compile(
    r"(?P<prefix>\bdn|[øØ⌀])?\s*"
    r"(?:(?:(?P<whole>[0-9]+)[\s-]+)?(?P<over>[0-9]+)\s*/\s*(?P<under>[1-9][0-9]*)|(?P<decimal>[0-9]+(?:\.[0-9]+)?))"
    r"(?P<unit>\s*(?:inches\b|inch\b|in\b|\"|''|mm\b))?"
)


@dataclass(frozen=True)
class Query:
    """What the words were understood as.

    `meanings` holds, for each trade word, the starts of series names or `kind:...` that it allows; `value` is in `unit`
    (`either` where a plain number could name inches or mm); `strange` are words that no table knows.
    """

    meanings: tuple[tuple[str, ...], ...]
    value: float | None
    unit: Literal["in", "mm", "either"]
    strange: tuple[str, ...]

    @property
    def asks_for_fitting(self) -> bool:
        """True where a fitting was named: a bare size means the pipe, never the fitting on it."""
        return any("fitting" in one for meaning in self.meanings for one in meaning)


def understand(words: str) -> Query:
    """Split a name into series, size and words that we don't know."""
    rest = _plain(words)
    meanings: list[tuple[str, ...]] = []
    for pattern, meaning in _aliases():
        rest, hits = pattern.subn(" ", rest)
        if hits and meaning != ("any",):
            meanings.append(meaning)
    match = _SIZE.search(rest)
    if not match:
        return Query(tuple(meanings), None, "either", tuple(rest.split()))
    strange = (rest[: match.start()] + " " + rest[match.end() :]).split()
    return Query(tuple(meanings), _value(match), _unit(match), tuple(strange))


def nearest_word(strange: str) -> str:
    """The known word most like a strange one, or nothing."""
    near = get_close_matches(strange, [row.text("words") for row in tables.load("aliases").rows], n=1)
    return near[0] if near else ""


def _plain(words: str) -> str:
    text = plain_text(words).casefold().replace("&", " and ")
    text = re.sub(r"\([^)]*\)|(?<=[a-z])-(?=[a-z])|[,;]", " ", text)
    return " ".join(re.sub(r"\bdn\s*/\s*od\b", "dn", text).split())


def _value(match: re.Match[str]) -> float:
    if match["decimal"]:
        return float(match["decimal"])
    return int(match["whole"] or 0) + float(Fraction(int(match["over"]), int(match["under"])))


def _unit(match: re.Match[str]) -> Literal["in", "mm", "either"]:
    written = (match["unit"] or "").strip()
    if written == "mm" or match["prefix"]:
        return "mm"
    return "in" if written or not match["decimal"] else "either"


@cache
def _aliases() -> tuple[tuple[re.Pattern[str], tuple[str, ...]], ...]:
    """Trade words, longest first, as patterns that match whole words with or without their spaces."""
    rows = sorted(tables.load("aliases").rows, key=lambda row: -len(row.text("words")))
    return tuple((_whole_words(_plain(row.text("words"))), tuple(row.text("meaning").split(";"))) for row in rows)


def _whole_words(words: str) -> re.Pattern[str]:
    body = r"\s*".join(re.escape(word) for word in words.split())
    return re.compile(rf"(?<![a-z0-9]){body}(?![a-z0-9])")
