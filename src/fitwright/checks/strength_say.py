"""Where and whence, in the words of the part's own directions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fitwright.frame import Vec
from fitwright.units import format_temperature

if TYPE_CHECKING:
    from fitwright.spec.part_base import PartBase

_NAMES = (("left", "right"), ("towards you", "away"), ("down", "up"))
_LEAST = 0.3
"""A direction's share below this is not named."""


def way_words(direction: Vec | None) -> str:
    """A direction in words, strongest first.

    >>> way_words((0.0, 0.0, -1.0)), way_words((0.8, 0.0, 0.6)), way_words(None)
    (' down', ' right and up', '')
    """
    if direction is None:
        return ""
    shares = sorted(((abs(v), axis) for axis, v in enumerate(direction) if abs(v) > _LEAST), reverse=True)
    names = [_NAMES[axis][direction[axis] > 0] for _, axis in shares]
    return " " + (names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}")


def place_words(at: Vec) -> str:
    """A place by its distances from the origin of the part.

    >>> place_words((12.4, 0.2, -30.0))
    'at right 12, away 0, down 30'
    """
    words = (
        f"{_NAMES[axis][v >= 0] if axis != 1 else 'away'} {abs(v) if axis != 1 else v:.0f}" for axis, v in enumerate(at)
    )
    return f"at {', '.join(words)}"


def warm_words(spec: PartBase) -> str:
    """How warm it was taken to be, where that leaves less of the filament than the table says; else nothing."""
    near = spec.near_heat_c
    if near is None or min(spec.material.strength_share(near), spec.material.modulus_share(near)) > 0.99:
        return ""
    left = 100 * spec.material.strength_share(near)
    return f"; at {format_temperature(near, spec.units)}, where {left:.0f} % of its strength is left"
