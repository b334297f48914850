"""A blade that is pulled beside its middle: when it jams like a drawer, and when it can wedge.

Lengths in mm, forces in N; friction over 0, engagement over 0.

The rule, from moments. A blade with engagement L in guides, pulled by F at e beside its middle, leans on two corners
opposite each other: at the mouth on one edge, at its inner end on the other. Across the travel the two normal forces
are equal, N. Moments about the middle: F e = N L. The friction forces mu N on both edges point the same way and stand w
/ 2 to both sides of the middle, so that their moments cancel: the width w drops out. Along the travel F = D + 2 mu N,
with D the drag in the middle. Together F (1 - 2 mu e / L) = D: at 2 mu e / L = 1 no force moves it. Known as the drawer
rule (common practice); the same as the jamming of a peg in a hole under a force beside its middle (Whitney 1982, from
memory).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.physics.slide.drag import FRICTION

PERMITTED_RATIO = 0.5
"""Half of what jams: the pull is then twice the drag (common practice, no source)."""


@dataclass(frozen=True)
class Drawer:
    """A blade in its guides: `offset_mm` is how far beside the middle it is pulled, `engaged_open_mm` what stays in."""

    offset_mm: float
    engaged_open_mm: float
    travel_mm: float
    mu: float = FRICTION

    def engaged_mm(self, opening_mm: float) -> float:
        """Length in the guides at an opening: what is left when open, and what is still to go."""
        return self.engaged_open_mm + self.travel_mm - opening_mm

    def ratio(self, opening_mm: float) -> float:
        """2 mu e / L; 1 or more jams.

        >>> round(Drawer(53, 19, 105.6).ratio(105.6), 2)
        2.79
        """
        return 2.0 * self.mu * abs(self.offset_mm) / self.engaged_mm(opening_mm)

    @property
    def worst_ratio(self) -> float:
        """At the full opening, where least is engaged."""
        return self.ratio(self.travel_mm)

    def pull_over_drag(self, opening_mm: float) -> float:
        """Pull that it takes, over the drag in the middle: 1 / (1 - ratio); inf where it jams.

        >>> round(Drawer(5, 19, 105.6).pull_over_drag(105.6), 3)
        1.357
        """
        ratio = self.ratio(opening_mm)
        return 1.0 / (1.0 - ratio) if ratio < 1.0 else math.inf

    @property
    def jams_at_mm(self) -> float | None:
        """The opening [mm] at which it jams; None: it does not, 0: it never moves.

        >>> round(Drawer(53, 19, 105.6).jams_at_mm, 1)
        71.6
        """
        opening = self.engaged_mm(0.0) - 2.0 * self.mu * abs(self.offset_mm)
        return max(0.0, opening) if opening < self.travel_mm else None


def greatest_offset_mm(engaged_mm: float, mu: float = FRICTION, permitted: float = PERMITTED_RATIO) -> float:
    """How far beside its middle a blade may be pulled [mm]: permitted x L / (2 mu).

    >>> greatest_offset_mm(19.0)
    9.5
    """
    return permitted * engaged_mm / (2.0 * mu)


def least_engaged_mm(offset_mm: float, mu: float = FRICTION, permitted: float = PERMITTED_RATIO) -> float:
    """The least engagement [mm] for an offset: 2 mu e / permitted.

    >>> least_engaged_mm(53.0)
    106.0
    """
    return 2.0 * mu * abs(offset_mm) / permitted


def can_wedge(engaged_mm: float, width_mm: float, mu: float = FRICTION) -> bool:
    """True where a blade that was knocked askew can stay stuck by itself, whichever way it is then pulled.

    The line between the two corners lies inside both friction cones when mu >= L / w: the corners can then press on
    each other across the blade with no other force (wedging of a peg in a hole, Whitney 1982, from memory). It needs a
    knock or a push beside the middle to get there; here the width counts.

    >>> can_wedge(19.0, 118.0), can_wedge(124.6, 118.0)
    (True, False)
    """
    return mu * width_mm >= engaged_mm


def apart_mm(offset_mm: float, skew_deg: float, run_mm: float) -> tuple[float, float]:
    """How far beside the blade's middle the rod's end is at both ends of the travel [mm].

    A cylinder that stands askew carries its rod's end aside as it goes: offset, and offset + run x tan(skew).

    >>> [round(one, 2) for one in apart_mm(0.3, 0.5, 105.6)]
    [0.3, 1.22]
    """
    return offset_mm, offset_mm + run_mm * math.tan(math.radians(skew_deg))


def greatest_skew_deg(play_mm: float, offset_mm: float, run_mm: float) -> float:
    """How far the cylinder may stand askew [deg] before the coupling's play aside (+-`play_mm`) is used up.

    >>> round(greatest_skew_deg(0.75, 0.3, 105.6), 2)
    0.24
    """
    return math.degrees(math.atan(max(0.0, play_mm - abs(offset_mm)) / run_mm))
