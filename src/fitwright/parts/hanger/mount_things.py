"""Stand-ins of a mount: what the hanger is fixed to, its screws and bolts, and the room for their driver."""

from __future__ import annotations

from collections.abc import Iterator

from cadquery import Solid

from fitwright.frame import Frame
from fitwright.part import StandIn
from fitwright.parts.gate.stand_in_shapes import corners_mm, tube
from fitwright.parts.hanger.base_channel import channel_of
from fitwright.parts.hanger.fixing import Fixing, bolt_fixing, locknut_mm
from fitwright.parts.hanger.outline_solids import box_solid
from fitwright.parts.hanger.plan import FixingPoint, HangerPlan
from fitwright.shapes.solids import cut, cylinder, fused
from fitwright.spec.hanger import HoseHangerSpec

GROUP = "mount"
OFF_MM = 0.01
"""What touches is drawn so far off."""
LONG_MM = 200.0
"""So much of a joist, channel or rail is drawn at the least."""
BOARD_MM = 18.0
"""A board whose thickness nobody said."""
PAST_PLATE_MM = 20.0
DRIVER_LONG_MM = 120.0


def mount_things(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    """All of them; none touches the print but with a face."""
    yield from _carrying(plan, spec)
    for k, p in enumerate(plan.base.points, start=1):
        if p.fixing is None or p.into in ("rod", "tie"):
            continue
        yield StandIn(f"fixing {k}", _screw(plan, p, p.fixing), GROUP, None)
        if p.kind != "turned":
            line = _driver_line(plan, p, p.fixing)
            yield StandIn(f"fixing {k} driver line", line, GROUP, None, room_only=True)
    yield from _swivel(plan, spec)
    yield from plan.base.things(plan) if plan.base.things else ()


def _frame(plan: HangerPlan, u: float, y: float, v: float, way: float) -> Frame:
    """Along v: away from the surface (way 1) or into it (-1)."""
    return Frame(plan.placed.point(u, y, v), plan.placed.direction(0.0, way), (0.0, 1.0, 0.0))


def _screw(plan: HangerPlan, p: FixingPoint, fixing: Fixing) -> Solid:
    """Head and washer above where it bears, shank below."""
    at = _frame(plan, p.u, p.y, p.head_v + OFF_MM, 1.0)
    down = p.head_v + (p.tip_mm if p.long_mm else p.deep_mm or 2 * p.row.major_mm)
    pieces = [
        cylinder(at, fixing.head_d / 2, fixing.washer_h, fixing.high),
        cylinder(at, p.row.major_mm / 2, -down, fixing.high),
    ]
    if fixing.washer_d:
        pieces.append(cylinder(at, fixing.washer_d / 2, 0.0, fixing.washer_h))
    return fused(pieces, "fixing")


def _driver_line(plan: HangerPlan, p: FixingPoint, fixing: Fixing) -> Solid:
    """Straight before the head; of a clamp, up to where its cap goes on."""
    at = _frame(plan, p.u, p.y, p.head_v, 1.0)
    begin, end = fixing.high + 2 * OFF_MM, fixing.high + DRIVER_LONG_MM
    if p.kind == "through":
        end = _line_end(plan, p.head_v) - p.head_v
    return cylinder(at, fixing.driver_d / 2, begin, end)


def _line_end(plan: HangerPlan, head_v: float) -> float:
    """How far the line under a hose goes."""
    capped = any(one.cap is not None for one in plan.carrier)
    return plan.placed.axis_mm if capped else head_v + DRIVER_LONG_MM


def _carrying(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    kind = spec.mount.kind
    if kind in ("strut", "t_slot"):
        yield StandIn("strut" if kind == "strut" else "rail", _channel(plan, spec), GROUP, None)
        yield from _nuts(plan, spec)
    elif kind in ("flat", "joist_side", "joist_underside", "holes"):
        name = {"flat": "surface", "holes": "surface"}.get(kind, "joist")
        yield StandIn(name, _wood(plan, spec), GROUP, None)


def _wood(plan: HangerPlan, spec: HoseHangerSpec) -> Solid:
    """A joist or board behind the surface, longer than the base."""
    mount, wide = spec.mount, plan.sizes.wide
    low, high = plan.base.u
    y0, y1 = plan.base.y or (0.0, wide)
    u = low - PAST_PLATE_MM, high + PAST_PLATE_MM
    y = (y0 + y1) / 2 - max(LONG_MM, y1 - y0 + 2 * PAST_PLATE_MM) / 2, 0.0
    y = y[0], y0 + y1 - y[0]
    deep = mount.wood.wide_mm if mount.kind != "holes" else BOARD_MM
    if mount.kind == "joist_underside":
        deep, half = mount.wood.deep_mm or 4 * mount.wood.wide_mm, mount.wood.wide_mm / 2
        if mount.along:
            middle = plan.base.points[0].u
            u = middle - half, middle + half
        else:
            y = wide / 2 - half, wide / 2 + half
    elif mount.kind == "joist_side" and mount.wood.deep_mm:
        u = (low + high) / 2 - mount.wood.deep_mm / 2, (low + high) / 2 + mount.wood.deep_mm / 2
    return box_solid(plan.placed, u, y, (-deep - OFF_MM, -OFF_MM))


def _channel(plan: HangerPlan, spec: HoseHangerSpec) -> Solid:
    """A box with its slot cut in: the room of the nuts behind the lips, the slot between them."""
    row, wide = channel_of(spec), plan.sizes.wide
    y0, y1 = plan.base.y or (0.0, wide)
    along = spec.mount.along
    middle = plan.base.points[0].u if along else (y0 + y1) / 2
    if along:
        span = (y0 + y1) / 2 - max(LONG_MM, y1 - y0 + 40.0) / 2
        span_ = (span, y0 + y1 - span)
    else:
        span_ = (plan.base.u[0] - PAST_PLATE_MM, plan.base.u[1] + PAST_PLATE_MM)
    half, slot = row.wide_mm / 2, row.slot_mm / 2
    inner = min(half - 2.5, slot + 8.0)

    def block(across: tuple[float, float], v: tuple[float, float], past: float = 0.0) -> Solid:
        ends = span_[0] - past, span_[1] + past
        return box_solid(plan.placed, across, ends, v) if along else box_solid(plan.placed, ends, across, v)

    whole = block((middle - half, middle + half), (-row.high_mm - OFF_MM, -OFF_MM))
    room = block((middle - inner, middle + inner), (-row.deep_mm, -row.lip_mm), 1.0)
    gap = block((middle - slot, middle + slot), (-row.lip_mm - 0.5, 1.0), 1.0)
    return cut(whole, [room, gap], "channel")


def _nuts(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    row = channel_of(spec)
    for k, p in enumerate(plan.base.points, start=1):
        at = _frame(plan, p.u, p.y, -row.lip_mm - OFF_MM, -1.0)
        across = min(1.8 * row.slot_mm, 2 * row.slot_mm) if row.kind == "T-slot" else 1.5 * row.slot_mm
        yield StandIn(f"nut {k}", tube(at, across, p.row.major_mm + 0.2, 0.0, row.nut_m_mm), GROUP, None)


def _swivel(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[StandIn]:
    one = plan.base.swivel
    if one is None:
        return
    bolt = bolt_fixing(spec, one.row.name)
    at = _frame(plan, one.bolt_u, one.bolt_y, 0.0, 1.0)
    d, h = one.row.major_mm, bolt.washer_h
    pieces = [
        cylinder(at, bolt.head_d / 2, one.head_v - h - bolt.head_k, one.head_v - h),
        cylinder(at, d / 2, one.head_v - h - bolt.head_k, one.head_v - h + one.long_mm),
        cylinder(at, bolt.washer_d / 2, one.head_v - h - OFF_MM, one.head_v - OFF_MM),
    ]
    yield StandIn("swivel bolt", fused(pieces, "swivel bolt"), GROUP, None)
    nut = [
        tube(at, bolt.washer_d, d + 0.4, one.nut_v + OFF_MM, one.nut_v + h + OFF_MM),
        tube(at, corners_mm(one.row.nut_af_mm or 2 * d), d + 0.4, one.nut_v + h, one.nut_v + h + locknut_mm(one.row)),
    ]
    yield StandIn("swivel nut", fused(nut, "swivel nut"), GROUP, None)
    line = cylinder(at, 0.7 * (one.row.nut_af_mm or 2 * d), one.nut_v + h + 12.0, _line_end(plan, one.nut_v))
    yield StandIn("swivel nut driver line", line, GROUP, None, room_only=True)
