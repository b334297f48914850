"""The bracket on a board: both feet by the real checks, its stiffness by an independent frame, its screws, refusals."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import trimesh
from tests.beam_frames import Frame
from tests.gate_specs import BORE_32, GATE_4, METAL_100, gate_4in, gate_6in, gate_bracket

from fitwright.checks import clearance, features, fit_built, hardware, printing, solid, wall
from fitwright.data.sheets import sheet
from fitwright.errors import RefusalError
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_body
from fitwright.part import Feature, Part
from fitwright.parts.gate.board_plan import board_plan, wider
from fitwright.parts.gate.board_stiffness import (
    board_modulus_mpa,
    gate_slices,
    moves,
    nose_slices,
    settled_board,
)
from fitwright.parts.gate.frame_board import board_bodies
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.physics.filament import CREEP_SHARE as LASTING
from fitwright.physics.slide.frames import LIMIT_DEG, LIMIT_MM, SHEAR_SHARE
from fitwright.physics.slide.gaps import FINGER_MM
from fitwright.pose import choose_pose
from fitwright.spec.gate import GateBracketSpec

SPECS = {
    "4 in": gate_4in(frame="board"),
    "6 in": gate_6in(frame="board"),
    "bore 32": gate_bracket(GATE_4, BORE_32, frame="board"),
    "metal": gate_bracket(METAL_100, frame="board"),
    "no setting": gate_4in(frame="board", setting_mm=0.0),
    "much setting": gate_4in(frame="board", setting_mm=20.0),
}


def feet(spec: GateBracketSpec) -> tuple[Part, dict[str, BodyMesh]]:
    part = Part("g", "gate_bracket", board_bodies(gate_plan(spec), spec))
    return part, {body.name: mesh_body(body) for body in part.bodies}


def bad(findings: list[Finding]) -> list[Finding]:
    return [f for f in findings if f.severity != "pass"]


@pytest.mark.parametrize("name", SPECS)
def test_both_feet_are_sound_and_print_without_support(name: str) -> None:
    """Solid, features, wall, holes, printing; `body_of` has compared each volume with boxes less circles before."""
    spec = SPECS[name]
    part, meshes = feet(spec)
    assert [body.name for body in part.bodies] == ["gate_foot", "nose_foot"]
    for check in (solid.check, features.check, wall.check, fit_built.check, printing.check):
        assert not bad(check(part, meshes, spec))


@pytest.mark.parametrize("name", ["4 in", "6 in"])
def test_they_lie_on_a_220_bed(name: str) -> None:
    spec = SPECS[name]
    part, meshes = feet(spec)
    assert spec.printer.bed_x_mm == 220
    for body in part.bodies:
        pose = choose_pose(body, meshes[body.name], spec.printer)
        size = np.ptp(np.asarray(meshes[body.name].mesh.vertices) @ pose.matrix[:3, :3].T, axis=0)
        assert max(size[:2]) < 220


@pytest.mark.parametrize("name", ["4 in", "bore 32"])
def test_the_whole_bracket_clears_and_goes_together(name: str) -> None:
    spec = SPECS[name]
    part = build_gate_bracket(spec)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    assert not bad(clearance.check(part, meshes, spec))
    assert not bad(hardware.check(part, meshes, spec))


@pytest.mark.parametrize("name", SPECS)
def test_fingers_and_dust_have_room(name: str) -> None:
    """25 mm between the board and what moves (ISO 13854, from memory); the board begins before the gate's body."""
    spec = SPECS[name]
    plan = gate_plan(spec)
    board = settled_board(plan, spec)
    assert board.up_mm - plan.coupling.high_mm / 2 >= FINGER_MM
    assert board.near_y > 0.0
    legs = board.gate.yoke.feet
    assert legs[1].x[0] - legs[0].x[1] >= spec.gate.blade.width_mm  # the middle is open: dust falls out
    assert board.up_mm - board.gate.yoke.half_high_mm >= 8.0


def round_hole(mesh: trimesh.Trimesh, x: float, y: float, z: float) -> tuple[float, float, float]:
    """Middle and diameter of the hole round (x, y), by rays in the plane at z: a circle through what they meet."""
    turns = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    ways = np.c_[np.cos(turns), np.sin(turns), np.zeros_like(turns)]
    met, ray, _ = mesh.ray.intersects_location(np.tile((x, y, z), (24, 1)), ways, multiple_hits=False)
    assert len(ray) == 24
    a = np.c_[2 * met[:, :2], np.ones(24)]
    cx, cy, c = np.linalg.lstsq(a, (met[:, :2] ** 2).sum(axis=1), rcond=None)[0]
    return float(cx), float(cy), 2 * math.sqrt(c + cx * cx + cy * cy)


@pytest.mark.parametrize("name", ["4 in", "6 in", "metal"])
def test_the_boards_holes_lie_under_the_feets(name: str) -> None:
    """Gate foot: holes on the mesh. Nose foot: a slot's two ends, the board's hole in their middle."""
    spec = SPECS[name]
    _, meshes = feet(spec)
    board = settled_board(gate_plan(spec), spec)
    for x, y in board.gate_holes:
        found = round_hole(meshes["gate_foot"].mesh, x, y, board.top_z + 3.0)
        assert found[:2] == pytest.approx((x, y), abs=0.05)
        assert found[2] == pytest.approx(6.6 + spec.printer.small_hole_add_mm, abs=0.05)  # ISO 273 medium, M6
    for x, y in board.nose_holes:
        mesh, z = meshes["nose_foot"].mesh, board.top_z + 3.0
        for way in (-1.0, 1.0):
            met, _, _ = mesh.ray.intersects_location([(x, y, z)], [(0.0, way, 0.0)], multiple_hits=False)
            reach = spec.setting_mm + (6.6 + spec.printer.small_hole_add_mm) / 2
            assert abs(float(met[0][1]) - y) == pytest.approx(reach, abs=0.05)


@pytest.mark.parametrize("name", SPECS)
def test_screws_stay_off_the_edges(name: str) -> None:
    """2 d in the board, 1.5 d in the print (common practice, no source)."""
    spec = SPECS[name]
    board = settled_board(gate_plan(spec), spec)
    for x, y in (*board.gate_holes, *board.nose_holes):
        edge = min(board.wide_mm / 2 - abs(x), y - board.near_y, board.far_y - y)
        assert edge >= 2 * 6.0 - 1e-6
    y0, y1 = board.gate.yoke.plate.y
    assert all(min(y - y0, y1 - y) >= 1.5 * 6.0 - 1e-6 for _, y in board.gate.screws)


def by_frame(spec: GateBracketSpec, force_n: float) -> tuple[float, float, float]:
    """The same three bars as a plane frame by direct stiffness: along, aside, tilt of the nose.

    The board as it is there: as wide as the nose foot at its end, spreading at 45 degrees.
    """
    plan = gate_plan(spec)
    board = settled_board(plan, spec)
    modulus, wood = LASTING * spec.material.modulus_mpa, board_modulus_mpa(spec)
    g = modulus / 2.72 * SHEAR_SHARE
    low = -board.up_mm - board.thick_mm / 2
    long = board.nose.middle_y - sum(y for _, y in board.gate_holes) / len(board.gate_holes)
    frame = Frame()
    for x, slices in ((0.0, gate_slices(board)), (long, nose_slices(board, plan))):
        for one in slices:
            s = one.section
            frame.beam((x, -one.d0), (x, -one.d1), modulus * s.area_mm2, modulus * s.deep_mm4, g * s.area_mm2, 2)
        frame.beam((x, -board.up_mm), (x, low), 1e12, 1e12, np.inf, 1)
    foot = min(2 * board.nose.wing_x[1], board.wide_mm)
    steps = np.linspace(0.0, long, 81)
    for a, b in itertools.pairwise(steps):
        wide = min(board.wide_mm, foot + 2 * (long - (a + b) / 2))
        area, inertia = wide * board.thick_mm, wide * board.thick_mm**3 / 12
        frame.beam((float(a), low), (float(b), low), wood * area, wood * inertia, np.inf, 1)
    held, top = frame.node(0.0, 0.0), frame.node(long, 0.0)
    moved = frame.solve([3 * held, 3 * held + 1, 3 * held + 2], {3 * top: force_n})
    along, aside, turn = moved[3 * top : 3 * top + 3]
    return abs(along), abs(aside), abs(math.degrees(turn))


@pytest.mark.parametrize("name", ["4 in", "bore 32", "metal"])
def test_its_stiffness_against_a_plane_frame(name: str) -> None:
    """Direct stiffness of the same bars; the nose plate's own bending comes on top of `along`, weight is left out."""
    spec = SPECS[name]
    spec = spec.model_copy(update={"cylinder": spec.cylinder.model_copy(update={"mass_kg": 0.0})})
    plan = gate_plan(spec)
    board = settled_board(plan, spec)
    along, aside, tilt = by_frame(spec, 100.0)
    found = moves(board, plan, spec, 100.0)
    nose = plan.frame.nose
    plate = nose.gives(100.0, LASTING * spec.material.modulus_mpa).pinned_mm * nose.high / (nose.high / 2 + board.up_mm)
    assert found.along_mm - plate == pytest.approx(along, rel=0.02)
    assert found.aside_mm == pytest.approx(aside, rel=0.02)
    assert found.tilt_deg == pytest.approx(tilt, rel=0.02)


def test_a_board_alone_is_a_strip_beside_the_line() -> None:
    """Feet of steel, no spread: F e L / EI, F e L^2 / 2EI of any handbook."""
    spec = gate_4in(frame="board", material=gate_4in().material.model_copy(update={"modulus_mpa": 1e9}))
    spec = spec.model_copy(update={"cylinder": spec.cylinder.model_copy(update={"mass_kg": 0.0})})
    plan = gate_plan(spec)
    board = settled_board(plan, spec)
    board = replace(board, wide_mm=2 * board.nose.wing_x[1])
    long = board.nose.middle_y - sum(y for _, y in board.gate_holes) / len(board.gate_holes)
    off, inertia = board.up_mm + 9.0, board.wide_mm * 18.0**3 / 12
    turn = 100.0 * off * long / (sheet("plywood").modulus_mpa * inertia)
    found = moves(board, plan, spec, 100.0)
    assert found.tilt_deg == pytest.approx(math.degrees(turn), rel=1e-4)
    assert found.aside_mm == pytest.approx(turn * long / 2, rel=1e-4)


@pytest.mark.parametrize("name", SPECS)
def test_it_is_stiff_enough_and_a_wider_board_stiffer(name: str) -> None:
    spec = SPECS[name]
    plan = gate_plan(spec)
    board = settled_board(plan, spec)
    force = 100.0
    assert moves(wider(board, 50.0), plan, spec, force).moves_mm < moves(board, plan, spec, force).moves_mm
    assert moves(board, plan, spec, force).within(LIMIT_MM, LIMIT_DEG)


def refused(**changes: Any) -> RefusalError:
    with pytest.raises(RefusalError) as caught:
        build_gate_bracket(gate_4in(frame="board", **changes))
    return caught.value


def test_a_thin_board_is_refused_with_the_thickness_that_would_do() -> None:
    error = refused(board_thick_mm=6.0)
    assert error.key == "board.thickness" and "6 mm" in error.found
    least = float(error.allowed.split()[0])
    build_gate_bracket(gate_4in(frame="board", board_thick_mm=least))


def test_ports_that_look_into_the_board_are_refused() -> None:
    with pytest.raises(RefusalError) as caught:
        gate_plan(gate_bracket(GATE_4, BORE_32.model_copy(update={"ports_face": "down"}), frame="board"))
    error = caught.value
    assert error.key == "cylinder.ports" and "up" in error.allowed


def test_thrust_that_would_pull_the_nuts_out_is_refused() -> None:
    """6 mm of nut on 52 mm2 of print bears 524 N (10 MPa); the pressure that it names is let pass."""
    spec = gate_bracket(GATE_4, BORE_32, frame="board")
    plan = gate_plan(spec)
    with pytest.raises(RefusalError) as caught:
        board_plan(plan, spec.model_copy(update={"pressure_mpa": 1.6}))
    assert caught.value.key == "pressure" and "bar or less" in caught.value.allowed
    most = float(caught.value.allowed.split()[0])
    board_plan(plan, spec.model_copy(update={"pressure_mpa": most / 10}))


def test_an_unknown_wood_counts_as_the_softest() -> None:
    assert board_modulus_mpa(gate_4in(frame="board", board_material="oak")) == sheet("MDF").modulus_mpa


def test_a_forgotten_slot_and_a_filled_pocket_are_found() -> None:
    """The checks see them: the same feet without their cuts fail `features`."""
    spec = SPECS["4 in"]
    part, _ = feet(spec)
    for body, word in zip(part.bodies, ("nut pocket", "slot"), strict=True):
        tool = next(f.tool for f in body.features if word in f.name)
        filled = body.solid.fuse(tool).Solids()[0]
        wrong = replace(body, solid=filled)
        found = features.check(Part("g", "gate_bracket", (wrong,)), {body.name: mesh_body(wrong)}, spec)
        assert any(f.severity == "fail" and word in f.message + f.place for f in found)
    assert all(isinstance(f, Feature) for f in part.bodies[0].features)


def test_a_small_washer_over_a_slot_is_found() -> None:
    """With one hardly wider than the slot in place of the large one, `hardware` says that it rests on too little."""
    spec = SPECS["4 in"]
    part = build_gate_bracket(spec)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    bolt = next(one for one in part.fastenings if "nose foot bolt" in one.name)
    small = replace(part, fastenings=(replace(bolt, washer_d_mm=8.5, head_d_mm=8.0),))
    assert any("rests on" in f.message for f in bad(hardware.check(small, meshes, spec)))
    assert not bad(hardware.check(replace(part, fastenings=(bolt,)), meshes, spec))
