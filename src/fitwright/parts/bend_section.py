"""The section that an offset adapter carries along its bend, and how it is led over to the end that has another."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from fitwright.frame import Frame
from fitwright.part import Station
from fitwright.parts.assembly import Piece, PlacedEnd, joint_piece, transition_piece
from fitwright.parts.bend_room import Room
from fitwright.parts.pair import FRAME_A
from fitwright.section import Section, spans
from fitwright.shapes.joint import JointShape
from fitwright.shapes.loft import Transition
from fitwright.shapes.skins import Loop, arc_loop, flat
from fitwright.shapes.space_path import Run, SpacePath
from fitwright.shapes.swept import swept, swept_mm3

STATIONS, MARGIN = 5, 0.01


@dataclass(frozen=True)
class BendSection:
    """What goes along the bend: passage and outside, in the right and up that are carried along from end_a.

    `roll_rad` leads from there to how end_b sees it; `of_a` where it is end_a's own section, so that it is led over at
    end_b.
    """

    passage: Section
    outside: Section
    of_a: bool
    roll_rad: float

    def seen_from_b(self, section: Section) -> Section:
        """A section along the bend as who looks into end_b sees it."""
        return section.turned(self.roll_rad).mirrored()

    def angle_at_b(self, angle: float) -> float:
        """An angle [rad] in the carried right and up as end_b's."""
        return math.pi - (angle + self.roll_rad)

    def angle_from_b(self, angle: float) -> float:
        """The other way round."""
        return math.pi - angle - self.roll_rad


def bend_section(a: JointShape, b: JointShape, roll_rad: float) -> BendSection:
    """The round one of the two passages, else the one that reaches less far: its bend can be the tighter."""
    of_a = a.passage.is_round and not b.passage.is_round
    if a.passage.is_round == b.passage.is_round:
        of_a = a.passage.reach_mm <= b.passage.reach_mm
    if of_a:
        return BendSection(a.passage, a.outside, True, roll_rad)
    passage, outside = (s.mirrored().turned(-roll_rad) for s in (b.passage, b.outside))
    return BendSection(passage, outside, False, roll_rad)


def lead(bend: BendSection, a: JointShape, b: JointShape, length_mm: float) -> Transition:
    """The transition from the joint that has another section to the bend's, in that joint's right and up."""
    if bend.of_a:
        return Transition(b.passage, bend.seen_from_b(bend.passage), length_mm)
    return Transition(a.passage, bend.passage, length_mm)


def plane_angle(room: Room) -> float | None:
    """Which way the bend's plane lies [rad], in end_a's right and up; None where it has none."""
    if not room.is_flat:
        return None
    way = room.turns if room.angle > 1e-9 else room.toward
    return math.atan2(way[2], way[0])


def half_width(bend: BendSection, room: Room) -> float:
    """How far the passage reaches from the centreline [mm]: in the bend's plane where there is one, else anywhere."""
    angle = plane_angle(room)
    if angle is None or bend.passage.is_round:
        return bend.passage.reach_mm
    return max(bend.passage.support(angle), bend.passage.support(angle + math.pi))


def pieces(a: PlacedEnd, b: PlacedEnd, room: Room, path: SpacePath, bend: BendSection) -> list[Piece]:
    """Joint, what leads over, each straight and arc of the bend, joint; all cut at the same places round."""
    breaks = _breaks(a, b, bend)
    at_b = tuple(bend.angle_at_b(angle) for angle in breaks)
    between = [_carried(bend, run, frame, breaks) for run, (frame, _) in zip(path.runs, _frames(path), strict=True)]
    led = [] if room.cone < 1e-9 else [_led_over(a, b, room, bend, at_b if bend.of_a else breaks)]
    middle = [*between, *led] if bend.of_a else [*led, *between]
    return [joint_piece(a, breaks), *middle, joint_piece(b, at_b)]


def _frames(path: SpacePath) -> tuple[tuple[Frame, Frame], ...]:
    return path.frames(FRAME_A.right)


def _breaks(a: PlacedEnd, b: PlacedEnd, bend: BendSection) -> tuple[float, ...]:
    there = [*b.shape.breaks(), *(() if b.shape.passage.is_round else b.shape.passage.breaks())]
    here = [*a.shape.breaks(), *(() if a.shape.passage.is_round else a.shape.passage.breaks())]
    own = [*bend.passage.breaks(), *bend.outside.breaks()]
    return (*here, *own, *(bend.angle_from_b(angle) for angle in there))


def _led_over(a: PlacedEnd, b: PlacedEnd, room: Room, bend: BendSection, breaks: tuple[float, ...]) -> Piece:
    end = b if bend.of_a else a
    transition = replace(lead(bend, a.shape, b.shape, room.cone), breaks=breaks)
    there = bend.seen_from_b(bend.outside) if bend.of_a else bend.outside
    start = Frame(end.frame.point(0.0, end.shape.root_mm, 0.0), end.frame.inward, end.frame.right)
    return transition_piece(transition, start, end.plan.wall_mm, (end.shape.outside, there))


def _carried(bend: BendSection, run: Run, frame: Frame, breaks: tuple[float, ...]) -> Piece:
    """The bend's section along one run."""
    if not run.turn_rad:
        transition = Transition(bend.passage, bend.passage, run.length_mm, breaks)
        wall = bend.outside.support(0.0) - bend.passage.support(0.0)
        return transition_piece(transition, frame, wall, (bend.outside, bend.outside))
    marks = spans(bend.passage, bend.outside, also=breaks)

    def loop(section: Section, at: Frame) -> Loop:
        return arc_loop(section, marks, at, 0.0)

    tube = swept(lambda at: flat(loop(bend.outside, at), loop(bend.passage, at)), run, frame)
    bore = swept(lambda at: flat(loop(bend.passage, at)), run, frame)
    volumes = [swept_mm3(s.area_mm2, run, frame, s.centroid) for s in (bend.outside, bend.passage)]
    return Piece(tube, bore, volumes[0] - volumes[1], volumes[1])


def stations(a: PlacedEnd, b: PlacedEnd, room: Room, path: SpacePath, bend: BendSection) -> tuple[Station, ...]:
    """Places along what leads over and along the bend, from root to root."""
    along = [s for run, (frame, _) in zip(path.runs, _frames(path), strict=True) for s in _on_run(bend, run, frame)]
    if room.cone < 1e-9:
        return tuple(along)
    end, transition = (b if bend.of_a else a), lead(bend, a.shape, b.shape, room.cone)
    led = []
    for share in _shares():
        origin = end.frame.point(0.0, end.shape.root_mm + share * room.cone, 0.0)
        area = transition.a.between(transition.b, share).area_mm2
        led.append(Station(Frame(origin, end.frame.inward, end.frame.right), area))
    return (*along, *reversed(led)) if bend.of_a else (*led, *along)


def _shares() -> Iterator[float]:
    return (MARGIN + (1.0 - 2 * MARGIN) * k / (STATIONS - 1) for k in range(STATIONS))


def _on_run(bend: BendSection, run: Run, frame: Frame) -> Iterator[Station]:
    for share in _shares():
        point, heading = run.at(share)
        yield Station(Frame(point, heading, run.carried(frame.right, share)), bend.passage.area_mm2)
