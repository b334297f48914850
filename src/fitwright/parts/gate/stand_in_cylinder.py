"""Stand-ins of the cylinder: body with nose and front cover, rod, nose nut or front screws, fittings and their hose."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from cadquery import Face, Solid, Vector, Wire

from fitwright.data.air import FittingRow, fitting, tube
from fitwright.data.cylinders import cylinder_row
from fitwright.data.thread_words import thread_named
from fitwright.errors import DataError
from fitwright.frame import Frame, Vec
from fitwright.part import StandIn
from fitwright.parts.gate.load_faces import UP
from fitwright.parts.gate.nose_hold import ClampHold, SquareHold, ThreadHold
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.stand_in_shapes import FACES, LOOSE_MM, along_y, corners_mm, nut
from fitwright.parts.gate.stand_in_shapes import tube as ring_of
from fitwright.shapes.solids import cut, cylinder, fused, rectangle, sewn
from fitwright.spec.gate import Cylinder
from fitwright.spec.models import GateBracketSpec

ROD_LOOSE_MM = 0.4
"""The barrel is drawn hollow, so much wider than the rod: what moves may stand in it."""
REAR_MM = 1.0
"""Thickness of the hollow barrel's rear end."""
COVER_REL = 0.3
"""The piston stands so much of the length at no stroke behind the mounting face when the rod is out (common practice,
no source)."""
PORT_IN_REL = 0.45
"""A port whose place no table knows lies so much of the body's width behind the mounting face."""
DRIVER_MM = 40.0
"""Straight room for a key in front of a screw's head (common practice, no source)."""
USUAL_PORT = "G 1/8"
ARM_HIGH_REL, ARM_WIDE_REL = 0.35, 0.8
"""A fitting's arm: its axis above the port's face as a share of its height, its diameter as one of the body's."""
HOSE_STRAIGHT_MM, HOSE_RUN_MM = 10.0, 30.0


def cylinder_things(plan: GatePlan, spec: GateBracketSpec) -> Iterator[StandIn]:
    """The cylinder and all that belongs to it."""
    bought, axis = spec.cylinder, along_y(plan.axis_x_mm, plan.nose_face_mm, plan.way)
    yield StandIn("cylinder body", _body(bought, axis), "cylinder", None)
    yield StandIn("cylinder rod", _rod(plan, bought, axis), "cylinder", None, moving=True)
    yield from _held(plan, bought, axis)
    for port in ports(bought, axis, isinstance(plan.frame.nose.hold, ClampHold)):
        yield StandIn(f"cylinder {port.name} fitting", fitting_solid(port), "cylinder", None)
        yield StandIn(f"cylinder {port.name} hose bend", hose_solid(port), "cylinder", None)


def _body(bought: Cylinder, axis: Frame) -> Solid:
    """Barrel, cover and nose in one, hollow for the rod from the nose's end to a rear wall."""
    long = bought.long_mm
    if bought.body_square_mm:
        barrel = rectangle(axis, bought.body_square_mm, bought.body_square_mm, 0.0, 0.0, long)
    else:
        barrel = cylinder(axis, bought.body_mm / 2, 0.0, long)
    pieces, head = [barrel], _head_mm(bought)
    if head > bought.body_mm:
        deep = 2 * port_in_mm(bought)
        pieces += [ring_of(axis, head, bought.body_mm, a, b) for a, b in ((0.0, deep), (long - deep, long))]
    if bought.nose_mm > 0:
        pieces.append(cylinder(axis, nose_d_mm(bought) / 2, -bought.nose_mm, 0.0))
    hollow = cylinder(axis, (bought.rod_mm + ROD_LOOSE_MM) / 2, -bought.nose_mm - 1.0, long - REAR_MM)
    return cut(fused(pieces, "cylinder body"), [hollow], "cylinder body")


def nose_d_mm(bought: Cylinder) -> float:
    """What stands out of the mounting face: the nose thread or the boss; twice the rod where neither is known."""
    if bought.nose_thread:
        return thread_named(bought.nose_thread).major_mm
    return bought.boss_d_mm or 2 * bought.rod_mm


def _head_mm(bought: Cylinder) -> float:
    """Diameter of the covers of a round cylinder, where the table of its standard knows it; else 0."""
    try:
        row = cylinder_row(f"{bought.standard} {bought.bore_mm:g}")
    except DataError:
        return 0.0
    return row.head_round_mm or 0.0


def port_in_mm(bought: Cylinder) -> float:
    """Mounting face to the front port's axis, and the rear port's from the rear end."""
    try:
        known = cylinder_row(f"{bought.standard} {bought.bore_mm:g}").port_from_face_mm
    except DataError:
        known = None
    return known or PORT_IN_REL * bought.body_mm


def _rod(plan: GatePlan, bought: Cylinder, axis: Frame) -> Solid:
    """From the piston to the shoulder, and its thread; shut as driven."""
    shoulder = (plan.shoulder_shut_mm - plan.nose_face_mm) * plan.way
    thread = thread_named(bought.rod_thread).major_mm
    piston = COVER_REL * bought.length_0_mm + bought.rod_stub_mm + bought.stroke_mm + shoulder
    rod = cylinder(axis, bought.rod_mm / 2, shoulder, piston)
    stud = cylinder(axis, thread / 2, shoulder - bought.rod_thread_long_mm, shoulder)
    return fused([rod, stud], "cylinder rod")


def _held(plan: GatePlan, bought: Cylinder, axis: Frame) -> Iterator[StandIn]:
    """Nose nut with its washer, or the screws of the front cover, on the rod's side of the plate."""
    hold, out = plan.frame.nose.hold, along_y(axis.origin[0], axis.origin[1], -plan.way)
    if isinstance(hold, ThreadHold):
        yield from _nose_nut(hold, nose_d_mm(bought), out)
    elif isinstance(hold, SquareHold):
        yield from _front_screws(hold, plan.frame.nose.deep, out)


def _nose_nut(hold: ThreadHold, d: float, out: Frame) -> Iterator[StandIn]:
    s0 = hold.web_mm + hold.washer_h_mm
    rings = [nut(out, corners_mm(hold.nut_af_mm), d, s0, hold.nut_m_mm)]
    if hold.washer_h_mm:
        rings.insert(0, ring_of(out, hold.washer_d_mm, d + LOOSE_MM, hold.web_mm, s0))
    yield StandIn("cylinder nose nut", fused(rings, "nose nut"), "cylinder", None)


def _front_screws(hold: SquareHold, deep_mm: float, out: Frame) -> Iterator[StandIn]:
    """Four screws through the plate into the front cover, washers under their heads; the line of their key."""
    half, top = hold.apart_mm / 2, deep_mm + hold.washer_h_mm
    for number, (x, z) in enumerate(((-half, half), (half, half), (half, -half), (-half, -half)), start=1):
        at = Frame(out.point(x, 0.0, z), out.inward, out.right)
        pieces = [
            cylinder(at, hold.d_mm / 2, top - hold.long_mm, top),
            cylinder(at, hold.head_d_mm / 2, top, top + hold.head_k_mm),
        ]
        if hold.washer_h_mm:
            pieces.append(ring_of(at, hold.washer_d_mm, hold.d_mm, deep_mm, top))
        yield StandIn(f"cylinder screw {number}", fused(pieces, "front screw"), "cylinder", None)
        line = cylinder(at, hold.head_d_mm / 2, top + hold.head_k_mm + 0.01, top + DRIVER_MM)
        yield StandIn(f"cylinder screw {number} driver line", line, "cylinder", None, room_only=True)


@dataclass(frozen=True)
class Port:
    """A port on the cylinder's flank: `frame` looks out of it, its right the way that its fitting's arm points."""

    name: str
    frame: Frame
    fitting: FittingRow


def ports(bought: Cylinder, axis: Frame, front_up: bool = False) -> tuple[Port, Port]:
    """Both ports with the usual elbow with flow control, its tube leaving away from the nose; or the front one's up."""
    try:
        row = fitting(bought.port)
    except DataError:
        row = fitting(USUAL_PORT)
    out, inset, radius = FACES[bought.ports_face], port_in_mm(bought), bought.body_mm / 2
    if bought.body_square_mm is None:
        radius = max(radius, _head_mm(bought) / 2)

    def at(name: str, s: float, arm: Vec) -> Port:
        centre = axis.point(0.0, s, 0.0)
        origin: Vec = (centre[0] + radius * out[0], centre[1], centre[2] + radius * out[2])
        return Port(name, Frame(origin, out, arm), row)

    return at("front", inset, UP if front_up else axis.inward), at("rear", bought.long_mm - inset, axis.inward)


def fitting_solid(port: Port) -> Solid:
    """A square block up to the top of its screw, and the arm that the tube goes into."""
    row, frame = port.fitting, port.frame
    block = rectangle(frame, row.body_mm, row.body_mm, 0.0, 0.0, row.above_mm)
    arm = _arm(port)
    return fused([block, cylinder(arm, ARM_WIDE_REL * row.body_mm / 2, row.body_mm / 2, row.reach_mm)], "fitting")


def hose_solid(port: Port) -> Solid:
    """The tube out of the arm: a straight, its least bend away from the cylinder, a straight."""
    row, arm, bend = port.fitting, _arm(port), tube(port.fitting.tube_mm).bend_radius_mm
    s0, r = row.reach_mm, row.tube_mm / 2
    first = cylinder(arm, r, s0, s0 + HOSE_STRAIGHT_MM)
    start, out = arm.point(0.0, s0 + HOSE_STRAIGHT_MM, 0.0), port.frame.inward
    centre = tuple(a + bend * b for a, b in zip(start, out, strict=True))
    disc = Face.makeFromWires(Wire.makeCircle(r, Vector(*start), Vector(*arm.inward)))
    turn = Vector(*arm.inward).cross(Vector(*out))
    elbow = Solid.revolve(disc, math.degrees(math.pi / 2), Vector(*centre), Vector(*centre) + turn)
    end = arm.point(0.0, s0 + HOSE_STRAIGHT_MM + bend, 0.0)
    last: Vec = (end[0] + bend * out[0], end[1] + bend * out[1], end[2] + bend * out[2])
    return sewn([first, elbow, cylinder(Frame(last, out, arm.inward), r, 0.0, HOSE_RUN_MM)], "hose bend")


def _arm(port: Port) -> Frame:
    """Along the fitting's arm, from the port's axis."""
    high = ARM_HIGH_REL * port.fitting.above_mm
    return Frame(port.frame.point(0.0, high, 0.0), port.frame.right, port.frame.inward)
