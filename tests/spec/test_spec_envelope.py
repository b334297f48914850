"""Obstacles in words become plain shapes in part coordinates: x right, y away, z up."""

from __future__ import annotations

from pathlib import Path

import pytest
from yaml_cases import MINIMUM, loaded, refused

from fitwright.spec.models import (
    BarObstacle,
    BoxObstacle,
    ConeObstacle,
    MeshObstacle,
    Obstacle,
    PlaneObstacle,
)


def obstacle(text: str, units: str = "mm") -> Obstacle:
    yaml = MINIMUM.replace("107.1", "107.1 mm").replace("100", "100 mm")
    (one,) = loaded(f"{yaml}units: {units}\nenvelope: {{keep_clear: [{text}]}}\n").envelope.keep_clear
    return one


@pytest.mark.parametrize(
    ("text", "point", "normal"),
    [
        ("{wall: up, at: 90}", (0, 0, 90), (0, 0, -1)),
        ("{wall: down, at: 90}", (0, 0, -90), (0, 0, 1)),
        ("{wall: left, at: 90}", (-90, 0, 0), (1, 0, 0)),
        ("{wall: right, at: 90}", (90, 0, 0), (-1, 0, 0)),
        ("{wall: away, at: 90}", (0, 90, 0), (0, -1, 0)),
        ("{wall: toward, at: 90}", (0, -90, 0), (0, 1, 0)),
        ("{wall: toward, at: -10}", (0, 10, 0), (0, 1, 0)),
        ("{floor: 120}", (0, 0, -120), (0, 0, 1)),
        ("{ceiling: 200}", (0, 0, 200), (0, 0, -1)),
        ("{point: {up: 90, left: 5, away: 7}, normal: {up: -3}}", (-5, 7, 90), (0, 0, -1)),
        ("{point: {toward: 7}, normal: {right: 3, up: 4}}", (0, -7, 0), (0.6, 0, 0.8)),
    ],
)
def test_flat_faces_point_into_the_free_side(text: str, point: tuple[int, ...], normal: tuple[int, ...]) -> None:
    plane = obstacle(text)
    assert isinstance(plane, PlaneObstacle)
    assert plane.point == pytest.approx(point) and plane.normal == pytest.approx(normal)
    assert (plane.clearance_mm, plane.label, plane.key) == (2.0, None, "envelope.keep_clear[1]")


def test_each_word_of_a_box_is_how_far_out_its_face_is() -> None:
    box = obstacle(
        "{box: {left: 120, right: -100, down: 50, up: 80, toward: 0, away: 200}, clearance: 5, label: motor}"
    )
    assert box == BoxObstacle((-120, 0, -50), (-100, 200, 80), "envelope.keep_clear[1]", 5.0, "motor")


def test_bars_and_cones_in_inches() -> None:
    bar = obstacle("{round_bar: {from: {right: 2}, to: {right: 2, away: 10, down: 1}, diameter: 1.5}}", "in")
    assert isinstance(bar, BarObstacle) and bar.d_mm == pytest.approx(38.1)
    assert bar.start == pytest.approx((50.8, 0, 0)) and bar.end == pytest.approx((50.8, 254, -25.4))
    cone = obstacle(
        "{cone: {from: {up: 40}, to: {up: 80}, diameter_from: 60 mm, diameter_to: 0}, clearance: 1/8}", "in"
    )
    assert isinstance(cone, ConeObstacle) and (cone.d_start_mm, cone.d_end_mm) == (60.0, 0.0)
    assert cone.clearance_mm == pytest.approx(3.175)


def test_a_mesh_is_found_beside_its_yaml(tmp_path: Path) -> None:
    (tmp_path / "housing.stl").write_bytes(b"solid")
    text = f"{MINIMUM}envelope: {{stay_inside: [{{mesh: housing.stl, at: {{away: 40}}}}]}}\n"
    (mesh,) = loaded(text, str(tmp_path / "a.yaml")).envelope.stay_inside
    assert mesh == MeshObstacle(str(tmp_path / "housing.stl"), (0.0, 40.0, 0.0), "envelope.stay_inside[1]")
    (tmp_path / "in.OBJ").touch()
    text = f"{MINIMUM}envelope: {{keep_clear: [{{mesh: in.OBJ, mesh_units: in, repair: yes}}]}}\n"
    (mesh,) = loaded(text, str(tmp_path / "a.yaml")).envelope.keep_clear
    assert isinstance(mesh, MeshObstacle)
    assert (mesh.unit_mm, mesh.repair, mesh.is_step) == (25.4, True, False)
    problem = refused(text, "elsewhere/a.yaml")[0]
    assert problem.key == "envelope.keep_clear[1].mesh" and "not there" in problem.found


@pytest.mark.parametrize(
    ("text", "key", "words"),
    [
        ("3", "", "wall, floor, ceiling, box"),
        ("{}", "", "wall, floor, ceiling, box"),
        ("{wall: up}", ".at", "add `at:`"),
        ("{wall: top, at: 3}", ".wall", "up | down"),
        ("{wall: up, floor: 3, at: 3}", ".floor", "the keys wall, at"),
        ("{floor: 3, clearance: -1}", ".clearance", "minus"),
        ("{box: {left: 120, right: -100, down: 50, up: 80}}", ".box.toward", "add `toward:`"),
        ("{box: {left: 120, right: -130, down: 5, up: 8, toward: 0, away: 9}}", ".box.right", "right above -120 mm"),
        ("{round_bar: {from: {up: 1}, to: {up: 1}, diameter: 33}}", ".round_bar.to", "1 mm apart"),
        ("{round_bar: {from: {up: 1}, to: {up: 9}}}", ".round_bar.diameter", "its diameter"),
        ("{cone: {from: {up: 1}, to: {up: 9}, diameter_from: 0, diameter_to: 0}}", ".cone.diameter_to", "1 mm or more"),
        ("{mesh: housing.step}", ".mesh", "STL"),
        ("{mesh: housing.3mf}", ".mesh", ".stl, .obj, .step, .stp"),
        ("{mesh: housing}", ".mesh", ".stl, .obj, .step, .stp"),
        ("{mesh: housing.stl, mesh_units: inch}", ".mesh_units", "mm | cm | m | in"),
        ("{mesh: housing.stl, units: in}", ".units", "mesh_units"),
        ("{mesh: housing.stl, repair: maybe}", ".repair", "yes | no"),
        ("{point: {up: 3}, normal: {}}", ".normal", "{right: 1, up: 1, away: 0}"),
        ("{point: {up: 3}}", ".normal", "free side"),
        ("{cube: {left: 3}}", "", "wall, floor, ceiling, box"),
    ],
)
def test_obstacles_that_make_no_sense(text: str, key: str, words: str) -> None:
    problem = refused(f"{MINIMUM}envelope: {{keep_clear: [{text}]}}\n")[0]
    assert problem.key == f"envelope.keep_clear[1]{key}"
    assert words in f"{problem.allowed} {problem.hint}"


def test_a_step_says_its_unit_itself(tmp_path: Path) -> None:
    (tmp_path / "housing.stp").touch()
    text = f"{MINIMUM}envelope: {{keep_clear: [{{mesh: housing.stp, mesh_units: in}}]}}\n"
    (problem,) = refused(text, str(tmp_path / "a.yaml"))
    assert problem.key == "envelope.keep_clear[1].mesh_units" and "take it out" in problem.allowed


def test_a_missing_side_of_a_box_is_named_for_each() -> None:
    problems = refused(f"{MINIMUM}envelope: {{keep_clear: [{{box: {{left: 3}}}}]}}\n")
    assert [p.key.rpartition(".")[2] for p in problems] == ["right", "down", "up", "toward", "away"]


def test_a_mesh_is_found_from_a_relative_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "housing.stl").touch()
    monkeypatch.chdir(tmp_path)
    (mesh,) = loaded(
        f"{MINIMUM}envelope: {{keep_clear: [{{mesh: housing.stl}}]}}\n", "parts/a.yaml"
    ).envelope.keep_clear
    assert isinstance(mesh, MeshObstacle) and Path(mesh.path).is_file()
