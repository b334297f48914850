"""What each half of a parted adapter bears: its own ends' loads, held where it is joined to the other half."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadCase, LoadFace, Support
from fitwright.part import Part, Seam
from fitwright.parts.adapter_load_cases import pushed, squeezed, sucked
from fitwright.parts.adapter_load_faces import Bearing, bearing
from fitwright.parts.adapter_load_walls import Length, flat_walls
from fitwright.parts.assembly import PlacedEnd
from fitwright.spec.air_run import suction_of
from fitwright.spec.models import AdapterSpec, HalvesBolts

ALONG = 0.9
"""A seam whose plane lies along an end's axis parts that end as well."""
SHORT_DEG = 1.0
"""A parted round face is declared so much short of the seam."""
Found = tuple[tuple[LoadFace, ...], tuple[LoadCase, ...], tuple[Support, ...]]


def halves(part: Part, spec: AdapterSpec, ends: tuple[PlacedEnd, PlacedEnd], lengths: Sequence[Length]) -> Part:
    """The parted part with what each half bears declared.

    Parted across, a half bears all that its own end does; along, each half bears half of it at both ends. Either is
    held where it is joined: glued over the seam's face, or bolted, where the face only presses.
    """
    (seam,) = part.seams
    reach = max(float(body.solid.BoundingBox().DiagonalLength) for body in part.bodies)
    found = [_half(seam, number, spec, reach, ends, lengths) for number in (0, 1)]
    return replace(
        part,
        load_faces=tuple(face for faces, _, _ in found for face in faces),
        loads=tuple(case for _, cases, _ in found for case in cases),
        supports=tuple(one for _, _, supports in found for one in supports),
    )


def _half(
    seam: Seam,
    number: int,
    spec: AdapterSpec,
    reach: float,
    ends: tuple[PlacedEnd, PlacedEnd],
    lengths: Sequence[Length],
) -> Found:
    body, side = seam.bodies[number], (-1, 1)[number]
    along = abs(_dot(seam.frame.inward, ends[0].frame.inward)) < 1.0 - ALONG
    joined, supports = _joined(seam, number, spec, reach)
    held = tuple(one.name for one in joined)
    mine = [bearing(end, body) for end in ends if along or _ahead(seam, end.frame.origin) * side > 0]
    bearings = [_named(_clipped(one, seam, side) if along else one, body) for one in mine]
    pull = suction_of(spec)
    walls = [_own(one, body) for one in flat_walls(lengths, body, pull.shut_pa) if _wholly(one, seam, side)]
    faces = (*joined, *(f for one in bearings for f in one.faces), *walls)
    cases = [case for one in bearings for case in (*pushed(one, held, 0.5 if along else 1.0), *squeezed(one, held))]
    cases = [
        replace(case, name=f"{case.name}, {body}")
        for case in (*cases, *(one for w in walls for one in sucked(w, held, pull, spec.units)))
    ]
    return faces, tuple(cases), (*supports, *(s for one in bearings for s in one.supports))


def _joined(seam: Seam, number: int, spec: AdapterSpec, reach: float) -> tuple[list[LoadFace], list[Support]]:
    """The seam's face, and under each bolt's washer or nut its disc."""
    body, side = seam.bodies[number], (-1, 1)[number]
    n, right = seam.frame.inward, seam.frame.right
    into, out = _times(n, side), _times(n, -side)
    face = LoadFace(
        f"{body} seam", body, "flat", Frame(seam.frame.origin, into, right), (-reach, reach), (-reach, reach)
    )
    assert spec.halves is not None
    joint = spec.halves.joint
    if not isinstance(joint, HalvesBolts):
        return [face], []
    d = joint.washer_d_mm or joint.head_d_mm
    discs = []
    for k, pair in enumerate(seam.pairs, start=1):
        x, y, z = (pair.at[i] + pair.depth_mm * into[i] for i in range(3))
        half = -d / 2, d / 2
        there = Frame((x, y, z), out, right)
        discs.append(LoadFace(f"{body} bolt {k}", body, "flat", there, half, half, disc_mm=d))
    return [face, *discs], [Support(face.name, "seat"), *(Support(one.name, "washer") for one in discs)]


def _named(one: Bearing, body: str) -> Bearing:
    """The same faces under names that say whose they are."""
    faces = tuple(_own(face, body) for face in one.faces)
    supports = tuple(replace(s, face=f"{body} {s.face}") for s in one.supports)
    held = tuple(f"{body} {name}" for name in one.held)
    band = _own(one.band, body) if one.band else None
    return replace(one, faces=faces, held=held, on=f"{body} {one.on}", supports=supports, band=band)


def _own(face: LoadFace, body: str) -> LoadFace:
    return replace(face, name=f"{body} {face.name}")


def _clipped(one: Bearing, seam: Seam, side: int) -> Bearing:
    """What of an end's faces is on this side of a seam that goes through its axis."""
    kept = tuple(c for face in one.faces for c in _on_side(face, seam, side))
    names = {face.name for face in kept}
    band = next((face for face in kept if one.band and face.name == one.band.name), None)
    supports = tuple(s for s in one.supports if s.face in names)
    return replace(one, faces=kept, held=tuple(h for h in one.held if h in names), supports=supports, band=band)


def _on_side(face: LoadFace, seam: Seam, side: int) -> Iterator[LoadFace]:
    """The face, or half of a round one that goes all round; none where it lies on the other half."""
    if face.kind == "round" and face.turn_deg[1] - face.turn_deg[0] >= 360.0:
        towards = _times(seam.frame.inward, side)
        middle = math.degrees(math.atan2(_dot(towards, face.frame.right), _dot(towards, face.frame.up)))
        yield replace(face, turn_deg=(middle - 90.0 + SHORT_DEG, middle + 90.0 - SHORT_DEG))
        return
    if face.name.endswith(("face", "mouth")) or _reach(face, seam, side) > SHORT_DEG:
        yield face


def _reach(face: LoadFace, seam: Seam, side: int) -> float:
    """How far the face reaches to this side of the seam [mm]; of a disc or a corner its middle counts."""
    if face.disc_mm:
        return side * _ahead(seam, face.frame.origin)
    if face.kind == "round":
        turn = math.radians(sum(face.turn_deg) / 2)
        at = face.frame.point(face.r_mm * math.sin(turn), face.s_mm[0], face.r_mm * math.cos(turn))
        return side * _ahead(seam, at)
    return max(side * _ahead(seam, corner) for corner in _corners(face))


def _wholly(face: LoadFace, seam: Seam, side: int) -> bool:
    """Whether a flat wall is on this side of the seam, all of it."""
    return min(side * _ahead(seam, corner) for corner in _corners(face)) > 0.0


def _corners(face: LoadFace) -> Iterator[Vec]:
    for right in face.right_mm:
        for up in face.up_mm:
            yield face.frame.point(right, 0.0, up)


def _ahead(seam: Seam, point: Vec) -> float:
    """How far a point lies ahead of the seam [mm], along its normal."""
    o, n = seam.frame.origin, seam.frame.inward
    return sum((point[i] - o[i]) * n[i] for i in range(3))


def _dot(one: Vec, other: Vec) -> float:
    return sum(a * b for a, b in zip(one, other, strict=True))


def _times(one: Vec, by: float) -> Vec:
    return one[0] * by, one[1] * by, one[2] * by
