"""The offset adapter: end_b stands aside of end_a's axis, looks elsewhere by up to 90 deg, or both."""

from __future__ import annotations

import math
from dataclasses import replace

from fitwright.errors import RefusalError
from fitwright.frame import Vec
from fitwright.part import Leg, Part, Pose
from fitwright.parts.adapter_load_walls import bend_lengths
from fitwright.parts.adapter_loads import loaded
from fitwright.parts.airway_bend import Lead, bent_airway, between
from fitwright.parts.assembly import Piece, PlacedEnd, adapter_body, turned
from fitwright.parts.auto_bend import Tried, sizes_by_air
from fitwright.parts.bend_layout import Layout, laid_out
from fitwright.parts.bend_room import Room, clocked, outline
from fitwright.parts.bend_section import BendSection, bend_section, half_width, lead, pieces, plane_angle, stations
from fitwright.parts.clocking import clocking_facts
from fitwright.parts.dimensions import main_dimensions
from fitwright.parts.ends import end_shape
from fitwright.parts.facts import CAUTIONS, assumed, describe, labels, passages_mm
from fitwright.parts.halved import halved
from fitwright.parts.mouth_faces import mouth_faces
from fitwright.parts.pair import FRAME_A, placed, plans
from fitwright.parts.parting import Centreline
from fitwright.parts.stand_ins import stand_ins
from fitwright.place import direction
from fitwright.shapes.space_path import SpacePath
from fitwright.shapes.swept import ring_section, swept, swept_mm3
from fitwright.spec.models import OffsetAdapterSpec, Place

HALF_ANGLE_DEG = 10.0
SIDES = {"right": "right", "left": "left", "up": "upper", "down": "lower"}
LEAD_OVER_DEG = 15.0
"""The steepest side of a transition between other sections: the others are gentler."""
ROUNDS = 12
STEEPEST_DEG = 45.0
"""An underside flatter than this needs support."""


def build_offset_adapter(spec: OffsetAdapterSpec) -> Part:
    """The adapter as a Part; RefusalError names the key and the length, radius or offset that would work."""
    wall = spec.wall_mm
    is_round = all(p.form.base is None for p in plans(spec, wall, wall))
    half_angle, made_of_d, why = sizes_by_air(spec, HALF_ANGLE_DEG if is_round else LEAD_OVER_DEG, _tried(spec, wall))
    root_wall, layout, bend = _settled(spec, wall, half_angle, made_of_d)
    room = layout.room
    plan_a, plan_b = plans(spec, wall, root_wall)
    a, b = placed(plan_a, FRAME_A), placed(plan_b, room.frame_b(layout.length))
    made = _pieces(a, b, room, layout.path) if is_round else pieces(a, b, room, layout.path, bend)
    across = room.toward if room.offset > 1e-9 else room.turns
    facts = {**describe(a, b, spec), **_bend_facts(spec, layout, half_angle)}
    measured = stations(a, b, room, layout.path, bend)
    part = Part(
        name=spec.name,
        family="offset_adapter",
        bodies=(adapter_body(spec.name, made, (a, b), wall, _lying(room, layout.path)),),
        stand_ins=stand_ins((a, b), spec.envelope),
        dimensions=main_dimensions(a, b, across),
        section_across=across,
        labels=labels(a, b),
        templates=mouth_faces(a, b, spec),
        facts={**facts, **clocking_facts(a, b, layout.path, room.r_bend + room.root_wall, spec.clock_deg)},
        passages_mm=passages_mm(a, b),
        stations=measured,
        airway=bent_airway((a, b), Lead(room.cone, half_angle), layout.path, bend, measured),
        assumed=assumed(spec, **_filled_in(spec, layout, why)),
        cautions=CAUTIONS,
    )
    parted = halved(part, spec, (a, b), _centreline(room, layout.path))
    return loaded(parted, spec, (a, b), () if is_round else bend_lengths((a, b), room, layout.path, bend))


def _centreline(room: Room, path: SpacePath) -> Centreline:
    """Straight out of end_a, along the path, straight into end_b."""

    def at(distance_mm: float) -> tuple[Vec, Vec]:
        run = distance_mm - room.from_a
        point, heading = path.runs[0].at(0.0)
        for piece in path.runs:
            if run <= 0.0:
                break
            point, heading = piece.at(min(run / piece.length_mm, 1.0))
            run -= piece.length_mm
        over = run if distance_mm < room.from_a or run > 0.0 else 0.0  # straight on, before the path or after it
        return (point[0] + over * heading[0], point[1] + over * heading[1], point[2] + over * heading[2]), heading

    across = room.turns if room.angle > 1e-9 else room.toward
    return Centreline(at, room.from_a + path.length_mm + room.from_b, across, room.is_flat)


def _tried(spec: OffsetAdapterSpec, wall: float) -> Tried:
    """What becomes of a half angle [rad] and a gentle bend's diameters, for who chooses them by the air."""
    passages = [end_shape(p, FRAME_A).passage for p in plans(spec, wall, wall)]

    def tried(half_angle: float, of_d: float) -> tuple[Layout, tuple[Leg, ...]]:
        _, layout, bend = _settled(spec, wall, half_angle, of_d)
        lead_over = Lead(layout.room.cone, half_angle)
        return layout, between((passages[0], passages[1]), lead_over, layout.path, bend)

    return tried


def _filled_in(spec: OffsetAdapterSpec, layout: Layout, why: dict[str, str]) -> dict[str, str]:
    filled = {key: words for key, words in why.items() if key != "bend_radius"}
    if spec.length_mm is None:
        filled["length"] = f"{layout.length:.2f} mm ({layout.why_length})"
    if spec.offset is None:
        filled["offset"] = f"{layout.room.offset:.2f} mm (what one bend gives)"
    if spec.angle_deg > 0 and spec.turns is None:
        filled["turns"] = "towards the offset" if spec.offset is not None else "up"
    if spec.bend_radius_mm is None and math.isfinite(layout.path.radius_mm):
        filled["bend_radius"] = f"{layout.path.radius_mm:.1f} mm ({why.get('bend_radius', layout.why_radius)})"
    return filled


def _settled(spec: OffsetAdapterSpec, wall: float, half_angle: float, of_d: float) -> tuple[float, Layout, BendSection]:
    """Centreline and section that agree: the roll along the line turns the section that is led over."""
    roll, steepest = 0.0, math.radians(STEEPEST_DEG)
    for _ in range(ROUNDS):
        root_wall, room, bend = _room(spec, wall, half_angle, roll)
        layout = laid_out(spec, replace(room, gentle_of_d=of_d), steepest)
        back = layout.room.frame_b(layout.length).right
        found = layout.path.roll_rad(FRAME_A.right, (-back[0], -back[1], -back[2])) if layout.path.runs else 0.0
        if abs(math.remainder(found - roll, 2 * math.pi)) < 1e-9 or bend.passage.is_round:
            return root_wall, layout, replace(bend, roll_rad=found)
        roll = found
    said = f"{spec.angle_deg:g} deg"
    raise RefusalError("angle", said, "another angle, or one round end", "the sections turn against each other")


def _room(spec: OffsetAdapterSpec, wall: float, half_angle: float, roll: float) -> tuple[float, Room, BendSection]:
    one, other = (end_shape(p, FRAME_A) for p in plans(spec, wall, wall))
    change = lead(bend_section(one, other, roll), one, other, 1.0).steepest
    root_wall = wall / math.cos(half_angle) if change > 1e-9 else wall
    a, b = (end_shape(p, FRAME_A) for p in plans(spec, wall, root_wall))
    offset = spec.offset or Place(0.0, 0.0)
    toward = _along(offset, spec.clock_deg)
    bend = bend_section(a, b, roll)
    room = Room(
        a.root_mm,
        b.root_mm,
        change / math.tan(half_angle),
        not bend.of_a,
        a.passage_r_mm,
        b.passage_r_mm,
        root_wall,
        math.hypot(offset.right_mm, offset.up_mm),
        toward,
        math.radians(spec.angle_deg),
        toward if spec.turns is None else _along(spec.turns, spec.clock_deg),
        (outline(a), outline(b)),
    )
    if a.passage.is_round and b.passage.is_round:
        return root_wall, room, bend
    r, angle = half_width(bend, room), plane_angle(room)
    outlines = outline(a, angle), outline(b, None if angle is None else math.pi - angle)
    return root_wall, replace(room, r_a=r, r_b=r, outlines=outlines), bend


def _along(place: Place, clock_deg: float) -> Vec:
    """Unit vector square to away towards a place, turned by the clock; up where the place is the axis itself."""
    x, z = place.right_mm, place.up_mm
    size = math.hypot(x, z)
    return clocked(*((x / size, z / size) if size > 0 else (0.0, 1.0)), clock_deg)


def _lying(room: Room, path: SpacePath) -> tuple[Pose, ...]:
    """Both ways to lay a bend on its side that does not stand upright without support."""
    limit = math.radians(STEEPEST_DEG)
    if not room.is_flat or (room.angle < limit - 1e-9 and path.steepest_rad <= limit + 1e-9):
        return ()
    u = room.turns
    return tuple(Pose(f"lying on its {SIDES[direction(n)]} side", n) for n in ((u[2], 0.0, -u[0]), (-u[2], 0.0, u[0])))


def _pieces(a: PlacedEnd, b: PlacedEnd, room: Room, path: SpacePath) -> list[Piece]:
    """The joint at end_a, one piece for each straight and arc, the joint at end_b; the cone on the larger joint."""
    r_in, r_out = room.r_bend, room.r_bend + room.root_wall

    def with_cone(end: PlacedEnd, here: bool) -> Piece:
        lines = end.shape.outer, end.shape.inner
        if here and room.cone > 1e-9:
            to = end.shape.root_mm + room.cone
            lines = (*lines[0], (to, r_out)), (*lines[1], (to, r_in))
        return turned(*lines, end.frame)

    between = []
    for run, (frame, _) in zip(path.runs, path.frames(FRAME_A.right), strict=True):
        tube, bore = (swept(ring_section(*radii), run, frame) for radii in ((r_out, r_in), (r_in, 0.0)))
        areas = math.pi * (r_out**2 - r_in**2), math.pi * r_in**2
        between.append(Piece(tube, bore, *(swept_mm3(area, run, frame) for area in areas)))
    return [with_cone(a, room.cone_at_a), *between, with_cone(b, not room.cone_at_a)]


def _bend_facts(spec: OffsetAdapterSpec, layout: Layout, half_angle: float) -> dict[str, str]:
    room, path = layout.room, layout.path
    bends = " and ".join(f"{d:.1f}" for d in path.bends_deg)
    facts = {
        "length, mouth to mouth": f"{layout.length:.2f} mm, of which {path.length_mm:.2f} mm along the bend",
        "bends": f"{bends} deg, centreline radius {path.radius_mm:.1f} mm ({path.radius_mm / (2 * room.r_bend):.2f} D)",
    }
    if spec.offset is None:
        facts["offset of end_b"] = f"{room.offset:.2f} mm: {_way(room.toward)}, as one bend gives it"
    if spec.angle_deg > 0:
        facts["end_b looks"] = f"{spec.angle_deg:g} deg from straight away: {_way(room.turns)}"
    if room.cone > 1e-9:
        where = "end_a" if room.cone_at_a else "end_b"
        facts["cone, half angle"] = f"{math.degrees(half_angle):.1f} deg, on the straight at {where}"
    steep = math.degrees(path.steepest_rad)
    if steep > STEEPEST_DEG + 0.01:
        facts["printing the bend"] = (
            f"{steep:.1f} deg from upright: print it with support inside, or cut it in halves with a lap{_side(room)}"
        )
    return facts


def _side(room: Room) -> str:
    return (
        "; on its side only the passage's roof hangs, and what is wider than the bend lifts it" if room.is_flat else ""
    )


def _way(v: Vec) -> str:
    """A direction square to away in words: `up`, or `30 deg clockwise from up`."""
    if max(abs(v[0]), abs(v[2])) > 1 - 1e-9:
        return direction(v)
    clock = math.degrees(math.atan2(v[0], v[2])) % 360.0
    return f"{clock:.0f} deg clockwise from up"
