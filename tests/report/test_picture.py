"""The picture: what the child process draws, and that losing it costs the picture only."""

from __future__ import annotations

import itertools
from dataclasses import replace
from math import pi
from pathlib import Path
from typing import Any

import numpy as np
import pytest
import trimesh
from PIL import Image
from tests import sample_part

from fitwright.drawing.face import Face, FaceLine
from fitwright.export.templates import template_pdf
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.report import dimensions
from fitwright.report.picture import drawing, words
from fitwright.report.picture_process import _towards
from fitwright.report.raster import Canvas, View, draw_lines, draw_triangles
from fitwright.report.section_sheet import section_axes
from fitwright.report.surface import corner_normals, cut_loops, surface
from fitwright.tessellation import Facets


def facets(meshes: dict[str, BodyMesh]) -> dict[str, Facets]:
    return {name: Facets(found.mesh.vertices, found.mesh.faces) for name, found in meshes.items()}


@pytest.mark.slow
def test_the_child_draws_one_sheet_with_the_same_bytes_each_time(
    bush: Part, bush_meshes: dict[str, BodyMesh], tmp_path: Path
) -> None:
    found = []
    for _ in range(2):
        with drawing(bush, facets(bush_meshes), "mm", tmp_path) as picture:
            data, trouble = picture.collect()
        assert trouble == ""
        found.append(data)
    assert found[0] == found[1] and list(found[0]) == [".png"]
    with Image.open(tmp_path / "picture.png") as image:
        assert image.size == (1600, 900)
        assert len(image.getcolors(1 << 24) or []) > 50


def fake_program(folder: Path, body: str, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "fake_picture.py").write_text(body)
    monkeypatch.setenv("PYTHONPATH", str(folder))
    monkeypatch.setattr("fitwright.report.picture.PROGRAM", "fake_picture")


@pytest.mark.parametrize(
    ("body", "says"),
    [
        ("import os, signal; os.kill(os.getpid(), signal.SIGSEGV)", "no picture"),
        ("raise OSError('no font')", "no font"),
        ("import time; time.sleep(60)", "not finished after 1 s"),
        ("", "no picture"),
    ],
    ids=["killed", "raises", "hangs", "writes nothing"],
)
def test_a_child_that_fails_costs_the_picture_and_says_so(
    body: str, says: str, bush: Part, bush_meshes: dict[str, BodyMesh], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fake_program(tmp_path, body, monkeypatch)
    with drawing(bush, facets(bush_meshes), "mm", tmp_path) as picture:
        data, trouble = picture.collect(time_limit_s=1.0 if "sleep" in body else 20.0)
    assert data == {} and says in trouble and trouble.startswith("no picture:")


@pytest.mark.slow
def test_a_part_with_a_flange_gets_its_paper_template_from_the_same_child(
    bush: Part, bush_meshes: dict[str, BodyMesh], tmp_path: Path
) -> None:
    flanged = replace(bush, templates=(Face("end_a", "machine", (FaceLine("edge", 90.0),)),))
    with drawing(flanged, facets(bush_meshes), "mm", tmp_path) as picture:
        data, trouble = picture.collect()
    assert trouble == "" and list(data) == [".png", "_template.pdf"]
    assert data["_template.pdf"] == template_pdf("bush", flanged.templates, "mm")


def test_a_template_that_fails_leaves_the_picture_and_says_so(
    bush: Part, bush_meshes: dict[str, BodyMesh], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    flanged = replace(bush, templates=(Face("end_a", "machine", (FaceLine("edge", 90.0),)),))
    body = "import sys; open(sys.argv[2], 'wb').write(b'drawn'); raise OSError('no paper')"
    fake_program(tmp_path, body, monkeypatch)
    with drawing(flanged, facets(bush_meshes), "mm", tmp_path) as picture:
        data, trouble = picture.collect()
    assert data == {".png": b"drawn"} and trouble.startswith("no paper template:") and "no paper" in trouble


def test_a_picture_that_nobody_collects_is_ended(
    bush: Part, bush_meshes: dict[str, BodyMesh], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fake_program(tmp_path, "import time; time.sleep(60)", monkeypatch)
    with drawing(bush, facets(bush_meshes), "mm", tmp_path) as picture:
        pass
    assert picture.process is not None and picture.process.poll() is not None


def test_dimensions_are_said_in_the_files_units(bush: Part) -> None:
    texts = [d["text"] for d in words(bush, "in")["dimensions"]]  # type: ignore[attr-defined, union-attr]
    assert "outside 2.362 in" in texts  # 60 / 25.4


def test_a_cut_through_the_axis_has_the_area_of_two_rectangles(bush_meshes: dict[str, BodyMesh]) -> None:
    """Closed form: wall x length on either side, plus the flange; at x = 0 one hole takes 5 x 6 out of it."""
    mesh = bush_meshes["bush"].mesh
    loops = cut_loops(mesh.vertices, mesh.faces, np.array([1.0, 0.0, 0.0]))
    signed = []
    for loop in loops:
        y, z = loop[:, 1], loop[:, 2]
        signed.append(abs(np.sum(y * np.roll(z, -1) - z * np.roll(y, -1))) / 2)
    wall = (sample_part.OUTER_MM - sample_part.BORE_MM) / 2 * sample_part.LENGTH_MM
    flange = (sample_part.FLANGE_MM - sample_part.OUTER_MM) / 2 * sample_part.FLANGE_LONG_MM
    hole = sample_part.HOLE_MM * sample_part.FLANGE_LONG_MM
    assert sum(signed) == pytest.approx(2 * (wall + flange) - hole, rel=1e-3)
    assert len(loops) == 3


def test_a_cut_across_a_tube_gives_two_circles(bush_meshes: dict[str, BodyMesh]) -> None:
    mesh = bush_meshes["bush"].mesh
    loops = cut_loops(mesh.vertices, mesh.faces, np.array([0.0, 1.0, 0.0]), at_mm=40.0)
    around = sorted(np.linalg.norm(loop - np.roll(loop, 1, axis=0), axis=1).sum() for loop in loops)
    assert around == pytest.approx([pi * sample_part.BORE_MM, pi * sample_part.OUTER_MM], rel=1e-3)


def test_normals_are_smooth_round_a_bore_and_sharp_at_its_rim(bush_meshes: dict[str, BodyMesh]) -> None:
    mesh = bush_meshes["bush"].mesh
    shape = surface(np.asarray(mesh.vertices), np.asarray(mesh.faces))
    normals, points = corner_normals(shape), shape.vertices_mm[shape.faces]
    radius = np.linalg.norm(points[:, :, [0, 2]], axis=2)
    bore = (np.abs(radius - sample_part.BORE_MM / 2) < 0.05).all(axis=1) & (np.abs(shape.normals[:, 1]) < 0.5)
    inwards = -points[bore][:, :, [0, 2]] / radius[bore][:, :, None]
    assert bore.sum() > 50
    assert normals[bore][:, :, [0, 2]] == pytest.approx(inwards, abs=0.01)


def test_the_nearer_triangle_hides_the_farther_and_a_cut_uncovers_it() -> None:
    view = View(np.eye(3), 1.0, (0.0, 0.0), (40, 40))
    square = np.array([[-10, -10, 0], [10, -10, 0], [10, 10, 0], [-10, 10, 0]], dtype=float)
    faces = np.array([[0, 1, 2], [0, 2, 3]])
    far, near = view.project(square)[faces], view.project(square * 0.5 + [0, 0, 5])[faces]
    canvas = Canvas.blank(view.size)
    draw_triangles(canvas, near, np.full((2, 3), 0.9))
    draw_triangles(canvas, far, np.full((2, 3), 0.3))
    assert canvas.shade[20, 20] == pytest.approx(0.9) and canvas.shade[12, 12] == pytest.approx(0.3)
    assert np.isfinite(canvas.depth).sum() == 20 * 20
    cut = Canvas.blank(view.size)
    draw_triangles(cut, near, np.full((2, 3), 0.9), cut_at_mm=1.0)
    draw_triangles(cut, far, np.full((2, 3), 0.3), cut_at_mm=1.0)
    assert cut.shade[20, 20] == pytest.approx(0.3)
    draw_triangles(back := Canvas.blank(view.size), far[:, ::-1], np.full((2, 3), 0.3))
    assert not np.isfinite(back.depth).any()


def test_a_line_behind_a_face_is_not_drawn() -> None:
    view = View(np.eye(3), 1.0, (0.0, 0.0), (40, 40))
    square = np.array([[-10, -10, 0], [10, -10, 0], [10, 10, 0], [-10, 10, 0]], dtype=float)
    canvas = Canvas.blank(view.size)
    draw_triangles(canvas, view.project(square)[[[0, 1, 2], [0, 2, 3]]], np.full((2, 3), 0.5))
    ends = view.project(np.array([[-5.0, 2, -3], [5, 2, -3], [-5, -2, 3], [5, -2, 3]]))
    draw_lines(canvas, ends[[0, 2]], ends[[1, 3]], 0.1, 1)
    assert canvas.shade[18, 20] == 0.5 and canvas.shade[22, 20] == 0.0


@pytest.mark.parametrize(
    ("across", "up", "seen_from"),
    [((0, 0, 1), (0, 0, 1), "the right"), ((0, 0, -1), (0, 0, 1), "the right"), ((1, 0, 0), (-1, 0, 0), "above")],
)
def test_the_section_is_seen_from_the_right_or_above(
    across: tuple[int, ...], up: tuple[int, ...], seen_from: str
) -> None:
    axes, place = section_axes(np.array(across, dtype=float))
    assert tuple(axes[1]) == up and place == seen_from
    assert np.linalg.det(axes) == pytest.approx(1)


def test_dimension_lines_of_one_row_do_not_touch() -> None:
    lines = [dimensions.Line(f"length {n}", (10.0 * n, 0.0), (10.0 * n + 8, 0.0), "below") for n in range(8)]
    rows = dimensions.rows(lines, "below")
    assert sum(len(row) for row in rows) == 8
    for row in rows:
        spans = sorted(dimensions._taken(line) for line in row)
        assert all(one[1] < two[0] for one, two in itertools.pairwise(spans))


def test_labels_are_spread_inside_the_sheet() -> None:
    centres = dimensions.spread([(0, 100), (10, 100), (390, 100)], 0, 400)
    assert centres[0] >= 50 and centres[-1] <= 350
    assert all(two - one >= 100 for one, two in itertools.pairwise(centres))


def test_what_is_fixed_to_a_wall_on_its_right_is_seen_from_its_left() -> None:
    """Else the wall would stand before it."""
    part = surface(*_box(0.0, 50.0))
    assert _towards([part], [surface(*_box(50.0, 70.0))])[0] < 0.0
    assert _towards([part], [surface(*_box(-20.0, 0.0))])[0] > 0.0
    assert _towards([part], [])[0] > 0.0


def _box(low: float, high: float) -> tuple[Any, Any]:
    made = trimesh.creation.box(bounds=[(low, 0.0, 0.0), (high, 40.0, 30.0)])
    return np.array(made.vertices), np.array(made.faces)
