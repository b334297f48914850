"""Check `hardware`: does each screw, nut and rod joint go together, hold, and can it be turned?

Measured on the finished meshes: material round each hole, what a washer rests on, whether a nut goes into its pocket
and is held there, whether a spanner swings. Lengths are reckoned from the grip as built.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from fitwright.checks.hardware_rays import bearing_share, edge_mm
from fitwright.checks.hardware_room import pocket_faults, swing_deg
from fitwright.checks.things import Thing, bodies_of, stand_ins_of
from fitwright.finding import Finding, Severity
from fitwright.frame import Vec
from fitwright.mesh import BodyMesh
from fitwright.part import Fastening, Part, Turned
from fitwright.spec.printed import modelled

if TYPE_CHECKING:
    from fitwright.spec.models import PartBase

CODE = "hardware"
MODULE_WORDS = "the gate's moulded body"
LEAST_ENGAGED = 1.0
"""Of a screw in the thread of a metal cover, in diameters (common practice, no source)."""
BOTTOM_MM = 1.0
"""A screw stays so far from the end of its threaded hole."""
PROTRUDES_PITCHES = 1.0
"""A nut is full when at least so much thread stands out of it (common practice, no source)."""
BEARS = 0.8
"""Share of a washer's ring that must rest on the print: holes and slots take some of it."""
BEARS_SLOT = 0.4
"""Over a slot the washer rests on its two long sides."""
SWING_DEG, FLIPPED_DEG = 60.0, 30.0
"""Free swing of an open spanner that turns a hexagon on; half of it where the spanner is turned over each time."""
EDGE_SLACK = 0.03
THIN_MM = 0.3
"""A thin spanner is so much thinner than the nut that it turns."""


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase | None = None) -> list[Finding]:
    """Judge every fastening that the part declares; nothing where it declares none."""
    if not part.fastenings:
        return []
    findings: list[Finding] = []
    bodies = {thing.name: thing for thing in bodies_of(part, meshes, findings)}
    others = [thing for thing in stand_ins_of(part, findings) if not thing.room_only]
    findings = [f for f in findings if f.code == CODE]
    for one in part.fastenings:
        found = [*_length(one), *_edge(one, bodies), *_bearing(one, bodies), *_pocket(one, bodies, spec)]
        found += [f for turned in one.turned if (f := _swing(one, turned, _at_ends(part, one, bodies, others)))]
        findings += found
    if not any(f.severity != "pass" for f in findings):
        findings.append(_finding("pass", "", f"{len(part.fastenings)} screw and rod joints go together and hold"))
    return findings


def _finding(
    severity: Severity,
    place: str,
    message: str,
    advice: str = "",
    value: float | None = None,
    limit: float | None = None,
    unit: str = "mm",
    body: str = "",
) -> Finding:
    return Finding(CODE, severity, body, value, limit, unit if value is not None else "", place, message, advice)


def _length(one: Fastening) -> Iterator[Finding]:
    """Long enough for a full nut or thread, not so long that it stands on the ground of its hole."""
    if one.long_mm <= 0.0:
        return
    used = one.grip_mm + one.washers * one.washer_h_mm
    if one.thread_into:
        yield from _into_thread(one, one.long_mm - used)
        return
    need = used + one.nut_m_mm + PROTRUDES_PITCHES * one.pitch_mm
    if one.long_mm < need - 1e-6:
        message = f"the {one.size} screw is too short: its nut finds {one.long_mm - used:.1f} mm of thread"
        advice = f"Buy it {_next_length(need):g} mm long or longer."
        yield _finding("fail", one.name, message, advice, one.long_mm, need)


def _into_thread(one: Fastening, engaged: float) -> Iterator[Finding]:
    least, most = LEAST_ENGAGED * one.d_mm, one.deep_mm - BOTTOM_MM
    if one.thread_into == "gate":
        message = f"the {one.size} screw would hold in a thread of {MODULE_WORDS}: it tears out"
        yield _finding("fail", one.name, message, "Use through screws with nuts.")
    if engaged < least - 1e-6:
        message = f"the {one.size} screw has only {engaged:.1f} mm of thread in {one.thread_into}"
        advice = f"Buy it {one.long_mm + least - engaged:.0f} mm long or longer."
        yield _finding("fail", one.name, message, advice, engaged, least)
    if engaged > most + 1e-6:
        message = f"the {one.size} screw meets the ground of its hole in {one.thread_into} before it clamps"
        advice = f"Buy it {one.long_mm - (engaged - most):.0f} mm long or shorter, or put washers under its head."
        yield _finding("fail", one.name, message, advice, engaged, most)


def _next_length(need_mm: float) -> float:
    """The next length that screws are sold in."""
    sold = (*range(6, 20, 2), *range(20, 85, 5), *range(90, 310, 10))
    return float(next((one for one in sold if one >= need_mm - 1e-6), need_mm))


def _edge(one: Fastening, bodies: Mapping[str, Thing]) -> Iterator[Finding]:
    """Material from the hole's middle to the nearest edge, in every body that it goes through."""
    limit = one.edge_limit * one.d_mm
    for name in dict.fromkeys(one.through):
        if name not in bodies:
            continue
        found = edge_mm(bodies[name].mesh, one)
        if found is None:
            message = f"no hole for the {one.size} was found in the {name}"
            yield _finding("fail", one.name, message, "This is a fault of the build: report it.", body=name)
        elif found < limit * (1.0 - EDGE_SLACK):
            message = f"the middle of the {one.size} hole is {found:.1f} mm from the edge of the {name}"
            yield _finding("fail", one.name, message, f"Move it inwards ({one.key}).", found, limit, body=name)


def _bearing(one: Fastening, bodies: Mapping[str, Thing]) -> Iterator[Finding]:
    """A washer under each head and nut that stands on plastic, and material under the washer."""
    sides = [(one.through[0], "head", 0.0, 1.0)]
    if one.nut_m_mm and one.pocket is None:
        sides.append((one.through[-1], "nut", one.grip_mm, -1.0))
    for number, (name, what, at, sign) in enumerate(sides):
        if name not in bodies or not (one.head_d_mm or one.washer_d_mm):  # a set screw bears on nothing
            continue
        if one.washers <= number and one.washer_d_mm <= one.head_d_mm:
            message = f"there is no washer under the {what} of the {one.size} on the {name}: it sinks into the plastic"
            yield _finding("warn", one.name, message, "Put a washer under it.", body=name)
        if not one.washer_d_mm:
            continue
        share = bearing_share(bodies[name].mesh, one, at, sign)
        if share < (BEARS_SLOT if one.slotted else BEARS):
            message = f"the washer under the {what} of the {one.size} rests on the {name} with {share:.0%} of its ring"
            yield _finding(
                "fail",
                one.name,
                message,
                f"Give it a flat face ({one.key}).",
                share,
                BEARS_SLOT if one.slotted else BEARS,
                "",
                name,
            )


def _pocket(one: Fastening, bodies: Mapping[str, Thing], spec: PartBase | None) -> Iterator[Finding]:
    """The nut in its pocket, as both are once printed."""
    if one.pocket is None or one.pocket.body not in bodies:
        return
    across = modelled(one.nut_af_mm, "hole", spec.printer) if spec else one.nut_af_mm
    for message, advice in pocket_faults(bodies[one.pocket.body], one, across):
        yield _finding("fail", one.name, message, advice, body=one.pocket.body)


def _at_ends(part: Part, one: Fastening, bodies: Mapping[str, Thing], others: list[Thing]) -> list[list[Thing]]:
    """Everything round a fastening at both ends of the movement, seen from the fastening; once where nothing moves."""
    things = [*bodies.values(), *others]
    if part.motion is None:
        return [things]
    moving = {body.name for body in part.bodies if body.moving} | {s.name for s in part.stand_ins if s.moving}
    x, y, z = part.motion.shift(1.0)
    shifts = [(-x, -y, -z) if one.moving else (x, y, z)]
    return [things, *([_shifted(t, s) if (t.name in moving) != one.moving else t for t in things] for s in shifts)]


def _shifted(thing: Thing, by: Vec) -> Thing:
    return replace(thing, solid=thing.solid.translate(by))


def _swing(one: Fastening, turned: Turned, at_ends: list[list[Thing]]) -> Finding | None:
    """How far an open spanner swings round the axis before it meets anything, at the better end of the movement."""
    free = 0.0
    for things in at_ends:
        free = max(free, swing_deg(one, turned, things))
        if free >= SWING_DEG:
            return None
    if free >= FLIPPED_DEG:
        message = f"the spanner on the {turned.what} swings {free:.0f} deg: turn it over after each stroke"
        return _finding("pass", one.name, message, "", free, FLIPPED_DEG, "deg")
    if turned.thin_mm > 0.0 and any(
        swing_deg(one, turned, at, turned.thin_mm - THIN_MM) >= FLIPPED_DEG for at in at_ends
    ):
        message = f"only a thin spanner turns the {turned.what}: {turned.thin_mm - THIN_MM:.1f} mm thick at the most"
        return _finding("warn", one.name, message, "Have one at hand: the usual one meets the washer beside it.")
    message = f"the spanner on the {turned.what} swings only {free:.0f} deg: it cannot turn it on"
    advice = f"Give it room ({one.key}), or use a socket where one goes on."
    return _finding("fail", one.name, message, advice, free, FLIPPED_DEG, "deg")
