"""What a hanger bears, on which of its faces, and where it is held meanwhile: for the strength of the print."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import replace

from fitwright.frame import Frame, Vec
from fitwright.hanging import Cradle, Hanging, Throat
from fitwright.loads import LoadCase, LoadFace
from fitwright.mechanism import Fastening
from fitwright.parts.compensation import modelled
from fitwright.parts.hanger.clamp_band import BAND_SLACK_MM, GROOVE_MM
from fitwright.parts.hanger.declared import BODY, FLARE_DEEP_MM
from fitwright.parts.hanger.plan import FixingPoint, HangerPlan
from fitwright.parts.hanger.strap_seats import SEAT, strap_seats
from fitwright.parts.hanger.swivel_body import BASE
from fitwright.spec.hanger import HoseHangerSpec

HAND_N = 50.0
"""A hand that pushes a hose in, or turns a screw tight (common practice, no source)."""
LIP_DEG = 8.0
"""A hand pushes on so much of the bore beside each lip."""
LEFT_OUT_DEG = 1.0
"""A round face is declared so much short of its lips, which are rounded or lie askew."""
FACTOR = 4.0
"""The line of a second fixing bears what hangs there with this factor when it falls into it (common practice)."""
Faces = tuple[LoadFace, ...]
DOWN: Vec = (0.0, 0.0, -1.0)
ALONG: Vec = (0.0, 1.0, 0.0)


def all_ways() -> tuple[Vec, ...]:
    """26 directions: to the faces, edges and corners of a cube."""
    made = []
    for x, y, z in itertools.product((-1.0, 0.0, 1.0), repeat=3):
        if length := math.sqrt(x * x + y * y + z * z):
            made.append((x / length, y / length, z / length))
    return tuple(made)


def load_faces(plan: HangerPlan, spec: HoseHangerSpec, hanging: Hanging, screws: tuple[Fastening, ...]) -> Faces:
    """Every face that bears or that it is held at."""
    made = [_bore(one, plan) for one in hanging.cradles]
    made += [lip for one in hanging.throats for lip in _lips(one, _of(one, hanging), plan)]
    made += [_back(plan), *(_seat(plan, k, p) for k, p in enumerate(plan.base.points, start=1))]
    if plan.base.swivel is not None:
        made.append(_turns_on(plan))
    made += strap_seats(plan, spec)
    if spec.style == "clamp" and spec.clamp.kind == "band":
        made += [_band_seat(one, plan, spec) for one in hanging.cradles if one.body != BODY]
    for one in screws:
        if not one.name.startswith("fixing"):
            made += _screw_faces(one)
    for eye in hanging.eyes:
        long = 0.0, eye.long_mm
        made.append(
            LoadFace(
                eye.name, eye.body, "round", eye.frame, r_mm=modelled(eye.d_mm, "hole", spec.printer) / 2, s_mm=long
            )
        )
    return tuple(made)


def load_cases(hanging: Hanging, faces: Faces) -> tuple[LoadCase, ...]:
    """Snags, the lasting weight, hands, and the line that catches it."""
    return (*_hung(hanging, faces), *_hands(hanging, faces), *_caught(hanging, faces))


def _hung(hanging: Hanging, faces: Faces) -> Iterator[LoadCase]:
    seats = [face.name for face in faces if face.name.startswith(SEAT)]
    for name in seats:
        half = hanging.lasting_n * len(hanging.cradles) / len(seats)
        why = "half the weight of what hangs in the strap, half full of dust, and its own"
        yield LoadCase(f"weight on {name}", BODY, name, half, (DOWN,), held_at(BODY, faces), lasting=True, why=why)
    for one in hanging.cradles:
        held = held_at(one.body, faces)
        why = f"somebody walks into it, or a cart catches it: {hanging.snag_n:.0f} N, once, from anywhere"
        yield LoadCase(f"snag on {one.name}", one.body, one.name, hanging.snag_n, all_ways(), held, why=why)
        if one.body.startswith(BODY) and not seats:
            why = "weight of what it carries, half full of dust, and its own"
            yield LoadCase(
                f"weight on {one.name}", one.body, one.name, hanging.lasting_n, (DOWN,), held, lasting=True, why=why
            )


def _hands(hanging: Hanging, faces: Faces) -> Iterator[LoadCase]:
    """A hose pushed into an opening, a clamp's screw turned tight."""
    for throat in hanging.throats:
        for sign, lip in zip((-1.0, 1.0), (f for f in faces if f.name.startswith(_lip_name(throat))), strict=False):
            aside, into = _times(throat.across, sign), _times(throat.out, -1.0)
            ways = aside, into, _unit((aside[0] + into[0], aside[1] + into[1], aside[2] + into[2]))
            why = "a hand pushes the hose in"
            yield LoadCase(f"hand on {lip.name}", lip.body, lip.name, HAND_N, ways, held_at(lip.body, faces), why=why)
    for face in faces:
        if face.name.endswith("head") and face.name.startswith("clamp"):
            held = tuple(one.name for one in hanging.cradles if one.body == face.body)
            why = "a hand turns the clamp's screw tight"
            yield LoadCase(f"hand on {face.name}", face.body, face.name, HAND_N, (face.frame.inward,), held, why=why)


def _caught(hanging: Hanging, faces: Faces) -> Iterator[LoadCase]:
    """The screws gave: all hangs on the line."""
    for eye in hanging.eyes:
        force = max(hanging.snag_n, FACTOR * hanging.lasting_n * len(hanging.load_at))
        held = tuple(one.name for one in hanging.cradles if one.body == eye.body)
        ways = tuple(way for way in all_ways() if way[2] > 0.5)
        yield LoadCase(
            f"line at {eye.name}", eye.body, eye.name, force, ways, held, why="it fell into its second fixing"
        )


def held_at(body: str, faces: Faces) -> tuple[str, ...]:
    """Faces at which a body is held: its back, its washers and nuts, what it turns on."""
    ends = ("back", "seat", "head", "nut", "turning face")
    return tuple(one.name for one in faces if one.body == body and one.name.endswith(ends))


def _bore(one: Cradle, plan: HangerPlan) -> LoadFace:
    low, high = one.turn_deg
    turn = low + LEFT_OUT_DEG, high - LEFT_OUT_DEG
    s_mm = FLARE_DEEP_MM, plan.sizes.wide - FLARE_DEEP_MM
    return LoadFace(one.name, one.body, "round", one.frame, r_mm=plan.sizes.bore_r, s_mm=s_mm, turn_deg=turn)


def _of(one: Throat, hanging: Hanging) -> Cradle:
    own = [c for c in hanging.cradles if c.body == one.body]
    return min(own, key=lambda c: math.dist(c.frame.origin, one.at))


def _lip_name(one: Throat) -> str:
    return f"lip of {one.name}"


def _lips(throat: Throat, cradle: Cradle, plan: HangerPlan) -> Iterator[LoadFace]:
    """The ends of the bore beside both lips, first the one at -across."""
    whole = _bore(cradle, plan)
    low, high = whole.turn_deg
    ends = [(low, low + LIP_DEG), (high - LIP_DEG, high)]
    ends.sort(key=lambda turn: _dot(_way(cradle, sum(turn) / 2), throat.across))
    for k, turn in enumerate(ends, start=1):
        name = f"{_lip_name(throat)} {k}"
        yield LoadFace(name, cradle.body, "round", whole.frame, r_mm=whole.r_mm, s_mm=whole.s_mm, turn_deg=turn)


def _way(cradle: Cradle, deg: float) -> Vec:
    """Out of the axis at this angle."""
    s, c = math.sin(math.radians(deg)), math.cos(math.radians(deg))
    (a, b, d), (e, f, g) = cradle.frame.right, cradle.frame.up
    return s * a + c * e, s * b + c * f, s * d + c * g


def _back(plan: HangerPlan) -> LoadFace:
    """What presses on the mounting surface."""
    (low, high), (y0, y1) = plan.base.u, plan.base.y or (0.0, plan.sizes.wide)
    body = BODY
    if plan.base.swivel is not None:
        low, _, high, _ = plan.base.swivel.profile.outer.bounds_mm
        body = BASE
    frame = Frame(plan.placed.point(0.0, 0.0, 0.0), plan.placed.direction(0.0, 1.0), ALONG)
    ups = sorted(_dot(frame.up, plan.placed.direction(u, 0.0)) for u in (low, high))
    return LoadFace("back", body, "flat", frame, (y0, y1), (ups[0], ups[1]))


def _seat(plan: HangerPlan, number: int, p: FixingPoint) -> LoadFace:
    """What a screw's washer or head presses on."""
    half = (p.washer_d or (p.fixing.bears_d if p.fixing else 0.0)) / 2
    frame = Frame(plan.placed.point(p.u, p.y, p.head_v), plan.placed.direction(0.0, -1.0), ALONG)
    body = BODY if plan.base.swivel is None else BASE
    return LoadFace(f"fixing {number} seat", body, "flat", frame, (-half, half), (-half, half))


def _band_seat(one: Cradle, plan: HangerPlan, spec: HoseHangerSpec) -> LoadFace:
    """The ground of a cap's groove, on which the band pulls."""
    bore, half = _bore(one, plan), (spec.clamp.band_mm + BAND_SLACK_MM) / 2
    middle = plan.sizes.wide / 2
    return replace(
        bore, name=f"{one.name} band seat", r_mm=plan.sizes.out_r - GROOVE_MM, s_mm=(middle - half, middle + half)
    )


def _turns_on(plan: HangerPlan) -> LoadFace:
    """What of the carrier of a swivel lies on its base."""
    assert plan.base.swivel is not None
    half = plan.base.neck_half or 0.0
    at = plan.placed.point(plan.base.swivel.bolt_u, 0.0, plan.base.thick)
    frame = Frame(at, plan.placed.direction(0.0, 1.0), ALONG)
    return LoadFace("turning face", BODY, "flat", frame, (0.0, plan.sizes.wide), (-half, half))


def _screw_faces(one: Fastening) -> Iterator[LoadFace]:
    """What head and nut of a screw press on."""
    across = ALONG if abs(one.direction[1]) < 0.5 else (1.0, 0.0, 0.0)
    half = max(one.washer_d_mm, one.head_d_mm) / 2
    yield LoadFace(
        f"{one.name} head", one.through[0], "flat", Frame(one.head, one.direction, across), (-half, half), (-half, half)
    )
    if one.nut_m_mm:
        x, y, z = one.direction
        a, b, c = one.head
        at = a + one.grip_mm * x, b + one.grip_mm * y, c + one.grip_mm * z
        half = (one.nut_af_mm if one.pocket else max(one.washer_d_mm, one.nut_af_mm)) / 2
        frame = Frame(at, (-x, -y, -z), across)
        yield LoadFace(f"{one.name} nut", one.through[-1], "flat", frame, (-half, half), (-half, half))


def _dot(one: Vec, other: Vec) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))


def _times(one: Vec, by: float) -> Vec:
    return one[0] * by, one[1] * by, one[2] * by


def _unit(one: Vec) -> Vec:
    return _times(one, 1.0 / math.sqrt(_dot(one, one)))
