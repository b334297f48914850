"""The faces that the chain of lengths hangs on, for the check `motion`."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.frame import Vec
from fitwright.part import Seat
from fitwright.parts.compensation import modelled
from fitwright.parts.gate.alongside import alongside_seats
from fitwright.parts.gate.coupling import coupling_shift_mm
from fitwright.parts.gate.nose_hold import ClampHold
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.sleeve import sleeve_sizes
from fitwright.spec.models import GateBracketSpec

OUT: Vec = (0.0, 1.0, 0.0)
IN: Vec = (0.0, -1.0, 0.0)
NOSE_BODY = {"rods": "nose_plate", "one_piece": "bracket", "board": "nose_foot"}
YOKE_BODY = {"rods": "yoke", "one_piece": "bracket", "board": "gate_foot"}
"""The bodies that hold the cylinder's nose and the gate, by the kind of frame."""
BESIDE_MM = 1.5
"""A seat's point lies so far beside the hole that goes through its face."""


def gate_seats(plan: GatePlan, spec: GateBracketSpec) -> tuple[Seat, ...]:
    """`fork floor`, `pin pull`, `coupling back`, `sleeve begin`, `sleeve end`, `nose face`, `yoke face`."""
    return (*coupling_seats(plan, spec), *sleeve_seats(plan, spec), nose_seat(plan, spec), yoke_seat(plan))


def coupling_seats(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Seat]:
    """What pushes the blade's edge, what pulls its pin (its slot's side towards the tip), the jam nut's seat."""
    at, late = plan.coupling, coupling_shift_mm(plan)
    yield Seat("fork floor", "coupling", (0.0, at.floor_y + late, 0.0), IN)
    if at.pin is not None:
        middle = (at.fork_mm + at.slot_mm) / 4
        opened = modelled(at.pin_slot_mm, "hole", spec.printer) / 2
        yield Seat("pin pull", "coupling", (0.0, at.pin_slot_y - opened + late, middle), OUT)
    if plan.beside is not None:
        yield from alongside_seats(plan)
        return
    beside = at.rod_hole_mm / 2 + BESIDE_MM
    yield Seat("coupling back", "coupling", (-beside, at.back_y + late, 0.0), OUT)


def sleeve_seats(plan: GatePlan, spec: GateBracketSpec) -> Iterator[Seat]:
    """Both ends of the sleeve: `sleeve begin` lies on the jam nut, `sleeve end` strikes the nose."""
    sizes = sleeve_sizes(plan, spec)
    if sizes is None:
        return
    x = plan.axis_x_mm + (sizes.bore_mm + sizes.outside_mm) / 4
    low, high = (x, sizes.y0, 0.0), (x, sizes.y0 + sizes.long_mm, 0.0)
    begin, end = (low, high) if plan.way > 0 else (high, low)
    yield Seat("sleeve begin", "sleeve", begin, IN if plan.way > 0 else OUT)
    yield Seat("sleeve end", "sleeve", end, OUT if plan.way > 0 else IN)


def nose_seat(plan: GatePlan, spec: GateBracketSpec) -> Seat:
    """Where the cylinder's mounting face bears, beside the hole for nose or boss (in a clamp, where its cover is)."""
    hold = plan.frame.nose.hold
    x = hold.hole_mm / 2 + BESIDE_MM
    if isinstance(hold, ClampHold):
        x = min(x, (hold.hole_mm + hold.cover_mm) / 4)
    at = (plan.axis_x_mm + x, plan.nose_face_mm, 0.0)
    return Seat("nose face", "yoke" if plan.beside else NOSE_BODY[plan.frame.kind], at, OUT if plan.way > 0 else IN)


def yoke_seat(plan: GatePlan) -> Seat:
    """The face towards the gate's body, beside the window for the blade."""
    at = (plan.frame.window_wide / 2 + BESIDE_MM, plan.frame.yoke_y0, 0.0)
    return Seat("yoke face", "yoke" if plan.beside else YOKE_BODY[plan.frame.kind], at, IN)
