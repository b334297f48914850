"""What a hanger declares of itself for the checks (`Part.hanging`), from its plan and spec."""

from __future__ import annotations

import math

from fitwright.frame import Frame, Vec
from fitwright.hanging import Cradle, Hanging, HeldBy
from fitwright.parts.hanger.plan import FixingPoint, HangerPlan
from fitwright.parts.hanger.wood_size import screw_size
from fitwright.physics import batten
from fitwright.physics.by_hand import SNAG_N
from fitwright.physics.carried import lasting_n
from fitwright.physics.gravity import GRAVITY
from fitwright.spec.carried_weight import weight_kg_m
from fitwright.spec.hanger import HoseHangerSpec

BODY = "hanger"
ALONG: Vec = (0.0, 1.0, 0.0)
GRIP_MM = 40.0
"""Thread in the wood where the mount says nothing of it."""


def hanging_of(plan: HangerPlan, spec: HoseHangerSpec) -> Hanging:
    """All of it: cradles, throats, eyes, what holds it, where the load acts and how much of it stays."""
    load = lasting_of(spec)
    own = own_weight_n(plan, spec)
    kg_m, words = weight_kg_m(spec.carried, spec.dust)
    share = f"at {spec.spacing_mm / 1000:g} m" if spec.hung is None else f"in the hose run {spec.hung.file}"
    facts = {"carries": f"{words}, {kg_m:.2f} kg a metre, {load:.1f} N a hanger {share}", **_of_run(spec)}
    return Hanging(
        cradles=_cradles(plan, spec),
        throats=tuple(one for carrier in plan.carrier for one in carrier.throats),
        eyes=tuple(one for carrier in plan.carrier for one in carrier.eyes),
        held=plan.base.held or tuple(_held(plan, spec, k, p) for k, p in enumerate(plan.base.points, start=1)),
        plate=_plate(plan),
        load_at=tuple(plan.placed.point(u, plan.sizes.wide / 2, plan.placed.axis_mm) for u in plan.sizes.axes_u),
        lasting_n=load + own / spec.count,
        level_n=0.0 if spec.hung is None else spec.hung.level_n,
        snag_n=SNAG_N,
        free_to_turn=spec.swivel,
        overhead=spec.overhead,
        reactions_n=_reactions(spec, load * spec.count + own),
        facts=facts,
    )


def lasting_of(spec: HoseHangerSpec) -> float:
    """Weight [N] of one hose or pipe on one hanger, with what lies in it; as a hose run says it where one does."""
    if spec.hung is not None:
        return spec.hung.down_n
    return lasting_n(weight_kg_m(spec.carried, spec.dust)[0], spec.spacing_mm / 1000.0)


def _of_run(spec: HoseHangerSpec) -> dict[str, str]:
    """What the hose run says of this hanger, where the YAML names one."""
    if spec.hung is None:
        return {}
    one = spec.hung
    x, y, z = (f"{mm:.0f} mm" for mm in one.at_mm)
    place = f"{one.label} of {one.file}: hose's axis {x} right, {y} away, {z} up, as that file counts"
    level = f"{one.level_n:.1f} N level for good, {one.one_side_n:.1f} N with the hose taken off one side"
    return {"hose run": f"{place}; the hose turns {one.turn_deg:.0f} deg over it; it pulls {level}"}


def own_weight_n(plan: HangerPlan, spec: HoseHangerSpec) -> float:
    """The hanger's own weight [N], its caps and a swivel's base with it, as if it were solid and nothing were cut."""
    mm3 = plan.profile.area_mm2 * plan.sizes.wide
    mm3 += math.fsum(lug.added_mm3(plan.profile) for one in plan.carrier for lug in one.lugs)
    mm3 += math.fsum(one.cap.area_mm2 * plan.sizes.wide for one in plan.carrier if one.cap is not None)
    if (turned := plan.base.swivel) is not None:
        mm3 += turned.profile.area_mm2 * (turned.y1 - turned.y0)
    grams = mm3 / 1000.0 * spec.material.density_g_cm3
    return grams / 1000.0 * GRAVITY


def _cradles(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[Cradle, ...]:
    """As the carriers declare them; else the whole of each bore but for its opening."""
    found: list[Cradle] = []
    for k, (u, carrier) in enumerate(zip(plan.sizes.axes_u, plan.carrier, strict=True), start=1):
        found += carrier.cradles or (_bore(plan, spec, u, k),)
    return tuple(found)


def _bore(plan: HangerPlan, spec: HoseHangerSpec, u: float, k: int) -> Cradle:
    sizes = plan.sizes
    name = "bore" if spec.count == 1 else f"bore {k}"
    x, _, z = plan.placed.direction(*sizes.opens)
    opens = math.degrees(math.atan2(x, z))
    turn = opens + sizes.lip_deg, opens + 360.0 - sizes.lip_deg
    frame = Frame(plan.placed.point(u, 0.0, plan.placed.axis_mm), ALONG, (1.0, 0.0, 0.0))
    return Cradle(name, BODY, frame, sizes.bore_printed_d / 2, turn, sizes.wide, spec.carried.key)


def _held(plan: HangerPlan, spec: HoseHangerSpec, k: int, point: FixingPoint) -> HeldBy:
    """A wood screw beside the hose, where the mount declares nothing more."""
    long = spec.mount.screws.long_mm
    grip = GRIP_MM if long is None else max(0.0, long - point.head_v - point.washer_h)
    return HeldBy(
        name=f"screw {k}",
        size=screw_size(spec),
        d_mm=point.row.major_mm,
        at=plan.placed.point(point.u, point.y, 0.0),
        direction=plan.placed.direction(0.0, -1.0),
        into="wood",
        key="mount.screws",
        grip_mm=grip,
        wood=spec.mount.wood.name,
        head=spec.mount.screws.head,
        washer_d_mm=point.washer_d,
        hole_d_mm=point.hole_d,
    )


def _plate(plan: HangerPlan) -> tuple[Vec, ...]:
    (low, high), (y0, y1) = plan.base.u, plan.base.y or (0.0, plan.sizes.wide)
    if plan.base.swivel is not None:
        low, _, high, _ = plan.base.swivel.profile.outer.bounds_mm
    return tuple(plan.placed.point(u, y, 0.0) for u, y in ((low, y0), (high, y0), (high, y1), (low, y1)))


def _reactions(spec: HoseHangerSpec, weight_n: float) -> tuple[float, ...]:
    """Of the two points of a batten, up positive."""
    if spec.mount.batten is None:
        return ()
    near, far = spec.mount.batten.near_mm, spec.mount.batten.far_mm
    found = batten.reactions(near, far, [batten.Hanging(0.0, weight_n)])
    return found.first_n, found.second_n
