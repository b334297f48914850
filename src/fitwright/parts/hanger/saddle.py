"""A saddle: half a ring under the hose, with a slotted ear at each lip for a strap; its lips are rounded."""

from __future__ import annotations

import math

from fitwright.errors import RefusalError
from fitwright.outline import Outline, Point, through
from fitwright.parts.hanger.cuts import Cut, Window, lip_rims, rims
from fitwright.parts.hanger.declared import bore, cradle
from fitwright.parts.hanger.necks import neck_span
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.shapes_uv import axes_uv, polar, turned_box
from fitwright.spec.hanger import HoseHangerSpec

EAR_MM, EAR_END_MM = 10.0, 5.0
"""Thickness of an ear along the strap, and what is left of it beyond the slot."""
LIP_R_MM, CORNER_R_MM = 2.5, 2.0
"""Of the lip that the hose lies against, and of the ear's outer corners."""
STRAP_SLACK_MM = 1.0
"""A slot is so much longer (at each end) and thicker than the strap (common practice, no source)."""
BESIDE_SLOT_MM = 4.0
"""Of the width, on each side of a slot."""


def saddle_lip_deg(bore_r: float) -> float:
    """Where the bore goes over into the rounded lip, from the opening [deg]."""
    return 90.0 + math.degrees(math.asin(LIP_R_MM / (bore_r + LIP_R_MM)))


def slot_mm(spec: HoseHangerSpec) -> float:
    """A slot's own thickness [mm]."""
    return spec.strap.thick_mm + STRAP_SLACK_MM


def ear_mm(sizes: Sizes, spec: HoseHangerSpec) -> float:
    """From the bore to an ear's end [mm]."""
    return sizes.arm + slot_mm(spec) + EAR_END_MM


def least_shared_mm(sizes: Sizes, spec: HoseHangerSpec) -> float:
    """From axis to axis of saddles that share an ear: both straps go through its slot [mm]."""
    return 2 * sizes.out_r + 2 * spec.strap.thick_mm + STRAP_SLACK_MM


def saddle(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    """The saddle round the axis at (u, v)."""
    slots = _slot_y(sizes, spec)
    at, alpha, key = Placed(spec.mount.side, v), sizes.opens_deg, spec.carried.key
    ears = tuple(_ear(sizes, spec, u, sign) for sign in (1.0, -1.0))
    drawn = outline_of(sizes, (u, v), (ears[0][0], ears[1][0]))
    sector = alpha + sizes.lip_deg, 360.0 - 2 * sizes.lip_deg
    cuts: list[Cut] = [*rims(u, v, sizes.bore_r, sizes.wide, sector, f"rim {number}".strip())]
    for sign, side, (_, slot) in zip((1.0, -1.0), ("one", "other"), ears, strict=True):
        cuts += _lip_cuts(sizes, (u, v), sign, f"lip {number}{side} side")
        if slot:
            low = -2 * sizes.out_r if to_surface(sizes, sign) else -EAR_MM - 1.0
            across = (slot[0], slot[1]) if sign > 0 else (-slot[1], -slot[0])
            window = turned_box((u, v), alpha, (low, 1.0), across)
            cuts.append(Window(f"strap slot {number}{side} side", window, *slots, key="saddle.strap"))
    box = drawn.bounds_mm
    return Carrier(
        (drawn,),
        (),
        tuple(cuts),
        (box[0] - u, box[2] - u),
        v - box[1] if abs(sizes.opens[1]) < 0.7 else sizes.out_r,
        neck_span(sizes),
        rounds=(bore(at, sizes, u, sector, f"bore {number}".strip(), key),),
        cradles=(cradle(at, sizes, u, sector, f"saddle {number}".strip(), key),),
    )


def outline_of(sizes: Sizes, at: Point, ends: tuple[float, float]) -> Outline:
    """Half a ring with ears that end `ends` from its axis (anticlockwise side first), lips and corners rounded."""
    there, r, out, lip = axes_uv(at, sizes.opens_deg), sizes.bore_r, sizes.out_r, sizes.lip_deg
    corner, root = math.sqrt(0.5) * CORNER_R_MM, math.sqrt(out**2 - EAR_MM**2)

    def ear(end: float, sign: float) -> list[tuple[Point, Point | None]]:
        """Corners from the bore to the ring's outside, each with the middle of the arc that leads to it."""
        c, k, p = _lip_c(r), end - CORNER_R_MM, LIP_R_MM
        turn = math.radians(lip + 180.0) / 2 + math.pi
        mid = -p + p * math.cos(turn), c + p * math.sin(turn)
        found: list[tuple[Point, Point | None]] = [
            ((r * math.cos(math.radians(lip)), r * math.sin(math.radians(lip))), None),
            ((0.0, c), mid),
            ((0.0, k), None),
            ((-CORNER_R_MM, end), (-CORNER_R_MM + corner, k + corner)),
            ((-EAR_MM + CORNER_R_MM, end), None),
            ((-EAR_MM, k), (-EAR_MM + CORNER_R_MM - corner, k + corner)),
            ((-EAR_MM, root), None),
        ]
        return [((a, sign * b), via and (via[0], sign * via[1])) for (a, b), via in found]

    one, other = ear(ends[0], 1.0), ear(ends[1], -1.0)
    corners = [p for p, _ in one] + [p for p, _ in reversed(other)]
    via = [(-r, 0.0), *(m for _, m in one[1:]), (-out, 0.0), *(m for _, m in reversed(other[1:]))]
    return through([there(*p) for p in corners], [m and there(*m) for m in via])


def _lip_c(bore_r: float) -> float:
    """From the saddle's middle plane to the middle of a lip's round."""
    return math.sqrt((bore_r + LIP_R_MM) ** 2 - LIP_R_MM**2)


def _lip_cuts(sizes: Sizes, at: Point, sign: float, name: str) -> list[Cut]:
    middle = axes_uv(at, sizes.opens_deg)(-LIP_R_MM, sign * _lip_c(sizes.bore_r))
    sweep = 180.0 - sizes.lip_deg
    start = sizes.opens_deg - sweep if sign > 0 else sizes.opens_deg
    return [*lip_rims(middle, LIP_R_MM, sizes.wide, (start, sweep), name)]


def _ear(sizes: Sizes, spec: HoseHangerSpec, u: float, sign: float) -> tuple[float, tuple[float, float] | None]:
    """Where an ear ends, and its slot, both counted from the axis; None where the neighbour cuts the shared slot."""
    slot = sizes.out_r, sizes.out_r + slot_mm(spec)
    end = sizes.bore_r + ear_mm(sizes, spec)
    way = polar((0.0, 0.0), sign, sizes.opens_deg + 90.0)[0]
    beside = any((other - u) * way > 1e-6 for other in sizes.axes_u)
    if not beside or abs(way) < 0.7 or sizes.apart > 2 * end + 1.0:
        return end, slot
    shared = (sizes.out_r, sizes.apart - sizes.out_r)
    return sizes.apart - sizes.mid_r, shared if way > 0 else None


def _slot_y(sizes: Sizes, spec: HoseHangerSpec) -> tuple[float, float]:
    """The slots along the hose; RefusalError where the saddle is too narrow for them."""
    long = spec.strap.wide_mm + 2 * STRAP_SLACK_MM
    need = long + 2 * BESIDE_SLOT_MM
    if sizes.wide < need - 1e-6:
        why = f"the saddle is too narrow for the slots of a strap {spec.strap.wide_mm:g} mm wide"
        raise RefusalError("width", f"{sizes.wide:g}", f"{need:g} mm or more, or a narrower saddle.strap", why)
    return (sizes.wide - long) / 2, (sizes.wide + long) / 2


def to_surface(sizes: Sizes, sign: float) -> bool:
    """Whether this lip points to the surface: its strap then goes on between arm and base, through the neck."""
    return sign * sizes.opens[0] < -0.7
