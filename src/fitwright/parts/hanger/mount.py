"""Which base a mount gets, and what it asks of the rest: distance to the axis, width."""

from __future__ import annotations

import math
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.hanging import HeldBy
from fitwright.parts.gate.refusals import or_more
from fitwright.parts.hanger.base_channel import (
    channel,
    channel_fixing,
    channel_plate_mm,
    clamped_mm,
    through_head,
    under_count,
    under_hose,
)
from fitwright.parts.hanger.base_holes import hole_fixing, holes, holes_of, holes_wide_mm, under_hose_at
from fitwright.parts.hanger.base_plate import beside, fits_beside, too_long_for_bed
from fitwright.parts.hanger.base_rod import TOP_MM, on_rod, rod_fixing, rod_wide_mm
from fitwright.parts.hanger.base_through import least_axis_mm, through, under_mm, wide_for
from fitwright.parts.hanger.base_tie import tie_thick_mm, tie_wide_mm, tied
from fitwright.parts.hanger.batten import on_batten
from fitwright.parts.hanger.fixing import Fixing, wood_fixing
from fitwright.parts.hanger.mount_keys import bolt_key, key_of
from fitwright.parts.hanger.placed import Placed
from fitwright.parts.hanger.plan import Base, Carrier, FixingPoint, Sizes
from fitwright.parts.hanger.site import AWAY, Site, sunk_mm
from fitwright.parts.hanger.swivel import swivel, swivel_axis_mm, swivel_wide_mm
from fitwright.parts.hanger.wood_length import wood_deep_mm
from fitwright.parts.hanger.wood_size import plate_mm
from fitwright.spec.hanger import HoseHangerSpec


def mount_wide_mm(spec: HoseHangerSpec, sizes: Sizes) -> float:
    """The width of the hanger: as asked, or more where that was not said and the mount needs it."""
    need = _wide_needed(spec, sizes)
    if need <= sizes.wide + 1e-6 or "width" in spec.defaulted:
        return max(need, sizes.wide)
    why = "the screws under the hose stand in line along it and need more"
    raise RefusalError("width", f"{sizes.wide:g} mm", or_more(need, spec.units), why)


def under_wide_mm(spec: HoseHangerSpec, sizes: Sizes, carriers: tuple[Carrier, ...]) -> float:
    """The width of a hanger whose screws go under the hose because the bed is too short for a plate beside it."""
    plain = max(one.base_v for one in carriers) + plate_mm(spec)
    if "width" not in spec.defaulted or not _must_go_under(Site(spec, sizes, carriers, plain)):
        return sizes.wide
    return max(sizes.wide, wide_for(wood_fixing(spec), spec.mount.screws.count or 2, True))


def _wide_needed(spec: HoseHangerSpec, sizes: Sizes) -> float:
    count = spec.mount.screws.count
    if spec.swivel:
        return swivel_wide_mm(spec)
    if spec.mount.kind == "holes":
        return holes_wide_mm(spec, sizes.bore_r, sizes.opens[1], sizes.axes_u)
    if spec.mount.kind in ("rod", "cable_tie"):
        return rod_wide_mm(spec) if spec.mount.kind == "rod" else tie_wide_mm(spec)
    fixing = _under_hose(spec, sizes)
    if fixing is None:
        return 0.0
    wood = spec.mount.kind == "joist_underside"
    return wide_for(fixing, count or 2 if wood else under_count(spec, fixing, sizes.wide), wood)


def _under_hose(spec: HoseHangerSpec, sizes: Sizes) -> Fixing | None:
    """The screws of a mount that lie under the hose."""
    if spec.mount.kind == "joist_underside" and spec.mount.along:
        return wood_fixing(spec)
    if spec.mount.kind in ("strut", "t_slot") and under_hose(spec):
        return channel_fixing(spec, through_head(spec, sizes.opens[1] > AWAY))
    return None


def mount_axis_mm(spec: HoseHangerSpec, sizes: Sizes, carriers: tuple[Carrier, ...]) -> float:
    """From the surface to the axis: as asked, else as near as it fits; RefusalError where asked is too near."""
    least = _least_axis_mm(spec, sizes, carriers)
    asked = spec.mount.axis_mm
    if asked is None:
        return least
    if asked < least - 1e-6:
        why = "what holds the hose and what holds the hanger need more between the surface and the axis"
        raise RefusalError(key_of(spec, "to_axis"), f"{asked:g} mm", or_more(least, spec.units), why)
    return asked


def _least_axis_mm(spec: HoseHangerSpec, sizes: Sizes, carriers: tuple[Carrier, ...]) -> float:
    base_v = max(one.base_v for one in carriers)
    if spec.swivel:
        return swivel_axis_mm(spec, base_v, sizes.bore_r)
    plain = base_v + plate_mm(spec)
    if spec.mount.kind == "cable_tie":
        return base_v + tie_thick_mm(spec)
    if spec.mount.kind == "rod":
        return max(base_v + TOP_MM, sizes.bore_r + sunk_mm(rod_fixing(spec)) + TOP_MM)
    if spec.mount.kind == "holes":
        return max(plain, _holes_axis_mm(spec, sizes))
    fixing = _under_hose(spec, sizes)
    if spec.mount.kind in ("strut", "t_slot"):
        if fixing is None:
            return base_v + channel_plate_mm(spec)
        return max(plain, sizes.bore_r + sunk_mm(fixing) + clamped_mm(spec, fixing, under_mm(fixing)))
    if fixing is None and _must_go_under(Site(spec, sizes, carriers, plain)):
        fixing = wood_fixing(spec)
    return plain if fixing is None else max(plain, least_axis_mm(fixing, sizes.bore_r))


def _holes_axis_mm(spec: HoseHangerSpec, sizes: Sizes) -> float:
    """What heads under the hose need; 0 where no hole lies there."""
    fixing = hole_fixing(spec)
    off = [min((place.right_mm - one for one in sizes.axes_u), key=abs) for place in holes_of(spec).points]
    under = [u for u in off if under_hose_at(spec, fixing, sizes.bore_r, sizes.opens[1], u)]
    return max((least_axis_mm(fixing, sizes.bore_r) for _ in under), default=0.0)


def _must_go_under(site: Site) -> bool:
    """On a flat surface: a plate with screws beside the hose would be longer than the bed, and there is a way in."""
    flat = site.spec.mount.kind == "flat" and not site.spec.swivel
    return flat and not fits_beside(site) and site.opens_away and len(site.carriers) % 2 == 1


def base_of(spec: HoseHangerSpec, sizes: Sizes, carriers: tuple[Carrier, ...], at: Placed) -> Base:
    """What lies on the surface, with what holds it declared."""
    site = Site(spec, sizes, carriers, at.axis_mm)
    base = _base(site)
    held = base.held or tuple(held_by(spec, p, at, k) for k, p in enumerate(base.points, start=1))
    return replace(base, held=held)


def _base(site: Site) -> Base:
    spec = site.spec
    kind = spec.mount.kind
    if spec.swivel:
        return on_batten(site, swivel(site)) if kind == "batten" else swivel(site)
    makers = {"strut": channel, "t_slot": channel, "holes": holes, "cable_tie": tied, "rod": on_rod}
    if kind in makers:
        return makers[kind](site)
    if _must_go_under(site) or (spec.mount.kind == "joist_underside" and spec.mount.along):
        return through(site)
    if not fits_beside(site):
        raise too_long_for_bed(site)
    return on_batten(site) if kind == "batten" else beside(site)


def held_by(spec: HoseHangerSpec, p: FixingPoint, at: Placed, number: int) -> HeldBy:
    """One fixing as the checks reckon it."""
    wood = p.into == "wood"
    return HeldBy(
        name=f"fixing {number}",
        size=p.row.name,
        d_mm=p.row.major_mm,
        at=at.point(p.u, p.y, 0.0),
        direction=at.direction(0.0, -1.0),
        into=p.into,
        key=key_of(spec, "screws") if wood else bolt_key(spec),
        grip_mm=max(0.0, p.tip_mm) if wood else 0.0,
        wood=spec.mount.wood.name if wood else "",
        deep_mm=wood_deep_mm(spec) if wood and wood_deep_mm(spec) < math.inf else 0.0,
        edge_mm=p.edge_mm,
        head=p.fixing.head if p.fixing else "pan",
        washer_d_mm=p.fixing.bears_d if p.fixing else p.washer_d,
        hole_d_mm=p.row.hole_mm(),
    )
