"""Clearance: distances against closed forms, clashes by volume, broken meshes never a pass."""

from __future__ import annotations

import math
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import cadquery as cq
import numpy as np
import pytest
import trimesh
from tests.handmade import part, spec

from fitwright.checks.clearance import check
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh, mesh_shape
from fitwright.part import StandIn
from fitwright.spec.envelope import BarObstacle, BoxObstacle, ConeObstacle, MeshObstacle, Obstacle, PlaneObstacle
from fitwright.tolerances import TOLERANCES

R, LENGTH = 55.0, 100.0
WITHIN_MM = 0.02


def tube() -> trimesh.Trimesh:
    """A pipe along y from 0 to 100, outer radius 55, meshed as bodies are."""
    solid = cq.Solid.makeCylinder(R, LENGTH, cq.Vector(0, 0, 0), cq.Vector(0, 1, 0))
    bore = cq.Solid.makeCylinder(50, LENGTH + 2, cq.Vector(0, -1, 0), cq.Vector(0, 1, 0))
    return mesh_shape(solid.cut(bore).Solids()[0], TOLERANCES.mesh_chord_mm, TOLERANCES.mesh_angle_rad)


TUBE = tube()


def run(
    keep_clear: tuple[Obstacle, ...] = (),
    stay_inside: tuple[Obstacle, ...] = (),
    mesh: trimesh.Trimesh = TUBE,
    stand_ins: tuple[StandIn, ...] = (),
) -> list[Finding]:
    made, meshes = part(mesh, stand_ins=stand_ins)
    given = spec(envelope=SimpleNamespace(keep_clear=keep_clear, stay_inside=stay_inside))
    return check(made, meshes, given)


def one(obstacle: Obstacle, **changes: Any) -> Finding:
    (finding,) = run((obstacle,), **changes)
    return finding


def plane(gap: float, clearance: float = 2.0, **changes: Any) -> PlaneObstacle:
    return PlaneObstacle((0, 0, R + gap), (0, 0, -1), "envelope.keep_clear[0]", clearance, **changes)


# --- walls ---------------------------------------------------------------------------------------------------------


def test_a_part_0_2_mm_inside_a_walls_clearance_fails():
    finding = one(plane(1.8))
    assert finding.severity == "fail"
    assert finding.value == pytest.approx(1.8, abs=WITHIN_MM)
    assert (finding.limit, finding.unit) == (2.0, "mm")
    assert "the wall up at 56.8 mm" in finding.place and "envelope.keep_clear[0]" in finding.place
    assert "0.2" in finding.advice and "mm down" in finding.advice


def test_a_part_with_its_clearance_to_a_wall_passes():
    assert one(plane(2.0)).severity == "pass"
    assert one(plane(2.1)).severity == "pass"


def test_a_wall_through_the_part_fails_with_a_negative_gap():
    finding = one(plane(-3.0))
    assert (finding.severity, finding.value) == ("fail", pytest.approx(-3.0, abs=WITHIN_MM))
    assert "5.0" in finding.advice


def test_a_slanting_wall():
    # Plane through (0, 0, 100) with normal (1, 0, -1)/sqrt 2: the axis is 100/sqrt 2 from it.
    finding = one(PlaneObstacle((0, 0, 100), (1 / math.sqrt(2), 0, -1 / math.sqrt(2)), "k", 20.0))
    assert finding.value == pytest.approx(100 / math.sqrt(2) - R, abs=WITHIN_MM)
    assert finding.severity == "fail"


def test_the_users_word_names_the_wall():
    assert "chimney breast" in one(plane(1.0, label="chimney breast")).place


# --- solids: closed forms ------------------------------------------------------------------------------------------


def bar(distance: float, d: float = 33.0, clearance: float = 5.0) -> BarObstacle:
    return BarObstacle((distance, -200, 0), (distance, 300, 0), d, "envelope.keep_clear[1]", clearance)


def test_distance_to_a_parallel_bar():
    finding = one(bar(75.0))
    assert finding.value == pytest.approx(75 - R - 16.5, abs=WITHIN_MM)
    assert finding.severity == "fail"
    assert "left" in finding.advice
    assert one(bar(76.6)).severity == "pass"


def test_distance_to_a_bar_across():
    # Bar along x at z = 70, y = 37: nearest in the middle of the tube's length, where the mesh has no corners.
    finding = one(BarObstacle((-200, 37, 70), (200, 37, 70), 20.0, "k", 8.0))
    assert finding.value == pytest.approx(70 - R - 10, abs=WITHIN_MM)
    assert "up" in finding.place
    away = float(finding.place.split(", at ")[1].split(", ")[1].split()[0])
    assert away == pytest.approx(37, abs=5)


def test_distance_to_a_box_corner_line():
    # Box x > 45, z > 45: its edge is 45 sqrt 2 from the axis.
    finding = one(BoxObstacle((45, -50, 45), (200, 150, 200), "k", 10.0))
    assert finding.value == pytest.approx(45 * math.sqrt(2) - R, abs=WITHIN_MM)


def test_distance_to_a_box_corner_point():
    # Corner at (60, 110, 60): from the rim of the face y = 100, sqrt((60 sqrt 2 - 55)^2 + 10^2).
    finding = one(BoxObstacle((60, 110, 60), (200, 150, 200), "k", 40.0))
    assert finding.value == pytest.approx(math.hypot(60 * math.sqrt(2) - R, 10.0), abs=WITHIN_MM)


def test_distance_to_a_box_face():
    finding = one(BoxObstacle((58, -50, -20), (200, 150, 20), "k", 5.0))
    assert finding.value == pytest.approx(3.0, abs=WITHIN_MM)


def test_distance_to_a_cone():
    # Axis along x: the small end (r 0.5, x = 60) is nearest, 60 - 55 off; the tube curves away from it.
    finding = one(ConeObstacle((60, 50, 0), (160, 50, 0), 1.0, 100.0, "k", 6.0))
    assert finding.value == pytest.approx(5.0, abs=WITHIN_MM)
    # Beside the tube, r = 10 + 0.3 y: nearest to the rim (55, y = 100), where r is 40, square to the side.
    finding = one(ConeObstacle((100, 0, 0), (100, 200, 0), 20.0, 140.0, "k", 8.0))
    assert finding.value == pytest.approx((100 - R - 40) * math.cos(math.atan(0.3)), abs=WITHIN_MM)


def test_a_gap_beyond_the_search_is_at_least():
    finding = one(bar(100.0))
    assert finding.severity == "pass"
    assert "at least" in finding.message
    assert finding.value is not None and 8.0 - WITHIN_MM <= finding.value <= 100 - R - 16.5


# --- clash without gap ---------------------------------------------------------------------------------------------


def test_a_bar_wholly_inside_the_material_clashes():
    block = trimesh.creation.box((100, 100, 100))
    finding = one(BarObstacle((0, -10, 0), (0, 10, 0), 20.0, "k", 0.0), mesh=block)
    assert finding.severity == "fail"
    assert "clashes" in finding.message
    volume = float(finding.message.split("clashes: ")[1].split()[0])
    assert volume == pytest.approx(math.pi * 10**2 * 20, rel=1e-3)


def test_a_part_wholly_inside_a_box_clashes():
    finding = one(BoxObstacle((-200, -200, -200), (200, 200, 200), "k", 0.0))
    assert finding.severity == "fail"


def test_a_bar_in_the_bore_does_not_clash():
    finding = one(BarObstacle((0, -50, 0), (0, 150, 0), 90.0, "k", 4.0))
    assert (finding.severity, finding.value) == ("pass", pytest.approx(5.0, abs=WITHIN_MM))


def test_touching_is_no_clash():
    finding = one(BoxObstacle((55, -50, -20), (200, 150, 20), "k", 0.0))
    assert finding.severity == "pass"
    finding = one(BoxObstacle((54.9, -50, -20), (200, 150, 20), "k", 0.0))
    assert finding.severity == "fail"


# --- stay inside ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("half", "severity"), [(57.5, "pass"), (56.8, "fail"), (54.0, "fail")])
def test_inside_a_box(half, severity):
    (finding,) = run((), (BoxObstacle((-half, -10, -half), (half, 110, half), "envelope.stay_inside[0]"),))
    assert finding.severity == severity
    assert finding.value == pytest.approx(half - R, abs=WITHIN_MM)


@pytest.mark.parametrize(("d", "severity"), [(115.0, "pass"), (113.0, "fail"), (108.0, "fail")])
def test_inside_a_round_pipe(d, severity):
    (finding,) = run((), (BarObstacle((0, -10, 0), (0, 110, 0), d, "k"),))
    assert (finding.severity, finding.value) == (severity, pytest.approx(d / 2 - R, abs=WITHIN_MM))


def test_inside_a_cone_the_distance_is_square_to_its_side():
    (finding,) = run((), (ConeObstacle((0, -100, 0), (0, 200, 0), 240.0, 60.0, "k"),))
    # Radius at y = 100: 120 - 0.3 * 200 = 60; 5 off the rim, times cos(atan 0.3).
    assert finding.value == pytest.approx(5 * math.cos(math.atan(0.3)), abs=WITHIN_MM)


def test_on_the_free_side_of_a_plane():
    (finding,) = run((), (PlaneObstacle((0, 0, 56), (0, 0, -1), "k"),))
    assert (finding.severity, finding.value) == ("fail", pytest.approx(1.0, abs=WITHIN_MM))


def test_inside_a_mesh(tmp_path: Path):
    shell = trimesh.creation.box((120, 200, 120))
    shell.apply_translation((0, 50, 0))
    shell.export(tmp_path / "room.stl")
    room = str(tmp_path / "room.stl")
    (finding,) = run((), (MeshObstacle(room, (0, 0, 0), "k"),))
    assert (finding.severity, finding.value) == ("pass", pytest.approx(5.0, abs=WITHIN_MM))
    (finding,) = run((), (MeshObstacle(room, (3.2, 0, 0), "k"),))
    assert (finding.severity, finding.value) == ("fail", pytest.approx(1.8, abs=WITHIN_MM))
    (finding,) = run((), (MeshObstacle(room, (30, 0, 0), "k"),))
    assert finding.severity == "fail"
    assert "clashes" in finding.message
    (finding,) = run((), (MeshObstacle(room, (300, 0, 0), "k"),))
    assert finding.severity == "fail"
    assert "wholly outside" in finding.message and "keep_clear" in finding.advice


# --- meshes --------------------------------------------------------------------------------------------------------


def stl(tmp_path: Path, mesh: trimesh.Trimesh, at: tuple[float, float, float] = (0, 0, 0)) -> MeshObstacle:
    mesh.export(tmp_path / "housing.stl")
    return named(tmp_path, at)


def named(tmp_path: Path, at: tuple[float, float, float] = (0, 0, 0)) -> MeshObstacle:
    return MeshObstacle(str(tmp_path / "housing.stl"), at, "envelope.keep_clear[2]", units="mm")


def test_distance_to_a_mesh(tmp_path: Path):
    ball = trimesh.creation.icosphere(radius=20, subdivisions=5)
    finding = one(stl(tmp_path, ball, (R + 21.5, 40, 0)))
    assert finding.severity == "fail"
    assert finding.value == pytest.approx(1.5, abs=WITHIN_MM + 0.02)  # facets of the ball: 0.02
    assert "left" in finding.advice


def broken() -> dict[str, trimesh.Trimesh]:
    sound = trimesh.creation.box((10, 10, 10))
    opened = trimesh.Trimesh(sound.vertices, sound.faces[:-1])
    inverted = sound.copy()
    inverted.invert()
    flipped = trimesh.Trimesh(sound.vertices, np.vstack([sound.faces[:1, ::-1], sound.faces[1:]]))
    flat = trimesh.Trimesh([(0, 0, 0), (9, 0, 0), (0, 9, 0)], [(0, 1, 2), (0, 2, 1)], process=False)
    far = inverted.copy()
    far.apply_translation((0, 300, 0))
    large = trimesh.creation.box((30, 30, 30))
    return {
        "is not closed": opened,
        "encloses no volume": flat,
        "is inside out": inverted,
        "face different ways": flipped,
        "lies inside no other": trimesh.util.concatenate([large, far]),
    }


@pytest.mark.parametrize("fault", list(broken()))
@pytest.mark.parametrize("inside", [False, True])
def test_a_broken_mesh_is_not_checked_and_never_a_pass(tmp_path: Path, fault: str, inside: bool):
    far_away = stl(tmp_path, broken()[fault], (1000, 0, 0))
    (finding,) = run((), (far_away,)) if inside else run((far_away,))
    assert finding.severity == "fail"
    assert finding.message.startswith("not checked")
    assert fault in finding.message
    assert "envelope.keep_clear[2]" in finding.place
    assert finding.advice


@pytest.mark.parametrize("content", [b"", b"solid nothing\nendsolid nothing\n", b"not a mesh at all", b"\0" * 84])
def test_an_empty_or_unreadable_file(tmp_path: Path, content: bytes):
    (tmp_path / "housing.stl").write_bytes(content)
    finding = one(named(tmp_path))
    assert finding.severity == "fail"
    assert finding.message.startswith("not checked")


def test_a_missing_file(tmp_path: Path):
    finding = one(named(tmp_path))
    assert finding.severity == "fail"
    assert "there is no file" in finding.message and "housing.stl" in finding.message


def test_a_hollow_mesh_is_sound(tmp_path: Path):
    shell, cavity = trimesh.creation.box((30, 30, 30)), trimesh.creation.box((10, 10, 10))
    cavity.invert()
    finding = one(stl(tmp_path, trimesh.util.concatenate([shell, cavity]), (100, 0, 0)))
    assert finding.severity == "pass"


def test_a_broken_body_is_not_checked():
    opened = trimesh.Trimesh(TUBE.vertices, TUBE.faces[:-1])
    made, _ = part()
    findings = check(made, {"body": BodyMesh(opened, 1.0)}, spec())
    assert findings[0].severity == "fail"
    assert "not checked" in findings[0].message


# --- stand-ins -----------------------------------------------------------------------------------------------------


def pipe(y0: float, y1: float, r: float = 50.0, seats: str = "end_a", zone: cq.Shape | None = None) -> StandIn:
    solid = cq.Solid.makeCylinder(r, y1 - y0, cq.Vector(0, y0, 0), cq.Vector(0, 1, 0))
    return StandIn("pipe", solid, seats, zone)


def test_a_stand_in_that_shares_room_with_the_body_clashes():
    (finding,) = run(stand_ins=(pipe(-50, 20, r=52.0),))
    assert finding.severity == "fail"
    assert finding.value == pytest.approx(math.pi * (52**2 - 50**2) * 20, rel=0.01)
    assert finding.unit == "mm3"
    assert "end_a" in finding.place


def test_its_seat_is_left_out():
    zone = cq.Solid.makeCylinder(60, 31, cq.Vector(0, -1, 0), cq.Vector(0, 1, 0))
    (finding,) = run(stand_ins=(pipe(-50, 30, r=52.0, zone=zone),))
    assert finding.severity == "pass"


def test_a_stand_in_that_just_fits_does_not_clash():
    # Same radius as the bore: the facets of both cross each other by their chord error, which is no clash.
    assert run(stand_ins=(pipe(-50, 30, r=50.0),))[0].severity == "pass"
    assert run(stand_ins=(pipe(-50, 30, r=50.1),))[0].severity == "fail"


def test_a_stand_in_wholly_inside_the_material_clashes():
    block = trimesh.creation.box((100, 100, 100))
    bolt = StandIn("bolt", cq.Solid.makeBox(10, 10, 10), "end_b", None)
    (finding,) = run(mesh=block, stand_ins=(bolt,))
    assert (finding.severity, finding.value) == ("fail", pytest.approx(1000.0))


def test_a_clamp_in_the_bolts_of_the_other_end():
    clamp = StandIn("hose clamp", cq.Solid.makeBox(20, 20, 20, cq.Vector(100, 0, 0)), "end_a", None)
    deep = StandIn("bolt head", cq.Solid.makeBox(10, 10, 10, cq.Vector(115, 5, 5)), "end_b", None)
    slight = StandIn("bolt head", cq.Solid.makeBox(10, 10, 10, cq.Vector(119.8, 5, 5)), "end_b", None)
    same = StandIn("bolt head", cq.Solid.makeBox(10, 10, 10, cq.Vector(115, 5, 5)), "end_a", None)
    assert run(stand_ins=(clamp, deep))[0].severity == "fail"
    (finding,) = run(stand_ins=(clamp, slight))
    assert (finding.severity, finding.value) == ("warn", pytest.approx(20.0))
    assert "hose clamp at end_a" in finding.message and "bolt head at end_b" in finding.message
    assert run(stand_ins=(clamp, same))[0].severity == "pass"


def test_room_for_a_driver_warns_only():
    # Another tool, or another order of work, may do.
    driver = StandIn(
        "end_a driver line 1", cq.Solid.makeCylinder(5, 60, cq.Vector(52, 0, 0), cq.Vector(0, 1, 0)), "end_a", None
    )
    (finding,) = run(stand_ins=(driver,))
    assert finding.severity == "warn"
    assert "spanner" in finding.advice
    wall = PlaneObstacle((0, 0, 56), (0, 0, -1), "k", 0.5)
    outside = StandIn(
        "end_a driver line 1", cq.Solid.makeCylinder(5, 60, cq.Vector(0, 0, 70), cq.Vector(0, 1, 0)), "end_a", None
    )
    assert [f.severity for f in run((wall,), stand_ins=(outside,)) if "driver" in f.message] == ["pass", "warn"]


def test_stand_ins_keep_clear_of_the_envelope_too():
    finding = next(f for f in run((plane(3.0),), stand_ins=(pipe(100.5, 200, r=56.5),)) if f.severity == "fail")
    assert finding.value == pytest.approx(1.5, abs=WITHIN_MM)
    assert "pipe at end_a" in finding.message
    # At its limit exactly: the coarse mesh leaves a doubt, the fine one settles it.
    assert all(f.severity == "pass" for f in run((plane(3.0),), stand_ins=(pipe(100.5, 200, r=56.0),)))


def test_nothing_declared():
    assert [f.severity for f in run()] == ["pass"]
