"""Screws and bolts under the hose, in line along it: heads in recesses that are reached through the opening."""

from __future__ import annotations

import math

from fitwright.errors import RefusalError
from fitwright.parts.gate.refusals import or_more
from fitwright.parts.hanger.base_plate import EDGE, PLATE_MM, apart_mm, screw_holes, wood_point
from fitwright.parts.hanger.cuts import FLARE_R_MM, Cut
from fitwright.parts.hanger.fixing import Fixing, wood_fixing
from fitwright.parts.hanger.mount_keys import wood_key
from fitwright.parts.hanger.necks import foot_span
from fitwright.parts.hanger.plan import Base, FixingPoint
from fitwright.parts.hanger.recess import TOP, Recess
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.parts.hanger.site import Site, sunk_mm
from fitwright.parts.hanger.wood_length import WOOD_EDGE_D, wood_screw_mm
from fitwright.parts.hanger.wood_span import span_of

RIM_MM = 0.71 * FLARE_R_MM + 0.7
"""A recess stays so far from the hanger's faces: it keeps clear of the bore's rounded rims."""
BETWEEN_MM = 2.5
"""Left between two recesses."""
LIP_MM = 1.0
"""From a hole for the driver to where a hook's lip begins."""
UNDER_LIP_MM = 3.0
"""Round a recess it stands no nearer to the plane of a saddle's lips: their rounding (R 2.5) stays free."""
WALL_MM, LEAST_WALL_MM = 4.0, 2.4
"""Round a recess; on the side of a hook's lip."""
LONGEST_GRIP_MM = 12.0
"""Where the neck is long, heads sink in so that no more is between them and the surface."""


def under_mm(fixing: Fixing) -> float:
    """What is left under a head at the least."""
    return max(PLATE_MM, fixing.row.major_mm)


def before_mm(fixing: Fixing) -> float:
    """From the front face to the first screw's axis."""
    return max(EDGE * fixing.hole_d, fixing.recess_d / 2 + RIM_MM)


def behind_mm(fixing: Fixing) -> float:
    """From the last screw's axis to the back face: the recess's roof is there."""
    return max(EDGE * fixing.hole_d, TOP * fixing.recess_d / 2 + RIM_MM)


def pitch_mm(fixing: Fixing, wood: bool) -> float:
    """From screw to screw along the hose."""
    own = (1.0 + TOP) * fixing.recess_d / 2 + BETWEEN_MM
    return max(own, apart_mm(fixing)) if wood else own


def wide_for(fixing: Fixing, count: int, wood: bool) -> float:
    """The width [mm] that so many in line need."""
    return before_mm(fixing) + behind_mm(fixing) + (count - 1) * pitch_mm(fixing, wood)


def least_axis_mm(fixing: Fixing, bore_r: float) -> float:
    """From the surface to the axis, so that heads in recesses have enough under them."""
    return bore_r + sunk_mm(fixing) + under_mm(fixing)


def in_line_y(site: Site, fixing: Fixing, count: int, wood: bool) -> list[float]:
    """Places along the hose; RefusalError where the width has no room."""
    need, wide = wide_for(fixing, count, wood), site.sizes.wide
    if wide < need - 1e-6:
        why = f"{count} in line under the hose need more"
        raise RefusalError("width", f"{wide:g} mm", or_more(need, site.spec.units), why)
    if count == 1:
        return [min(wide / 2, wide - behind_mm(fixing))]
    first, last = before_mm(fixing), wide - behind_mm(fixing)
    slack = (last - first - (count - 1) * pitch_mm(fixing, wood)) / 4
    first, last = first + slack, last - slack
    return [first + k * (last - first) / (count - 1) for k in range(count)]


def head_v(site: Site, fixing: Fixing, u: float) -> float:
    """Where a head in a recess at u bears."""
    deepest = site.hose_v(u, fixing.recess_d / 2) - sunk_mm(fixing)
    return max(min(deepest, max(LONGEST_GRIP_MM, under_mm(fixing))), min(deepest, under_mm(fixing)))


def recess(site: Site, fixing: Fixing, name: str, u: float, y: float, v: float) -> tuple[Cut, ...]:
    """From where the head bears into the bore, and where an arm is in the way of the driver a hole through that."""
    _free_of_carrier(site, fixing)
    hole = Recess(f"{name} recess", u, y, fixing.recess_d, v, site.axis, "mount")
    if not blocked(site, u, fixing):
        return (hole,)
    far = site.axis + site.sizes.out_r + 1.0
    return hole, Recess(f"{name} driver hole", u, y, fixing.driver_d, site.axis, far, "mount", True)


def _free_of_carrier(site: Site, fixing: Fixing) -> None:
    """No band passes under the hose where the head lies, and a hook's lip is clear of the hole for the driver."""
    spec, sizes = site.spec, site.sizes
    if spec.style == "clamp" and spec.clamp.kind == "band":
        why = "the band passes under the pipe where this mount has its screw or nut"
        raise RefusalError("clamp.band", "a band", "clamp: {screws: M5}, or a mount with screws beside the pipe", why)
    room = sizes.bore_r * math.cos(math.radians(sizes.lip_deg)) - LIP_MM
    if spec.style == "hook" and not site.opens_away and room < fixing.driver_d / 2:
        why = f"in so small a hook the hole for the driver ({fixing.driver_d:.0f} mm) would cut into its lip"
        size = f"{spec.carried.size.greatest_mm:g} mm"
        raise RefusalError("hook", f"a hook for {size}", "a saddle or a clamp, or screws beside it", why)


def blocked(site: Site, u: float, fixing: Fixing) -> bool:
    """Whether an arm stands before the head."""
    return site.stands(u, fixing.driver_d / 2, site.axis, site.axis + 3 * site.sizes.out_r)


def middle_u(site: Site, fixing: Fixing) -> float:
    """The axis under which the line lies: the middle hose's; RefusalError where an even number leaves no middle."""
    axes = site.sizes.axes_u
    if len(axes) % 2:
        return axes[len(axes) // 2]
    why = "what runs along the hoses lies between two of them, where no screw has room"
    raise RefusalError("count", f"{len(axes)}", f"{len(axes) - 1} or {len(axes) + 1}, or a mount across the hoses", why)


def pad(site: Site, fixing: Fixing, u: float) -> tuple[float, float]:
    """What has to be there round a recess, along u; it ends before the lip of a hook that opens along the surface."""
    half = fixing.recess_d / 2 + WALL_MM
    low, high = u - half, u + half
    free = lip_free_u(site, fixing, u)
    if free is None:
        return low, high
    return (low, min(high, free)) if site.sizes.opens[0] > 0.0 else (max(low, free), high)


def lip_free_u(site: Site, fixing: Fixing, u: float) -> float | None:
    """How far along u it may reach beside a hook's lip; None where no lip is near. RefusalError without room."""
    sizes = site.sizes
    if site.spec.style != "hook" or site.opens_away:
        return None
    way = math.copysign(1.0, sizes.opens[0])
    axis = min(sizes.axes_u, key=lambda one: abs(one - u))
    free = axis + way * (sizes.bore_r * math.cos(math.radians(sizes.lip_deg)) - LIP_MM)
    if (free - u) * way < fixing.recess_d / 2 + LEAST_WALL_MM:
        why = f"in so small a hook the recess under the hose ({fixing.recess_d:.0f} mm) would cut into its lip"
        found = f"a hook for {site.spec.carried.size.greatest_mm:g} mm that opens along the surface"
        raise RefusalError("hook", found, "a hook that opens away from the surface, a saddle or a clamp", why)
    return free


def through(site: Site) -> Base:
    """Screws into wood in line under the hose."""
    spec, fixing = site.spec, wood_fixing(site.spec)
    u, count = middle_u(site, fixing), spec.mount.screws.count or 2
    span = span_of(spec, site.sizes.wide, u)
    _inside_wood(site, fixing, span.half_u)
    v = head_v(site, fixing, u)
    long = wood_screw_mm(spec, fixing, v)
    ys = in_line_y(site, fixing, count, True)
    points = tuple(wood_point(site, fixing, (u, y), v, "through", long, span) for y in ys)
    ends = plate_ends(site, pad(site, fixing, u))
    adds = box_uv(ends, (0.0, PLATE_MM)), box_uv(pad(site, fixing, u), (0.0, site.axis - UNDER_LIP_MM))
    return Base(PLATE_MM, ends, adds, (), cuts_of(site, fixing, points), points, kind="through")


def cuts_of(site: Site, fixing: Fixing, points: tuple[FixingPoint, ...], v0: float = 0.0) -> tuple[Cut, ...]:
    """Holes and recesses of screws under the hose, and holes of those beside it."""
    made: list[Cut] = list(screw_holes(points, v0))
    for k, p in enumerate(points, start=1):
        if p.kind == "through":
            made += recess(site, fixing, f"screw {k}", p.u, p.y, p.head_v)
    return tuple(made)


def plate_ends(site: Site, least: tuple[float, float]) -> tuple[float, float]:
    """A plate that is as wide as the widest necks above it."""
    low, high = foot_span(site.sizes)
    axes = site.sizes.axes_u
    return min(min(axes) + low, least[0]), max(max(axes) + high, least[1])


def _inside_wood(site: Site, fixing: Fixing, half: float) -> None:
    need = WOOD_EDGE_D * fixing.row.major_mm
    if half < need:
        why = f"a screw of {fixing.row.major_mm:g} mm wants {need:.1f} mm of wood on either side"
        raise RefusalError(wood_key(site.spec, "width"), f"{2 * half:g} mm", or_more(2 * need, site.spec.units), why)
