"""Lettering read on meshes made by another library: what reads passes, what was spoilt is stopped."""

from __future__ import annotations

from dataclasses import replace

import pytest
import trimesh
from tests.handmade import box, cut, joined, part

from fitwright.checks.lettering import check
from fitwright.finding import Finding
from fitwright.frame import Frame
from fitwright.mesh import BodyMesh
from fitwright.part import Label
from fitwright.shapes.lettering import cells, text_wide

FACE = Frame((2.0, 3.0, 2.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0))
TEXT = "-0.45"
LABEL = Label("mark", TEXT, FACE, 1.0, 0.6, 0.84)


def written(text: str = TEXT, relief: float = 0.6, shrink: float = 0.0) -> trimesh.Trimesh:
    """A plate 2 mm thick with a box for each cell, sunk into it and into each other a little; made by booleans."""
    plate = box((0.0, 0.0, 0.0), (text_wide(TEXT) + 4.0, 11.0, 2.0))
    raised = [
        box(
            (2 + x - 1e-3 + shrink, 3 + y - 1e-3 + shrink, 1.5),
            (3 + x + 1e-3 - shrink, 4 + y + 1e-3 - shrink, 2 + relief),
        )
        for x, y in cells(text)
    ]
    return joined(plate, *raised)


def one(mesh: trimesh.Trimesh, label: Label = LABEL) -> Finding:
    made, _ = part(mesh)
    body = replace(made.bodies[0], labels=(label,))
    (found,) = check(replace(made, bodies=(body,)), {"body": BodyMesh(mesh, float(mesh.volume))})
    return found


def test_what_reads_passes() -> None:
    found = one(written())
    assert found.severity == "pass" and found.value == pytest.approx(1.0, abs=0.01)
    assert "reads as meant, 5 mm high, 0.6 mm raised" in found.message


@pytest.mark.parametrize("text", ["0.45", "-0.46", "-0.15", "-0.4"])
def test_another_text_is_stopped(text: str) -> None:
    found = one(written(text))
    assert found.severity == "fail" and "from the left, from below" in found.message and found.advice


def test_a_stroke_that_is_missing_is_named() -> None:
    """The left cell of the minus: first column, third row from below."""
    found = one(cut(written(), box((1.9, 4.9, 2.0), (3.0, 6.1, 4.0))))
    assert found.severity == "fail" and "cell 1, 3 (from the left, from below) is missing" in found.message


def test_a_gap_that_is_closed_is_named() -> None:
    found = one(joined(written(), box((5.0, 3.0, 1.5), (6.0, 4.0, 2.6))))
    assert found.severity == "fail" and "cell 4, 1 (from the left, from below) is filled" in found.message


def test_a_stray_lump_beside_the_text() -> None:
    found = one(joined(written(), box((1.2, 3.2, 1.5), (1.7, 3.6, 2.6))))
    assert found.severity == "fail" and "is filled" in found.message


def test_a_thin_stroke_does_not_print() -> None:
    """The minus pared to 0.6 mm: still read, but narrower than two lines."""
    found = one(cut(written(), box((1.9, 5.75, 2.0), (5.1, 6.1, 4.0))))
    assert found.severity == "fail" and found.value == pytest.approx(0.75, abs=0.01)


@pytest.mark.parametrize("relief", [0.4, 0.8])
def test_a_relief_of_another_height(relief: float) -> None:
    found = one(written(relief=relief))
    assert found.severity == "fail"
    assert ("stands out more" in found.message) == (relief > 0.6)


def test_letters_too_small_to_read() -> None:
    label = replace(LABEL, cell_mm=0.9, least_mm=0.84)
    mesh = written()
    mesh.apply_translation((-2.0, -3.0, -2.0))
    mesh.apply_scale((0.9, 0.9, 1.0))
    mesh.apply_translation((2.0, 3.0, 2.0))
    found = one(mesh, label)
    assert found.severity == "fail" and "letters are 4.5 mm high" in found.message


def test_without_a_mesh_it_is_not_checked() -> None:
    made, _ = part()
    (found,) = check(replace(made, bodies=(replace(made.bodies[0], labels=(LABEL,)),)), {})
    assert found.severity == "fail" and "not checked" in found.message


def test_a_part_without_marks_has_no_finding() -> None:
    made, meshes = part()
    assert check(made, meshes) == []
