"""Stand-ins of what the bracket is put together with: screws with their nuts, threaded rods, the rod's nuts.

Room for spanners is the check `hardware`'s business: it turns one on each hexagon that a `Fastening` declares.
"""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.fasteners import fastener
from fitwright.part import Fastening, StandIn
from fitwright.parts.compensation import caught
from fitwright.parts.gate.bought import thread_d_mm
from fitwright.parts.gate.fastening_nose import rod_span_mm
from fitwright.parts.gate.frame_plan import FLOOR_MM
from fitwright.parts.gate.hardware import gate_fastenings
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_shapes import LOOSE_MM, along_y, corners_mm, joint, nut, nut_on_washer, tube
from fitwright.shapes.solids import cylinder
from fitwright.spec.models import GateBracketSpec


def screw_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """Every screw with a head and a nut, as the fastenings declare it (a cylinder's nose and rod are drawn with it)."""
    for one in gate_fastenings(plan, spec):
        if one.head_d_mm > 0.0 and one.long_mm > 0.0 and not one.thread_into:
            yield StandIn(one.name, joint(one), _group(one), None, moving=one.moving)


def _group(one: Fastening) -> str:
    """What a screw belongs to: it is never held against what it goes through there."""
    if "gate" in one.through or "gate" in one.name:
        return "gate"
    return "coupling" if one.moving else "frame"


def coupling_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """The rod's nuts: caught in the coupling, jammed behind it, a washer for the sleeve. All of it moves."""
    if spec.layout == "alongside":
        return
    at, d = plan.coupling, thread_d_mm(plan.coupling.rod_thread)
    rod = along_y(plan.axis_x_mm, plan.ends.blade_shut_mm - at.edge_y)
    held = nut(rod, caught(at.nut_af_mm, spec.printer), d, at.nut_y1 - at.nut_m_mm, at.nut_m_mm)
    yield StandIn("coupling nut", held, "coupling", None, moving=True)
    jam = nut(rod, corners_mm(at.jam_af_mm or at.nut_af_mm), d, at.back_y, at.jam_m_mm)
    yield StandIn("coupling jam nut", jam, "coupling", None, moving=True)
    if at.washer_h_mm:
        face = at.back_y + at.jam_m_mm
        washer = tube(rod, at.washer_d_mm, d + LOOSE_MM, face, face + at.washer_h_mm)
        yield StandIn("coupling washer", washer, "coupling", None, moving=True)


def rod_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """Threaded rods with their nuts and washers: one nut caught in the yoke, one before it, two at the nose plate."""
    if plan.frame.kind != "rods" or spec.layout != "in_line":
        return
    row, at, face = fastener(plan.frame.rod), plan.frame, plan.nose_face_mm
    for side, x in (("left", -at.rail_x), ("right", at.rail_x)):
        rod = cylinder(along_y(x, 0.0), at.rod_d_mm / 2, *rod_span_mm(plan, spec))
        yield StandIn(f"frame rod {side}", rod, "frame", None)
        floor = at.yoke_y1 - FLOOR_MM
        across = caught(at.rod_nut_af_mm, spec.printer)
        held = nut(along_y(x, 0.0), across, at.rod_d_mm, floor - at.rod_nut_m_mm, at.rod_nut_m_mm)
        yield StandIn(f"frame nut in the yoke {side}", held, "frame", None)
        seats = (
            ("before the yoke", along_y(x, at.yoke_y1)),
            ("inside the nose plate", along_y(x, face - at.nose.deep, -1.0)),
            ("outside the nose plate", along_y(x, face)),
        )
        for name, frame in seats:
            yield StandIn(f"frame nut {name} {side}", nut_on_washer(frame, row, 0.0)[0], "frame", None)
