"""Screw joints at the cylinder: its nose, front cover or clamped body, and the threaded rods in the nose plate."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.data.fasteners import fastener
from fitwright.frame import Vec
from fitwright.part import Bought, Fastening, Turned
from fitwright.parts.compensation import placed
from fitwright.parts.gate.bought import thread_d_mm
from fitwright.parts.gate.fastening_yoke import thread_of
from fitwright.parts.gate.frame_plan import RODS_EDGE
from fitwright.parts.gate.lengths import bought_of, needed_mm, sold_mm
from fitwright.parts.gate.nose_hold import ClampHold, SquareHold, ThreadHold
from fitwright.parts.gate.plan import GatePlan
from fitwright.spec.models import GateBracketSpec

CLAMPING_EDGE = 0.9
"""Where a screw only squeezes and nothing pulls it towards the edge: what its washer rests on decides."""
PAST_NUT_PITCHES = 2.0
"""A rod stands so far out of its last nut (common practice, no source)."""


def nose_fastenings(plan: GatePlan, spec: GateBracketSpec) -> tuple[Fastening, ...]:
    """How the cylinder is held, and where the frame stands on rods their joints in the nose plate."""
    return (*_held(plan, spec), *_rods(plan, spec))


def nose_body(plan: GatePlan, spec: GateBracketSpec) -> str:
    """The name of the body that holds the cylinder."""
    if spec.layout == "alongside":
        return "yoke"
    return {"rods": "nose_plate", "one_piece": "bracket", "board": "nose_foot"}[plan.frame.kind]


def _held(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Fastening]:
    hold = plan.frame.nose.hold
    if isinstance(hold, ThreadHold):
        yield _by_nose(hold, plan, spec)
    elif isinstance(hold, SquareHold):
        yield from _by_square(hold, plan, spec)
    else:
        yield from _by_clamp(hold, plan, spec)


def _by_nose(hold: ThreadHold, plan: GatePlan, spec: GateBracketSpec) -> Fastening:
    """The cylinder's nose as a screw whose head is the cylinder itself."""
    face, ring = plan.nose_face_mm, hold.washer_d_mm or hold.nut_af_mm
    before: tuple[str, ...] = ("cylinder nose nut",)
    if plan.beside is not None:  # behind the web only the cylinder's own face bears; the nut is turned before all else
        ring = min(ring, hold.clamped_mm)
        before += ("bridge", "bush", "guide", "coupling", "sleeve")
    out = hold.web_mm + hold.washer_h_mm
    return Fastening(
        name="cylinder nose",
        size=hold.thread,
        d_mm=thread_d_mm(hold.thread),
        head=(plan.axis_x_mm, face, 0.0),
        direction=(0.0, -plan.way, 0.0),
        grip_mm=hold.web_mm,
        through=(nose_body(plan, spec), nose_body(plan, spec)),
        key="cylinder",
        long_mm=spec.cylinder.nose_mm,
        pitch_mm=0.0,
        nut_m_mm=hold.nut_m_mm,
        nut_af_mm=hold.nut_af_mm,
        washers=1 if hold.washer_d_mm else 0,
        washer_d_mm=ring,
        washer_h_mm=hold.washer_h_mm,
        turned=(Turned(hold.nut_af_mm, out, 1.0, "nose nut", without=before),),
        edge_limit=CLAMPING_EDGE,
    )


def _by_square(hold: SquareHold, plan: GatePlan, spec: GateBracketSpec) -> Iterator[Fastening]:
    half, row = placed(hold.apart_mm / 2, spec.printer), fastener(hold.size)
    y = plan.nose_face_mm - plan.way * plan.frame.nose.deep
    for number, (x, z) in enumerate(((-half, -half), (half, -half), (-half, half), (half, half)), start=1):
        yield Fastening(
            name=f"front cover screw {number}",
            size=row.name,
            d_mm=row.major_mm,
            head=(plan.axis_x_mm + x, y, z),
            direction=(0.0, plan.way, 0.0),
            grip_mm=plan.frame.nose.deep,
            through=(nose_body(plan, spec),),
            key="cylinder.square",
            long_mm=hold.long_mm,
            pitch_mm=row.pitch_mm or 1.0,
            deep_mm=hold.deep_mm,
            thread_into="the front cover",
            washers=1,
            washer_d_mm=hold.washer_d_mm,
            washer_h_mm=hold.washer_h_mm,
            head_d_mm=hold.head_d_mm,
            edge_limit=RODS_EDGE,
        )


def _by_clamp(hold: ClampHold, plan: GatePlan, spec: GateBracketSpec) -> Iterator[Fastening]:
    row, body = fastener(hold.size), nose_body(plan, spec)
    grip = 2 * hold.half_mm
    for number, v in enumerate(hold.screw_v_mm, start=1):
        y = plan.nose_face_mm + plan.way * (hold.off_mm + v)
        yield Fastening(
            name=f"clamp screw {number}",
            size=row.name,
            d_mm=row.major_mm,
            head=(plan.axis_x_mm - hold.half_mm, y, hold.screw_z_mm),
            direction=(1.0, 0.0, 0.0),
            grip_mm=grip,
            through=(body, body),
            key="cylinder.body",
            long_mm=sold_mm(row, needed_mm(row, grip), "cylinder.body"),
            edge_limit=CLAMPING_EDGE,
            **thread_of(row),
        )


def _rods(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Fastening]:
    """A nut with a washer on either face of the plate: they set it."""
    if spec.layout == "alongside" or plan.frame.kind != "rods":
        return
    row, grip = fastener(plan.frame.rod), plan.frame.nose.deep
    washer, af = row.washer_h_mm or 0.0, row.nut_af_mm or 0.0
    for name, side in (("left", -1.0), ("right", 1.0)):
        head: Vec = (side * placed(plan.frame.rail_x, spec.printer), plan.nose_face_mm, 0.0)
        yield Fastening(
            name=f"{name} rod at the nose plate",
            size=row.name,
            d_mm=row.major_mm,
            head=head,
            direction=(0.0, -1.0, 0.0),
            grip_mm=grip,
            through=("nose_plate", "nose_plate"),
            key="rods",
            turned=(
                Turned(af, -washer, -1.0, f"{row.name} nut outside the nose plate"),
                Turned(af, grip + washer, 1.0, f"{row.name} nut inside the nose plate"),
            ),
            edge_limit=RODS_EDGE,
            **thread_of(row),
        )


def rod_span_mm(plan: GatePlan, spec: GateBracketSpec) -> tuple[float, float]:
    """Where a threaded rod begins and ends (y), its spare for the setting with it; whole mm long."""
    row = fastener(plan.frame.rod)
    begin = plan.frame.yoke_y0
    past = PAST_NUT_PITCHES * (row.pitch_mm or 1.0) + (row.washer_h_mm or 0.0) + (row.nut_m_mm or row.major_mm)
    return begin, begin + math.ceil(plan.nose_face_mm + past + spec.setting_mm - begin)


def nose_bought(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Bought]:
    """What holds the cylinder; rods cut to length with all their nuts and washers."""
    hold = plan.frame.nose.hold
    if isinstance(hold, ThreadHold):
        yield Bought(1, f"nose nut {hold.thread}", needed=False, note="sold with most cylinders")
        if hold.washer_d_mm:
            yield Bought(1, f"washer for {hold.thread}, {hold.washer_d_mm:.0f} mm wide")
    else:
        note = "clamp the cylinder" if isinstance(hold, ClampHold) else "into the cylinder's front"
        yield from bought_of(_held(plan, spec), note)
    if spec.layout == "alongside" or plan.frame.kind != "rods":
        return
    begin, end = rod_span_mm(plan, spec)
    yield Bought(2, f"threaded rod {plan.frame.rod}", end - begin, cut=True)
    yield Bought(8, f"nut {plan.frame.rod}", note="two of them caught in the yoke")
    yield Bought(6, f"washer {plan.frame.rod}")
