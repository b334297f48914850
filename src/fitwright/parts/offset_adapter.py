"""The offset adapter: end_b stands aside of end_a's axis, parallel to it or turned towards the offset."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cadquery import Edge, Vector, Wire

from fitwright.errors import RefusalError
from fitwright.frame import Frame, Vec
from fitwright.part import Part
from fitwright.parts.assembly import Piece, PlacedEnd, adapter_body, turned
from fitwright.parts.dimensions import main_dimensions
from fitwright.parts.ends import end_shape
from fitwright.parts.facts import CAUTIONS, assumed, describe, labels, passages_mm
from fitwright.parts.halved import halved
from fitwright.parts.pair import FRAME_A, placed, plans
from fitwright.parts.parting import Centreline
from fitwright.parts.stand_ins import stand_ins
from fitwright.shapes.path import Path, joined
from fitwright.shapes.solids import sweep_round
from fitwright.spec.models import OffsetAdapterSpec

HALF_ANGLE_DEG = 10.0
STEEPEST_DEG = 45.0
"""An underside flatter than this needs support."""
BEND_MARGIN_MM = 2.0
"""The centreline's radius stays this much above the outside radius: a tighter bend folds into itself."""
LONGEST_MM = 3000.0


@dataclass(frozen=True)
class Room:
    """What the joints leave for the bend, all in mm and rad: y along away, u along the offset."""

    root_a: float
    root_b: float
    cone: float
    cone_at_a: bool
    r_a: float
    r_b: float
    root_wall: float
    offset: float
    angle: float

    @property
    def r_bend(self) -> float:
        """Passage radius in the bends: the smaller of the two."""
        return min(self.r_a, self.r_b)

    @property
    def from_a(self) -> float:
        return self.root_a + (self.cone if self.cone_at_a else 0.0)

    @property
    def from_b(self) -> float:
        return self.root_b + (0.0 if self.cone_at_a else self.cone)

    @property
    def tightest(self) -> float:
        """The least radius of the centreline: a tighter bend folds into itself."""
        return self.r_bend + self.root_wall + BEND_MARGIN_MM

    def path(self, length: float, radius: float | None = None) -> Path | None:
        """The centreline between the joints for this length mouth to mouth, or None."""
        end = (
            self.offset - self.from_b * math.sin(self.angle),
            length - self.from_b * math.cos(self.angle),
            self.angle,
        )
        return joined((0.0, self.from_a, 0.0), end, radius, enough_mm=max(2 * self.r_bend, self.tightest))

    def shortest(self, radius: float, steepest_rad: float, bend: float | None = None) -> float | None:
        """The shortest length [mm] whose bends are no tighter than `radius` and no steeper than `steepest_rad`."""

        def works(length: float) -> bool:
            path = self.path(length, bend)
            return path is not None and path.radius_mm >= radius - 1e-9 and path.steepest_rad <= steepest_rad + 1e-9

        low = self.from_a
        step = 1.0
        while not works(low + step):
            low, step = low + step, step * 1.3
            if low > LONGEST_MM:
                return None
        high = low + step
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (low, middle) if works(middle) else (middle, high)
        return high


def build_offset_adapter(spec: OffsetAdapterSpec) -> Part:
    """The adapter as a Part; RefusalError names the key and the length or offset that would work."""
    wall = spec.wall_mm
    half_angle = math.radians(spec.half_angle_deg or HALF_ANGLE_DEG)
    root_wall, room = _room(spec, wall, half_angle)
    length, path = _laid_out(spec, room)
    toward = offset_direction(spec)
    plan_a, plan_b = plans(spec, wall, root_wall)
    a, b = placed(plan_a, FRAME_A), placed(plan_b, frame_b(room, toward, length))
    pieces = _pieces(a, b, room, path, toward)
    facts = {**describe(a, b, spec), **_bend_facts(path, room, length, half_angle)}
    part = Part(
        name=spec.name,
        family="offset_adapter",
        bodies=(adapter_body(spec.name, pieces, (a, b), wall),),
        stand_ins=stand_ins((a, b), spec.envelope),
        dimensions=main_dimensions(a, b, toward),
        section_across=toward,
        labels=labels(a, b),
        facts=facts,
        passages_mm=passages_mm(a, b),
        assumed=assumed(spec, **_filled_in(spec, length, path)),
        cautions=CAUTIONS,
    )
    return halved(part, spec, (a, b), _centreline(room, path, toward))


def _centreline(room: Room, path: Path, toward: Vec) -> Centreline:
    """Straight out of end_a, along the path, straight into end_b."""

    def at(distance_mm: float) -> tuple[Vec, Vec]:
        run = distance_mm - room.from_a
        pose = path.pieces[0].at(0.0)
        for piece in path.pieces:
            if run <= 0.0:
                break
            pose = piece.at(min(run / piece.length_mm, 1.0))
            run -= piece.length_mm
        u, y, heading = pose
        ahead = _place((math.sin(heading), math.cos(heading), 0.0), toward)
        over = run if distance_mm < room.from_a or run > 0.0 else 0.0  # straight on, before the path or after it
        p = _place((u, y, 0.0), toward)
        return (p[0] + over * ahead[0], p[1] + over * ahead[1], p[2] + over * ahead[2]), ahead

    return Centreline(at, room.from_a + path.length_mm + room.from_b, toward)


def _filled_in(spec: OffsetAdapterSpec, length: float, path: Path) -> dict[str, str]:
    filled = {}
    if spec.length_mm is None:
        filled["length"] = f"{length:.2f} mm (shortest that prints at 45 deg with bends of one diameter or more)"
    if spec.bend_radius_mm is None and math.isfinite(path.radius_mm):
        filled["bend_radius"] = f"{path.radius_mm:.1f} mm (the largest that the length leaves)"
    return filled


def offset_direction(spec: OffsetAdapterSpec) -> Vec:
    """Unit vector square to away along which end_b is offset, turned by `clock` (clockwise, looking into end_a)."""
    x, z = spec.offset.right_mm, spec.offset.up_mm
    size = math.hypot(x, z)
    x, z = (x / size, z / size) if size > 0 else (0.0, 1.0)
    c, s = math.cos(math.radians(spec.clock_deg)), math.sin(math.radians(spec.clock_deg))
    return (x * c + z * s, 0.0, z * c - x * s)


def frame_b(room: Room, toward: Vec, length: float) -> Frame:
    """end_b's frame: looking into it, up stays up where the angle allows."""
    s, c = math.sin(room.angle), math.cos(room.angle)
    ux, uz = toward[0], toward[2]
    inward = (-s * ux, -c, -s * uz)
    # -x turned with the axis: its share along the offset tips back, its share across the plane stays
    right = (-ux * c * ux - uz * uz, ux * s, -ux * c * uz + uz * ux)
    return Frame((room.offset * ux, length, room.offset * uz), inward, right)


def _room(spec: OffsetAdapterSpec, wall: float, half_angle: float) -> tuple[float, Room]:
    straight = [end_shape(p, FRAME_A) for p in plans(spec, wall, wall)]
    change = abs(straight[0].passage_r_mm - straight[1].passage_r_mm)
    root_wall = wall / math.cos(half_angle) if change > 1e-9 else wall
    a, b = (end_shape(p, FRAME_A) for p in plans(spec, wall, root_wall))
    return root_wall, Room(
        a.root_mm,
        b.root_mm,
        change / math.tan(half_angle),
        a.passage_r_mm > b.passage_r_mm,
        a.passage_r_mm,
        b.passage_r_mm,
        root_wall,
        math.hypot(spec.offset.right_mm, spec.offset.up_mm),
        math.radians(spec.angle_deg),
    )


def _laid_out(spec: OffsetAdapterSpec, room: Room) -> tuple[float, Path]:
    """Length and centreline, or a refusal with the length that works."""
    if room.offset < 1e-9 and room.angle < 1e-9:
        raise RefusalError("offset", "no offset and no angle", "an offset, or part: reducer", "nothing is offset here")
    tightest = room.tightest
    bend = spec.bend_radius_mm
    if bend is not None and bend < tightest:
        raise RefusalError(
            "bend_radius", f"{bend:.1f} mm", f"{tightest:.1f} mm or more", "a tighter bend folds into itself"
        )
    length = spec.length_mm
    if length is None:
        length = room.shortest(max(2 * room.r_bend, tightest), math.radians(STEEPEST_DEG), bend)
        if length is None:
            length = room.shortest(max(2 * room.r_bend, tightest), math.pi, bend)
        if length is None:
            raise RefusalError("offset", f"{room.offset:.1f} mm", "a smaller offset", "no smooth line joins the ends")
    path = room.path(length, bend)
    if path is None or path.radius_mm < tightest - 1e-9:
        shortest = room.shortest(tightest, math.pi, bend)
        allowed = f"{shortest + 0.05:.1f} mm or more, or auto" if shortest else "auto, with a smaller offset or angle"
        raise RefusalError("length", f"{length:.1f} mm", allowed, _too_tight(path, tightest))
    return length, path


def _too_tight(path: Path | None, tightest: float) -> str:
    if path is None:
        return "no smooth line joins the two mouths in this length"
    return f"the bend would have a radius of {path.radius_mm:.1f} mm, and under {tightest:.1f} mm it folds into itself"


def _pieces(a: PlacedEnd, b: PlacedEnd, room: Room, path: Path, toward: Vec) -> list[Piece]:
    r_in, r_out = room.r_bend, room.r_bend + room.root_wall

    def with_cone(end: PlacedEnd, here: bool) -> Piece:
        lines = end.shape.outer, end.shape.inner
        if here and room.cone > 1e-9:
            to = end.shape.root_mm + room.cone
            lines = (*lines[0], (to, r_out)), (*lines[1], (to, r_in))
        return turned(*lines, end.frame)

    first, last = with_cone(a, room.cone_at_a), with_cone(b, not room.cone_at_a)
    start, spine = _place(path.pieces[0].at(0.0), toward), _spine(path, toward)
    tube = sweep_round(r_out, r_in, spine, start, (0.0, 1.0, 0.0))
    bore = sweep_round(r_in, 0.0, spine, start, (0.0, 1.0, 0.0))
    areas = math.pi * (r_out**2 - r_in**2), math.pi * r_in**2
    return [first, Piece(tube, bore, areas[0] * path.length_mm, areas[1] * path.length_mm), last]


def _place(pose: tuple[float, float, float], toward: Vec) -> Vec:
    return (pose[0] * toward[0], pose[1], pose[0] * toward[2])


def _spine(path: Path, toward: Vec) -> Wire:
    edges = []
    for piece in path.pieces:
        p, m, q = (Vector(*_place(piece.at(k), toward)) for k in (0.0, 0.5, 1.0))
        edges.append(Edge.makeThreePointArc(p, m, q) if piece.turn_rad else Edge.makeLine(p, q))
    return Wire.assembleEdges(edges)


def _bend_facts(path: Path, room: Room, length: float, half_angle: float) -> dict[str, str]:
    bends = " and ".join(f"{d:.1f}" for d in path.bends_deg)
    facts = {
        "length, mouth to mouth": f"{length:.2f} mm, of which {path.length_mm:.2f} mm along the bend",
        "bends": f"{bends} deg, centreline radius {path.radius_mm:.1f} mm ({path.radius_mm / (2 * room.r_bend):.2f} D)",
    }
    if room.cone > 1e-9:
        where = "end_a" if room.cone_at_a else "end_b"
        facts["cone, half angle"] = f"{math.degrees(half_angle):.1f} deg, on the straight at {where}"
    steep = math.degrees(path.steepest_rad)
    if steep > STEEPEST_DEG + 0.01:
        facts["printing the bend"] = (
            f"{steep:.1f} deg from upright: print it with support inside, or cut it in halves with a lap"
        )
    return facts
