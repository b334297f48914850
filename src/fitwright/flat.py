"""A flat piece that is cut from a sheet: a plate or gasket as plain numbers, no kernel.

Points are (right, up) [mm], seen from the piece's front, from the centre of its outline's own axes. All sizes are those
that the finished piece measures.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from fitwright.outline import Outline, Point, circle, through


@dataclass(frozen=True)
class FlatHole:
    """A bolt hole: round (`long_mm` 0), or a slot with round ends.

    A slot is `d_mm` wide and `long_mm` longer than wide, along `turned_deg` (clockwise from up). `bolt` names what goes
    through.
    """

    at: Point
    d_mm: float
    bolt: str = ""
    long_mm: float = 0.0
    turned_deg: float = 0.0

    @property
    def area_mm2(self) -> float:
        """Its area [mm2]."""
        return math.pi * self.d_mm**2 / 4 + self.d_mm * self.long_mm

    @property
    def length_mm(self) -> float:
        """Length once round [mm]."""
        return math.pi * self.d_mm + 2 * self.long_mm

    @property
    def outline(self) -> Outline:
        """Its line: a circle, or two straights with half a circle at each end."""
        if not self.long_mm:
            return circle(self.d_mm).mapped(1.0, self.at)
        half, r = self.long_mm / 2, self.d_mm / 2
        ends = [self._beside(u, v) for u, v in ((-half, r), (half, r), (half, -r), (-half, -r))]
        return through(ends, [self._beside(-half - r, 0.0), None, self._beside(half + r, 0.0), None])

    def _beside(self, along_mm: float, across_mm: float) -> Point:
        """The point so far along the slot and across it, to the right of its way, from its middle."""
        turn = math.radians(self.turned_deg)
        s, c = math.sin(turn), math.cos(turn)
        return self.at[0] + along_mm * s + across_mm * c, self.at[1] + along_mm * c - across_mm * s


@dataclass(frozen=True)
class Flat:
    """Outline, openings and bolt holes of one flat piece."""

    outline: Outline
    openings: tuple[Outline, ...] = ()
    holes: tuple[FlatHole, ...] = ()
    thickness_mm: float = 0.0

    @property
    def area_mm2(self) -> float:
        """Area left [mm2]: the outline's without openings and holes (which must not meet)."""
        cut = math.fsum([*(one.area_mm2 for one in self.openings), *(hole.area_mm2 for hole in self.holes)])
        return self.outline.area_mm2 - cut

    @property
    def cut_length_mm(self) -> float:
        """Length of all cuts [mm]."""
        lines = math.fsum(one.length_mm for one in (self.outline, *self.openings))
        return lines + math.fsum(hole.length_mm for hole in self.holes)

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height [mm] of the sheet that it is cut from, at the least."""
        left, lower, right, upper = self.outline.bounds_mm
        return right - left, upper - lower


@dataclass(frozen=True)
class Stock:
    """What a body that is not printed is cut from: `words` such as `steel sheet` or `foam rubber`."""

    kind: Literal["sheet", "gasket"]
    words: str
    thickness_mm: float
    density_g_cm3: float
    brittle: bool = False
    """It splits at its holes (acrylic, glass-filled): 2 hole diameters to the edge."""
