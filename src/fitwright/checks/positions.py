"""Where on its way a moving thing is at its worst."""

from __future__ import annotations

from collections.abc import Callable

STEPS = 20
CLOSER = 12
"""The way is looked at in so many steps, then the neighbourhood of the worst so many times in thirds."""


def worst_share(badness: Callable[[float], float], low: float = 0.0, high: float = 1.0) -> float:
    """The share of the way between `low` and `high` with the greatest badness; the earliest of equals.

    Exact at both ends.
    """
    shares = [low + (high - low) * k / STEPS for k in range(STEPS + 1)]
    found = [badness(share) for share in shares]
    best = max(range(STEPS + 1), key=lambda k: (found[k], -k))
    if found[best] <= max(found[0], found[-1]):
        return low if found[0] >= found[-1] else high
    a, d = shares[max(best - 1, 0)], shares[min(best + 1, STEPS)]
    for _ in range(CLOSER):
        b, c = a + (d - a) / 3, d - (d - a) / 3
        a, d = (a, c) if badness(b) >= badness(c) else (b, d)
    middle = (a + d) / 2
    return middle if badness(middle) > found[best] else shares[best]
