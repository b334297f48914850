"""The faces at which an end of an adapter is held, pushed and squeezed: on its joint, round or not."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from fitwright.frame import Frame, Vec
from fitwright.loads import LoadFace, Support
from fitwright.parts.compensation import modelled
from fitwright.parts.ends import PlacedEnd
from fitwright.parts.fit_faces import takes_hose
from fitwright.parts.hose_facts import clamp_middle_mm
from fitwright.section import Section
from fitwright.shapes.flange import SEAT_DEPTH_MM
from fitwright.spec.models import Flange, HoseTail, Socket

NEAR_MM = 0.05
LEAST_SIDE_MM = 4.0
"""Shorter sides and corners of a section that is not round hold nothing worth the name."""
Faces = tuple[LoadFace, ...]


@dataclass(frozen=True)
class Bearing:
    """An end's faces: all of them, those it is `held` by, the one that is pushed `on`, and a band's (None: no band)."""

    end: PlacedEnd
    faces: Faces
    held: tuple[str, ...]
    on: str
    supports: tuple[Support, ...] = ()
    band: LoadFace | None = None

    @property
    def hose(self) -> bool:
        """Whether a hose is on it, which pulls and holds nothing."""
        return takes_hose(self.end.plan.end.joint)


def bearing(end: PlacedEnd, body: str) -> Bearing:
    """What an end bears with, on this body."""
    joint = end.plan.end.joint
    if isinstance(joint, Flange):
        return _flange(end, joint, body)
    engaged = tuple(_engaged(end, body))
    names = tuple(one.name for one in engaged)
    if end.shape.form.base is not None:
        rim = _mouth(end, body)
        return Bearing(end, (*engaged, rim), names, rim.name)
    band = _band(engaged[0], end, joint) if isinstance(joint, HoseTail) and joint.band_mm else None
    return Bearing(end, (*engaged, *([band] if band else [])), names, names[0], band=band)


def _engaged(end: PlacedEnd, body: str) -> Iterator[LoadFace]:
    """The face that meets the bought part: in one, or a face for each side and corner of its section."""
    shape, key = end.shape, end.plan.key
    inside = isinstance(end.plan.end.joint, Socket)
    s0, d0, s1, d1 = shape.fit or (0.0, 2 * shape.outer[0][1], shape.engaged_mm, 2 * shape.outer[0][1])
    r, near = (d0 + d1) / 4, NEAR_MM + abs(d1 - d0) / 4
    word = "bore" if inside else "land" if isinstance(end.plan.end.joint, HoseTail) else "outside"
    if shape.form.base is None:
        yield LoadFace(f"{key} {word}", body, "round", end.frame, r_mm=r, s_mm=(s0, s1), near_mm=near)
        return
    sides = _round_about(shape.form.at(r), end.frame, (s0, s1), inside)
    for k, side in enumerate(sides, start=1):
        yield replace(side, name=f"{key} {word} {k}", body=body, near_mm=near)


def _round_about(section: Section, frame: Frame, s_mm: tuple[float, float], inside: bool) -> Iterator[LoadFace]:
    """Sides, then corners, of a section between two depths; their material outside of it (`inside`) or within."""
    for p, q, angle in section.straights():
        if math.dist(p, q) >= LEAST_SIDE_MM:
            yield flat_side(frame, (p, q), angle, s_mm, inside=inside)
    for arc in section.arcs:
        if arc.radius_mm * arc.turn >= LEAST_SIDE_MM:
            about = Frame(frame.point(arc.x, 0.0, arc.y), frame.inward, frame.right)
            turn = 90.0 - math.degrees(arc.end), 90.0 - math.degrees(arc.start)
            yield LoadFace("", "", "round", about, r_mm=arc.radius_mm, s_mm=s_mm, turn_deg=turn)


def flat_side(
    frame: Frame,
    ends: tuple[tuple[float, float], tuple[float, float]],
    angle: float,
    s_mm: tuple[float, float],
    inside: bool,
    slope: float = 0.0,
) -> LoadFace:
    """The flat side over a straight of a section, whose outward normal is at `angle`, leaning outwards by `slope`."""
    (x0, y0), (x1, y1) = ends
    long, half = math.hypot(x1 - x0, y1 - y0), (s_mm[1] - s_mm[0]) / 2
    middle = (s_mm[0] + s_mm[1]) / 2
    out = slope * (middle - s_mm[0])
    c, s = math.cos(angle), math.sin(angle)
    origin = frame.point((x0 + x1) / 2 + out * c, middle, (y0 + y1) / 2 + out * s)
    lean = math.hypot(1.0, slope)
    normal = _mixed(frame, c / lean, -slope / lean, s / lean)
    along = _mixed(frame, (x1 - x0) / long, 0.0, (y1 - y0) / long)
    into = normal if inside else (-normal[0], -normal[1], -normal[2])
    up = half * lean
    return LoadFace("", "", "flat", Frame(origin, into, along), (-long / 2, long / 2), (-up, up))


def _mixed(frame: Frame, right: float, s: float, up: float) -> Vec:
    """A direction given by its shares along right, inward and up."""
    r, n, u = frame.right, frame.inward, frame.up
    x, y, z = (right * r[i] + s * n[i] + up * u[i] for i in range(3))
    return x, y, z


def _mouth(end: PlacedEnd, body: str) -> LoadFace:
    """The rim of the mouth, or the face of a flange: all that lies in its plane."""
    shape = end.shape
    outline = shape.form.at(shape.outer[0][1])
    right = -outline.support(math.pi), outline.support(0.0)
    up = -outline.support(-math.pi / 2), outline.support(math.pi / 2)
    return LoadFace(f"{end.plan.key} mouth", body, "flat", end.frame, right, up)


def _band(land: LoadFace, end: PlacedEnd, joint: HoseTail) -> LoadFace:
    """What the clamp's band lies on."""
    middle, half = clamp_middle_mm(land.s_mm[0], joint), joint.band_mm / 2
    s_mm = max(land.s_mm[0], middle - half), min(land.s_mm[1], middle + half)
    return replace(land, name=f"{end.plan.key} band", s_mm=s_mm)


def _flange(end: PlacedEnd, joint: Flange, body: str) -> Bearing:
    """Its face, which only presses, and a disc under each washer, head or nut; without bolts it is glued down."""
    key, frame = end.plan.key, end.frame
    reach = _flange_reach(end)
    face = LoadFace(f"{key} face", body, "flat", frame, (-reach, reach), (-reach, reach))
    if joint.holes is None:
        return Bearing(end, (face,), (face.name,), face.name)
    holes, printer = joint.holes, end.plan.printer
    at, disc = joint.thickness_mm, holes.washer_d_mm
    if joint.nut_pockets:
        at, disc = at - (holes.nut_m_mm + 0.5), modelled(holes.nut_af_mm, "hole", printer)
    elif joint.washers:
        at -= SEAT_DEPTH_MM
    n, r = frame.inward, frame.right
    discs = []
    for k, hole in enumerate(end.shape.holes, start=1):
        deep = sum((hole.start[i] - frame.origin[i]) * n[i] for i in range(3))
        x, y, z = (hole.start[i] + (at - deep) * n[i] for i in range(3))
        there = Frame((x, y, z), (-n[0], -n[1], -n[2]), r)
        half = -disc / 2, disc / 2
        discs.append(LoadFace(f"{key} bolt {k}", body, "flat", there, half, half, disc_mm=disc))
    held = face.name, *(one.name for one in discs)
    supports = Support(face.name, "seat"), *(Support(one.name, "washer") for one in discs)
    return Bearing(end, (face, *discs), held, face.name, supports)


def _flange_reach(end: PlacedEnd) -> float:
    """Further from the axis than any point of the flange [mm]."""
    box = [tool.solid.BoundingBox() for tool in (*end.shape.ring_bosses, *end.shape.bosses)]
    return max([one.DiagonalLength for one in box], default=0.0) + 2 * end.shape.outer[0][1]
