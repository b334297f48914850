"""What grips the gate bears: ears on its body, their screws' washers, the nuts of the rods; a saddle's half rings."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.gate.load_cases import ALONG, ASIDE, Bears, Hung, hand, hung, stalled, thrusts
from fitwright.parts.gate.load_faces import OUT, UP, bore, disc, minus, patch
from fitwright.parts.gate.load_springs import axial_n_mm, bedded_n_mm
from fitwright.parts.gate.plan import GatePlan
from fitwright.parts.gate.yoke_clamp import preload_n
from fitwright.parts.gate.yoke_ears import Ear
from fitwright.parts.gate.yoke_plan import YokePlan
from fitwright.parts.gate.yoke_saddle import Saddle, slit_z
from fitwright.spec.gate_load import Load
from fitwright.spec.models import GateBracketSpec

SADDLE_LEFT_OUT_DEG = 2.0
"""A half ring is declared so much short of its ends."""


def grip(numbers: YokePlan, spec: GateBracketSpec, body: str) -> Bears:
    """How this yoke holds on to the gate: its faces and their supports. Its cases: the screws that squeeze a clamp."""
    if numbers.saddle is not None:
        return _saddled(numbers.saddle, body)
    row = fastener(numbers.screw)
    washers = [one for ear in numbers.ears for one in _washers(ear, numbers, row, body)]
    seats = [_seat(ear, numbers, spec, body) for ear in numbers.ears]
    supports = [_washer_support(one, numbers, row, spec) for one in washers]
    supports += [Support(one.name, "fixed" if numbers.mount == "clamp" else "seat") for one in seats]
    cases = tuple(_squeezes(washers, seats, spec)) if numbers.mount == "clamp" else ()
    return Bears((*washers, *seats), tuple(supports), cases)


def _washers(ear: Ear, numbers: YokePlan, row: FastenerRow, body: str) -> Iterator[LoadFace]:
    d = row.washer_d2_mm or row.head_d_mm
    inward = minus(UP) if ear.up else UP
    z = numbers.ear_z(ear)[1 if ear.up else 0]
    for number, (x, y) in enumerate(ear.holes, start=1):
        several = f" {number}" if len(ear.holes) > 1 else ""
        yield disc(f"{ear.name} ear washer{several}", body, (x, y, z), inward, d)


def _seat(ear: Ear, numbers: YokePlan, spec: GateBracketSpec, body: str) -> LoadFace:
    """The ear's inner face where the body is."""
    edge = spec.gate.body.width_mm / 2
    x = max(ear.x[0], -edge), min(ear.x[1], edge)
    z = numbers.faces_z[1 if ear.up else 0]
    return patch(f"{ear.name} ear seat", body, UP if ear.up else minus(UP), z, x, (ear.tip_y, 0.0))


def _washer_support(face: LoadFace, numbers: YokePlan, row: FastenerRow, spec: GateBracketSpec) -> Support:
    """Half of a screw on each ear. Aside it is bedded in the gate's body; a clamp's passes beside it and only pulls."""
    axial = 2.0 * axial_n_mm(row, numbers.gap_mm + 2 * max(ear.thick_mm for ear in numbers.ears))
    lateral = 1.0 if numbers.mount == "clamp" else bedded_n_mm(row)
    return Support(face.name, "washer", axial, lateral)


def _squeezes(washers: list[LoadFace], seats: list[LoadFace], spec: GateBracketSpec) -> Iterator[LoadCase]:
    """Each of a clamp's screws, tightened by hand."""
    force, held = preload_n(spec.gate.mount.size), tuple(one.name for one in seats)
    for face in washers:
        why = f"the screw tightened by hand to {force:.0f} N"
        yield LoadCase(
            f"tightened on {face.name}",
            face.body,
            face.name,
            force,
            (face.frame.inward,),
            held,
            why=why,
            key="clamp",
        )


def _saddled(saddle: Saddle, body: str) -> Bears:
    """Both half rings, which bands press on the stubs: they hold both ways."""
    faces = []
    for up, name in ((False, "lower"), (True, "upper")):
        frame, (low, high) = saddle.frame(up), slit_z(saddle, up)
        turn = (90.0, 270.0) if frame.up[1] < 0.0 else (-90.0, 90.0)
        turn = turn[0] + SADDLE_LEFT_OUT_DEG, turn[1] - SADDLE_LEFT_OUT_DEG
        faces.append(bore(f"{name} half ring", body, frame, saddle.r_in, (low, high), turn))
    return Bears(tuple(faces), tuple(Support(one.name, "fixed") for one in faces))


def rod_nuts(numbers: YokePlan, body: str, row: FastenerRow) -> tuple[LoadFace, LoadFace]:
    """What both rods' nuts bear on, as one face each: the pockets' floors, and before the plate the washers.

    Before the plate it is a strip as high as a washer, from the window to the washers' outer edges.
    """
    rod, x = numbers.rods[0], max(abs(one.x_mm) for one in numbers.rods)
    corner, half = rod.pocket_af_mm / math.sqrt(3.0), rod.pocket_af_mm / 2
    caught = patch("caught nuts", body, OUT, rod.floor_y, (-x - corner, x + corner), (-half, half))
    ring = (row.washer_d2_mm or 2 * row.major_mm) / 2
    front = patch("front nuts", body, minus(OUT), numbers.plate.y[1], (-x - ring, x + ring), (-ring, ring))
    return caught, front


def rods_yoke_bears(
    plan: GatePlan, spec: GateBracketSpec, load: Load, numbers: YokePlan, what: Hung, body: str = "yoke"
) -> Bears:
    """The yoke on rods: what the nose plate bears comes to it through the rods, and goes into the gate."""
    held_by = grip(numbers, spec, body)
    caught, front = rod_nuts(numbers, body, fastener(plan.frame.rod))
    held = held_names(held_by)
    cases = [*held_by.cases]
    for thrust, face in zip(thrusts(load, plan.way), (caught, front), strict=True):
        cases += stalled(thrust, face, held, (0.0, face.frame.origin[1], 0.0))
    cases += hung(what, front, held, "the cylinder with its nose plate")
    cases.append(hand(front, held, "a hand that holds on to the cylinder", (*ASIDE, *ALONG), what.at, key="support"))
    return Bears((*held_by.faces, caught, front), held_by.supports, tuple(cases))


def held_names(held_by: Bears) -> tuple[str, ...]:
    """All at which the gate holds it."""
    return tuple(one.face for one in held_by.supports)
