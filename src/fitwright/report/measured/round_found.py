"""What one way of measuring a round thing found: numbers for the part, lines for the reader."""

from __future__ import annotations

from dataclasses import dataclass, field

from fitwright.units import Units, format_length, format_number


@dataclass
class Found:
    """Diameter [mm], the value for a part's YAML (empty: none), what is said of it, in order, and of what it can't say.

    `good` is False where the readings contradict each other or leave the size open.
    """

    d_mm: float
    value: str = ""
    lines: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    good: bool = True


def say(mm: float, units: Units) -> str:
    """A length in the file's units, no fraction."""
    return format_length(mm, units, fraction=False)


def percent(share: float) -> str:
    """`0.5 %`; two figures below one per cent are enough for an ovality."""
    return f"{format_number(100.0 * share, 1)} %"


def counted(count: int, word: str) -> str:
    """`1 reading`, `3 readings`."""
    return f"{count} {word}" + ("" if count == 1 else "s")
