"""The large flat walls of a passage that is not round: what the collector's suction pulls at for good."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from fitwright.frame import Frame
from fitwright.loads import LoadFace
from fitwright.parts.adapter_load_faces import flat_side
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.bend_room import Room
from fitwright.parts.bend_section import BendSection, lead
from fitwright.parts.pair import FRAME_A
from fitwright.section import Section
from fitwright.shapes.loft import Transition
from fitwright.shapes.space_path import SpacePath
from fitwright.spec.models import Plain, Spigot

LARGE_MM, AT_PA = 60.0, 3000.0
"""A held wall of 2.4 mm bends by 0.02 mm over this width at 3 kPa, and bears 1 MPa: narrower ones need no look. The
stress goes with the pressure and the square of the width."""
MOST = 2
"""The largest walls of each length of passage are looked at: the others are narrower, or the same."""


@dataclass(frozen=True)
class Length:
    """A length of passage from `frame` on: its section there and at its end, in the frame's right and up."""

    name: str
    frame: Frame
    a: Section
    b: Section
    length_mm: float


def reducer_lengths(ends: tuple[PlacedEnd, PlacedEnd], transition: Transition) -> tuple[Length, ...]:
    """What lies between two ends in line, and their own bores."""
    start = Frame((0.0, ends[0].shape.root_mm, 0.0), FRAME_A.inward, FRAME_A.right)
    return (*_bores(ends), Length("transition", start, transition.a, transition.b, transition.length_mm))


def bend_lengths(
    ends: tuple[PlacedEnd, PlacedEnd], room: Room, path: SpacePath, bend: BendSection
) -> tuple[Length, ...]:
    """The straights of the bend, what leads over to it, and the bores of both ends."""
    found = list(_bores(ends))
    for k, (run, (frame, _)) in enumerate(zip(path.runs, path.frames(FRAME_A.right), strict=True), start=1):
        if not run.turn_rad:
            found.append(Length(f"straight {k}", frame, bend.passage, bend.passage, run.length_mm))
    if room.cone > 1e-9:
        end = ends[1] if bend.of_a else ends[0]
        over = lead(bend, ends[0].shape, ends[1].shape, room.cone)
        start = Frame(end.frame.point(0.0, end.shape.root_mm, 0.0), end.frame.inward, end.frame.right)
        found.append(Length("transition", start, over.a, over.b, room.cone))
    return tuple(found)


def _bores(ends: tuple[PlacedEnd, PlacedEnd]) -> Iterator[Length]:
    """Bores that no pipe lies in."""
    for end in ends:
        if isinstance(end.plan.end.joint, Spigot | Plain):
            passage = end.shape.passage
            yield Length(f"{end.plan.key} bore", end.frame, passage, passage, end.shape.root_mm)


def flat_walls(lengths: Iterable[Length], body: str, suction_pa: float) -> tuple[LoadFace, ...]:
    """The largest flat walls of each length that are large for this suction [Pa]."""
    large = LARGE_MM * min(1.0, math.sqrt(AT_PA / suction_pa))
    found: list[LoadFace] = []
    for one in lengths:
        if one.a.is_round and one.b.is_round:
            continue
        walls = sorted(_walls(one, large), key=lambda w: -_area(w))
        kept: list[LoadFace] = []
        for wall in walls:
            if len(kept) < MOST and all(abs(_area(wall) / _area(other) - 1.0) > 1e-3 for other in kept):
                kept.append(wall)
        found += [replace(w, name=f"{one.name} wall {k}", body=body) for k, w in enumerate(kept, start=1)]
    return tuple(found)


def _area(wall: LoadFace) -> float:
    return (wall.right_mm[1] - wall.right_mm[0]) * (wall.up_mm[1] - wall.up_mm[0])


def _walls(one: Length, large_mm: float) -> Iterator[LoadFace]:
    """Flat walls over a straight of either section: the other section's side of the same normal, or its corner."""
    slope_of = Transition(one.a, one.b, one.length_mm).slope
    seen: list[float] = []
    for _, _, angle in (*one.a.straights(), *one.b.straights()):
        if any(abs(math.remainder(angle - other, 2 * math.pi)) < 1e-6 for other in seen):
            continue
        seen.append(angle)
        low, high = _reach(one, angle)
        if high - low < large_mm or one.length_mm < large_mm / 2:
            continue
        along = -math.sin(angle), math.cos(angle)
        at = one.a.support(angle)
        ends = tuple((at * math.cos(angle) + t * along[0], at * math.sin(angle) + t * along[1]) for t in (low, high))
        yield flat_side(one.frame, (ends[0], ends[1]), angle, (0.0, one.length_mm), inside=True, slope=slope_of(angle))


def _reach(one: Length, angle: float) -> tuple[float, float]:
    """From where to where [mm] along the side the straights of both sections reach at this normal."""
    found = []
    for section in (one.a, one.b):
        for p, q, normal in section.straights():
            if abs(math.remainder(normal - angle, 2 * math.pi)) < 1e-6:
                found += [-point[0] * math.sin(angle) + point[1] * math.cos(angle) for point in (p, q)]
    return min(found), max(found)
