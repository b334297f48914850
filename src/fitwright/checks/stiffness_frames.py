"""How far the nose face of each kind of frame gives way, from sections of its finished bodies."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import trimesh

from fitwright.checks.motion_axis import Hole, round_holes
from fitwright.checks.motion_faces import face_y_mm, seat_of
from fitwright.checks.stiffness_sections import Cut, Piece, across_x, across_y, across_z, cut
from fitwright.data.fasteners import FastenerRow, fastener
from fitwright.errors import BuildError
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.slide.frames import POISSON, Movement, beside_middle, post, sag, strip
from fitwright.physics.slide.sections import Section, rectangle, round_bar, stress_diameter_mm
from fitwright.physics.steel import STEEL_MPA
from fitwright.spec.gate import GateBracketSpec

SLICES = 40
HELD_Y_MM = 1.0
"""The frame is held at the body edge, where the yoke begins."""
NOSE_WITHIN_MM = 60.0
"""What of a body belongs to its nose plate: pieces whose middle is so near to the nose face."""
SHEAR_SHARE = 5.0 / 6.0
PANEL_SHEAR = 2.0 * (1.0 + POISSON) / SHEAR_SHARE
"""12 E I / (k G A l^2) of a rectangle over (t / l)^2."""
ROD_SIZES = ("M12", "M10", "M8", "M6", "M5")
BOARD_MPA: Mapping[str, float] = {"aluminium": 70000.0, "steel": STEEL_MPA, "plywood": 6000.0, "mdf": 2500.0}
"""From memory; anything else counts as MDF, the softest."""


@dataclass(frozen=True)
class Push:
    """Thrust [N], the print's lasting modulus [MPa]; the cylinder's mass [kg], its middle beyond the nose [mm]."""

    force_n: float
    modulus_mpa: float
    mass_kg: float = 0.0
    beyond_mm: float = 0.0


@dataclass(frozen=True)
class Given:
    """How the nose gives way under the thrust, and under the cylinder's weight alone where the bracket lies level."""

    thrust: Movement
    weight: Movement


def one_piece(mesh: trimesh.Trimesh, nose_y: float, axis: Hole, push: Push, yoke_y: float = HELD_Y_MM) -> Given:
    """Yoke, rails or a floor, and nose plate in one body: every slice bends by its own centroid's distance.

    Tilt' = F e / EI, along' = F / EA; the nose stands e off the line, so that tilt carries it along too. Several pieces
    (rails) bend each for itself.
    """
    places = _between(yoke_y, nose_y)
    cuts = [cut(mesh, across_y(float(y))) for y in places]
    step = abs(nose_y - yoke_y) / len(cuts)
    cuts = list(itertools.dropwhile(lambda one: not one.pieces, cuts))  # before the yoke begins
    if len(cuts) < SLICES // 2 or not all(one.pieces for one in cuts):
        raise BuildError("not checked: the frame has a gap between gate and nose")
    up = _bent([(one.area_mm2, one.up_mm4, one.up_at - axis.z_mm) for one in cuts], step, push)
    beside = _bent([(one.area_mm2, _across_mm4(one), one.right_at - axis.x_mm) for one in cuts], step, push)
    squeezed = sum(push.force_n * step / (push.modulus_mpa * one.area_mm2) for one in cuts)
    whole = up + Movement(beside.along_mm - squeezed, beside.aside_mm, beside.tilt_deg)
    middle = cuts[len(cuts) // 2]
    if len(middle.pieces) > 1:
        at = [piece.right_at for piece in middle.pieces]
        whole = whole + nose_plate(mesh, axis, max(at) - min(at), nose_y, push)
    inertia = len(cuts) / sum(1.0 / one.up_mm4 for one in cuts)
    rail = Section(middle.area_mm2, 0.0, 0.0, inertia, inertia, 1.0, 1.0)
    return Given(whole, _sag(push, abs(nose_y - yoke_y), rail, push.modulus_mpa, 1))


def _across_mm4(one: Cut) -> float:
    """Across the blade two rails are joined by yoke and nose plate: they bend as a pair."""
    return one.joined_right_mm4


def _bent(slices: Sequence[tuple[float, float, float]], step_mm: float, push: Push) -> Movement:
    """A bar of slices (area, second moment, distance of its centroid from the line), held at its first end."""
    tilt = aside = along = 0.0
    for area, second, off in slices:
        turn = push.force_n * off / (push.modulus_mpa * second) * step_mm
        along += push.force_n * step_mm / (push.modulus_mpa * area) + off * turn
        aside += (tilt + turn / 2.0) * step_mm
        tilt += turn
    return Movement(abs(along), abs(aside), abs(math.degrees(tilt)))


def on_rods(part: Part, meshes: Mapping[str, BodyMesh], nose_y: float, axis: Hole, push: Push) -> Given:
    """A nose plate on two threaded rods that go through it, one at each side."""
    seat = seat_of(part, "nose face")
    assert seat is not None
    mesh = meshes[seat.body].mesh
    left, right, row = _rods(mesh, nose_y, seat.out[1], axis)
    long = abs(nose_y)
    rod = round_bar(stress_diameter_mm(row.major_mm, row.pitch_mm or 1.0))
    span = right.x_mm - left.x_mm
    bent = strip(push.force_n, (left.z_mm + right.z_mm) / 2 - axis.z_mm, long, rod, STEEL_MPA, pieces=2)
    beside = axis.x_mm - (left.x_mm + right.x_mm) / 2
    turned = beside_middle(push.force_n, beside, long, rod, STEEL_MPA, span)
    whole = bent + turned + nose_plate(mesh, axis, span, nose_y, push)
    return Given(whole, _sag(push, long, rod, STEEL_MPA, 2))


def _rods(mesh: trimesh.Trimesh, nose_y: float, out: float, axis: Hole) -> tuple[Hole, Hole, FastenerRow]:
    """The outermost pair of round holes of one size, and the largest threaded rod that goes through them."""
    holes = [hole for hole in round_holes(mesh, nose_y - math.copysign(2.0, out)) if hole != axis]
    pairs = [
        (a, b)
        for a, b in itertools.combinations(sorted(holes, key=lambda hole: hole.x_mm), 2)
        if abs(a.d_mm - b.d_mm) < 0.3 and a.x_mm < axis.x_mm < b.x_mm
    ]
    if not pairs:
        raise BuildError("not checked: no pair of holes for the rods was found in the nose plate")
    left, right = max(pairs, key=lambda pair: pair[1].x_mm - pair[0].x_mm)
    for name in ROD_SIZES:
        if fastener(name).major_mm <= min(left.d_mm, right.d_mm) + 1e-6:
            return left, right, fastener(name)
    raise BuildError("not checked: no threaded rod goes through the nose plate's holes")


def on_board(part: Part, meshes: Mapping[str, BodyMesh], spec: GateBracketSpec, axis: Hole, push: Push) -> Given:
    """Two feet on a board below the thrust line: the board bends, and both feet do."""
    nose = seat_of(part, "nose face")
    assert nose is not None
    foot, gate = meshes[nose.body].mesh, gate_body(part, meshes)
    long = abs(face_y_mm(part, meshes, "nose face"))
    floor = float(min(foot.bounds[0][2], gate.bounds[0][2]))
    boards = [thing.solid.BoundingBox().xlen for thing in part.stand_ins if thing.name == "board"]
    wide = boards[0] if boards else min(float(np.ptp(mesh.vertices[:, 0])) for mesh in (foot, gate))
    board = rectangle(wide, spec.board_thick_mm)
    modulus = BOARD_MPA.get(spec.board_material, BOARD_MPA["mdf"])
    bent = strip(push.force_n, axis.z_mm - floor + spec.board_thick_mm / 2, long, board, modulus)
    posts = [post(push.force_n, axis.z_mm - floor, _post(mesh, floor, axis), push.modulus_mpa) for mesh in (foot, gate)]
    return Given(bent + posts[0] + posts[1], Movement())


def gate_body(part: Part, meshes: Mapping[str, BodyMesh]) -> trimesh.Trimesh:
    """The body on the gate: what stands still and reaches furthest inwards."""
    still = [meshes[body.name].mesh for body in part.bodies if not body.moving and not body.name.startswith("guard")]
    return min(still, key=lambda mesh: float(mesh.bounds[0][1]))


def _post(mesh: trimesh.Trimesh, floor: float, axis: Hole) -> Section:
    """A foot from the board to the cylinder's lower edge as a bar of its mean section."""
    cuts = [cut(mesh, across_z(float(z))) for z in _between(floor, axis.z_mm - axis.d_mm / 2)]
    if not all(one.pieces for one in cuts):
        raise BuildError("not checked: a foot does not reach from the board to the cylinder")
    second = len(cuts) / sum(1.0 / one.right_mm4 for one in cuts)
    area = len(cuts) / sum(1.0 / one.area_mm2 for one in cuts)
    return Section(area, 0.0, 0.0, second, second, 1.0, 1.0)


def nose_plate(mesh: trimesh.Trimesh, axis: Hole, span_mm: float, nose_y: float, push: Push) -> Movement:
    """The plate across two rails pushed in its middle, its ends free to turn (cautious), from slices of one half.

    Bending by the unit load, F / 2E times the integral of (s / 2 - x)^2 / I; shear, F / 2kG times that of 1 / A; where
    a window parts it in two chords, these bend for themselves: l^3 / 12 sum(EI) a panel.
    """
    half = span_mm / 2
    places = np.linspace(0.0, half, SLICES + 1)[1:] - half / SLICES / 2
    cuts = [_nose_cut(mesh, axis.x_mm + float(x), nose_y) for x in places]
    if sum(1 for one in cuts if one.pieces) < SLICES // 2:
        raise BuildError("not checked: the nose plate does not reach from rail to rail")
    step, share = half / SLICES, push.force_n / 2 / push.modulus_mpa
    whole = [(float(x), one) for x, one in zip(places, cuts, strict=True) if one.pieces]
    bending = sum((half - x) ** 2 / one.joined_right_mm4 * step for x, one in whole)
    shear = sum(2.0 * (1.0 + POISSON) / (SHEAR_SHARE * one.area_mm2) * step for _, one in whole)
    return Movement(along_mm=share * (bending + shear + sum(_panels(cuts, step))))


def _nose_cut(mesh: trimesh.Trimesh, x_mm: float, nose_y: float) -> Cut:
    found = cut(mesh, across_x(x_mm))
    return Cut(tuple(piece for piece in found.pieces if abs(piece.right_at - nose_y) < NOSE_WITHIN_MM))


def _chords(one: Cut) -> list[list[Piece]]:
    """Pieces that lie beside each other along the movement, each with what lies above and below it."""
    groups: list[list[Piece]] = []
    for piece in sorted(one.pieces, key=lambda p: p.bounds_mm[0]):
        if groups and piece.bounds_mm[0] < max(p.bounds_mm[2] for p in groups[-1]) - 1e-6:
            groups[-1].append(piece)
        else:
            groups.append([piece])
    return groups


def _panels(cuts: Sequence[Cut], step_mm: float) -> list[float]:
    """For each window of one half: l^3 / 12 sum(I), the chords made softer by their shear."""
    found = []
    for parted, run in itertools.groupby(cuts, key=lambda one: len(_chords(one)) > 1):
        if parted:
            slices = list(run)
            long = len(slices) * step_mm
            chords = [sum(_softened_mm4(group, long) for group in _chords(one)) for one in slices]
            found.append(long**3 / (12.0 * len(chords) / sum(1.0 / second for second in chords)))
    return found


def _softened_mm4(group: Sequence[Piece], long_mm: float) -> float:
    thick = max(p.bounds_mm[2] for p in group) - min(p.bounds_mm[0] for p in group)
    return sum(p.right_mm4 for p in group) / (1.0 + PANEL_SHEAR * (thick / long_mm) ** 2)


def _sag(push: Push, long_mm: float, section: Section, modulus_mpa: float, pieces: int) -> Movement:
    """Under the cylinder's weight."""
    return sag(push.mass_kg, long_mm, push.beyond_mm, section, modulus_mpa, pieces)


def _between(low: float, high: float) -> Sequence[float]:
    """Middles of equal slices."""
    return [low + (high - low) * (k + 0.5) / SLICES for k in range(SLICES)]
