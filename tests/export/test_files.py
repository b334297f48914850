"""STL, STEP and the try-print read back by the libraries that other people use, against closed forms."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from dataclasses import replace
from math import pi
from pathlib import Path

import cadquery as cq
import numpy as np
import pytest
import trimesh
from OCP.BRep import BRep_Builder, BRep_Tool
from OCP.gp import gp_Pnt
from shapely import MultiPoint
from tests import sample_part

from fitwright.errors import ExportError
from fitwright.export.step import step_bytes
from fitwright.export.stl import on_bed, stl_bytes
from fitwright.export.try_plate import try_plates, turned_down
from fitwright.mesh import BodyMesh
from fitwright.packing import GAP_MM, Outline, pack
from fitwright.part import Part, TryPiece
from fitwright.tessellation import facets


def read_stl(data: bytes) -> trimesh.Trimesh:
    mesh = trimesh.load_mesh(io.BytesIO(data), file_type="stl")
    assert isinstance(mesh, trimesh.Trimesh)
    return mesh


def bush_stl(bush: Part, meshes: dict[str, BodyMesh]) -> bytes:
    mesh = meshes["bush"].mesh
    return stl_bytes(on_bed(mesh.vertices, turned_down(bush.bodies[0].poses[0].down)), mesh.faces)


def test_stl_reads_back_as_one_closed_volume_on_the_bed(bush: Part, bush_meshes: dict[str, BodyMesh]) -> None:
    mesh = read_stl(bush_stl(bush, bush_meshes))
    assert mesh.is_watertight and mesh.is_winding_consistent and mesh.body_count == 1
    assert mesh.euler_number == 2 - 2 * bush.bodies[0].genus
    assert mesh.volume == pytest.approx(sample_part.volume_mm3(), rel=1e-3)
    assert mesh.bounds[0][2] == 0.0
    assert mesh.bounds[1][2] == pytest.approx(sample_part.LENGTH_MM, abs=1e-4)


def test_stl_bore_is_round_within_two_hundredths(bush: Part, bush_meshes: dict[str, BodyMesh]) -> None:
    """Across flats of the written polygon: the promise is 0.02 mm on 100, here on the 50 mm bore."""
    mesh = read_stl(bush_stl(bush, bush_meshes))
    chords = trimesh.intersections.mesh_plane(mesh, [0, 0, 1], [0, 0, 40])[:, :, :2]
    chords = chords[np.linalg.norm(chords, axis=2).max(axis=1) < (sample_part.BORE_MM + sample_part.OUTER_MM) / 4]
    assert len(chords) > 50
    flats = np.linalg.norm(chords.mean(axis=1), axis=1)
    assert 2 * flats.min() >= sample_part.BORE_MM - 0.02
    assert 2 * np.linalg.norm(chords, axis=2).max() <= sample_part.BORE_MM + 0.02


def test_a_vertex_that_stands_a_rounding_error_elsewhere_gives_the_same_files(bush: Part) -> None:
    """Between processes the kernel's vertices differ by about 1e-16 of a length; near zero all their digits would."""
    files = []
    for shift in (0.0, 1.1e-14, -0.7e-14):
        solid, builder = bush.bodies[0].solid.copy(), BRep_Builder()
        for vertex in solid.Vertices():
            at = BRep_Tool.Pnt_s(vertex.wrapped)
            moved = gp_Pnt(*(c + shift if abs(c) < 1e-9 else c for c in (at.X(), at.Y(), at.Z())))
            builder.UpdateVertex(vertex.wrapped, moved, BRep_Tool.Tolerance_s(vertex.wrapped))
        found = facets(solid, 0.01, 0.2)
        files.append((step_bytes(solid, "bush"), stl_bytes(found.vertices, found.faces)))
    assert files[0] == files[1] == files[2]


def test_stl_header_is_constant_and_not_mistaken_for_text(bush: Part, bush_meshes: dict[str, BodyMesh]) -> None:
    data = bush_stl(bush, bush_meshes)
    assert not data.startswith(b"solid")
    assert len(data) == 84 + 50 * int.from_bytes(data[80:84], "little")
    assert data == bush_stl(bush, bush_meshes)


def test_stl_leaves_out_triangles_that_rounding_collapses() -> None:
    """A corner 1e-9 from another: the two slivers go, the box stays closed."""
    box = trimesh.creation.box([10, 10, 10])
    split = np.vstack([box.vertices, box.vertices[0] + [1e-9, 0, 0]])
    corner, extra = 0, len(box.vertices)
    first = next(i for i, face in enumerate(box.faces) if corner in face)
    a, b, c = np.roll(box.faces[first], -list(box.faces[first]).index(corner))
    faces = np.vstack([np.delete(box.faces, first, axis=0), [[extra, b, c], [a, b, extra], [a, extra, c]]])
    mesh = read_stl(stl_bytes(split, faces))
    assert mesh.is_watertight and len(mesh.faces) == 12 and mesh.volume == pytest.approx(1000)


@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_stl_refuses_what_is_no_mesh(bad: float) -> None:
    with pytest.raises(ExportError):
        stl_bytes(np.full((3, 3), bad), np.array([[0, 1, 2]]))
    with pytest.raises(ExportError):
        stl_bytes(np.zeros((3, 3)), np.array([[0, 1, 2]]))


def test_step_reads_back_in_mm_with_name_and_volume(bush: Part, tmp_path: Path) -> None:
    data = step_bytes(bush.bodies[0].solid, "bush")
    (tmp_path / "bush.step").write_bytes(data)
    shape = cq.importers.importStep(str(tmp_path / "bush.step")).val()
    assert len(shape.Solids()) == 1 and shape.isValid()
    assert shape.Volume() == pytest.approx(sample_part.volume_mm3(), rel=1e-9)
    box = shape.BoundingBox()
    assert (box.ymin, box.ymax) == pytest.approx((0, sample_part.LENGTH_MM), abs=1e-6)
    assert b"PRODUCT('bush','bush'" in data
    assert b"SI_UNIT(.MILLI.,.METRE.)" in data


def test_step_is_in_mm_whatever_was_set_before(bush: Part) -> None:
    """CadQuery's exporter leaves its unit set for the whole process; 101.6 mm once came back as 2580.64."""
    from OCP.Interface import Interface_Static

    before = step_bytes(bush.bodies[0].solid, "bush")
    Interface_Static.SetCVal_s("write.step.unit", "INCH")
    assert step_bytes(bush.bodies[0].solid, "bush") == before


def test_step_refuses_an_empty_shape() -> None:
    nothing = cq.Solid.makeCylinder(20, 30).cut(cq.Solid.makeCylinder(25, 40))
    with pytest.raises(ExportError):
        step_bytes(nothing, "nothing")


@pytest.mark.slow
def test_the_same_part_gives_the_same_bytes_in_another_process(bush: Part, bush_meshes: dict[str, BodyMesh]) -> None:
    program = (
        "import sys, hashlib\nfrom tests import sample_part as s\n"
        "from fitwright.export.step import step_bytes\n"
        "from fitwright.export.try_plate import try_plates, turned_down\n"
        "from fitwright.export.stl import on_bed, stl_bytes\n"
        "from fitwright.mesh import mesh_body\n"
        "part = s.bush(); body = part.bodies[0]; mesh = mesh_body(body).mesh\n"
        "step_bytes(body.solid, 'another'); [plate], _ = try_plates(part, (220, 220))\n"
        "stl = stl_bytes(on_bed(mesh.vertices, turned_down(body.poses[0].down)), mesh.faces)\n"
        "print(*(hashlib.sha256(x).hexdigest() for x in (stl, step_bytes(body.solid, 'bush'), plate.stl)))\n"
    )
    found = set()
    for seed in ("1", "2"):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(Path(__file__).parents[2])}
        done = subprocess.run(
            [sys.executable, "-c", program], capture_output=True, text=True, env=environment, check=True, timeout=120
        )
        found.add(done.stdout.strip().splitlines()[-1])
    assert len(found) == 1


def test_try_pieces_lie_apart_on_the_bed(bush: Part) -> None:
    [plate], left_out = try_plates(bush, (220.0, 220.0))
    assert left_out == ()
    assert set(plate.pieces) == {"end_b ring", "end_a footprint"}
    mesh = read_stl(plate.stl)
    pieces = mesh.split()
    assert mesh.is_watertight and len(pieces) == 2
    ring = pi / 4 * (sample_part.OUTER_MM**2 - sample_part.BORE_MM**2) * 10
    skin = pi / 4 * (sample_part.FLANGE_MM**2 - sample_part.BORE_MM**2) * 2 - 3 * pi / 4 * sample_part.HOLE_MM**2 * 2
    assert sorted(piece.volume for piece in pieces) == pytest.approx(sorted([ring, skin]), rel=2e-3)
    assert all(piece.bounds[0][2] == pytest.approx(0, abs=1e-5) for piece in pieces)
    assert sorted(piece.bounds[1][2] for piece in pieces) == pytest.approx([2, 10], abs=1e-4)
    assert mesh.bounds[0][:2].min() >= GAP_MM - 1e-4
    one, two = (MultiPoint(piece.vertices[:, :2]).convex_hull for piece in pieces)
    assert one.distance(two) >= GAP_MM - 0.05


def test_two_rings_share_a_bed_on_the_diagonal(bush: Part) -> None:
    """Rings of 60 and 90 mm: centres 80 apart on the diagonal of a square of 80 / sqrt(2) + 75 + 10 = 141.6 mm."""
    for side, plates in ((142.0, 1), (141.0, 2)):
        assert len(try_plates(bush, (side, side))[0]) == plates


def test_try_pieces_that_find_no_room_get_a_plate_of_their_own(bush: Part) -> None:
    plates, left_out = try_plates(bush, (105.0, 110.0))
    assert [plate.pieces for plate in plates] == [("end_a footprint",), ("end_b ring",)]
    assert left_out == ()
    assert try_plates(bush, (50.0, 50.0)) == (
        (),
        ("end_b ring (larger than the bed)", "end_a footprint (larger than the bed)"),
    )


def ring(outer: float, inner: float) -> Outline:
    mesh = trimesh.creation.annulus(inner / 2, outer / 2, 10.0, sections=128)
    mesh.apply_translation([outer / 2, outer / 2, 5.0])
    return Outline(np.asarray(mesh.vertices), np.asarray(mesh.faces))


def test_a_ring_lies_inside_a_larger_one_where_five_millimetres_are_left() -> None:
    """60 in 72: 6 all round; 60 in 69: 4.5, so that it needs a place beside it, or a bed of its own."""
    [bed], _ = pack([ring(80, 72), ring(60, 50)], (95.0, 95.0))
    x, y = np.subtract(bed[1], bed[0])
    assert np.hypot(x + 30 - 40, y + 30 - 40) <= 1.01
    beds, _ = pack([ring(80, 69), ring(60, 50)], (95.0, 95.0))
    assert len(beds) == 2


def test_rings_of_118_and_106_share_a_bed_of_220() -> None:
    beds, too_large = pack([ring(106, 100), ring(118, 112)], (220.0, 220.0))
    assert len(beds) == 1 and too_large == []


def test_three_rings_nest_like_onions() -> None:
    [bed], _ = pack([ring(40, 34), ring(120, 114), ring(80, 74)], (130.0, 130.0))
    assert len(bed) == 3


def test_a_piece_as_large_as_the_bed_lies_in_its_middle() -> None:
    [bed], _ = pack([ring(98, 90)], (100.0, 102.0))
    assert bed[0] == pytest.approx((1.0, 2.0), abs=0.05)


def test_a_try_piece_that_cuts_nothing_is_named(bush: Part) -> None:
    body = bush.bodies[0]
    nothing = TryPiece("end_c ring", sample_part.cylinder(10, 500, 10), (0.0, 1.0, 0.0))
    _, left_out = try_plates(replace(bush, bodies=(replace(body, tries=(*body.tries, nothing)),)), (220.0, 220.0))
    assert [name.partition(" (")[0] for name in left_out] == ["end_c ring"]


@pytest.mark.parametrize("down", [(0, -1, 0), (0, 1, 0), (1, 0, 0), (0, 0, -1), (0.3, -0.5, 0.8)])
def test_down_is_turned_to_the_bed_without_mirroring(down: tuple[float, float, float]) -> None:
    matrix = turned_down(down)
    assert matrix[:3, :3] @ (np.array(down) / np.linalg.norm(down)) == pytest.approx([0, 0, -1])
    assert np.linalg.det(matrix) == pytest.approx(1)
