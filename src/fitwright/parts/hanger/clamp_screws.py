"""The ears of a split clamp: two screws from the cap's side, their nuts in pockets of the half on the base."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.errors import RefusalError
from fitwright.mechanism import Bought, Fastening, Pocket
from fitwright.outline import Outline, Point
from fitwright.outline_union import difference
from fitwright.parts.compensation import modelled, small_hole
from fitwright.parts.hanger.cuts import Cut, Drilled, Window
from fitwright.parts.hanger.declared import BODY, CAP
from fitwright.parts.hanger.fixing import locknut_mm
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.shapes_uv import box_uv, disc_uv, segment_uv
from fitwright.spec.hanger import HoseHangerSpec

CAP_EAR_MM = 8.0
"""Thickness of the cap's ears."""
FLOOR_MM, BACK_MM = 5.0, 3.5
"""Material that a nut bears on, and behind it."""
BESIDE_MM = 0.5
"""Between a washer and the ring beside it."""
EDGE = 1.5
"""Hole centre to edge in hole diameters, at the least (common practice, no source)."""
NUT_SLACK_MM = 0.2
"""A pocket is so much wider and higher than its nut (common practice, no source)."""
DRIVER_MM = 80.0
END_MM = 1.0
"""Between the end of a screw and the base."""


@dataclass(frozen=True)
class Screws:
    """Sizes of the two screws and of the ears that they go through [mm], v counted from the axis."""

    row: FastenerRow
    hole: float
    u: float
    end_u: float
    across: float
    pocket: tuple[float, float]
    """Bottom and top of the nut's pocket."""
    bottom: float
    top: float
    """Undersides of the half's ears, and the face of the cap's that the washers lie on."""
    nut_m: float
    grip: float
    long: float

    @property
    def washer(self) -> tuple[float, float]:
        """Outside and thickness of its washer."""
        return self.row.washer_d2_mm or self.row.head_d_mm, self.row.washer_h_mm or 0.0

    @property
    def tip_v(self) -> float:
        """Where the screw ends."""
        return self.top + self.washer[1] - self.long


def cap_of(adds: list[Outline], sizes: Sizes, at: Point) -> Outline:
    """The cap's outline: all that is added, less the bore."""
    (region,) = difference(adds, [disc_uv(at, sizes.bore_r)])
    return region.outer


SOLD_MM = (*range(6, 20, 2), *range(20, 85, 5), *range(90, 310, 10))
"""Lengths that machine screws are sold in."""


def shakes(spec: HoseHangerSpec) -> bool:
    """It rides on a machine or hangs over a cutter: a plain nut works loose."""
    return spec.travel_mm is not None or spec.above == "cutter"


def screws_of(spec: HoseHangerSpec, sizes: Sizes) -> Screws:
    """Sizes of the ears' screws; RefusalError where the ears are too narrow for them."""
    row, gap = fastener(spec.clamp.screw), spec.clamp.gap_mm
    if row.nut_af_mm is None or row.nut_m_mm is None:
        raise RefusalError("clamp.screws", spec.clamp.screw, "M4, M5, M6 or M8", "it takes a screw with a nut")
    hole, washer = small_hole(row.hole_mm(), spec.printer), row.washer_d2_mm or row.head_d_mm
    nut_m = locknut_mm(row) if shakes(spec) else row.nut_m_mm
    across = modelled(row.nut_af_mm + NUT_SLACK_MM, "hole", spec.printer)
    high = modelled(nut_m + NUT_SLACK_MM, "hole", spec.printer)
    u = sizes.out_r + washer / 2 + BESIDE_MM
    roof = -gap / 2 - FLOOR_MM
    need = CAP_EAR_MM + gap + FLOOR_MM + nut_m + (row.washer_h_mm or 0.0) + (row.pitch_mm or 1.0)
    corner = across / math.sqrt(3.0)
    least = 2 * max(EDGE * hole, washer / 2 + 1.0, corner + BACK_MM)
    if sizes.wide < least:
        why = f"the ears have no room for the {row.name} nuts"
        raise RefusalError("width", f"{sizes.wide:g}", f"{math.ceil(least)} mm or more", why)
    return Screws(
        row,
        hole,
        u,
        u + max(EDGE * hole, washer / 2 + 1.0, across / 2 + BACK_MM),
        across,
        (roof - high, roof),
        roof - high - BACK_MM,
        gap / 2 + CAP_EAR_MM,
        nut_m,
        CAP_EAR_MM + gap + FLOOR_MM,
        float(next(one for one in SOLD_MM if one >= need - 1e-6)),
    )


def screwed(ring: Carrier, sizes: Sizes, spec: HoseHangerSpec, at: Point, number: str) -> Carrier:
    """The ring with ears and two screws."""
    one, gap, (u, v) = screws_of(spec, sizes), spec.clamp.gap_mm / 2, at
    ends = u - one.end_u, u + one.end_u
    below = box_uv(ends, (v + one.bottom, v - gap))
    above = box_uv(ends, (v + gap, v + one.top))
    cuts, cap_cuts, fastenings = list(ring.cuts), list(ring.cap_cuts), []
    for sign, side in ((-1.0, "one"), (1.0, "other")):
        name = f"clamp screw {number}{side} side"
        cuts += _half_cuts(one, sizes, (u + sign * one.u, v), gap, name)
        where = u + sign * one.u
        cap_cuts.append(_drilled(one, sizes, where, (v + gap - 0.5, v + one.top + 0.5), name))
        fastenings.append(
            _fastening(one, Placed(spec.mount.side, v), (where, sizes.wide / 2, v + one.top), name, number)
        )
    return replace(
        ring,
        adds=(*ring.adds, below),
        cuts=tuple(cuts),
        reach_u=(-one.end_u, one.end_u),
        base_v=max(ring.base_v, -one.bottom, -one.tip_v + END_MM),
        cap=(cap := cap_of([segment_uv(at, sizes.out_r, gap), above], sizes, at)),
        stands=(below, cap, *(_column(one, at, sign) for sign in (-1.0, 1.0))),
        cap_cuts=tuple(cap_cuts),
        fastenings=tuple(fastenings),
        bought=_bought(one, shakes(spec)),
    )


def _column(one: Screws, at: Point, sign: float) -> Outline:
    """Room of a screw, its washer and its driver."""
    u, half = at[0] + sign * one.u, one.washer[0] / 2
    return box_uv((u - half, u + half), (at[1] + one.tip_v - END_MM, at[1] + one.top + DRIVER_MM))


def _drilled(one: Screws, sizes: Sizes, u: float, v: tuple[float, float], name: str) -> Drilled:
    return Drilled(name, u, sizes.wide / 2, one.hole, *v, "clamp.screws")


def _half_cuts(one: Screws, sizes: Sizes, at: Point, gap: float, name: str) -> list[Cut]:
    """Hole to the pocket, the pocket, open to the back, and the hole that the screw's end goes on in."""
    (u, v), (low, high) = at, one.pocket
    corner = one.across / math.sqrt(3.0)
    drawn = box_uv((u - one.across / 2, u + one.across / 2), (v + low, v + high))
    return [
        _drilled(one, sizes, u, (v + high, v - gap + 0.5), name),
        Window(f"{name} nut", drawn, sizes.wide / 2 - corner, sizes.wide, "clamp.screws", 0, 1.0),
        _drilled(one, sizes, u, (v + one.bottom - 0.5, v + low), f"{name} end"),
    ]


def _fastening(one: Screws, at: Placed, head: tuple[float, float, float], name: str, number: str) -> Fastening:
    row, (washer_d, washer_h) = one.row, one.washer
    return Fastening(
        name,
        row.name,
        row.major_mm,
        at.point(*head),
        at.direction(0.0, -1.0),
        one.grip,
        (f"{CAP} {number}".strip(), BODY),
        "clamp.screws",
        one.long,
        row.pitch_mm or 1.0,
        one.nut_m,
        row.nut_af_mm or 0.0,
        washers=1,
        washer_d_mm=washer_d,
        washer_h_mm=washer_h,
        head_d_mm=row.head_d_mm,
        pocket=Pocket(BODY, (0.0, -1.0, 0.0)),
    )


def _bought(one: Screws, locking: bool) -> tuple[Bought, ...]:
    """For one hose."""
    name, nut = one.row.name, "locking nut" if locking else "nut"
    return (
        Bought(2, f"screw {name}", one.long, note="cylinder or pan head, of the clamp"),
        Bought(2, f"{nut} {name}", note="in the pockets of the clamp"),
        Bought(2, f"washer {name}", note="under the heads of the clamp's screws"),
    )
