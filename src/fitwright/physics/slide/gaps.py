"""Gaps between what moves and what stands still: which of them a finger can be caught in. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

TIP_MM = 4.0
"""No finger's tip goes into less (common practice; ISO 13857, openings up to 4 mm, from memory)."""
FINGER_MM = 25.0
"""The least gap that does not crush a finger (ISO 13854, table of minimum gaps, from memory)."""


@dataclass(frozen=True)
class Gap:
    """A gap that grows or shrinks evenly from shut to open; negative: there is none, the two overlap."""

    name: str
    shut_mm: float
    open_mm: float

    def at_mm(self, opening_share: float) -> float:
        """The gap at a share of the travel, 0 shut to 1 open."""
        return self.shut_mm + (self.open_mm - self.shut_mm) * opening_share

    @property
    def pinches(self) -> bool:
        """True where it passes through widths between 4 and 25 mm as the blade moves.

        A gap that stays as it is catches nothing; nor does one that stays at 4 or less, or 25 or more.

        >>> Gap("bridge to body", 20, 126).pinches, Gap("rod shoulder to nose", 147, 42).pinches
        (True, False)
        >>> Gap("blade to slot", 0.4, 0.4).pinches, Gap("bridge to guard", 3, 4).pinches
        (False, False)
        """
        least, greatest = sorted((self.shut_mm, self.open_mm))
        return greatest - least > 1e-6 and greatest > TIP_MM + 1e-9 and least < FINGER_MM - 1e-9

    @property
    def pinching_share(self) -> tuple[float, float] | None:
        """Between which shares of the travel it stands between 4 and 25 mm; None: nowhere.

        >>> Gap("bridge to body", 14.5, 119.5).pinching_share
        (0.0, 0.1)
        """
        if not self.pinches:
            return None
        shares = [(limit - self.shut_mm) / (self.open_mm - self.shut_mm) for limit in (TIP_MM, FINGER_MM)]
        low, high = sorted(min(1.0, max(0.0, share)) for share in shares)
        return low, high
