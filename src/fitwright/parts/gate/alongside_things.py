"""Stand-ins that are there only alongside: the guide rod, the nuts on the piston rod and in the coupling."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.part import StandIn
from fitwright.parts.compensation import caught
from fitwright.parts.gate.alongside_bolt import BOLT_MM
from fitwright.parts.gate.bought import thread_d_mm
from fitwright.parts.gate.coupling import coupling_shift_mm
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_shapes import LOOSE_MM, along_y, corners_mm, nut, tube
from fitwright.shapes.solids import cylinder
from fitwright.spec.gate_coupling import rod_washer
from fitwright.spec.models import GateBracketSpec


def alongside_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """None in line."""
    if plan.beside is None:
        return
    at, bridge, guide = plan.coupling, plan.beside.bridge, plan.beside.guide
    late = coupling_shift_mm(plan)
    across = caught(at.nut_af_mm, spec.printer)
    bolt = nut(along_y(0.0, late), across, BOLT_MM, at.nut_y1 - at.nut_m_mm, at.nut_m_mm)
    yield StandIn("coupling nut", bolt, "coupling", None, moving=True)
    rod, d = along_y(plan.axis_x_mm, 0.0), thread_d_mm(bridge.nut.thread)
    held = nut(rod, caught(bridge.nut.af_mm, spec.printer), d, bridge.near_y + bridge.wall_mm, bridge.nut.m_mm)
    yield StandIn("coupling rod nut", held, "coupling", None, moving=True)
    jam = nut(rod, corners_mm(bridge.nut.af_mm), d, bridge.jam_y[0], bridge.jam_y[1] - bridge.jam_y[0])
    yield StandIn("coupling jam nut", jam, "coupling", None, moving=True)
    high, wide = rod_washer(spec)
    if high:
        y0 = bridge.jam_y[0] - high
        yield StandIn("coupling washer", tube(rod, wide, d + LOOSE_MM, y0, y0 + high), "coupling", None, moving=True)
    if guide is not None:
        bar = cylinder(along_y(guide.x_mm, 0.0), guide.d_mm / 2, guide.y0, guide.y1)
        yield StandIn("guide rod", bar, "guide", None)
