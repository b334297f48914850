"""Where blade, rod and cylinder stand: the chain of lengths from the gate to the cylinder's nose, and who stops it.

Datum: the gate's body edge where the blade comes out, outwards positive, all in mm. In line the cylinder lies outwards
of the gate and its rod points to it: rod out is shut. Alongside it lies beside the gate and its rod points outwards:
rod out is open. Where the rod is out the cylinder's own end stops it; where the rod is in, a sleeve on the rod does
where the stroke is longer than the travel, or the cylinder's own end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Layout = Literal["in_line", "alongside"]
Stop = Literal["exact", "sleeve", "over_shut", "over_open", "short", "none"]

LEAST_ENGAGED_MM, LEAST_ENGAGED_REL = 15.0, 0.10
"""A blade keeps this much in its guides when open, and this share of its travel (common practice, no source)."""
SHORT_MM = 3.0
"""A stroke may be this much short: the blade's edge then stands in the bore by so much less its lip."""
EXACT_MM = 0.5
"""A stroke that is longer by no more than this needs no stop: the setting takes it up."""


@dataclass(frozen=True)
class Chain:
    """The lengths of one gate and cylinder.

    `shut_mm`, `open_mm`: how far the blade's outer edge stands out. `coupling_mm`: blade edge to rod shoulder, outwards
    positive. `rod_stub_mm`: nose face to rod shoulder with the rod in (WF, WH). `nose_mm`: how far the cylinder's nose
    stands out of its mounting face towards the rod. `stroke_mm`: the cylinder's.
    """

    shut_mm: float
    open_mm: float
    coupling_mm: float
    rod_stub_mm: float
    nose_mm: float
    stroke_mm: float
    layout: Layout = "in_line"

    @property
    def travel_mm(self) -> float:
        """From shut to open."""
        return self.open_mm - self.shut_mm

    @property
    def excess_mm(self) -> float:
        """How much longer the stroke is than the travel; negative where it is short."""
        return self.stroke_mm - self.travel_mm

    @property
    def gap_mm(self) -> float:
        """Between the nose's end and the rod's shoulder with the rod in, where a sleeve finds its place."""
        return self.rod_stub_mm - self.nose_mm


@dataclass(frozen=True)
class Ends:
    """Where everything stands at both ends of the movement, and who stops it there.

    `blade_shut_mm`, `blade_open_mm`: the blade's outer edge as driven. `nose_face_mm`: the cylinder's mounting face.
    `sleeve_mm`: length of the sleeve on the rod, 0 where there is none. `moved_mm`: what the rod really moves.
    """

    stop: Stop
    nose_face_mm: float
    blade_shut_mm: float
    blade_open_mm: float
    sleeve_mm: float
    stopped_shut_by: str
    stopped_open_by: str

    @property
    def moved_mm(self) -> float:
        """The stroke that is used."""
        return self.blade_open_mm - self.blade_shut_mm


def nose_face_mm(chain: Chain, rod_out_at_mm: float) -> float:
    """Where the cylinder's mounting face stands when the blade's edge is at `rod_out_at_mm` with the rod fully out.

    >>> nose_face_mm(Chain(20.0, 125.6, 20.0, 22.0, 18.0, 125.0), 20.0)
    187.0
    """
    reach = chain.rod_stub_mm + chain.stroke_mm
    return rod_out_at_mm + chain.coupling_mm + (reach if chain.layout == "in_line" else -reach)


def sleeve_mm(chain: Chain) -> float:
    """Length of the sleeve that takes the excess up: excess + gap.

    >>> round(sleeve_mm(Chain(20.0, 125.6, 20.0, 22.0, 18.0, 125.0)), 1)
    23.4
    """
    return chain.excess_mm + chain.gap_mm


def ends(chain: Chain, stop: Stop) -> Ends:
    """Both ends of the movement with this way of stopping it.

    `over_shut`, `over_open`: the excess is spent beyond that end. `short`: the stroke is short, and lacks at open.
    `none`, `exact`: the excess is spent where the rod is in; what an `exact` stroke is short of lacks at open.
    """
    own, in_line, excess = "the cylinder's own end", chain.layout == "in_line", chain.excess_mm
    shut, opened = chain.shut_mm, chain.open_mm
    by_sleeve = "the sleeve on the rod (that end has no cushion)"
    rod_in = by_sleeve if stop == "sleeve" else own
    if stop == "over_shut":
        shut -= excess
    elif stop in ("over_open", "short") or (stop == "exact" and excess < 0.0):
        opened += excess
    elif stop in ("none", "exact"):
        shut, opened = (shut, opened + excess) if in_line else (shut - excess, opened)
    rod_out_at = shut if in_line else opened
    face = nose_face_mm(chain, rod_out_at)
    long = sleeve_mm(chain) if stop == "sleeve" else 0.0
    return Ends(stop, face, shut, opened, long, *((own, rod_in) if in_line else (rod_in, own)))


def engaged_mm(blade_long_mm: float, edge_at_mm: float, body_long_mm: float | None = None) -> float:
    """How much of the blade is in its guides while its outer edge stands out by `edge_at_mm`.

    >>> round(engaged_mm(144.6, 125.6), 1)
    19.0
    """
    inside = blade_long_mm - edge_at_mm
    return inside if body_long_mm is None else min(inside, body_long_mm)


def least_engaged_mm(travel_mm: float) -> float:
    """What must stay in the guides: 15 mm, and a tenth of the travel."""
    return max(LEAST_ENGAGED_MM, LEAST_ENGAGED_REL * travel_mm)


def choose_stop(chain: Chain, far_end_open: bool, engaged_open_mm: float, room_mm: float = 0.0) -> Stop | None:
    """How the excess is dealt with: a sleeve first, then over-shut where the far end is open, then over-open.

    `room_mm`: how far the blade may go beyond shut before it stands at the end of its slot (0: not known). None: no
    way; buy the stroke of `stroke_to_buy`.
    """
    excess = chain.excess_mm
    if excess < -SHORT_MM:
        return None
    if excess < -EXACT_MM:
        return "short"
    if excess <= EXACT_MM:
        return "exact"
    if excess <= chain.stroke_mm / 2 and chain.gap_mm >= 0.0:
        return "sleeve"
    if far_end_open and room_mm >= excess:
        return "over_shut"
    if engaged_open_mm - excess >= least_engaged_mm(chain.travel_mm):
        return "over_open"
    return None


def stroke_to_buy(travel_mm: float, sold_mm: Sequence[float]) -> float | None:
    """The shortest stroke sold that is no shorter than the travel (less EXACT_MM); None where none is.

    >>> stroke_to_buy(106.0, (80.0, 100.0, 125.0, 160.0))
    125.0
    """
    return next((stroke for stroke in sorted(sold_mm) if stroke >= travel_mm - EXACT_MM), None)
