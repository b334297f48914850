"""An open hook: more than half a ring, its lips bent outwards and rounded, so that the hose is led in."""

from __future__ import annotations

import math

from fitwright.outline import Outline, Point
from fitwright.parts.hanger.cuts import Cut, lip_rims, rims
from fitwright.parts.hanger.declared import bore, cradle, throat
from fitwright.parts.hanger.necks import neck_span, roots_deg
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Carrier, Sizes
from fitwright.parts.hanger.shapes_uv import arc_uv, axes_uv, stroke_uv
from fitwright.spec.hanger import HoseHangerSpec

CURL = 1.0
"""Radius of a lip's middle line, in arm thicknesses."""
FLARED_DEG = 45.0
"""A lip's end leads away from the way in by so much."""
FREE_MM = 2.0
"""Between an arm and the base that it must not meet when it gives."""


def lip_deg(bore_r: float, arm: float, throat_mm: float) -> float:
    """Half the angle [deg] that the opening takes from the bore, so that the lips stand `throat_mm` apart.

    A lip's inner face is an arc about a point outside the ring; it starts where bore and arc touch.
    """
    curl, mid = CURL * arm, bore_r + arm / 2
    share = (throat_mm / 2 + curl + arm / 2) / (mid + curl)
    return math.degrees(math.asin(min(1.0, share)))


def hook(sizes: Sizes, spec: HoseHangerSpec, u: float, v: float, number: str) -> Carrier:
    """The hook round the axis at (u, v)."""
    at, lip, alpha = Placed(spec.mount.side, v), sizes.lip_deg, sizes.opens_deg
    drawn = outline_of(sizes, (u, v))
    sector = alpha + lip, 360.0 - 2 * lip
    cuts: list[Cut] = [*rims(u, v, sizes.bore_r, sizes.wide, sector, f"rim {number}".strip())]
    for sign, side in ((1.0, "one"), (-1.0, "other")):
        cuts += _lip_cuts(sizes, (u, v), sign, f"lip {number}{side} side")
    key = spec.carried.key
    box = drawn.bounds_mm
    reach = box[0] - u, box[2] - u
    low = v - box[1]
    stands = low if abs(sizes.opens[1]) > 0.7 else low + FREE_MM + _gives(spec, sizes)
    narrowest = (sizes.mid_r + CURL * sizes.arm) * math.cos(math.radians(lip))
    meant = (sizes.throat_printed, spec.carried.size.nominal_mm)
    return Carrier(
        (drawn,),
        (),
        tuple(cuts),
        reach,
        stands,
        neck_span(sizes),
        cradles=(cradle(at, sizes, u, sector, f"hook {number}".strip(), key),),
        throats=(throat(at, sizes, u, narrowest, meant, _arms(sizes)),),
        rounds=(bore(at, sizes, u, sector, f"bore {number}".strip(), key),),
    )


def _gives(spec: HoseHangerSpec, sizes: Sizes) -> float:
    """How far [mm] an arm gives when a pipe snaps in; a hose gives itself."""
    return max(0.0, (2 * sizes.bore_r - sizes.throat) / 2) if spec.carried.kind == "pipe" else 0.0


def _arms(sizes: Sizes) -> tuple[float, float]:
    """From root to lip of each arm [deg], first the one on the other side (at -across)."""
    one, other = roots_deg(sizes.bore_r, sizes.arm, sizes.opens, sizes.neck)
    return other - sizes.lip_deg, one - sizes.lip_deg


def outline_of(sizes: Sizes, at: Point) -> Outline:
    """The hook's outline, of even thickness: lip, ring, lip."""
    lip, alpha, curl = sizes.lip_deg, sizes.opens_deg, CURL * sizes.arm
    bend = 90.0 - lip + FLARED_DEG
    one, other = (_curl_at(sizes, at, sign) for sign in (1.0, -1.0))
    path = [
        arc_uv(one, curl, alpha + 270.0 + FLARED_DEG, -bend),
        arc_uv(at, sizes.mid_r, alpha + lip, 360.0 - 2 * lip),
        arc_uv(other, curl, alpha + 180.0 - lip, -bend),
    ]
    return stroke_uv(path, sizes.arm)


def _curl_at(sizes: Sizes, at: Point, sign: float) -> Point:
    """The centre of a lip's arc."""
    far, lip = sizes.mid_r + CURL * sizes.arm, math.radians(sizes.lip_deg)
    return axes_uv(at, sizes.opens_deg)(far * math.cos(lip), sign * far * math.sin(lip))


def _lip_cuts(sizes: Sizes, at: Point, sign: float, name: str) -> list[Cut]:
    """The rims of one lip: of its inner face, then of its end."""
    there, curl, r = _curl_at(sizes, at, sign), CURL * sizes.arm, CURL * sizes.arm + sizes.arm / 2
    bend = 90.0 - sizes.lip_deg + FLARED_DEG
    # from the end of the lip back to the bore, seen from the lip's centre: sign +1 as drawn, -1 mirrored
    end = sizes.opens_deg + sign * (270.0 + FLARED_DEG)
    start = end - bend if sign > 0 else end
    cuts: list[Cut] = [*lip_rims(there, r, sizes.wide, (start, bend), name)]
    tip, quarter = axes_uv(there, end)(curl, 0.0), end if sign > 0 else end - 90.0
    return [*cuts, *lip_rims(tip, sizes.arm / 2, sizes.wide, (quarter, 90.0), f"{name} end")]
