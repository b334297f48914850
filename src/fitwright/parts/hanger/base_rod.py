"""Hung by a threaded rod through the neck: a locking nut in a recess under the hose, a nut and a jam nut on top."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from cadquery import Solid

from fitwright.data.rods import threaded_rod
from fitwright.errors import RefusalError
from fitwright.frame import Frame
from fitwright.part import Bought, Fastening, StandIn, Turned
from fitwright.parts.gate.refusals import or_more
from fitwright.parts.gate.stand_in_shapes import corners_mm, tube
from fitwright.parts.hanger.base_plate import EDGE
from fitwright.parts.hanger.base_through import UNDER_LIP_MM, behind_mm, cuts_of, head_v, pad, plate_ends
from fitwright.parts.hanger.fixing import Fixing, locknut_mm, nut_fixing
from fitwright.parts.hanger.mount_keys import key_of
from fitwright.parts.hanger.plan import Base, FixingPoint, HangerPlan
from fitwright.parts.hanger.shapes_uv import box_uv
from fitwright.parts.hanger.site import HOSE_CLEAR_MM, Site
from fitwright.physics.by_hand import SNAG_N
from fitwright.physics.machine_screws import longest_stiff_rod_mm
from fitwright.shapes.solids import cylinder
from fitwright.spec.hanger import HoseHangerSpec

TOP_MM = 8.0
"""Thickness of the base under the upper nuts."""
PAST_NUT_MM = 1.5
ABOVE_NUTS_MM = 10.0
"""Rod to be seen above the upper nuts: room to run them up and to get at them (common practice, no source)."""
DRIVER_LONG_MM = 120.0
OFF_MM = 0.01


def rod_fixing(spec: HoseHangerSpec) -> Fixing:
    """The nut under the hose, the thread that stands out of it counted with it."""
    one = nut_fixing(spec, spec.mount.bolt)
    return Fixing(
        one.row,
        one.name,
        one.head,
        one.hole_d,
        one.head_d,
        one.head_k + PAST_NUT_MM,
        one.washer_d,
        one.washer_h,
        one.recess_d,
        one.turned_af,
    )


def rod_wide_mm(spec: HoseHangerSpec) -> float:
    """The width that the recess needs."""
    fixing = rod_fixing(spec)
    return 2 * max(behind_mm(fixing), EDGE * fixing.hole_d)


def on_rod(site: Site) -> Base:
    """The base under the rod's upper nuts."""
    spec, fixing = site.spec, rod_fixing(site.spec)
    _refuse(spec)
    u, y = site.sizes.axes_u[0], site.sizes.wide / 2
    v = max(head_v(site, fixing, u), TOP_MM)
    point = FixingPoint(u, y, fixing.row, fixing.hole_d, v, "through", "rod", fixing.washer_d, fixing.washer_h, fixing)
    long = _rod_mm(site, fixing, v)
    ends = plate_ends(site, pad(site, fixing, u))
    adds = box_uv(ends, (0.0, TOP_MM)), box_uv(pad(site, fixing, u), (0.0, site.axis - UNDER_LIP_MM))
    size = fixing.row.name
    bought = (
        Bought(1, f"threaded rod {size}", long, cut=True, note="and what goes into the anchor or nut above"),
        Bought(1, f"locking nut {size}", note="under the hose"),
        Bought(2, f"nut {size}", note="on top, the second jams the first"),
        Bought(2, f"washer {size}"),
    )
    return Base(
        TOP_MM,
        ends,
        adds,
        (),
        cuts_of(site, fixing, (point,)),
        (point,),
        facts=_facts(spec, site, long),
        fastenings=(_joint(site, point),),
        bought=bought,
        kind="rod",
        things=_things(site, point, long),
    )


def _refuse(spec: HoseHangerSpec) -> None:
    if spec.mount.side != "up":
        raise RefusalError("mount", f"a rod on the {spec.mount.side}", "up", "a rod hangs from above")
    if spec.count > 1:
        raise RefusalError("count", f"{spec.count}", "1", "several hoses on one rod tip: a rod a hose")
    if spec.mount.drop_mm is None:
        why = "how far it hangs down is not said"
        raise RefusalError(key_of(spec, "drop"), "nothing", "from what carries the rod down to the hose's axis", why)


def _rod_mm(site: Site, fixing: Fixing, v: float) -> float:
    """The rod's cut length: from what carries it to its end under the hose, in whole millimetres down."""
    row, drop = fixing.row, site.spec.mount.drop_mm or 0.0
    above = fixing.washer_h + 2 * (row.nut_m_mm or row.major_mm) + ABOVE_NUTS_MM
    if drop - site.axis < above:
        why = "washer, two nuts and a spanner have to get in above the hanger"
        allowed = or_more(site.axis + above, site.spec.units)
        raise RefusalError(key_of(site.spec, "drop"), f"{drop:g} mm", allowed, why)
    return float(int(drop - site.axis + v + fixing.high))


def _facts(spec: HoseHangerSpec, site: Site, long: float) -> dict[str, str]:
    row = threaded_rod(spec.mount.bolt)
    stiff = longest_stiff_rod_mm(SNAG_N, row.core_mm)
    words = f"rod {spec.mount.bolt} cut to {long:.0f} mm, and what goes into its anchor"
    if (spec.mount.drop_mm or 0.0) - site.axis > stiff:
        words += f"; where it cannot swing a snag of {SNAG_N:.0f} N bends more than {stiff:.0f} mm of it: brace it"
    return {"rod": words}


def _joint(site: Site, p: FixingPoint) -> Fastening:
    row = p.row
    af, m = row.nut_af_mm or 0.0, row.nut_m_mm or row.major_mm
    return Fastening(
        name="rod",
        size=row.name,
        d_mm=row.major_mm,
        head=site.placed.point(p.u, p.y, 0.0),
        direction=site.placed.direction(0.0, 1.0),
        grip_mm=p.head_v,
        through=("hanger", "hanger"),
        key=key_of(site.spec, "size"),
        pitch_mm=row.pitch_mm or 1.0,
        nut_m_mm=m,
        nut_af_mm=af,
        washers=2,
        washer_d_mm=p.washer_d,
        washer_h_mm=p.washer_h,
        head_d_mm=corners_mm(af),
        turned=(
            Turned(af, -p.washer_h, -1.0, f"{row.name} nut on top", without=("rod nuts",)),
            Turned(af, -p.washer_h - m, -1.0, f"{row.name} jam nut", without=("rod nuts",)),
        ),
    )


def _things(site: Site, p: FixingPoint, long: float) -> Callable[[HangerPlan], Iterator[StandIn]]:
    """Rod, nuts above and below, the socket's room."""
    row, d, h = p.row, p.row.major_mm, p.washer_h
    at = Frame(site.placed.point(p.u, p.y, 0.0), site.placed.direction(0.0, 1.0), (0.0, 1.0, 0.0))
    end = p.head_v + (p.fixing.high if p.fixing else 0.0)
    across, m = corners_mm(row.nut_af_mm or 2 * d), row.nut_m_mm or d

    def made(plan: HangerPlan) -> Iterator[StandIn]:
        yield StandIn("rod", cylinder(at, d / 2, end - long, end), "mount", None)
        above: list[tuple[float, float, float]] = [(p.washer_d, -h, 0.0), (across, -h - 2 * m, -h)]
        below = [(p.washer_d, p.head_v, p.head_v + h), (across, p.head_v + h, p.head_v + h + locknut_mm(row))]
        for k, (wide, s0, s1) in enumerate(above + below, start=1):
            off = -OFF_MM if s1 <= 0.0 else OFF_MM
            ring: Solid = tube(at, wide, d + 0.4, s0 + off, s1 + off)
            yield StandIn(f"rod nuts and washers {k}", ring, "mount", None)
        socket = p.fixing.driver_d / 2 if p.fixing else d
        far = plan.placed.axis_mm if any(one.cap is not None for one in plan.carrier) else end + DRIVER_LONG_MM
        line = cylinder(at, socket, end + HOSE_CLEAR_MM, far)
        yield StandIn("rod nut driver line", line, "mount", None, room_only=True)

    return made
