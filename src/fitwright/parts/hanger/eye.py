"""An eye for the line of a second fixing: a lug beside the ring, thin so that a link goes round it, its hole along y.

It stands where a line goes straight up from it past hose and strap, on what holds the hose and never on the base.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from fitwright.errors import RefusalError
from fitwright.hanging import Eye
from fitwright.outline import Outline, Point
from fitwright.outline_union import difference
from fitwright.part import RoundSize
from fitwright.parts.compensation import modelled
from fitwright.parts.hanger.declared import BODY, along_hose
from fitwright.parts.hanger.necks import roots_deg
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Lug, Sizes
from fitwright.parts.hanger.saddle import EAR_MM, slot_mm
from fitwright.parts.hanger.shapes_uv import axes_uv, box_uv, disc_uv, polar
from fitwright.spec.hanger import HoseHangerSpec

EYE_MM = 8.8
"""Hole for a quick link of 4 mm or a steel cable tie: 8.5 where it prints small (common practice, no source)."""
LUG_MM = 12.0
"""Length of the hole: a link of 4 mm closes round it (common practice, no source)."""
EDGE = 1.5
"""Hole's centre to the lug's edge in hole diameters (common practice, no source)."""
CLEAR_MM, TO_BASE_MM, LINE_MM = 3.0, 6.0, 5.0
"""From the lug to what else stands there, to the base, and from the line to the hose."""
BEHIND_MM = 2.0
"""Between the ring and the hole beside it."""
STEP_DEG = 2.0
RIM_MM = 1.5
"""The bore's rims are flared by less."""
ARM_MM, OFF_FACE_MM = 9.0, 0.5
"""Of what joins a lug to a clamp's ear: its thickness, and how far it keeps from the parting."""


@dataclass(frozen=True)
class Spot:
    """Where a lug's middle may be, from the hose's axis, and what else joins it to the carrier."""

    at: Point
    arm: Outline | None = None


def with_eye(one: Carrier, sizes: Sizes, spec: HoseHangerSpec, axis: Point, number: str) -> Carrier:
    """The carrier round `axis` (u, v) with a lug and an eye in it."""
    at, hole = Placed(spec.mount.side, axis[1]), modelled(EYE_MM, "hole", spec.printer)
    r = EDGE * hole
    spot = _spot(one, sizes, spec, axis, r)
    middle = axis[0] + spot.at[0], axis[1] + spot.at[1]
    drawn = [disc_uv(middle, r), *([spot.arm.mapped(shift=axis)] if spot.arm else [])]
    left = difference(drawn, [disc_uv(axis, sizes.mid_r)])
    name = f"eye {number}".strip()
    frame, (low, high) = along_hose(at, *middle), one.reach_u
    lug = Lug(name, tuple(region.outer for region in left), middle, hole, LUG_MM)
    return replace(
        one,
        lugs=(lug,),
        reach_u=(min(low, spot.at[0] - r), max(high, spot.at[0] + r)),
        base_v=max(one.base_v, r - spot.at[1] + TO_BASE_MM),
        eyes=(Eye(name, BODY, frame, EYE_MM, LUG_MM),),
        rounds=(*one.rounds, RoundSize(name, frame, "hole", 1.0, LUG_MM - 1.0, hole, "second_fixing")),
    )


def _spot(one: Carrier, sizes: Sizes, spec: HoseHangerSpec, axis: Point, r: float) -> Spot:
    """A saddle's lies beyond an ear, clear of the strap; else beside the ring, near where the neck joins it."""
    if spec.style == "saddle":
        return _beyond_slot(one, sizes, spec, r)
    far = max(sizes.out_r + r / EDGE / 2 + BEHIND_MM, sizes.bore_r + RIM_MM + r)
    spots = [polar((0.0, 0.0), far, deg) for deg in _turns(sizes)]
    margins = (1.5 * sizes.arm + CLEAR_MM, sizes.arm, -r)
    found = ([spot for spot in spots if _apart_from_all(one, sizes, axis, spot, r, lips)] for lips in margins)
    spots = next((some for some in found if some), [])
    clear = [spot for spot in spots if _line_clear(sizes, Placed(spec.mount.side, 0.0), spot)]
    over = [spot for spot in clear if r - spot[1] + TO_BASE_MM <= one.base_v]
    if spec.style == "clamp" and not over:
        return _beyond_ear(one, sizes, spec, r)
    if not spots:
        why = "there is no room for the eye of a second fixing beside a hook so small"
        raise RefusalError("second_fixing", "an eye", "no, or a saddle or clamp", why)
    roots = [polar((0.0, 0.0), far, deg) for deg in _roots(sizes)]
    return Spot(min(over or clear or spots, key=lambda spot: min(math.dist(spot, root) for root in roots)))


def _roots(sizes: Sizes) -> tuple[float, float]:
    """Where the arms leave the neck [deg]."""
    one, other = roots_deg(sizes.bore_r, sizes.arm, sizes.opens)
    return sizes.opens_deg + one, sizes.opens_deg - other


def _turns(sizes: Sizes) -> Iterator[float]:
    """Angles all round, the side that is joined to the base left out [deg]."""
    turn, last = _roots(sizes)[1], _roots(sizes)[0]
    while turn <= last:
        yield turn
        turn += STEP_DEG


def _apart_from_all(one: Carrier, sizes: Sizes, axis: Point, spot: Point, r: float, lips_mm: float) -> bool:
    """Whether a lug there keeps clear of the opening and of what stands there, and its hole of the neck.

    `lips_mm`: from the lug to the middle of a hook's bent lip, at the least.
    """
    low, high = (end + sign * (r / EDGE / 2 + BEHIND_MM) for end, sign in zip(one.neck_u, (-1.0, 1.0), strict=True))
    if spot[1] < 0.0 and low < spot[0] < high:
        return False
    off = math.degrees(math.atan2(spot[1], spot[0])) - sizes.opens_deg
    if abs((off + 180.0) % 360.0 - 180.0) < sizes.lip_deg:
        return False
    middle = axis[0] + spot[0], axis[1] + spot[1]
    lips = [polar((0.0, 0.0), sizes.mid_r + sizes.arm, sizes.opens_deg + k * sizes.lip_deg) for k in (1.0, -1.0)]
    if sizes.throat and min(math.dist(spot, lip) for lip in lips) < r + lips_mm:
        return False
    return all(-drawn.inside_by_mm(middle) >= r + CLEAR_MM for drawn in one.stands)


def _line_clear(sizes: Sizes, at: Placed, spot: Point) -> bool:
    """Whether a line straight up from there misses the hose."""
    x, _, z = at.direction(*spot)
    return z > 0.0 or abs(x) > sizes.bore_r + LINE_MM


def _beyond_slot(one: Carrier, sizes: Sizes, spec: HoseHangerSpec, r: float) -> Spot:
    """In line with the ear that is away from the surface, or on the outer side of several."""
    way = polar((0.0, 0.0), 1.0, sizes.opens_deg + 90.0)
    sign = 1.0 if way[0] + way[1] > 0.0 else -1.0
    across = sizes.out_r + slot_mm(spec) + 1.0 + r
    return Spot(axes_uv((0.0, 0.0), sizes.opens_deg)(-EAR_MM / 2, sign * across))


def _beyond_ear(one: Carrier, sizes: Sizes, spec: HoseHangerSpec, r: float) -> Spot:
    """Beside a clamp's half, beyond all that its cap needs."""
    end, top = one.reach_u[1], -spec.clamp.gap_mm / 2 - OFF_FACE_MM
    spot = end + 1.0 + r, top - ARM_MM / 2
    return Spot(spot, box_uv((min(sizes.mid_r, end - 2.0), spot[0]), (top - ARM_MM, top)))
