"""Simple solids of what is bought: pipe ends, hose, hose clamp, screws with their driver line."""

from __future__ import annotations

from collections.abc import Iterator

from cadquery import Solid

from fitwright.frame import Frame
from fitwright.part import StandIn
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.clamp_turn import clamp_turn
from fitwright.parts.end_form import form_round
from fitwright.parts.hose_facts import clamp_middle_mm
from fitwright.shapes.joint import clock_direction
from fitwright.shapes.profile import tidy
from fitwright.shapes.solids import bar, cylinder, fused, prism, ring
from fitwright.spec.joints import Bond
from fitwright.spec.models import Envelope, Flange, HoseTail, Socket, Spigot
from fitwright.spec.printed import bought_cone

RUN_MM = 100.0
"""This much of the pipe or hose is drawn beyond the mouth."""
PIPE_WALL_MM = 3.2
HOSE_RIB_MM = 5.0
"""Rib height of wire-ribbed hose on its outside (2-10 mm on the diameter and more; common practice, no source)."""
CLAMP_BAND_MM = 1.5
CLAMP_HOUSING = (22.0, 14.0, 12.0)
"""Screw housing of a worm-drive clamp: along the hoop, along the hose, height (common practice, no source)."""
CLAMP_SCREW_MM = 10.0
TOUCH_MM = 1.2
"""Bought part and print may overlap by this much in radius where they are meant to touch (fit.result judges it)."""
DRIVER_MM = 60.0
"""Straight room for the driver in front of a screw head."""


def stand_ins(ends: tuple[PlacedEnd, PlacedEnd], envelope: Envelope) -> tuple[StandIn, ...]:
    """All stand-ins of an adapter, each with the zone where it may touch; clamps are turned to where there is room."""
    return tuple(s for end in ends for s in _of(end, envelope))


def _of(end: PlacedEnd, envelope: Envelope) -> Iterator[StandIn]:
    joint = end.plan.end.joint
    if isinstance(joint, Flange):
        yield from _screws(end, joint)
    elif isinstance(joint, HoseTail):
        yield from _hose(end, joint, envelope)
    elif isinstance(joint, Socket | Spigot):
        yield _pipe(end, joint) if joint.size.outline is None else _duct(end, joint)


def _tube(frame: Frame, r_in: float, r_out: float, s0: float, s1: float) -> Solid:
    return ring([(s0, r_in), (s0, r_out), (s1, r_out), (s1, r_in)], frame)


def _duct(end: PlacedEnd, joint: Socket | Spigot) -> StandIn:
    """What is bought and not round: its outline drawn out beyond the mouth."""
    assert joint.size.outline is not None
    frame, depth, form = end.frame, end.shape.engaged_mm, form_round(joint.size.outline)
    r, inwards = joint.size.nominal_mm / 2, end.plan.end.kind == "socket"
    other = max(r - PIPE_WALL_MM, 0.5 * r) if inwards else r + PIPE_WALL_MM
    low, high = sorted((r, other))
    duct = form.ring([(-RUN_MM, low), (-RUN_MM, high), (depth, high), (depth, low)], frame)
    zone = form.full([(-0.01, r + TOUCH_MM), (depth + TOUCH_MM, r + TOUCH_MM)], frame)
    return StandIn(f"{end.plan.key} duct", duct, end.plan.key, zone)


def _pipe(end: PlacedEnd, joint: Socket | Spigot) -> StandIn:
    frame, depth = end.frame, end.shape.engaged_mm
    cone, sign = bought_cone(joint), 1.0 if end.plan.end.kind == "socket" else -1.0
    wall = sign * (joint.size.wall_mm or PIPE_WALL_MM)
    far = -0.5 * depth if cone.slope else -RUN_MM  # a taper is known for its measured length, not for a whole run
    faces = [(far, cone.at(far) / 2), (depth, cone.at(depth) / 2)]
    line = [(-RUN_MM, faces[0][1]), *faces, (depth, faces[1][1] - wall), (far, faces[0][1] - wall)]
    line.append((-RUN_MM, faces[0][1] - wall))
    touch = max(cone.at(0.0), cone.at(depth)) / 2 + TOUCH_MM
    zone = cylinder(frame, touch, -0.01, depth + TOUCH_MM)
    name = f"{end.plan.key} hose" if end.shape.ridge else f"{end.plan.key} pipe"
    return StandIn(name, ring(list(tidy(line)), frame), end.plan.key, zone)


def _hose(end: PlacedEnd, joint: HoseTail, envelope: Envelope) -> Iterator[StandIn]:
    frame, depth, fit = end.frame, end.shape.engaged_mm, end.shape.fit
    assert fit is not None
    r = fit[1] / 2
    crest = max(q for s, q in end.shape.outer if s <= fit[0])
    crest = max(crest, end.shape.ridge.crest_r_mm) if end.shape.ridge else crest
    zone = cylinder(frame, crest + TOUCH_MM, -RUN_MM - 1.0, depth + TOUCH_MM)
    hose = _tube(frame, r, crest + HOSE_RIB_MM, -RUN_MM, depth)
    yield StandIn(f"{end.plan.key} hose", hose, end.plan.key, zone)
    if joint.bond is not None:
        yield from _bonding_screw(end, joint.bond)
    if joint.band_mm:
        yield from _clamp(end, joint, hose, envelope)


def _bonding_screw(end: PlacedEnd, bond: Bond) -> Iterator[StandIn]:
    """Head and washer on the bonding lug, and the straight line that a driver needs."""
    (hole,) = end.shape.blind
    out = (-hole.direction[0], -hole.direction[1], -hole.direction[2])
    axis = Frame(hole.start, out, end.frame.inward)
    high = max(bond.head_k_mm, 1.0)
    head = cylinder(axis, bond.seat_d_mm / 2, 0.01, high)  # the wire lies under it
    yield StandIn(f"{end.plan.key} bonding screw", head, end.plan.key, None)
    driver = cylinder(axis, bond.seat_d_mm / 2, high + 0.01, high + DRIVER_MM)
    yield StandIn(f"{end.plan.key} bonding screw driver line", driver, end.plan.key, None)


def _clamp(end: PlacedEnd, joint: HoseTail, hose: Solid, envelope: Envelope) -> Iterator[StandIn]:
    frame, fit = end.frame, end.shape.fit
    assert fit is not None
    r = fit[1] / 2
    middle, half = clamp_middle_mm(fit[0], joint), joint.band_mm / 2
    band_r = r + HOSE_RIB_MM
    band = _tube(frame, band_r, band_r + CLAMP_BAND_MM, middle - half, middle + half)
    hoop, along, high = CLAMP_HOUSING
    low = band_r + CLAMP_BAND_MM / 2
    outline = [(-hoop / 2, low), (hoop / 2, low), (hoop / 2, low + high), (-hoop / 2, low + high)]
    turned = _turned(frame, clamp_turn(frame, middle, band_r, envelope)[0])
    housing = prism(outline, turned, middle - along / 2, middle + along / 2)
    yield StandIn(f"{end.plan.key} hose clamp", fused([band, housing], "hose clamp"), end.plan.key, hose)
    start, screw_r = turned.point(hoop / 2 + 0.01, middle, low + high / 2), CLAMP_SCREW_MM / 2
    driver = bar(start, turned.right, screw_r, DRIVER_MM)
    yield StandIn(f"{end.plan.key} hose clamp driver line", driver, end.plan.key, None)


def _turned(frame: Frame, deg: float) -> Frame:
    """The frame turned about its axis, so that its up points to this clock angle."""
    right = clock_direction(frame, deg + 90.0)
    return Frame(frame.origin, frame.inward, right)


def _screws(end: PlacedEnd, joint: Flange) -> Iterator[StandIn]:
    """Head and washer on the inner face, and the straight line that a driver needs."""
    holes, frame = joint.holes, end.frame
    if holes is None:
        return
    seat = joint.thickness_mm - (0.4 if joint.washers and not joint.nut_pockets else 0.0)
    if joint.nut_pockets:
        return
    for k, tool in enumerate(end.shape.holes, start=1):
        centre = tool.start
        axis = Frame(centre, frame.inward, frame.right)
        base = seat + 0.5 + 0.01
        top = base + holes.washer_h_mm
        washer = cylinder(axis, holes.washer_d_mm / 2, base, top)
        head = cylinder(axis, holes.head_d_mm / 2, top, top + holes.head_k_mm)
        yield StandIn(f"{end.plan.key} screw {k}", fused([washer, head], "screw"), end.plan.key, None)
        driver = cylinder(axis, holes.head_d_mm / 2 + 0.5, top + holes.head_k_mm + 0.01, top + DRIVER_MM)
        yield StandIn(f"{end.plan.key} driver line {k}", driver, end.plan.key, None)
