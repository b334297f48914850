"""Where on its way a moving thing is at its worst."""

from __future__ import annotations

from collections.abc import Callable

STEPS = 20
CLOSER = 12
"""The way is looked at in so many steps, then the neighbourhood of the worst so many times in thirds."""


def worst_share(badness: Callable[[float], float]) -> float:
    """The share (0 to 1) of the way with the greatest badness; the earliest of equals; exact at both ends."""
    found = [badness(k / STEPS) for k in range(STEPS + 1)]
    best = max(range(STEPS + 1), key=lambda k: (found[k], -k))
    if found[best] <= max(found[0], found[-1]):
        return 0.0 if found[0] >= found[-1] else 1.0
    low, high = max(best - 1, 0) / STEPS, min(best + 1, STEPS) / STEPS
    for _ in range(CLOSER):
        a, b = low + (high - low) / 3, high - (high - low) / 3
        low, high = (low, b) if badness(a) >= badness(b) else (a, high)
    share = (low + high) / 2
    return share if badness(share) > found[best] else best / STEPS
