"""The base plate on the surface, its screws beside the hoses: joist, wall, ceiling, batten."""

from __future__ import annotations

import math

from fitwright.errors import RefusalError
from fitwright.parts.compensation import placed
from fitwright.parts.gate.refusals import at_most, or_more
from fitwright.parts.hanger.bed_room import lies_on_bed
from fitwright.parts.hanger.cuts import Drilled
from fitwright.parts.hanger.fixing import Fixing, wood_fixing
from fitwright.parts.hanger.mount_keys import key_of, wood_key
from fitwright.parts.hanger.plan import Base, FixingPoint
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.parts.hanger.site import Site
from fitwright.parts.hanger.wood_length import WOOD_EDGE_D, wood_deep_mm, wood_screw_mm
from fitwright.parts.hanger.wood_size import PLATE_MM as PLATE_MM
from fitwright.parts.hanger.wood_size import plate_mm
from fitwright.parts.hanger.wood_span import Span, span_of

EDGE = 1.5
"""Hole centre to edge in hole diameters, at the least (common practice, no source)."""
ROOM_MM = 1.5
"""Between a washer and what stands beside it."""
APART_D = 5.0
"""Between screws in wood, in diameters: 5 along the grain with a pilot hole (EN 1995-1-1, table 8.2, from memory)."""
PAST_MM = 0.5
LEAST_SIZE_MM = 20.0
"""No hose is thinner: a lower limit helps nobody."""
MOST_COLUMNS = 4
UNDER_HOSE = "joist_underside or strut: {runs: along}"


def out_mm(fixing: Fixing) -> float:
    """From a screw's axis to what stands beside it."""
    return fixing.bears_d / 2 + ROOM_MM


def edge_mm(fixing: Fixing) -> float:
    """From a screw's axis to the edge of the print: for its washer, and so that it does not split."""
    return max(EDGE * fixing.hole_d, out_mm(fixing))


def apart_mm(fixing: Fixing) -> float:
    """Between two screws in wood."""
    return max(fixing.bears_d + ROOM_MM, APART_D * fixing.row.major_mm)


def beside(site: Site) -> Base:
    """A plate with screws at both ends, clear of all that reaches along u between them."""
    spec, fixing = site.spec, wood_fixing(site.spec)
    thick = plate_mm(site.spec)
    span = span_of(spec, site.sizes.wide, sum(site.reach_u) / 2)
    each = _each_end(spec.mount.screws.count, key_of(spec, "screws.count"))
    ys = rows_y(site, fixing, span, each)
    columns = math.ceil(each / len(ys))
    low, high = site.beside_u(fixing, ROOM_MM, thick)
    step = apart_mm(fixing)
    places = [(u, y) for k in range(columns) for u in (low - k * step, high + k * step) for y in ys]
    ends = low - (columns - 1) * step - edge_mm(fixing), high + (columns - 1) * step + edge_mm(fixing)
    _not_higher_than_joist(site, ends, span)
    long = wood_screw_mm(spec, fixing, thick)
    points = tuple(wood_point(site, fixing, at, thick, "beside", long, span) for at in places)
    return Base(thick, ends, (box_uv(ends, (0.0, thick)),), (), screw_holes(points), points)


def fits_beside(site: Site) -> bool:
    """Whether the plate with screws beside the hose lies on the bed."""
    base = beside(site)
    return lies_on_bed(base.u[1] - base.u[0], site.axis, site.spec.printer)


def too_long_for_bed(site: Site) -> RefusalError:
    """The refusal, with the greatest size that works."""
    base, spec = beside(site), site.spec
    size, long, less = spec.carried.size.greatest_mm, base.u[1] - base.u[0], 0.0
    why = f"with its screws beside the hose the plate is {long:.0f} mm long, and no bed of the printer's size takes it"
    for count in range(spec.count - 1, 0, -1):
        if lies_on_bed(long - (spec.count - count) * site.sizes.apart, site.axis, spec.printer):
            works = f"{count} on one hanger" if count == 1 else f"{count} or fewer on one hanger"
            return RefusalError("count", f"{spec.count}", f"{works}, or a larger bed", why)
    while less < size and not lies_on_bed(long - less, site.axis - less / 2, spec.printer):
        less += 1.0
    works = f"{at_most(size - less, spec.units)} on this mount"
    if size - less < LEAST_SIZE_MM:
        works = f"a printer whose bed takes {long:.0f} mm, or a mount with its screws under the hose: {UNDER_HOSE}"
        if (screws := spec.mount.screws.count or 2) > MOST_COLUMNS:
            works = f"fewer screws ({screws} are asked for), {works}"
        works += f" (the rest of the plate, {long - size:.0f} mm, is too long by itself)"
    return RefusalError(spec.carried.key, f"{size:g} mm", works, why)


def too_long(site: Site, ends: tuple[float, float], key: str) -> None:
    """RefusalError where a plate between these ends lies on no part of the bed."""
    long = ends[1] - ends[0]
    if not lies_on_bed(long, site.axis, site.spec.printer):
        most = math.hypot(site.spec.printer.bed_x_mm, site.spec.printer.bed_y_mm)
        why = "the plate that reaches them does not lie on the printer's bed"
        raise RefusalError(key, f"a plate of {long:.0f} mm", f"well below {most:.0f} mm", why)


def wood_point(
    site: Site, fixing: Fixing, at: tuple[float, float], head_v: float, kind: str, long: float, span: Span
) -> FixingPoint:
    """One screw into wood."""
    u, y = (placed(one, site.spec.printer) for one in at)
    return FixingPoint(
        u,
        y,
        fixing.row,
        fixing.hole_d,
        head_v,
        kind,
        "wood",
        fixing.washer_d,
        fixing.washer_h,
        fixing,
        long,
        0.0,
        wood_deep_mm(site.spec),
        span.edge_mm(u, y),
    )


def screw_holes(points: tuple[FixingPoint, ...], v0: float = 0.0, key: str = "mount.screws") -> tuple[Drilled, ...]:
    """Their clearance holes, from `v0` to where the heads bear."""
    return tuple(
        Drilled(f"screw hole {k}", p.u, p.y, p.hole_d, v0 - PAST_MM, p.head_v + (p.kind != "through") * PAST_MM, key)
        for k, p in enumerate(points, start=1)
    )


def rows_y(site: Site, fixing: Fixing, span: Span, most: int) -> list[float]:
    """Where rows of screws lie across the width, as many as there is room for, `most` at the most."""
    wide, d = site.sizes.wide, fixing.row.major_mm
    half = min(wide / 2 - edge_mm(fixing), span.half_y - WOOD_EDGE_D * d)
    if half < 0.0:
        if span.half_y < wide / 2:
            why = f"a screw of {d:g} mm wants {WOOD_EDGE_D * d:.1f} mm of wood on either side"
            allowed = or_more(2 * WOOD_EDGE_D * d, site.spec.units)
            raise RefusalError(wood_key(site.spec, "width"), f"{2 * span.half_y:g} mm", allowed, why)
        why = "its screws need material all round"
        raise RefusalError("width", f"{wide:g} mm", or_more(2 * edge_mm(fixing), site.spec.units), why)
    rows = min(most, int(2 * half / apart_mm(fixing)) + 1)
    if rows == 1:
        return [wide / 2]
    return [wide / 2 - half + k * 2 * half / (rows - 1) for k in range(rows)]


def _each_end(count: int | None, key: str) -> int:
    if count is None:
        return 1
    if count < 2 or count % 2:
        raise RefusalError(key, f"{count}", "2, 4, 6 or 8", "the screws stand in pairs, one on either side of the hose")
    return count // 2


def _not_higher_than_joist(site: Site, ends: tuple[float, float], span: Span) -> None:
    """The plate lies on the joist with all of its length, where that is not along it."""
    long = ends[1] - ends[0]
    if long <= 2 * span.half_u + 1e-6:
        return
    why = f"with its screws beside the hose the plate is {long:.0f} mm long and stands over the wood's edge"
    raise RefusalError(wood_key(site.spec, "depth"), f"{2 * span.half_u:g} mm", or_more(long, site.spec.units), why)
