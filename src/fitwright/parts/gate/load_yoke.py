"""What grips the gate bears: ears on its body, their screws' washers, the nuts of the rods; a saddle's half rings."""

from __future__ import annotations

from collections.abc import Iterator

from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.frame import Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.parts.gate.load_cases import ALONG, ASIDE, Bears, Hung, hand, hung, stalled, thrusts
from fitwright.parts.gate.load_faces import UP, bore, disc, minus, patch
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
    kind = "fixed" if numbers.mount == "clamp" else "seat"
    supports += [Support(one.name, kind) for one in seats]
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
        why = f"the screw tightened by hand to {force:.0f} N, for good"
        yield LoadCase(
            f"tightened on {face.name}",
            face.body,
            face.name,
            force,
            (face.frame.inward,),
            held,
            lasting=True,
            why=why,
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


def rod_nuts(numbers: YokePlan, body: str) -> tuple[LoadFace, ...]:
    """The floors that both caught nuts bear on, as one face."""
    rods = numbers.rods
    half = rods[0].pocket_af_mm / 2
    reach = max(abs(one.x_mm) for one in rods) + rods[0].pocket_af_mm / 3**0.5
    return (patch("rod nuts", body, (0.0, 1.0, 0.0), rods[0].floor_y, (-reach, reach), (-half, half)),)


def front_washers(numbers: YokePlan, row: FastenerRow, body: str) -> tuple[LoadFace, ...]:
    """Under the nut before the yoke on either rod."""
    d, front = row.washer_d2_mm or 2 * row.major_mm, numbers.plate.y[1]
    return tuple(
        disc(f"{rod.name} front nut", body, (rod.x_mm, front, 0.0), (0.0, -1.0, 0.0), d) for rod in numbers.rods
    )


def rods_yoke_bears(
    plan: GatePlan, spec: GateBracketSpec, load: Load, numbers: YokePlan, what: Hung, body: str = "yoke"
) -> Bears:
    """The yoke on rods: what the nose plate bears comes to it through the rods, and goes into the gate."""
    held_by = grip(numbers, spec, body)
    (nuts,) = rod_nuts(numbers, body)
    held = held_names(held_by)
    at: Vec = (0.0, nuts.frame.origin[1], 0.0)
    cases = [*held_by.cases]
    for one in thrusts(load, plan.way):
        cases += stalled(one, nuts, held, at)
    cases += hung(what, nuts, held, "the cylinder with its nose plate")
    cases.append(hand(nuts, held, "a hand that holds on to the cylinder", (*ASIDE, *ALONG), what.at, key="support"))
    fronts = front_washers(numbers, fastener(plan.frame.rod), body)
    return Bears((*held_by.faces, nuts, *fronts), held_by.supports, tuple(cases))


def held_names(held_by: Bears) -> tuple[str, ...]:
    """All at which the gate holds it."""
    return tuple(one.face for one in held_by.supports)
