"""A swivel: a base screwed to the surface, an M8 bolt whose head lies in it, and the carrier that turns on its face.

The bolt's head and washer lie in a recess of the base on the side of the surface, a washer and a locking nut in a
recess under the hose. It is put together at the bench; then the carrier is turned across and the base screwed on.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.errors import RefusalError
from fitwright.outline import Outline
from fitwright.outline_union import Region, union
from fitwright.parts.gate.lengths import sold_mm
from fitwright.parts.hanger.base_channel import bolt_point, channel_fixing, clamped_mm, hole_begins, rib, rib_relief
from fitwright.parts.hanger.base_plate import edge_mm, out_mm, screw_holes, wood_point
from fitwright.parts.hanger.base_through import LIP_MM, WALL_MM, behind_mm, recess, under_mm
from fitwright.parts.hanger.cuts import Cut, Drilled
from fitwright.parts.hanger.fixing import Fixing, bolt_fixing, nut_fixing, wood_fixing
from fitwright.parts.hanger.mount_keys import key_of
from fitwright.parts.hanger.neck_need import TURNING_MM
from fitwright.parts.hanger.necks import neck_uv
from fitwright.parts.hanger.plan import Base, FixingPoint, SwivelBase
from fitwright.parts.hanger.recess import TOP
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.parts.hanger.site import HOSE_CLEAR_MM, Site
from fitwright.parts.hanger.wood_length import wood_screw_mm
from fitwright.parts.hanger.wood_span import span_of
from fitwright.spec.hanger import HoseHangerSpec

KINDS = ("flat", "joist_underside", "strut", "t_slot", "batten")
GAP_MM = 0.3
"""Between base and carrier as modelled: a quarter of a turn back from tight."""
SUNK_MM = 0.5
"""The bolt's head stays so far behind the surface."""
PAST_NUT_MM = 1.5
"""Thread that stands out of the locking nut: one pitch and a little."""
NECK_MM = TURNING_MM
"""Half the carrier's neck, which sweeps a circle on the base."""
FOOT_MM = 6.0
"""Height at the least of the foot that turns on the base: lips, ears and what they need lie above it."""
LEAST_WALL_MM = 2.4
"""Of that recess on the side of a hook's lip."""
PAST_MM = 0.5
SAYS = (
    "put bolt, base, hanger and nut together at the bench; tighten the locking nut, then back it off a quarter turn; "
    "turn the hanger out of the way and screw the base on"
)


@dataclass(frozen=True)
class Pivot:
    """The bolt's lengths along v [mm], from the surface."""

    bolt: Fixing
    nut: Fixing
    head_v: float
    thick: float
    nut_v: float
    long: float

    @property
    def under_hose(self) -> float:
        """Where the hose may begin."""
        return self.nut_v + self.nut.washer_h + self.nut.head_k + PAST_NUT_MM + HOSE_CLEAR_MM


def pivot(spec: HoseHangerSpec) -> Pivot:
    """The bolt with what is round it; the carrier's web takes up what sold lengths leave over."""
    size = spec.mount.bolt if spec.mount.kind in ("flat", "joist_underside", "batten") else "M8"
    bolt, nut = bolt_fixing(spec, size), nut_fixing(spec, size)
    web = under_mm(bolt)
    head = bolt.washer_h + bolt.head_k + SUNK_MM
    thick = head + web
    if spec.mount.kind in ("strut", "t_slot"):
        thick = clamped_mm(spec, channel_fixing(spec), thick)
    fixed = 2 * bolt.washer_h + thick - head + GAP_MM + nut.head_k + PAST_NUT_MM
    long = sold_mm(bolt.row, fixed + web, key_of(spec, "bolt"))
    return Pivot(bolt, nut, head, thick, thick + GAP_MM + long - fixed, long)


def swivel_axis_mm(spec: HoseHangerSpec, base_v: float, bore_r: float) -> float:
    """From the surface to the hose's axis, at the least."""
    one = pivot(spec)
    return max(one.thick + GAP_MM + FOOT_MM + base_v, one.under_hose + bore_r)


def swivel_wide_mm(spec: HoseHangerSpec) -> float:
    """The width of the carrier that the nut's recess needs."""
    return behind_mm(pivot(spec).nut) * 2


def swivel(site: Site) -> Base:
    """What the carrier has of it, and the base that it turns on."""
    spec = site.spec
    _refuse(spec)
    one, u = pivot(spec), site.sizes.axes_u[0]
    y = site.sizes.wide / 2
    under = one.thick + GAP_MM
    half = max(NECK_MM, one.nut.recess_d / 2 * TOP + 4.0)
    hole = Drilled("swivel hole", u, y, one.bolt.hole_d, under - PAST_MM, one.nut_v, "swivel")
    cuts: tuple[Cut, ...] = (hole, *recess(site, one.nut, "swivel nut", u, y, one.nut_v))
    adds = _foot(site, one, u, half), neck_uv((u, site.axis), site.sizes, _column(site, one), under)
    base = _base(site, one, u, y, half)
    points = base[1]
    return Base(
        thick=under,
        u=(u - half, u + half),
        adds=adds,
        cuts=cuts,
        points=points,
        neck_v=under,
        neck_half=half,
        swivel=base[0],
        kind="swivel",
        facts={"swivel": SAYS},
        y=(base[0].y0, base[0].y1),
    )


def _foot(site: Site, one: Pivot, u: float, half: float) -> Outline:
    """What turns on the base, up to where lips and ears need room, and no higher than the nut."""
    under, room = one.thick + GAP_MM, site.axis - max(carrier.base_v for carrier in site.carriers)
    return box_uv((u - half, u + half), (under, min(room, max(one.nut_v, under + FOOT_MM))))


def _column(site: Site, one: Pivot) -> tuple[float, float]:
    """The walls of the nut's recess along u, clear of the lip of a hook that opens along the surface."""
    sizes, spec = site.sizes, site.spec
    wall = one.nut.recess_d / 2 + WALL_MM
    if spec.style != "hook" or site.opens_away:
        return -wall, wall
    free = sizes.bore_r * math.cos(math.radians(sizes.lip_deg)) - LIP_MM
    if free < one.nut.recess_d / 2 + LEAST_WALL_MM:
        why = f"in so small a hook the recess of the swivel's nut ({one.nut.recess_d:.0f} mm) would cut into its lip"
        found = f"a hook for {spec.carried.size.greatest_mm:g} mm that opens along the surface"
        raise RefusalError("swivel", found, "a saddle or a clamp with swivel: yes, or swivel: no", why)
    return (-wall, min(wall, free)) if sizes.opens[0] > 0.0 else (max(-wall, -free), wall)


def _refuse(spec: HoseHangerSpec) -> None:
    mount = spec.mount
    if mount.kind not in KINDS or mount.side in ("left", "right"):
        found = f"{mount.kind} on the {mount.side}" if mount.side in ("left", "right") else mount.kind
        allowed = "ceiling, joist_underside, strut, t_slot or batten, up or down"
        raise RefusalError("swivel", f"yes, {found}", allowed, "it turns about an upright bolt")
    if spec.count > 1:
        raise RefusalError("count", f"{spec.count}", "1", "a swivel carries one hose")


def _base(site: Site, one: Pivot, u: float, y: float, neck: float) -> tuple[SwivelBase, tuple[FixingPoint, ...]]:
    spec, wide = site.spec, site.sizes.wide
    channel, along = spec.mount.kind in ("strut", "t_slot"), _along(spec)
    fixing = channel_fixing(spec) if channel else wood_fixing(spec)
    away = math.hypot(neck, max(y, wide - y)) + out_mm(fixing)
    half, side = away + edge_mm(fixing), max(neck, edge_mm(fixing))
    us, ys = ((u - side, u + side), (y - half, y + half)) if along else ((u - half, u + half), (0.0, wide))
    places = [(u, y + s * away) if along else (u + s * away, y) for s in (-1.0, 1.0)]
    points = tuple(_point(site, fixing, at, one.thick, channel) for at in places)
    outlines: list[Outline] = [box_uv(us, (0.0, one.thick))]
    head_from = begins = 0.0
    relief: tuple[Cut, ...] = ()
    if channel and along:
        outlines.append(rib(spec, u))
        relief = rib_relief(spec, u, [(y, one.bolt.recess_d), *((p.y, p.hole_d) for p in points)])
        head_from, begins = hole_begins(spec, one.bolt.recess_d), hole_begins(spec, fixing.hole_d)
    profile: Region = union(outlines)[0]
    head = Drilled("swivel head", u, y, one.bolt.recess_d, head_from - PAST_MM, one.head_v, "swivel", False)
    hole = Drilled("swivel hole", u, y, one.bolt.hole_d, one.head_v, one.thick + PAST_MM, "swivel")
    cuts: tuple[Cut, ...] = (*relief, head, hole, *screw_holes(points, begins))
    made = SwivelBase(
        profile, *ys, cuts, 1 + len(points), one.thick, GAP_MM, one.head_v, u, y, one.nut_v, one.bolt.row, one.long
    )
    return made, points


def _along(spec: HoseHangerSpec) -> bool:
    """Whether the base lies along the hose: on what runs that way."""
    return spec.mount.along and spec.mount.kind in ("joist_underside", "strut", "t_slot")


def _point(site: Site, fixing: Fixing, at: tuple[float, float], head_v: float, channel: bool) -> FixingPoint:
    if channel:
        return bolt_point(site, fixing, at, head_v, "turned")
    span = span_of(site.spec, site.sizes.wide, at[0] if _along(site.spec) else site.sizes.axes_u[0])
    return wood_point(site, fixing, at, head_v, "turned", wood_screw_mm(site.spec, fixing, head_v), span)
