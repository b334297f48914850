"""Fault: one thing wrong, with its path in what was read; FaultError carries faults out of pydantic."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Literal

Step = str | int
Path = tuple[Step, ...]


@dataclass(frozen=True)
class Fault:
    """One thing wrong at `path`; `at` says whether its key or its value is to be pointed at.

    `place` (line, column) is given only where neither of them is the right spot.
    """

    path: Path
    found: str
    allowed: str
    hint: str = ""
    at: Literal["key", "value"] = "value"
    place: tuple[int, int] | None = None

    def under(self, *steps: Step) -> Fault:
        """The same fault, seen from further out."""
        return replace(self, path=(*steps, *self.path))


class FaultError(ValueError):
    """Carries all faults found in one piece of the YAML."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(f"{dotted(f.path)}: {f.found}" for f in self.faults))

    def __reduce__(self) -> tuple[type[FaultError], tuple[tuple[Fault, ...]]]:
        return FaultError, (self.faults,)


def dotted(path: Path) -> str:
    """`end_a.socket.over[3]`: list entries count from 1."""
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else (f".{step}" if text else step)
    return text


def nearest(word: str, words: Sequence[str]) -> str:
    """`did you mean slide?`, or nothing where no word is near."""
    spelt = {one.casefold(): one for one in words}
    near = get_close_matches(word.casefold(), spelt, n=1, cutoff=0.6)
    return f"did you mean {spelt[near[0]]}?" if near else ""


def shown(value: object) -> str:
    """A value as a message shows it: text in quotes and cut to length, a map or list by its kind, never in full."""
    if isinstance(value, dict):
        keys = ", ".join(str(key)[:30] for key in list(value)[:6])
        return f"a map with {keys}" if keys else "an empty map"
    if isinstance(value, list):
        return f"a list of {len(value)}"
    text = str(value)
    return repr(text if len(text) <= 40 else text[:37] + "...")
