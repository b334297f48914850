"""By screws in holes that are there already: each lies beside the hose or under it, or is refused."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.outline import Outline
from fitwright.parts.compensation import placed, small_hole
from fitwright.parts.gate.refusals import or_more
from fitwright.parts.hanger.base_plate import EDGE, PLATE_MM, edge_mm, out_mm, too_long
from fitwright.parts.hanger.base_through import RIM_MM, UNDER_LIP_MM, blocked, cuts_of, head_v, pad, plate_ends
from fitwright.parts.hanger.fixing import Fixing, bolt_fixing, wood_fixing_of
from fitwright.parts.hanger.mount_keys import key_of
from fitwright.parts.hanger.plan import Base, FixingPoint
from fitwright.parts.hanger.recess import TOP
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.parts.hanger.site import AWAY, Site
from fitwright.spec.hanger import HoseHangerSpec
from fitwright.spec.joints import Holes

UNDER_OF_BORE = 0.6
"""A head lies under the hose where its recess ends within so much of the bore's radius: beyond, the ground is steep."""
BETWEEN_MM = 2.0


def holes_of(spec: HoseHangerSpec) -> Holes:
    """The given holes; RefusalError where there are none."""
    if spec.mount.holes is None:
        raise RefusalError(key_of(spec, "points"), "nothing", "the places of the holes", "which holes is not said")
    return spec.mount.holes


def hole_fixing(spec: HoseHangerSpec) -> Fixing:
    """The screws of the holes, with the clearance that was asked for."""
    holes = holes_of(spec)
    one = bolt_fixing(spec, holes.size, "pan") if holes.size.startswith("M") else wood_fixing_of(spec, holes.size)
    return replace(one, name=f"screw {one.row.name}", hole_d=small_hole(holes.hole_d_mm, spec.printer))


def under_hose_at(spec: HoseHangerSpec, fixing: Fixing, bore_r: float, opens_v: float, u: float) -> bool:
    """Whether a hole so far from an axis lies under the hose and is reached through the opening."""
    return opens_v > AWAY and abs(u) + fixing.recess_d / 2 <= UNDER_OF_BORE * bore_r


def holes_wide_mm(spec: HoseHangerSpec, bore_r: float, opens_v: float, axes: tuple[float, ...]) -> float:
    """The width that the places along the hose need; the pattern lies about its middle."""
    fixing, need = hole_fixing(spec), 0.0
    for place in holes_of(spec).points:
        near = min((place.right_mm - one for one in axes), key=abs)
        under = under_hose_at(spec, fixing, bore_r, opens_v, near)
        margin = max(EDGE * fixing.hole_d, TOP * fixing.recess_d / 2 + RIM_MM) if under else edge_mm(fixing)
        need = max(need, 2 * (abs(place.up_mm) + margin))
    return need


def holes(site: Site) -> Base:
    """A plate over all of them."""
    spec, fixing = site.spec, hole_fixing(site.spec)
    points = tuple(_point(site, fixing, k) for k in range(len(holes_of(spec).points)))
    _apart(spec, fixing, points)
    us = [p.u for p in points]
    ends = plate_ends(site, (min(us) - edge_mm(fixing), max(us) + edge_mm(fixing)))
    too_long(site, ends, key_of(spec, "points"))
    adds: list[Outline] = [box_uv(ends, (0.0, PLATE_MM))]
    adds += [box_uv(pad(site, fixing, p.u), (0.0, site.axis - UNDER_LIP_MM)) for p in points if p.kind == "through"]
    return Base(PLATE_MM, ends, tuple(adds), (), cuts_of(site, fixing, points), points, kind="holes")


def _point(site: Site, fixing: Fixing, number: int) -> FixingPoint:
    place = holes_of(site.spec).points[number]
    u, y = place.right_mm, site.sizes.wide / 2 + place.up_mm
    kind = _kind(site, fixing, u, number)
    head = head_v(site, fixing, u) if kind == "through" else PLATE_MM
    at = (placed(u, site.spec.printer), placed(y, site.spec.printer))
    return FixingPoint(*at, fixing.row, fixing.hole_d, head, kind, "thread", fixing.washer_d, fixing.washer_h, fixing)


def _kind(site: Site, fixing: Fixing, u: float, number: int) -> str:
    near = min((u - one for one in site.sizes.axes_u), key=abs)
    if under_hose_at(site.spec, fixing, site.sizes.bore_r, site.sizes.opens[1], near):
        if not blocked(site, u, fixing):
            return "through"
    elif not _hidden(site, fixing, u):
        return "beside"
    why = f"hole {number + 1} is hidden behind the arm: no driver reaches it"
    raise RefusalError(
        f"{key_of(site.spec, 'points')}[{number}]", f"{u:g} mm from the axis", _allowed(site, fixing), why
    )


def _hidden(site: Site, fixing: Fixing, u: float) -> bool:
    """Whether an arm stands before it, or the neck where its head would lie."""
    half = out_mm(fixing)
    far = site.axis + 3 * site.sizes.out_r
    both = zip(site.sizes.axes_u, site.carriers, strict=True)
    neck = any(at + one.neck_u[0] - half < u < at + one.neck_u[1] + half for at, one in both)
    return neck or site.stands(u, half, PLATE_MM, far)


def _allowed(site: Site, fixing: Fixing) -> str:
    """Where a hole would do."""
    out, inside = out_mm(fixing), UNDER_OF_BORE * site.sizes.bore_r - fixing.recess_d / 2
    low, high = site.reach_u[0] - out, site.reach_u[1] + out
    beside = f"{math.floor(low)} mm or less, or {math.ceil(high)} mm or more, from the middle"
    under = f", or within {math.floor(inside)} mm of an axis" if site.opens_away and inside > 0.0 else ""
    return beside + under


def _apart(spec: HoseHangerSpec, fixing: Fixing, points: tuple[FixingPoint, ...]) -> None:
    for (i, a), (j, b) in itertools.combinations(enumerate(points), 2):
        through = a.kind == "through" or b.kind == "through"
        need = (TOP * fixing.recess_d if through else fixing.bears_d) + BETWEEN_MM
        apart = math.dist((a.u, a.y), (b.u, b.y))
        if apart < need:
            why = f"the heads of holes {i + 1} and {j + 1} meet"
            found, allowed = f"{apart:.1f} mm apart", or_more(need, spec.units)
            raise RefusalError(f"{key_of(spec, 'points')}[{j}]", found, allowed, why)
