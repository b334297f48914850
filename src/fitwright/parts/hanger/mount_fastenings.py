"""The screws and bolts of a mount as joints that the check `hardware` judges."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.frame import Vec
from fitwright.part import Fastening
from fitwright.parts.hanger.fixing import bolt_fixing, locknut_mm
from fitwright.parts.hanger.mount_keys import bolt_key, key_of
from fitwright.parts.hanger.plan import FixingPoint, HangerPlan
from fitwright.parts.hanger.swivel_body import BASE
from fitwright.parts.hanger.wood_size import behind_mm
from fitwright.spec.hanger import HoseHangerSpec

BODY = "hanger"
ANY_DEEP_MM = 1000.0
"""Of wood whose depth nobody said."""
THROUGH_MM = 1.0
"""A hole through a board goes so much further than the board, for the check: it has no ground."""
THREAD_IN = {"wood": "the wood", "channel": "the channel nut", "slot": "the T-slot nut", "thread": "the thread there"}


def hanger_fastenings(plan: HangerPlan, spec: HoseHangerSpec) -> tuple[Fastening, ...]:
    """Every screw of the mount, the swivel's bolt, and what the carriers have of their own."""
    own = tuple(one for carrier in plan.carrier for one in carrier.fastenings)
    made = (_screw(plan, spec, p, k) for k, p in enumerate(plan.base.points, start=1) if p.into in THREAD_IN)
    return (*made, *_swivel(plan, spec), *plan.base.fastenings, *own)


def _screw(plan: HangerPlan, spec: HoseHangerSpec, p: FixingPoint, number: int) -> Fastening:
    fixing, at = p.fixing, plan.placed
    direction: Vec = at.direction(0.0, -1.0)
    bears = p.washer_d or (fixing.bears_d if fixing else 0.0)
    return Fastening(
        name=f"fixing {number}",
        size=p.row.name,
        d_mm=p.row.major_mm,
        head=at.point(p.u, p.y, p.head_v),
        direction=direction,
        grip_mm=p.head_v,
        through=(BASE if plan.base.swivel else BODY,),
        key=key_of(spec, "screws") if p.into == "wood" else bolt_key(spec),
        long_mm=p.long_mm,
        pitch_mm=p.row.pitch_mm or 1.0,
        deep_mm=_deep_mm(p, spec),
        thread_into=THREAD_IN[p.into],
        washers=1 if p.washer_d else 0,
        washer_d_mm=bears,
        washer_h_mm=p.washer_h,
        head_d_mm=0.0 if fixing is None else min(fixing.head_d, 0.99 * bears),
        turned=(),
    )


def _deep_mm(p: FixingPoint, spec: HoseHangerSpec) -> float:
    """How deep its hole is: a board is drilled right through, so that the tip may be flush with its back."""
    through = THROUGH_MM if p.into == "wood" and behind_mm(spec) == 0.0 else 0.0
    return (min(p.deep_mm, ANY_DEEP_MM) or ANY_DEEP_MM) + through


def _swivel(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[Fastening]:
    one = plan.base.swivel
    if one is None:
        return
    bolt = bolt_fixing(spec, one.row.name)
    yield Fastening(
        name="swivel bolt",
        size=one.row.name,
        d_mm=one.row.major_mm,
        head=plan.placed.point(one.bolt_u, one.bolt_y, one.head_v),
        direction=plan.placed.direction(0.0, 1.0),
        grip_mm=one.nut_v - one.head_v,
        through=(BASE, BODY),
        key="swivel",
        long_mm=one.long_mm,
        pitch_mm=one.row.pitch_mm or 1.0,
        nut_m_mm=locknut_mm(one.row),
        nut_af_mm=one.row.nut_af_mm or 0.0,
        washers=2,
        washer_d_mm=bolt.washer_d,
        washer_h_mm=bolt.washer_h,
        head_d_mm=bolt.head_d,
    )
