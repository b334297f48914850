"""What a hanger bears, on which of its faces, and where it is held meanwhile: for the strength of the print.

A lasting weight asks no factor beyond the print's own: its limit is a quarter of the filament's strength, which is the
factor of 4 that screws over people's heads get (`physics.fixing` and `physics.wood` take it off what screws bear).
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import replace

from fitwright.frame import Vec
from fitwright.hanging import Cradle, Hanging, Throat
from fitwright.loads import LoadCase, LoadFace
from fitwright.mechanism import Fastening
from fitwright.parts.compensation import modelled
from fitwright.parts.gate.yoke_clamp import preload_n
from fitwright.parts.hanger.clamp_band import BAND_SLACK_MM, GROOVE_MM
from fitwright.parts.hanger.declared import BODY, CAP, FLARE_DEEP_MM
from fitwright.parts.hanger.held_faces import LEFT_OUT_DEG, TURNED_ON, held_at, held_faces, screw_faces
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.strap_seats import SEAT, hangs_in_strap, strap_seats
from fitwright.parts.hanger.swivel_body import BASE
from fitwright.physics.by_hand import HAND_N
from fitwright.physics.hose_band import BAND_N
from fitwright.physics.ring import band_mpa
from fitwright.spec.hanger import HoseHangerSpec

LIP_DEG = 8.0
"""A hand pushes on so much of the bore beside each lip."""
FACTOR = 4.0
"""The line of a second fixing bears what hangs there with this factor when it falls into it (common practice)."""
OUT = 0.3
"""A pull goes into what closes an opening where so much of it points out of there."""
WIDTH, ARM, SCREWS, EYE = "width", "arm", "clamp.screws", "second_fixing"
Faces = tuple[LoadFace, ...]
DOWN: Vec = (0.0, 0.0, -1.0)


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
    made += [*held_faces(plan, spec), *strap_seats(plan, spec)]
    if spec.style == "clamp" and spec.clamp.kind == "band":
        made += [_band_seat(one, plan, spec) for one in hanging.cradles]
    for one in screws:
        if not one.name.startswith("fixing"):
            made += screw_faces(one)
    for eye in hanging.eyes:
        r, long = modelled(eye.d_mm, "hole", spec.printer) / 2, (0.0, eye.long_mm)
        made.append(LoadFace(eye.name, eye.body, "round", eye.frame, r_mm=r, s_mm=long))
    return tuple(made)


def load_cases(plan: HangerPlan, spec: HoseHangerSpec, hanging: Hanging, faces: Faces) -> tuple[LoadCase, ...]:
    """Snags, the lasting weight, hands, a band's squeeze, and the line that catches it."""
    strap = hangs_in_strap(plan, spec) and any(one.name.startswith(SEAT) for one in faces)
    opens = plan.placed.direction(*plan.sizes.opens)
    made = [*_snags(hanging, faces), *_straps(hanging, faces, opens, strap), *_weights(hanging, faces, strap)]
    made += [
        *_cap_on(hanging, faces, opens),
        *_turned(hanging, faces),
        *_hands(hanging, faces, preload_n(spec.clamp.screw)),
    ]
    return (*made, *_bands(plan, spec, faces), *_caught(hanging, faces))


def _snags(hanging: Hanging, faces: Faces) -> Iterator[LoadCase]:
    """A pull at the hose from anywhere, through its axis: of several at the outermost and in the middle."""
    why = f"somebody walks into it, or a cart catches it: {hanging.snag_n:.0f} N, once, from anywhere"
    count = len(hanging.load_at)
    snagged = {hanging.load_at[k] for k in (0, count // 2, count - 1)}
    for one in hanging.cradles:
        if min(math.dist(_axis(one), at) for at in snagged) > 1.0:
            continue
        held = held_at(one.body, faces)
        name = f"snag on {one.name}"
        yield LoadCase(name, one.body, one.name, hanging.snag_n, all_ways(), held, why=why, at=_axis(one), key=WIDTH)


def _straps(hanging: Hanging, faces: Faces, opens: Vec, hangs: bool) -> Iterator[LoadCase]:
    """What pulls out of a saddle goes into its strap, half of it at either ear."""
    ways = tuple(way for way in all_ways() if _dot(way, opens) > OUT)
    for face in faces:
        if face.name.startswith(SEAT):
            held, half = held_at(face.body, faces), hanging.snag_n / 2
            why = "half of a snag that pulls the hose out of the saddle, against its strap"
            yield LoadCase(f"pull on {face.name}", face.body, face.name, half, ways, held, why=why, key=ARM)
            if hangs:
                half = hanging.lasting_n / 2
                why = "half the weight of what hangs in the strap, half full of dust, and its own"
                yield LoadCase(
                    f"weight on {face.name}", BODY, face.name, half, (DOWN,), held, lasting=True, why=why, key=ARM
                )


def _weights(hanging: Hanging, faces: Faces, strap: bool) -> Iterator[LoadCase]:
    """On what lies below the hose: a cap, where the clamp opens downwards."""
    if strap:
        return
    below = [one for one in hanging.cradles if one.body.startswith(CAP) and _dot(_middle(one), DOWN) > 0.7]
    why = "weight of what it carries, half full of dust, and its own"
    for one in below or [one for one in hanging.cradles if one.body == BODY]:
        name, held = f"weight on {one.name}", held_at(one.body, faces)
        force, at = hanging.lasting_n, _axis(one)
        yield LoadCase(name, one.body, one.name, force, (DOWN,), held, lasting=True, why=why, at=at, key=WIDTH)


def _cap_on(hanging: Hanging, faces: Faces, opens: Vec) -> Iterator[LoadCase]:
    """What pulls a clamp's cap off comes to the half on the base through its nuts or its band."""
    nuts = [one for one in faces if one.body == BODY and one.name.startswith("clamp") and one.name.endswith("nut")]
    bands = [one for one in faces if one.body == BODY and one.name.endswith("band seat")]
    key = SCREWS if nuts else WIDTH
    for face in nuts or bands:
        share, held = (0.5 if nuts else 1.0), held_at(BODY, faces)
        words = f"{'half of what' if nuts else 'what'} pulls the cap off"
        name, force = f"cap on {face.name}", share * hanging.snag_n
        yield LoadCase(name, BODY, face.name, force, (opens,), held, why=f"{words}: a snag", key=key)
        if _dot(opens, DOWN) > 0.7:
            name, force = f"weight on {face.name}", share * hanging.lasting_n
            yield LoadCase(
                name, BODY, face.name, force, (opens,), held, lasting=True, why=f"{words}: the weight", key=key
            )


def _turned(hanging: Hanging, faces: Faces) -> Iterator[LoadCase]:
    """What comes to a swivel's base: over the face that is turned on, and down at its bolt."""
    held, at = held_at(BASE, faces), hanging.load_at[0]
    for face in faces:
        if face.name == TURNED_ON:
            why = f"a snag of {hanging.snag_n:.0f} N on what turns on it"
            name = f"snag on {face.name}"
            yield LoadCase(name, BASE, face.name, hanging.snag_n, all_ways(), held, why=why, at=at, key=WIDTH)
        elif face.body == BASE and face.name.endswith("head"):
            for name, force, last in (("snag", hanging.snag_n, False), ("weight", hanging.lasting_n, True)):
                why = f"{'a' if not last else 'the'} {name} pulls the bolt down"
                yield LoadCase(
                    f"{name} on {face.name}", BASE, face.name, force, (DOWN,), held, lasting=last, why=why, key=WIDTH
                )


def _hands(hanging: Hanging, faces: Faces, tight_n: float) -> Iterator[LoadCase]:
    """A hose pushed into an opening; a clamp's screw turned tight pulls with `tight_n`, far more than a hand."""
    for throat in hanging.throats:
        for sign, lip in zip((-1.0, 1.0), (f for f in faces if f.name.startswith(_lip_name(throat))), strict=False):
            aside, into = _times(throat.across, sign), _times(throat.out, -1.0)
            ways = aside, into, _unit((aside[0] + into[0], aside[1] + into[1], aside[2] + into[2]))
            why, held = "a hand pushes the hose in", held_at(lip.body, faces)
            yield LoadCase(f"hand on {lip.name}", lip.body, lip.name, HAND_N, ways, held, why=why, key=ARM)
    for face in faces:
        if face.body.startswith(CAP) and face.name.endswith("head"):
            held = tuple(one.name for one in hanging.cradles if one.body == face.body)
            held += tuple(one for one in held_at(face.body, faces) if one != face.name)
            why = f"a hand turns the clamp's screw tight: it pulls with {tight_n:.0f} N"
            tight = (face.frame.inward,)
            yield LoadCase(f"hand on {face.name}", face.body, face.name, tight_n, tight, held, why=why, key=SCREWS)


def _bands(plan: HangerPlan, spec: HoseHangerSpec, faces: Faces) -> Iterator[LoadCase]:
    """A band that is turned tight presses T / (r b) on its ground, both halves on the pipe."""
    for face in faces:
        if face.name.endswith("band seat"):
            p_mpa = band_mpa(BAND_N, spec.clamp.band_mm, 2.0 * face.r_mm)
            why = f"the band, turned tight by hand, pulls {BAND_N:.0f} N"
            held, name = (face.name.removesuffix(" band seat"),), f"squeeze on {face.name}"
            yield LoadCase(name, face.body, face.name, 0.0, (), held, why=why, pressure_mpa=p_mpa, key=ARM)


def _caught(hanging: Hanging, faces: Faces) -> Iterator[LoadCase]:
    """The screws gave: it hangs on the line by its eye and turns until the load is plumb below."""
    middle = _mean(hanging.load_at)
    for eye in hanging.eyes:
        force = max(hanging.snag_n, FACTOR * hanging.lasting_n * len(hanging.load_at))
        here = eye.frame.point(0.0, eye.long_mm / 2, 0.0)
        on = min((one for one in hanging.cradles if one.body == eye.body), key=lambda one: math.dist(_axis(one), here))
        way = _unit((middle[0] - here[0], middle[1] - here[1], middle[2] - here[2]))
        why = "it fell into its second fixing"
        name = f"line at {eye.name}"
        if any(one.body.startswith(CAP) for one in hanging.cradles):  # shut round its pipe, which holds it stiff
            ways, held = (_times(way, -1.0),), (on.name,)
            yield LoadCase(name, eye.body, eye.name, force, ways, held, why=why, key=EYE)
        else:
            held = (eye.name,)
            yield LoadCase(name, eye.body, on.name, force, (way,), held, why=why, at=middle, key=EYE)


def _bore(one: Cradle, plan: HangerPlan) -> LoadFace:
    low, high = one.turn_deg
    turn = low + LEFT_OUT_DEG, high - LEFT_OUT_DEG
    s_mm = FLARE_DEEP_MM, plan.sizes.wide - FLARE_DEEP_MM
    return LoadFace(one.name, one.body, "round", one.frame, r_mm=plan.sizes.bore_r, s_mm=s_mm, turn_deg=turn)


def _axis(one: Cradle) -> Vec:
    """On the hose's axis, in the middle of the width."""
    return one.frame.point(0.0, one.wide_mm / 2, 0.0)


def _middle(one: Cradle) -> Vec:
    """Out of the axis to the middle of the cradle."""
    return _way(one, sum(one.turn_deg) / 2)


def _mean(points: tuple[Vec, ...]) -> Vec:
    x, y, z = (math.fsum(some) / len(points) for some in zip(*points, strict=True))
    return x, y, z


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


def _band_seat(one: Cradle, plan: HangerPlan, spec: HoseHangerSpec) -> LoadFace:
    """The ground of the groove round a half or a cap, on which the band pulls."""
    bore, half = _bore(one, plan), (spec.clamp.band_mm + BAND_SLACK_MM) / 2
    middle = plan.sizes.wide / 2
    return replace(
        bore, name=f"{one.name} band seat", r_mm=plan.sizes.out_r - GROOVE_MM, s_mm=(middle - half, middle + half)
    )


def _dot(one: Vec, other: Vec) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))


def _times(one: Vec, by: float) -> Vec:
    return one[0] * by, one[1] * by, one[2] * by


def _unit(one: Vec) -> Vec:
    return _times(one, 1.0 / math.sqrt(_dot(one, one)))
