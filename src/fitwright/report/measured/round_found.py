"""What one way of measuring a round thing found: numbers for the part, lines for the reader."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from fitwright.units import Units, format_length, format_number

OVAL_REL = 0.01
"""As the check fit.result: what differs by more than this share of itself is oval (common practice, no source)."""


@dataclass
class Found:
    """Diameter [mm], the value for a part's YAML (empty: none) and the fit where
    its form asks for one, what is said of it, in order, and of what it can't say.

    `good` is False where the readings contradict each other or leave the size open.
    """

    d_mm: float
    value: str = ""
    fit: Literal["", "slide"] = ""
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


def oval_advice(oval_mm: float, units: Units) -> list[str]:
    """What to do with something more oval than OVAL_REL: press it round, or let a slide fit take it up."""
    return [
        "if it can be pressed round (hose, thin pipe): lay a tape round it and give circumference:, or say soft: yes",
        f"if it is stiff: fit: slide, which adds half of that ({say(oval_mm / 2.0, units)}), with tape or a foam cord",
    ]
