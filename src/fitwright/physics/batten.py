"""A bar (batten) on two supports that carries loads between them or beyond them: what each holds, up or down.

Where the joist is not where the hanger must be, a batten spans to two joists or sticks out from two. Statics; places
in mm along the bar, forces in N, downwards positive. No numpy.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Hanging:
    """A weight [N] at a place [mm] along the bar."""

    at_mm: float
    weight_n: float


@dataclass(frozen=True)
class Reactions:
    """What the two supports hold [N]: positive carries, negative must pull the bar down (uplift)."""

    first_n: float
    second_n: float

    @property
    def uplift_n(self) -> float:
        """The greatest uplift; 0 where both carry."""
        return max(0.0, -self.first_n, -self.second_n)

    @property
    def words(self) -> str:
        """Said for a report.

        >>> Reactions(-50.0, 150.0).words
        'the first support is lifted with 50 N and must hold the bar down; the second carries 150 N'
        """
        return f"the first support {_does(self.first_n)}; the second {_does(self.second_n)}"


def reactions(first_mm: float, second_mm: float, loads: Sequence[Hanging]) -> Reactions:
    """Reactions of two supports at two places: R2 = sum W (x - x1) / (x2 - x1), R1 = sum W - R2.

    ValueError where both supports stand at one place.

    >>> reactions(0.0, 400.0, [Hanging(600.0, 100.0)])
    Reactions(first_n=-50.0, second_n=150.0)
    """
    span = second_mm - first_mm
    if abs(span) < 1e-9:
        raise ValueError("the two supports stand at one place")
    second = sum(load.weight_n * (load.at_mm - first_mm) for load in loads) / span
    return Reactions(sum(load.weight_n for load in loads) - second, second)


def moment_at_nmm(place_mm: float, first_mm: float, second_mm: float, loads: Sequence[Hanging]) -> float:
    """Bending moment [N mm] at a place, positive where the bar's under side is stretched."""
    held = reactions(first_mm, second_mm, loads)
    left = [*loads, Hanging(first_mm, -held.first_n), Hanging(second_mm, -held.second_n)]
    return sum(-load.weight_n * (place_mm - load.at_mm) for load in left if load.at_mm < place_mm)


def greatest_moment_nmm(first_mm: float, second_mm: float, loads: Sequence[Hanging]) -> float:
    """The greatest moment either way [N mm]: at a load or at a support, for between them it is straight.

    >>> greatest_moment_nmm(0.0, 400.0, [Hanging(200.0, 100.0)])
    10000.0
    """
    places = [first_mm, second_mm, *(load.at_mm for load in loads)]
    return max(abs(moment_at_nmm(place, first_mm, second_mm, loads)) for place in places)


def bending_mpa(moment_nmm: float, wide_mm: float, high_mm: float) -> float:
    """Stress in a batten that is `high_mm` in the direction of the load: 6 M / (b h^2).

    >>> bending_mpa(10000.0, 38.0, 19.0).__round__(2)
    4.37
    """
    return 6.0 * moment_nmm / (wide_mm * high_mm**2)


def _does(force_n: float) -> str:
    if force_n < -1e-9:
        return f"is lifted with {-force_n:.0f} N and must hold the bar down"
    return f"carries {force_n:.0f} N"
