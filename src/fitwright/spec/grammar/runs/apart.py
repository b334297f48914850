"""Places of a run that lie nearer together than the hose is thick: mostly lengths in another unit than the file's."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.frame import Vec
from fitwright.spec.faults import Fault, Path
from fitwright.spec.grammar.values import Context
from fitwright.units import format_length


@dataclass(frozen=True)
class Told:
    """A place, or a box of places from `low` to `high`, where the file says it and by what words."""

    path: Path
    words: str
    low: Vec
    high: Vec

    @staticmethod
    def point(path: Path, words: str, at: Vec) -> Told:
        """One place."""
        return Told(path, words, at, at)

    def apart_mm(self, other: Told) -> float:
        """The least distance between both."""
        gaps = (
            max(low - far, near - high, 0.0)
            for low, high, near, far in zip(self.low, self.high, other.low, other.high, strict=True)
        )
        return math.hypot(*gaps)


def too_near(told: Sequence[Told], over_mm: float, context: Context) -> Iterator[Fault]:
    """Every place that is nearer to one before it than the hose is thick; of several only the nearest is named."""
    named: set[Path] = set()
    for k, one in enumerate(told):
        apart, before = min(((one.apart_mm(other), other) for other in told[:k]), key=_first, default=(math.inf, one))
        if apart < over_mm and one.path not in named:
            named.add(one.path)
            words = f"a place {_say(apart, context)} from" if apart else "the same place as"
            found = f"{words} {before.words}"
            yield Fault(one.path, found, f"{_say(over_mm, context)} or more: the hose is so thick", unit_hint(context))


def too_small(path: Path, what: str, longest_mm: float, over_mm: float, context: Context) -> Iterator[Fault]:
    """A travel or a rail that is in no direction as long as the hose is thick."""
    if longest_mm < over_mm:
        found = f"{what} of {_say(longest_mm, context)} at most"
        allowed = f"{_say(over_mm, context)} or more in some direction: the hose is so thick"
        yield Fault(path, found, allowed, unit_hint(context))


def unit_hint(context: Context) -> str:
    """Plain numbers count in the file's unit."""
    if context.units == "in":
        return "plain numbers in this file count as inches"
    return "plain numbers count as mm: if they are inches, add `units: in`"


def _say(mm: float, context: Context) -> str:
    return format_length(mm, context.units, fraction=False)


def _first(pair: tuple[float, Told]) -> float:
    return pair[0]
