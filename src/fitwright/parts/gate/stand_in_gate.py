"""Stand-ins of the gate: its body with the blade's slot, the blade, pipe stubs, what stands proud, dust."""

from __future__ import annotations

from collections.abc import Iterator

from cadquery import Solid

from fitwright.part import StandIn
from fitwright.parts.gate.piece import box
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_shapes import along_z, tube
from fitwright.shapes.solids import cut, cylinder
from fitwright.spec.gate import Proud
from fitwright.spec.models import GateBracketSpec

SLOT_HIGH_MM, SLOT_WIDE_MM = 0.4, 1.0
"""The gate's slot is so much larger than its blade (four sheets of paper and a sliding fit; common practice)."""
END_WALL_MM = 3.0
"""Wall at the far end of a gate whose slot is closed there (common practice, no source)."""
STUB_WALL_MM = 2.0
DUST_MM = 10.0
"""What the blade pushes out of the far end needs so much room beyond it (common practice, no source)."""
PAST_MM = 1.0
"""Cutters go so far beyond what they cut."""


def gate_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """The gate and all that belongs to it."""
    yield StandIn("gate body", _body(plan, spec), "gate", None)
    yield StandIn("gate blade", _blade(plan, spec), "gate", None, moving=True)
    yield from _stubs(plan, spec)
    for proud in spec.gate.proud:
        yield StandIn(f"gate {proud.label}", _proud(plan, proud), "gate", None)
    if spec.gate.body.far_end != "closed":
        yield StandIn("gate room for dust", _dust(plan, spec), "gate", None, room_only=True)


def far_y_mm(plan: GatePlan, spec: GateBracketSpec) -> float:
    """The body's far edge (negative y): as measured, else a wall beyond the blade's tip and its room when shut."""
    gate = spec.gate
    if gate.body.length_mm is not None:
        return -gate.body.length_mm
    return gate.shut_mm - plan.blade_long_mm - gate.body.far_room_mm - END_WALL_MM


def slot_y_mm(plan: GatePlan, spec: GateBracketSpec) -> float:
    """Where the slot ends: at the far edge where it is open or unknown, else at its room, or the end wall."""
    gate, far = spec.gate, far_y_mm(plan, spec)
    if gate.body.far_end != "closed":
        return far
    known = gate.shut_mm - plan.blade_long_mm - gate.body.far_room_mm if gate.body.far_room_mm > 0.0 else far
    return max(far + END_WALL_MM, known)


def _body(plan: GatePlan, spec: GateBracketSpec) -> Solid:
    gate, (low, high) = spec.gate, plan.body_z_mm
    far, half = far_y_mm(plan, spec), gate.body.width_mm / 2
    slot_y = slot_y_mm(plan, spec) - (PAST_MM if gate.body.far_end != "closed" else 0.0)
    slot_x = min(gate.blade.width_mm + SLOT_WIDE_MM, gate.body.width_mm - 0.5) / 2
    slot_z = (gate.blade.thickness_mm + SLOT_HIGH_MM) / 2
    slot = box((-slot_x, slot_x), (slot_y, PAST_MM), (-slot_z, slot_z))
    port = along_z(0.0, -gate.port.to_edge_mm, 0.0)
    bore = cylinder(port, gate.port.d_mm / 2, low - PAST_MM, high + PAST_MM)
    block = box((-half, half), (far, 0.0), (low, high))
    return cut(block, [slot, bore], "gate body")


def _blade(plan: GatePlan, spec: GateBracketSpec) -> Solid:
    blade, edge = spec.gate.blade, plan.ends.blade_shut_mm
    x, z = blade.width_mm / 2, blade.thickness_mm / 2
    plate = box((-x, x), (edge - plan.blade_long_mm, edge), (-z, z))
    if blade.hole_mm is None or blade.hole_to_edge_mm is None:
        return plate
    hole = along_z(0.0, edge - blade.hole_to_edge_mm, 0.0)
    return cut(plate, [cylinder(hole, blade.hole_mm / 2, -z - PAST_MM, z + PAST_MM)], "blade")


def _stubs(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    port = spec.gate.port
    if port.stub_outside_mm is None or port.stub_long_mm is None:
        return
    inside = min(port.d_mm, port.stub_outside_mm - 2 * STUB_WALL_MM)
    for name, way, face in (("above", 1.0, plan.body_z_mm[1]), ("below", -1.0, plan.body_z_mm[0])):
        frame = along_z(0.0, -port.to_edge_mm, face, way)
        stub = tube(frame, port.stub_outside_mm, inside, 0.0, port.stub_long_mm)
        yield StandIn(f"gate pipe stub {name}", stub, "gate", None)


def _proud(plan: GatePlan, proud: Proud) -> Solid:
    low, high = plan.body_z_mm
    z = (high, high + proud.high_mm) if proud.side == "up" else (low - proud.high_mm, low)
    x, y = proud.x_mm, -proud.y_mm
    return box((x - proud.across_mm / 2, x + proud.across_mm / 2), (y - proud.along_mm, y), z)


def _dust(plan: GatePlan, spec: GateBracketSpec) -> Solid:
    """Behind the far end: as far as the blade comes out there when shut, and DUST_MM more."""
    blade, far = spec.gate.blade, far_y_mm(plan, spec)
    over = max(0.0, far - (plan.ends.blade_shut_mm - plan.blade_long_mm))
    x, z = (blade.width_mm + SLOT_WIDE_MM) / 2, (blade.thickness_mm + SLOT_HIGH_MM) / 2
    return box((-x, x), (far - over - DUST_MM, far), (-z, z))
