"""The airway of an adapter: from the inside of what is bought at end_a to the inside of what is bought at end_b."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.airway import Leg, Station, against
from fitwright.frame import Frame
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.fit_faces import takes_hose
from fitwright.section import Section, SectionError, circle
from fitwright.spec.models import HoseTail, Socket, Spigot
from fitwright.spec.printed import bought_cone

PIPE_WALL_MM = 3.2
"""Wall of a pipe that was only measured outside: drain pipe of 110 to 125 mm (EN 1401-1; BS 4514)."""
CLEAR_MM = 1.0
"""A bore is measured no nearer than this to a hole in its wall, to its mouth and to its root."""
EVERY_MM = 10.0
"""A bore is measured at least so often."""
SAME_AREA = 1e-6
"""A step that changes the area by less than this share is none."""


@dataclass(frozen=True)
class Inside:
    """The inside of what is bought at an end: its section, whose edge stands there, what was taken for granted."""

    section: Section
    edge_of: str
    taken: str = ""


def inside_of(end: PlacedEnd) -> Inside | None:
    """The bought part's inside as who looks into the mouth sees it; None where the YAML does not tell it."""
    joint = end.plan.end.joint
    if isinstance(joint, HoseTail):
        return Inside(circle(bought_cone(joint).at(0.0)), "tail's")
    if isinstance(joint, Spigot):
        size = joint.size
        return Inside(size.outline or circle(bought_cone(joint).at(0.0)), "spigot's")
    if isinstance(joint, Socket) and not takes_hose(joint):
        return _in_pipe(joint, end.shape.engaged_mm)
    return None


def _in_pipe(joint: Socket, depth_mm: float) -> Inside | None:
    """What goes into a socket has its outside measured; its wall comes from the table, or is the usual one."""
    size = joint.size
    outside = size.outline or circle(bought_cone(joint).at(depth_mm))
    wall = size.wall_mm or PIPE_WALL_MM
    try:
        taken = "" if size.wall_mm else f"its wall is not known: {wall:g} mm is taken"
        return Inside(outside.grown(-wall), "pipe's", taken)
    except SectionError:
        return None


def airway(a: PlacedEnd, between: tuple[Leg, ...], b: PlacedEnd) -> tuple[Leg, ...]:
    """Into end_a's joint, along what lies between the roots, out of end_b's joint."""
    return (*_joint(a), *between, *against(_joint(b)))


def nested_airway(a: PlacedEnd, length_mm: float, b: PlacedEnd) -> tuple[Leg, ...]:
    """Through a sleeve round the pipe at end_a, `length_mm` long, into what is round it at end_b."""
    passage, start = a.shape.passage, _bore_from(a)
    places = (start + CLEAR_MM, length_mm - CLEAR_MM)
    at = () if a.plan.slit or places[0] > places[1] else tuple(Station(_at(a, s), passage.area_mm2) for s in places)
    bore = straight("sleeve's bore", passage, length_mm - start, at)
    return (*step("end_a", inside_of(a), passage), bore, *against(step("end_b", inside_of(b), passage)))


def _joint(end: PlacedEnd) -> tuple[Leg, ...]:
    """From the bought part's inside to the joint's root."""
    passage, key = end.shape.passage, end.plan.key
    bore = straight(f"{key} bore", passage, _bore_mm(end), _bore_stations(end))
    inside = inside_of(end)
    return (*step(key, inside, passage), bore)


def step(key: str, inside: Inside | None, passage: Section) -> tuple[Leg, ...]:
    """The edge between the bought part's inside and the print's passage, for air that goes into the print."""
    if inside is None:
        return ()
    before, after = inside.section, passage
    if abs(before.area_mm2 / after.area_mm2 - 1.0) < SAME_AREA:
        return ()
    edge = "shoulder" if inside.edge_of == "pipe's" and before.area_mm2 > after.area_mm2 else f"{inside.edge_of} edge"
    facing = before.area_mm2 > after.area_mm2
    return (Leg(f"{key} {edge}", "step", *_sizes(before, after), facing=facing, bought=0, taken=inside.taken),)


def straight(name: str, passage: Section, length_mm: float, sections: tuple[Station, ...] = ()) -> Leg:
    """A run of one section."""
    return Leg(name, "straight", *_sizes(passage, passage), length_mm=length_mm, sections=sections)


def cone(name: str, sizes: tuple[Section, Section], length_mm: float, tangent: float, at: tuple[Station, ...]) -> Leg:
    """A gradual change whose steepest line has this tangent against the axis; a straight where nothing changes."""
    if tangent < SAME_AREA:
        return straight(name.replace("cone", "straight"), sizes[0], length_mm, at)
    angle = math.degrees(math.atan(tangent))
    return Leg(name, "cone", *_sizes(*sizes), length_mm=length_mm, half_angle_deg=angle, sections=at)


def _sizes(a: Section, b: Section) -> tuple[tuple[float, float], tuple[float, float]]:
    return (a.area_mm2, b.area_mm2), (a.hydraulic_d_mm, b.hydraulic_d_mm)


def _bore_from(end: PlacedEnd) -> float:
    """Where the joint's passage begins [mm from its mouth]: behind a socket's stop, else at the mouth."""
    return end.shape.inner[-2][0]


def _bore_mm(end: PlacedEnd) -> float:
    return end.shape.root_mm - _bore_from(end)


def _bore_stations(end: PlacedEnd) -> tuple[Station, ...]:
    """Places along the joint's own passage at which nothing but the passage opens the wall."""
    low, high = _bore_from(end) + CLEAR_MM, end.shape.root_mm - CLEAR_MM
    if high <= low or end.plan.slit:
        return ()
    count = max(2, math.ceil((high - low) / EVERY_MM))
    places = [low + (high - low) * k / count for k in range(count + 1)]
    area = end.shape.passage.area_mm2
    return tuple(Station(_at(end, s), area) for s in places if not _is_holed(end, s))


def _is_holed(end: PlacedEnd, s: float) -> bool:
    """Whether a screw's pilot opens the wall there."""
    frame = end.frame
    for hole in end.shape.holes:
        along = sum((hole.start[i] - frame.origin[i]) * frame.inward[i] for i in range(3))
        radial = abs(sum(hole.direction[i] * frame.inward[i] for i in range(3))) < 0.5
        if radial and abs(along - s) < hole.d_mm / 2 + CLEAR_MM:
            return True
    return False


def _at(end: PlacedEnd, s: float) -> Frame:
    return Frame(end.frame.point(0.0, s, 0.0), end.frame.inward, end.frame.right)
