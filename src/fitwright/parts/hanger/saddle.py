"""A saddle: half a ring under the hose, with a slotted ear at each lip for a strap."""

from __future__ import annotations

from fitwright.outline import Outline
from fitwright.parts.hanger.cuts import Cut, Flare, Window
from fitwright.parts.hanger.necks import neck_span
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.shapes_uv import sector_uv, turned_box
from fitwright.spec.hanger import HoseHangerSpec

EAR_MM, EAR_END_MM = 8.0, 4.0
"""Thickness of an ear along the strap, and what is left of it beyond the slot."""
STRAP_SLACK_MM = 1.0
"""A slot is so much longer and thicker than the strap (common practice, no source)."""


def saddle(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    """The saddle round the axis at (u, v)."""
    at, alpha, t = (u, v), sizes.opens_deg, sizes.arm
    slot = spec.strap.thick_mm + STRAP_SLACK_MM
    ear = t + slot + EAR_END_MM
    adds: list[Outline] = [sector_uv(at, sizes.bore_r, sizes.out_r, alpha + 90.0, 180.0)]
    cuts: list[Cut] = []
    half = (spec.strap.wide_mm + 2 * STRAP_SLACK_MM) / 2
    ys = sizes.wide / 2 - half, sizes.wide / 2 + half
    for sign, side in ((1.0, "one"), (-1.0, "other")):
        low, high = sorted((sign * sizes.bore_r, sign * (sizes.bore_r + ear)))
        adds.append(turned_box(at, alpha, (-EAR_MM, 0.0), (low, high)))
        low, high = sorted((sign * sizes.out_r, sign * (sizes.out_r + slot)))
        drawn = turned_box(
            at, alpha, (-2 * sizes.out_r if _to_surface(sizes, sign) else -EAR_MM - 1.0, 1.0), (low, high)
        )
        cuts.append(Window(f"strap slot {number}{side} side", drawn, *ys, key="strap"))
    flare = (sizes.bore_r, alpha + 90.0, 180.0)
    cuts += [Flare(f"rim {number}front", u, v, flare[0], 0.0, 1.0, *flare[1:])]
    cuts += [Flare(f"rim {number}back", u, v, flare[0], sizes.wide, -1.0, *flare[1:])]
    lows, highs = zip(*((b[0] - u, b[2] - u) for b in (one.bounds_mm for one in adds)), strict=True)
    return Carrier(tuple(adds), (), tuple(cuts), (min(lows), max(highs)), _to_base(sizes, ear), neck_span(sizes))


def _to_surface(sizes: Sizes, sign: float) -> bool:
    """Whether this lip points to the surface: its strap then goes on between arm and base, through the neck."""
    return sign * sizes.opens[0] < -0.7


def _to_base(sizes: Sizes, ear: float) -> float:
    """From the axis to the base's inner face: an ear that points to the base reaches it."""
    return sizes.bore_r + ear if abs(sizes.opens[1]) < 0.7 else sizes.out_r
