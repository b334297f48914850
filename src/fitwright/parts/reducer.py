"""The reducer: two ends in line, coaxial, level (inverts flush), a little eccentric, or nested into one sleeve."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from cadquery import Solid

from fitwright.errors import RefusalError
from fitwright.frame import Frame, Vec
from fitwright.part import Leg, Part, Station
from fitwright.parts.adapter_load_walls import reducer_lengths
from fitwright.parts.adapter_loads import loaded
from fitwright.parts.airway import airway, cone
from fitwright.parts.assembly import Piece, PlacedEnd, adapter_body, joint_piece, transition_piece, turned
from fitwright.parts.auto_air import HALF_ANGLES_DEG, Choice, chosen, is_ours
from fitwright.parts.dimensions import main_dimensions
from fitwright.parts.ends import end_shape
from fitwright.parts.facts import CAUTIONS, assumed, describe, labels, passages_mm
from fitwright.parts.halved import halved
from fitwright.parts.mouth_faces import mouth_faces
from fitwright.parts.nested import build_nested
from fitwright.parts.pair import FRAME_A, placed, plans
from fitwright.parts.parting import Centreline
from fitwright.parts.slit import slit_cut, slit_facts
from fitwright.parts.stand_ins import stand_ins
from fitwright.section import Section
from fitwright.shapes.joint import JointShape
from fitwright.shapes.loft import Transition
from fitwright.shapes.profile import Polyline, reversed_from, tidy
from fitwright.shapes.solids import cut, oblique_cone
from fitwright.spec.models import ReducerSpec

HALF_ANGLE_DEG = 10.0
"""Default half angle of a cone (7-15 deg is the usual range for low loss)."""
STEEPEST_TIGHT_DEG = 20.0
SPARE_MM = 2.0
"""Left above a part that just fits the printer's height."""
STEEPEST_AUTO_DEG = 20.0
"""`length: auto` leaves no line of a level or eccentric cone steeper than this."""
STEEPEST_DEG = 30.0
"""A steeper cone is a step to the flow, and chips plug it (common practice, no source)."""
LEAST_STEP_MM = 0.01
"""A cone so gentle that its radial wall would be thicker by less than this keeps the plain wall."""
STATIONS, MARGIN = 9, 0.002
"""The passage is measured at so many places along a link, the outermost this share of it clear of its ends."""
LINK_MM = 4.0
"""Least run between two joints."""


@dataclass(frozen=True)
class Link:
    """What lies between the joints' roots: length [mm], shift (right, up) of end_b's axis, and the wall across it."""

    length_mm: float
    shift: tuple[float, float]
    change_mm: float
    root_wall_mm: float
    a: Section
    b: Section

    @property
    def is_round(self) -> bool:
        """Whether both passages are."""
        return self.a.is_round and self.b.is_round

    @property
    def steepest(self) -> float:
        """Tangent of the cone's steepest line against the axis."""
        if self.is_round:
            return (self.change_mm + math.hypot(*self.shift)) / self.length_mm
        return self.transition.steepest

    @property
    def transition(self) -> Transition:
        """The passage between the two, in end_a's right and up."""
        return Transition(self.a, self.b.moved(*self.shift), self.length_mm)


def build_reducer(spec: ReducerSpec) -> Part:
    """The reducer as a Part; RefusalError names the key where no sound one exists."""
    if spec.line == "nested":
        return build_nested(spec)
    wall = spec.wall_mm
    link, choice = _chosen_link(spec, wall)
    plan_a, plan_b = plans(spec, wall, link.root_wall_mm)
    a = placed(plan_a, FRAME_A)
    root_b = end_shape(plan_b, FRAME_A).root_mm
    length = a.shape.root_mm + link.length_mm + root_b
    frame_b = Frame((link.shift[0], length, link.shift[1]), (0.0, -1.0, 0.0), (-1.0, 0.0, 0.0))
    b = placed(plan_b, frame_b)
    slit = slit_cut(spec, (a, b), FRAME_A, *_profiles(a, b, length)) if link.is_round else None
    pieces = _pieces(a, b, link, length)
    facts = describe(a, b, spec)
    facts["length, mouth to mouth"] = f"{length:.2f} mm"
    facts["cone, half angle"] = _cone_words(link)
    facts |= slit_facts(spec, slit)
    stations = () if slit else _stations(a, link)
    between = cone("cone", (link.a, link.b), link.length_mm, link.steepest, stations)
    part = Part(
        name=spec.name,
        family="reducer",
        bodies=(adapter_body(spec.name, pieces, (a, b), wall, slit=slit),),
        stand_ins=stand_ins((a, b), spec.envelope),
        dimensions=main_dimensions(a, b, _across(link.shift)),
        section_across=_across(link.shift),
        labels=labels(a, b),
        templates=mouth_faces(a, b, spec),
        facts=facts,
        passages_mm=passages_mm(a, b),
        stations=stations,
        airway=airway(a, (between,), b),
        assumed=assumed(spec, **_filled_in(spec, length, choice, link)),
        cautions=CAUTIONS,
    )
    parted = halved(part, spec, (a, b), _centreline(a, link, length))
    return loaded(parted, spec, (a, b), reducer_lengths((a, b), link.transition))


def _centreline(a: PlacedEnd, link: Link, length: float) -> Centreline:
    """Along end_a's axis, over to end_b's where that is shifted, and on; its sections are square to away throughout."""

    def at(distance_mm: float) -> tuple[Vec, Vec]:
        share = min(max((distance_mm - a.shape.root_mm) / link.length_mm, 0.0), 1.0)
        return (share * link.shift[0], distance_mm, share * link.shift[1]), (0.0, 1.0, 0.0)

    return Centreline(at, length, None if link.shift == (0.0, 0.0) else _across(link.shift))


def _cone_words(link: Link) -> str:
    mean = math.degrees(math.atan(link.change_mm / link.length_mm))
    words = f"{mean:.1f} deg (7-15 is usual)"
    return (
        words if link.shift == (0.0, 0.0) else f"{words}, {math.degrees(math.atan(link.steepest)):.1f} at its steepest"
    )


def _filled_in(spec: ReducerSpec, length: float, choice: Choice | None, link: Link) -> dict[str, str]:
    filled = {}
    if spec.length_mm is None:
        filled["length"] = f"{length:.2f} mm (from the joints' depths and the cone's half angle)"
    if choice is not None:
        mean = math.degrees(math.atan(link.change_mm / link.length_mm))
        filled["half_angle"] = f"{mean:.1f} deg ({choice.words('deg', spec.units)})"
    return filled


def _chosen_link(spec: ReducerSpec, wall: float) -> tuple[Link, Choice | None]:
    """The link at the usual half angle; where the air is told and nothing stands near, at the one that loses least."""
    usual = settled_link(spec, wall)
    if not is_ours(spec) or spec.length_mm is not None or spec.half_angle_deg is not None or usual.change_mm < 1e-9:
        return usual, None
    assert spec.air is not None

    def legs(angle: float) -> tuple[Leg, ...]:
        link = _link(spec, wall, usual.root_wall_mm, angle)
        return (cone("cone", (link.a, link.b), link.length_mm, link.steepest, ()),)

    choice = chosen(spec.air, HALF_ANGLE_DEG, HALF_ANGLES_DEG, legs)
    return (usual if choice.value == HALF_ANGLE_DEG else settled_link(spec, wall, choice.value)), choice


def settled_link(spec: ReducerSpec, wall: float, usual_deg: float = HALF_ANGLE_DEG) -> Link:
    """Walls and lengths that agree: the wall across the cone depends on its slope, the slope on the room left."""
    link = _link(spec, wall, wall / math.cos(math.radians(spec.half_angle_deg or usual_deg)), usual_deg)
    for _ in range(40):
        wanted = wall * math.hypot(1.0, link.steepest)
        wanted = wall if wanted - wall < LEAST_STEP_MM else wanted
        if abs(wanted - link.root_wall_mm) < 1e-10:
            break
        link = _link(spec, wall, wanted, usual_deg)
    if link.steepest > math.tan(math.radians(STEEPEST_DEG)) + 1e-9:
        _refuse_steep(spec, link)
    return link


def _link(spec: ReducerSpec, wall: float, root_wall: float, usual_deg: float) -> Link:
    a, b = (end_shape(p, FRAME_A) for p in plans(spec, wall, root_wall))
    shift = _shift(spec, a, b)
    sections = a.passage, b.passage.mirrored()
    change, whole = _changes(*sections, shift)
    if spec.length_mm is None:
        return Link(_auto_run(spec, (a, b), (change, whole), usual_deg), shift, change, root_wall, *sections)
    if spec.half_angle_deg is not None:
        why = "length and half_angle together say the same thing twice"
        raise RefusalError("half_angle", f"{spec.half_angle_deg:g} deg beside a length", "one of the two", why)
    left = spec.length_mm - a.root_mm - b.root_mm
    need = max(LINK_MM, whole / math.tan(math.radians(STEEPEST_DEG)))
    if left < need - 1e-9:
        found, allowed = f"{spec.length_mm:.1f} mm", f"{spec.length_mm - left + need + 0.05:.1f} mm or more, or auto"
        raise RefusalError("length", found, allowed, "the joints and a cone of at most 30 deg need more length")
    return Link(left, shift, change, root_wall, *sections)


def _changes(a: Section, b: Section, shift: tuple[float, float]) -> tuple[float, float]:
    """How far the passage's side moves out or in [mm] at the most: about its own axis, and with the axis' shift."""
    if a.is_round and b.is_round:
        change = abs(a.arcs[0].radius_mm - b.arcs[0].radius_mm)
        return change, change + math.hypot(*shift)
    return Transition(a, b, 1.0).steepest, Transition(a, b.moved(*shift), 1.0).steepest


def _auto_run(
    spec: ReducerSpec, joints: tuple[JointShape, JointShape], changes: tuple[float, float], usual_deg: float
) -> float:
    """Length of the cone: at the usual angle, or as steep as 20 deg where the part would be taller than the printer."""
    (a, b), (change, whole) = joints, changes
    angle = spec.half_angle_deg or usual_deg
    steep = math.tan(math.radians(STEEPEST_AUTO_DEG if spec.half_angle_deg is None else STEEPEST_DEG))
    least = max(LINK_MM, whole / steep)
    run = max(least, change / math.tan(math.radians(angle)))
    room = spec.printer.bed_z_mm - SPARE_MM - a.root_mm - b.root_mm
    if spec.half_angle_deg is None and run > room:
        run = max(least, room, change / math.tan(math.radians(STEEPEST_TIGHT_DEG)))
    return run


def _refuse_steep(spec: ReducerSpec, link: Link) -> None:
    found = f"{math.degrees(math.atan(link.steepest)):.1f} deg"
    raise RefusalError(
        "half_angle", found, f"{STEEPEST_DEG:g} deg or less", "a steeper cone is a step, and chips plug it"
    )


def _shift(spec: ReducerSpec, a: JointShape, b: JointShape) -> tuple[float, float]:
    if spec.line == "level":
        down = -math.pi / 2
        return (0.0, b.passage.support(down) - a.passage.support(down))
    if spec.eccentricity is not None:
        return (spec.eccentricity.right_mm, spec.eccentricity.up_mm)
    return (0.0, 0.0)


def _pieces(a: PlacedEnd, b: PlacedEnd, link: Link, length: float) -> list[Piece]:
    if not link.is_round:
        return _led_over(a, b, link)
    return _coaxial(a, b, length) if link.shift == (0.0, 0.0) else _shifted(a, b, link)


def _led_over(a: PlacedEnd, b: PlacedEnd, link: Link) -> list[Piece]:
    """Both joints carried round their own outlines, a developable transition between them."""
    start = Frame((0.0, a.shape.root_mm, 0.0), FRAME_A.inward, FRAME_A.right)
    outsides = a.shape.outside, b.shape.outside.mirrored().moved(*link.shift)
    there = tuple(math.pi - angle for angle in b.shape.breaks())
    breaks = (*a.shape.breaks(), *there, *link.transition.a.breaks(), *link.transition.b.breaks())
    back = tuple(math.pi - angle for angle in breaks)
    transition = replace(link.transition, breaks=breaks)
    middle = transition_piece(transition, start, a.plan.wall_mm, outsides)
    return [joint_piece(a, breaks), middle, joint_piece(b, back)]


def _stations(a: PlacedEnd, link: Link) -> tuple[Station, ...]:
    """Places along the link, from root to root."""
    found = []
    for k in range(STATIONS):
        share = MARGIN + (1.0 - 2 * MARGIN) * k / (STATIONS - 1)
        at = link.shift[0] * share, a.shape.root_mm + link.length_mm * share, link.shift[1] * share
        area = link.transition.a.between(link.transition.b, share).area_mm2
        found.append(Station(Frame(at, FRAME_A.inward, FRAME_A.right), area))
    return tuple(found)


def _coaxial(a: PlacedEnd, b: PlacedEnd, length: float) -> list[Piece]:
    """One half-profile each for outside and passage, turned in one piece."""
    return [turned(*_profiles(a, b, length), FRAME_A, through=True)]


def _profiles(a: PlacedEnd, b: PlacedEnd, length: float) -> tuple[Polyline, Polyline]:
    """Outside and passage of two joints on one axis, from mouth to mouth."""
    outer = tidy([*a.shape.outer, *reversed_from(b.shape.outer, length)])
    return outer, tidy([*a.shape.inner, *reversed_from(b.shape.inner, length)])


def _shifted(a: PlacedEnd, b: PlacedEnd, link: Link) -> list[Piece]:
    """Both joints turned about their own axes, an oblique cone between them."""
    start = Frame((0.0, a.shape.root_mm, 0.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
    outer, inner = (_cone(start, end_a[-1][1], end_b[-1][1], link) for end_a, end_b in _roots(a, b))
    between = Piece(cut(outer[0], [inner[0]], "cone"), inner[0], outer[1] - inner[1], inner[1])
    return [turned(a.shape.outer, a.shape.inner, a.frame), between, turned(b.shape.outer, b.shape.inner, b.frame)]


def _roots(a: PlacedEnd, b: PlacedEnd) -> tuple[tuple[Polyline, Polyline], tuple[Polyline, Polyline]]:
    return (a.shape.outer, b.shape.outer), (a.shape.inner, b.shape.inner)


def _cone(start: Frame, r0: float, r1: float, link: Link) -> tuple[Solid, float]:
    volume = math.pi * link.length_mm * (r0 * r0 + r0 * r1 + r1 * r1) / 3
    return oblique_cone(start, r0, r1, link.length_mm, link.shift), volume


def _across(shift: tuple[float, float]) -> tuple[float, float, float]:
    size = math.hypot(*shift)
    return (shift[0] / size, 0.0, shift[1] / size) if size > 0 else (1.0, 0.0, 0.0)
