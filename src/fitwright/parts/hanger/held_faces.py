"""Faces at which a hanger is held: what lies on wood, channel or bar, under washers and ties, what it turns on."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadFace
from fitwright.mechanism import Fastening
from fitwright.parts.hanger.base_channel import channel_of
from fitwright.parts.hanger.base_tie import BED_DEG, UNDER_MM, bed_r_mm
from fitwright.parts.hanger.declared import BODY, CAP
from fitwright.parts.hanger.plan import FixingPoint, HangerPlan
from fitwright.parts.hanger.swivel_body import BASE
from fitwright.parts.hanger.wood_span import span_of
from fitwright.spec.hanger import HoseHangerSpec

ALONG: Vec = (0.0, 1.0, 0.0)
BACK, BED, TURNS, TURNED_ON = "back", "bed of the bar", "turning face", "base turning face"
LEFT_OUT_DEG = 1.0
"""A round face is declared so much short of its lips, which are rounded or lie askew."""
Range = tuple[float, float]


def held_faces(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[LoadFace]:
    """All of the mount's, the hanger's and a swivel's base's."""
    if spec.mount.kind == "cable_tie":
        yield _bed(plan, spec)
        yield from _tie_seats(plan, spec)
    elif spec.mount.kind != "rod":  # that lies on its upper washer
        yield from _backs(plan, spec)
        yield from (_seat(plan, k, p) for k, p in enumerate(plan.base.points, start=1))
    if plan.base.swivel is not None:
        yield from _turning_faces(plan)


def held_at(body: str, faces: tuple[LoadFace, ...]) -> tuple[str, ...]:
    """Faces at which a body is held: its back, under washers and ties; what it turns on; a cap by its screws or band.

    A clamp's nuts hold the cap, and a swivel's bolt the hanger, not the body in which they lie.
    """
    return tuple(one.name for one in faces if one.body == body and _holds(one))


def _holds(face: LoadFace) -> bool:
    name = face.name
    if face.body.startswith(CAP):
        return name.endswith(("head", "band seat"))
    if name.startswith(("fixing", "tie", "rod", BACK, BED)):
        return True
    return name in (TURNS, "swivel bolt nut")


def screw_faces(one: Fastening) -> Iterator[LoadFace]:
    """What head and nut of a screw press on."""
    across = ALONG if abs(one.direction[1]) < 0.5 else (1.0, 0.0, 0.0)
    at = Frame(one.head, one.direction, across)
    yield _disc(f"{one.name} head", one.through[0], at, max(one.washer_d_mm, one.head_d_mm))
    if one.nut_m_mm:
        x, y, z = one.direction
        there = Frame(at.point(0.0, one.grip_mm, 0.0), (-x, -y, -z), across)
        wide = one.nut_af_mm if one.pocket else max(one.washer_d_mm, one.nut_af_mm)
        yield _disc(f"{one.name} nut", one.through[-1], there, wide)


def _disc(name: str, body: str, at: Frame, d: float) -> LoadFace:
    half = (-d / 2, d / 2)
    return LoadFace(name, body, "flat", at, half, half, disc_mm=d)


def _flat(plan: HangerPlan, name: str, body: str, v: float, way: float, u: Range, y: Range) -> LoadFace:
    """A rectangle at v, its material towards `way` (1: away from the surface)."""
    frame = Frame(plan.placed.point(0.0, 0.0, v), plan.placed.direction(0.0, way), ALONG)
    ups = sorted(_dot(frame.up, plan.placed.direction(end, 0.0)) for end in u)
    return LoadFace(name, body, "flat", frame, y, (ups[0], ups[1]))


def _backs(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[LoadFace]:
    """What presses on the mounting surface: what of the plate lies over wood, or on the lips of a channel."""
    u, y, body = plan.base.u, plan.base.y or (0.0, plan.sizes.wide), BODY
    if plan.base.swivel is not None:
        low, _, high, _ = plan.base.swivel.profile.outer.bounds_mm
        u, body = (low, high), BASE
    both = _over_channel(plan, spec, u, y) if spec.mount.kind in ("strut", "t_slot") else [_over(plan, spec, u, y)]
    for k, (us, ys) in enumerate(both, start=1):
        yield _flat(plan, BACK if len(both) == 1 else f"{BACK} {k}", body, 0.0, 1.0, us, ys)


def _over(plan: HangerPlan, spec: HoseHangerSpec, u: Range, y: Range) -> tuple[Range, Range]:
    """Cut off at the edges of joist or batten, where they are known."""
    along = spec.mount.kind == "joist_underside" and spec.mount.along
    span = span_of(spec, plan.sizes.wide, plan.base.points[0].u if along else sum(u) / 2)
    return _within(u, span.u, span.half_u), _within(y, span.y, span.half_y)


def _over_channel(plan: HangerPlan, spec: HoseHangerSpec, u: Range, y: Range) -> list[tuple[Range, Range]]:
    """On either side of its slot."""
    row = channel_of(spec)
    half, slot = row.wide_mm / 2, (spec.mount.slot_mm or row.slot_mm) / 2
    if spec.mount.along:
        return [(one, y) for one in _beside(u, plan.base.points[0].u, slot, half)]
    return [(u, one) for one in _beside(y, sum(y) / 2, slot, half)]


def _beside(ends: Range, middle: float, slot: float, half: float) -> list[Range]:
    """What of `ends` lies from `slot` to `half` on either side of the middle."""
    both = (middle - half, middle - slot), (middle + slot, middle + half)
    cut = [(max(low, ends[0]), min(high, ends[1])) for low, high in both]
    return [(low, high) for low, high in cut if high > low]


def _within(ends: Range, middle: float, half: float) -> Range:
    return max(ends[0], middle - half), min(ends[1], middle + half)


def _seat(plan: HangerPlan, number: int, p: FixingPoint) -> LoadFace:
    """What a screw's washer or head presses on."""
    wide = p.washer_d or (p.fixing.bears_d if p.fixing else 0.0)
    frame = Frame(plan.placed.point(p.u, p.y, p.head_v), plan.placed.direction(0.0, -1.0), ALONG)
    return _disc(f"fixing {number} seat", BODY if plan.base.swivel is None else BASE, frame, wide)


def _turning_faces(plan: HangerPlan) -> Iterator[LoadFace]:
    """What of the carrier of a swivel lies on its base, and what that lies on."""
    one = plan.base.swivel
    assert one is not None
    half, y = plan.base.neck_half or 0.0, (0.0, plan.sizes.wide)
    u = one.bolt_u - half, one.bolt_u + half
    yield _flat(plan, TURNS, BODY, plan.base.thick, 1.0, u, y)
    yield _flat(plan, TURNED_ON, BASE, one.thick, -1.0, u, y)


def _bed(plan: HangerPlan, spec: HoseHangerSpec) -> LoadFace:
    """The round bed of a bar, along the hose or across it."""
    r, at = bed_r_mm(spec), plan.placed
    u, y = sum(plan.base.u) / 2, plan.sizes.wide / 2
    if spec.mount.along:
        frame, long = Frame(at.point(u, 0.0, -r), ALONG, (1.0, 0.0, 0.0)), (0.0, plan.sizes.wide)
    else:
        half = (plan.base.u[1] - plan.base.u[0]) / 2
        frame, long = Frame(at.point(u, y, -r), at.direction(1.0, 0.0), ALONG), (-half, half)
    out = at.direction(0.0, 1.0)
    middle = math.degrees(math.atan2(_dot(out, frame.right), _dot(out, frame.up)))
    half_deg = BED_DEG - LEFT_OUT_DEG
    turn = middle - half_deg, middle + half_deg
    return LoadFace(BED, BODY, "round", frame, r_mm=r, s_mm=long, turn_deg=turn)


def _tie_seats(plan: HangerPlan, spec: HoseHangerSpec) -> Iterator[LoadFace]:
    """The floors of the tunnels, on which the ties press the print onto the bar."""
    half, y = spec.mount.tie_wide_mm / 2, plan.sizes.wide / 2
    for k, one in enumerate(plan.base.held, start=1):
        along_u = _dot(plan.placed.direction(1.0, 0.0), one.at) - _dot(
            plan.placed.direction(1.0, 0.0), plan.placed.point(0.0, 0.0, 0.0)
        )
        us, ys = plan.base.u, (one.at[1] - half, one.at[1] + half)
        if not spec.mount.along:
            us, ys = (along_u - half, along_u + half), (y - plan.sizes.wide / 2, y + plan.sizes.wide / 2)
        yield _flat(plan, f"tie {k} seat", BODY, UNDER_MM, -1.0, us, ys)


def _dot(one: Vec, other: Vec) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))
