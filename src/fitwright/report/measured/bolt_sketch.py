"""A bolt pattern in characters: where each numbered hole is as you look at the face."""

from __future__ import annotations

import math

from fitwright.measure.bolts.pattern import Pattern, Place

WIDE, HIGH = 32, 13
"""Most columns and lines; a character is twice as high as wide."""


def sketch(pattern: Pattern) -> str:
    """Holes by their numbers, `+` the origin, dots the opening's rim."""
    rim = _rim(pattern)
    shown = [*pattern.places, (0.0, 0.0), *rim]
    left, low = min(p[0] for p in shown), min(p[1] for p in shown)
    wide, high = max(p[0] for p in shown) - left, max(p[1] for p in shown) - low
    step = max(wide / WIDE, high / (2 * HIGH), 1e-9)
    lines = [[" "] * (int(wide / step) + 4) for _ in range(int(high / (2 * step)) + 2)]

    def put(place: Place, text: str) -> None:
        column, line = round((place[0] - left) / step), len(lines) - 1 - round((place[1] - low) / (2 * step))
        lines[max(line, 0)][column : column + len(text)] = text

    for place in rim:
        put(place, ".")
    put((0.0, 0.0), "+")
    for k, place in enumerate(pattern.places):
        put(place, str(k + 1))
    rows = ["".join(line).rstrip() for line in lines]
    while rows and not rows[0]:
        rows.pop(0)
    return "\n".join(f"    {row}".rstrip() for row in rows)


def _rim(pattern: Pattern) -> list[Place]:
    hole = pattern.opening
    if hole is None:
        return []
    turns = [2 * math.pi * k / 36 for k in range(36)]
    r = hole.diameter_mm / 2
    return [(hole.right_mm + r * math.cos(t), hole.up_mm + r * math.sin(t)) for t in turns]
