"""On strut channel or a T-slot rail: bolts into nuts that slide in it, and a rib in its slot where it runs along."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.data.channel_nuts import slot_nut, strut_nut
from fitwright.data.channels import ChannelRow, slot_channel, strut_channel
from fitwright.errors import DataError, RefusalError
from fitwright.outline import Outline
from fitwright.parts.compensation import modelled, placed
from fitwright.parts.gate.lengths import SOLD_MM, sold_mm
from fitwright.parts.hanger.base_plate import PAST_MM, PLATE_MM, ROOM_MM, edge_mm, screw_holes
from fitwright.parts.hanger.base_through import (
    UNDER_LIP_MM,
    cuts_of,
    in_line_y,
    middle_u,
    pad,
    plate_ends,
    under_mm,
    wide_for,
)
from fitwright.parts.hanger.cuts import Cut, Window
from fitwright.parts.hanger.fixing import Fixing, bolt_fixing
from fitwright.parts.hanger.mount_keys import key_of
from fitwright.parts.hanger.plan import Base, FixingPoint, Into
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.parts.hanger.site import Site
from fitwright.spec.hanger import Head, HoseHangerSpec

PLAY_MM = {"strut": 0.6, "T-slot": 0.3}
"""A rib is so much narrower than its slot: rolled channel varies more (common practice, no source)."""
RIB_OF_LIP, RIB_MOST_MM = 0.8, 5.0
"""How deep the rib goes: so much of the lip, behind which the nut lies (common practice, no source)."""
BETWEEN_BESIDE_MM = 2.0
NUT_SHARE = 0.8
"""A bolt fills so much of its nut at the least (common practice, no source)."""
GROUND_MM = 1.0
"""A bolt's end stays so far from the ground of the slot."""


def channel_of(spec: HoseHangerSpec) -> ChannelRow:
    """The channel or profile; RefusalError where the slot's width is missing or unknown."""
    mount = spec.mount
    if mount.kind == "strut":
        return strut_channel()
    if mount.slot_mm is None:
        raise RefusalError(
            key_of(spec, "slot"), "nothing", "its width as measured, 5 to 10 mm", "which T-slot is not said"
        )
    try:
        return slot_channel(mount.slot_mm)
    except DataError as error:
        raise RefusalError(key_of(spec, "slot"), f"{mount.slot_mm:g} mm", "5, 6, 8 or 10 mm", str(error)) from None


def thread_of(spec: HoseHangerSpec) -> str:
    """The bolt's thread: as asked, or the usual one of this slot."""
    row, asked = channel_of(spec), spec.mount.bolt
    if key_of(spec, "bolt") in spec.defaulted:
        return row.thread
    try:
        (strut_nut(asked) if row.kind == "strut" else slot_nut(asked, row.slot_mm))
    except DataError as error:
        raise RefusalError(key_of(spec, "bolt"), asked, row.thread, str(error)) from None
    return asked


def channel_fixing(spec: HoseHangerSpec, head: Head = "hex") -> Fixing:
    """Its bolts."""
    return bolt_fixing(spec, thread_of(spec), head)


def through_head(spec: HoseHangerSpec, opens_away: bool) -> Head:
    """A hexagon where a socket goes in through the opening; where a key has to go through an arm a cylinder head."""
    return "hex" if opens_away else "pan"


def under_hose(spec: HoseHangerSpec) -> bool:
    """Whether the bolts go in under the hose: along it, on all but upright surfaces."""
    return spec.mount.along and spec.mount.side in ("up", "down")


def under_count(spec: HoseHangerSpec, fixing: Fixing, wide: float) -> int:
    """How many in line: as asked; in a T-slot, whose nuts hold less, two where there is room for them."""
    if spec.mount.screws.count is not None:
        return spec.mount.screws.count
    room = wide >= wide_for(fixing, 2, False) or "width" in spec.defaulted
    return 2 if spec.mount.kind == "t_slot" and room else 1


def channel(site: Site) -> Base:
    """Bolts under or beside the hose along the channel, or on either side of it across."""
    if under_hose(site.spec):
        return _under(site)
    return _above(site) if site.spec.mount.along else _across(site)


def rib(spec: HoseHangerSpec, u: float) -> Outline:
    """What goes into the slot."""
    half = rib_half_mm(spec)
    return box_uv((u - half, u + half), (-rib_deep_mm(channel_of(spec)), PLATE_MM / 2))


def rib_relief(
    spec: HoseHangerSpec, u: float, holes: Sequence[tuple[float, float]], back: float | None = None
) -> tuple[Window, ...]:
    """The rib left out round holes (y, diameter) that would leave slivers of it; nothing where it is much wider.

    `back`: from before the first of them on to there, so that no rib begins above nothing as it is printed.
    """
    half, deep = rib_half_mm(spec), rib_deep_mm(channel_of(spec))
    drawn = box_uv((u - half - PAST_MM, u + half + PAST_MM), (-deep - PAST_MM, 0.0))
    spans = [(y - d / 2 - PAST_MM, y + d / 2 + PAST_MM) for y, d in holes if slivers(spec, d)]
    if spans and back is not None:
        spans = [(min(begin for begin, _ in spans), back)]
    return tuple(Window(f"rib gap {k}", drawn, *span, "mount", 0) for k, span in enumerate(spans, start=1))


def slivers(spec: HoseHangerSpec, hole_d: float) -> bool:
    """Whether a hole leaves less than a wall of the rib on either side."""
    return rib_half_mm(spec) - hole_d / 2 < spec.wall_mm


def hole_begins(spec: HoseHangerSpec, hole_d: float) -> float:
    """The value of v at which a hole in the rib begins, PAST_MM included: at the surface where the rib is left out."""
    return PAST_MM if slivers(spec, hole_d) else -rib_deep_mm(channel_of(spec))


def rib_half_mm(spec: HoseHangerSpec) -> float:
    """Half the rib's width as modelled."""
    row = channel_of(spec)
    return modelled((spec.mount.slot_mm or row.slot_mm) - PLAY_MM[row.kind], "outside", spec.printer) / 2


def rib_deep_mm(row: ChannelRow) -> float:
    """How far the rib goes into the slot."""
    return min(RIB_MOST_MM, RIB_OF_LIP * row.lip_mm)


def bolt_point(site: Site, fixing: Fixing, at: tuple[float, float], head: float, kind: str) -> FixingPoint:
    """One bolt into a nut of the channel."""
    spec, row = site.spec, channel_of(site.spec)
    u, y = (placed(one, spec.printer) for one in at)
    long = bolt_mm(spec, row, fixing, head)
    into: Into = "channel" if row.kind == "strut" else "slot"
    return FixingPoint(
        u,
        y,
        fixing.row,
        fixing.hole_d,
        head,
        kind,
        into,
        fixing.washer_d,
        fixing.washer_h,
        fixing,
        long,
        row.lip_mm,
        row.deep_mm,
    )


def clamped_mm(spec: HoseHangerSpec, fixing: Fixing, least: float) -> float:
    """What lies between head and channel [mm], `least` or so much more that a bolt of a sold length fits the slot."""
    row = channel_of(spec)
    nut = row.lip_mm + NUT_SHARE * min(row.nut_m_mm, fixing.row.major_mm)
    for long in SOLD_MM:
        high = max(least, long - fixing.washer_h - row.deep_mm + GROUND_MM)
        if high <= long - fixing.washer_h - nut:
            return high
    return least


def channel_plate_mm(spec: HoseHangerSpec) -> float:
    """Thickness of a plate with bolts beside the hose."""
    return clamped_mm(spec, channel_fixing(spec), PLATE_MM)


def bolt_mm(spec: HoseHangerSpec, row: ChannelRow, fixing: Fixing, head: float) -> float:
    """The length to buy [mm]: a full nut, and its end clear of the ground of the slot."""
    through = head + fixing.washer_h
    least = through + row.lip_mm + NUT_SHARE * min(row.nut_m_mm, fixing.row.major_mm)
    long, most = sold_mm(fixing.row, least, key_of(spec, "bolt")), through + row.deep_mm - GROUND_MM
    if long > most:
        why = f"a bolt through {through:.1f} mm needs {least:.1f} mm and meets the ground of the slot at {most:.1f} mm"
        raise RefusalError(key_of(spec, "bolt"), fixing.row.name, "a bolt cut to length, or another mount", why)
    return long


def _under(site: Site) -> Base:
    spec = site.spec
    fixing = channel_fixing(spec, through_head(spec, site.opens_away))
    u, count = middle_u(site, fixing), under_count(spec, fixing, site.sizes.wide)
    v = clamped_mm(spec, fixing, under_mm(fixing))
    points = tuple(bolt_point(site, fixing, (u, y), v, "through") for y in in_line_y(site, fixing, count, False))
    half = channel_of(spec).wide_mm / 2
    ends = plate_ends(site, (u - half, u + half))
    adds = box_uv(ends, (0.0, PLATE_MM)), box_uv(pad(site, fixing, u), (0.0, site.axis - UNDER_LIP_MM)), rib(spec, u)
    relief = rib_relief(spec, u, [(p.y, p.hole_d) for p in points], site.sizes.wide)
    cuts: tuple[Cut, ...] = *relief, *cuts_of(site, fixing, points, hole_begins(spec, fixing.hole_d))
    return Base(PLATE_MM, ends, adds, (), cuts, points, kind="channel")


def _above(site: Site) -> Base:
    """On a wall the channel lies above the hose, so that the weight pulls the plate onto it."""
    spec, fixing = site.spec, channel_fixing(site.spec)
    thick = channel_plate_mm(spec)
    row, count = channel_of(spec), spec.mount.screws.count or 1
    u = site.beside_u(fixing, ROOM_MM, thick)[1]
    ys = _ys(site, fixing, count)
    points = tuple(bolt_point(site, fixing, (u, y), thick, "beside") for y in ys)
    low = plate_ends(site, (u, u))[0]
    ends = low, u + max(row.wide_mm / 2, edge_mm(fixing))
    relief = rib_relief(spec, u, [(p.y, p.hole_d) for p in points], site.sizes.wide)
    holes: tuple[Cut, ...] = *relief, *screw_holes(points, hole_begins(spec, fixing.hole_d))
    adds = box_uv(ends, (0.0, thick)), rib(spec, u)
    return Base(thick, ends, adds, (), holes, points, kind="channel")


def _across(site: Site) -> Base:
    spec, fixing = site.spec, channel_fixing(site.spec)
    if spec.mount.screws.count not in (None, 2):
        why = "across the hose there is one bolt on either side of it"
        raise RefusalError(key_of(spec, "screws.count"), f"{spec.mount.screws.count}", "2", why)
    thick = channel_plate_mm(spec)
    low, high = site.beside_u(fixing, ROOM_MM, thick)
    y = _ys(site, fixing, 1)[0]
    points = tuple(bolt_point(site, fixing, (u, y), thick, "beside") for u in (low, high))
    ends = low - edge_mm(fixing), high + edge_mm(fixing)
    return Base(thick, ends, (box_uv(ends, (0.0, thick)),), (), screw_holes(points), points, kind="channel")


def _ys(site: Site, fixing: Fixing, count: int) -> list[float]:
    wide, edge, step = site.sizes.wide, edge_mm(fixing), fixing.bears_d + 2 * BETWEEN_BESIDE_MM
    need = 2 * edge + (count - 1) * step
    if wide < need - 1e-6:
        raise RefusalError("width", f"{wide:g} mm", f"{need:.1f} mm or more", f"{count} bolts in line need more")
    if count == 1:
        return [wide / 2]
    return [edge + k * (wide - 2 * edge) / (count - 1) for k in range(count)]
