"""Pieces on one bed: boxes whose places are known."""

from __future__ import annotations

from dataclasses import replace

import pytest
import trimesh
from tests.handmade import box, cut, part, spec

from fitwright.checks.plate import check
from fitwright.finding import Finding
from fitwright.mesh import BodyMesh


def plate(*meshes: trimesh.Trimesh, bed: float = 220.0) -> list[Finding]:
    made, _ = part(meshes[0])
    bodies = tuple(replace(made.bodies[0], name=f"piece_{k}") for k in range(len(meshes)))
    found = {f"piece_{k}": BodyMesh(mesh, float(mesh.volume)) for k, mesh in enumerate(meshes)}
    printer = {"bed_x_mm": bed, "bed_y_mm": bed}
    return check(replace(made, bodies=bodies, one_plate=True), found, spec(printer=printer))


ONE = box((0, 0, 0), (20, 20, 5))


def test_five_millimetres_apart_pass() -> None:
    (found,) = plate(ONE, box((25, 0, 0), (45, 20, 5)))
    assert found.severity == "pass" and found.value == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("other", "words"),
    [
        (box((24, 0, 0), (44, 20, 5)), "4.00 mm apart"),
        (box((10, 10, 0), (30, 30, 5)), "0.00 mm apart"),
        (box((30, 0, 0.1), (50, 20, 5)), "stand on the bed"),
    ],
)
def test_too_near_or_in_the_air(other: trimesh.Trimesh, words: str) -> None:
    (found,) = plate(ONE, other)
    assert found.severity == "fail" and words in found.message and found.advice


def test_larger_than_the_bed() -> None:
    (found,) = plate(ONE, box((25, 0, 0), (45, 20, 5)), bed=40.0)
    assert found.severity == "fail" and "45.0 x 20.0 mm" in found.message


def test_a_ring_may_hold_another_piece() -> None:
    ring = cut(box((-20, -20, 0), (40, 40, 5)), box((-10, -10, -1), (30, 30, 6)))
    (found,) = plate(ring, ONE)
    assert found.severity == "pass" and found.value == pytest.approx(10.0)


def test_one_piece_or_pieces_printed_singly_have_no_finding() -> None:
    made, meshes = part(ONE)
    assert check(replace(made, one_plate=True), meshes, spec()) == []
    assert check(made, meshes, spec()) == []
