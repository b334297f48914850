"""Places where parts sit, by the words that people say, and how warm it gets there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from fitwright.data import tables


@dataclass(frozen=True)
class WarmPlace:
    """A place: what a part there is taken to reach [C], and between what that lies from place to place."""

    name: str
    also: tuple[str, ...]
    temperature_c: float
    low_c: float
    high_c: float
    status: str
    note: str


@cache
def warm_places() -> Mapping[str, WarmPlace]:
    """Every place by name, coolest first."""
    rows = [
        WarmPlace(
            name=row.text("name"),
            also=tuple(word.strip() for word in row.text("also").split(";") if word.strip()),
            temperature_c=row.required("temperature_c"),
            low_c=row.required("low_c"),
            high_c=row.required("high_c"),
            status=row.status(),
            note=row.text("note"),
        )
        for row in tables.load("warm_places").rows
    ]
    return {row.name: row for row in rows}


def warm_place(words: str) -> WarmPlace | None:
    """The place that is meant by these words (`car`, `the attic`, `near a motor`), or None."""
    said = [word for word in words.casefold().replace("-", " ").split() if word not in _SMALL_WORDS]
    for row in warm_places().values():
        if " ".join(said) in (row.name, *row.also):
            return row
    return None


_SMALL_WORDS = frozenset(("a", "an", "the", "in", "on", "at", "near", "by", "hot", "my", "under", "summer"))
