"""Neighbours from files: distances against closed forms, units, every defect with and without repair."""

from __future__ import annotations

import math
from pathlib import Path
from typing import Any

import cadquery as cq
import numpy as np
import pytest
import trimesh
from tests.handmade import part, spec

from fitwright.checks.clearance import check
from fitwright.envelope_mesh.holes import HOLE_MM, least_area
from fitwright.envelope_mesh.pieces import turns_round
from fitwright.envelope_mesh.triangles import Triangles, welded
from fitwright.finding import Finding
from fitwright.spec.envelope import MeshObstacle, Obstacle

EXACT_MM = 2e-4
"""Binary STL rounds to float32, 1e-5 at 100 mm; the part's own chord of 0.008 is taken off each gap."""
PART_CHORD_MM = 0.008
BLOCK = trimesh.creation.box(bounds=[(0, 0, 0), (100, 60, 40)])
FORMATS = ("binary.stl", "text.stl", "quads.obj", "house.step", "house.stp", "HOUSE.STEP")


def run(obstacle: Obstacle, inside: bool = False, mesh: trimesh.Trimesh = BLOCK) -> list[Finding]:
    made, meshes = part(mesh)
    lists = {"keep_clear": (), "stay_inside": (), "stay_inside" if inside else "keep_clear": (obstacle,)}
    return check(made, meshes, spec(envelope=type("Envelope", (), lists)))


def mesh_at(path: Path, at: tuple[float, float, float] = (0, 0, 0), **changes: Any) -> MeshObstacle:
    return MeshObstacle(str(path), at, "envelope.keep_clear[1]", **changes)


def write_box(path: Path, low: tuple[float, ...], high: tuple[float, ...]) -> Path:
    """The box in the format that the name asks for."""
    if path.suffix.casefold() in (".step", ".stp"):
        size = [b - a for a, b in zip(low, high, strict=True)]
        cq.exporters.export(cq.Workplane(cq.Solid.makeBox(*size, cq.Vector(*low))), str(path), "STEP")
    elif path.name == "quads.obj":
        corners = [(x, y, z) for x in (low[0], high[0]) for y in (low[1], high[1]) for z in (low[2], high[2])]
        path.write_text(
            "# quads\nmtllib not_there.mtl\no box\n"
            + "".join(f"v {x} {y} {z}\n" for x, y, z in corners)
            + "usemtl nothing\ng sides\nf 1 2 4 3\nf -4 -2 -1 -3\nf 1/1 5/1 6/1 2/1\ng ends\ns off\n"
            + "f 3//1 4//1 8//1 7//1\nf 1 3 7 5\nf 2/1/1 6/1/1 8/2/1 4/1/1\n"
        )
    else:
        mesh = trimesh.creation.box(bounds=[low, high])
        path.write_bytes(
            mesh.export(file_type="stl_ascii" if path.name == "text.stl" else "stl").encode()
            if path.name == "text.stl"
            else mesh.export(file_type="stl")
        )
    return path


# --- closed forms --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", FORMATS)
def test_a_box_at_a_known_distance_in_every_format(name: str, tmp_path: Path) -> None:
    path = write_box(tmp_path / name, (101.5, 10, 5), (180, 50, 35))
    (finding,) = run(mesh_at(path))
    assert finding.severity == "fail"
    assert finding.value == pytest.approx(1.5 - PART_CHORD_MM, abs=EXACT_MM)
    (finding,) = run(mesh_at(path, (0.6, 0, 0)))
    assert (finding.severity, finding.value) == ("pass", pytest.approx(2.1 - PART_CHORD_MM, abs=EXACT_MM))
    (finding,) = run(mesh_at(path, (-10, 0, 0)))
    assert "clashes" in finding.message
    # 8.5 deep, 40 x 30 across.
    assert float(finding.message.split("clashes: ")[1].split()[0]) == pytest.approx(8.5 * 40 * 30, rel=1e-3)


@pytest.mark.parametrize("name", FORMATS)
def test_inside_a_box_in_every_format(name: str, tmp_path: Path) -> None:
    path = write_box(tmp_path / name, (-3, -5, -5), (105, 65, 45))
    (finding,) = run(mesh_at(path), inside=True)
    assert (finding.severity, finding.value) == ("pass", pytest.approx(3.0 - PART_CHORD_MM, abs=EXACT_MM))
    (finding,) = run(mesh_at(path, (1.9, 0, 0)), inside=True)
    assert (finding.severity, finding.value) == ("fail", pytest.approx(1.1 - PART_CHORD_MM, abs=EXACT_MM))


@pytest.mark.parametrize(("unit", "mm"), [("INCH", 25.4), ("MM", 1.0), ("M", 1000.0)])
def test_a_step_is_read_in_the_unit_that_it_names(unit: str, mm: float, tmp_path: Path) -> None:
    # The kernel's writer takes its numbers for that unit: a box of 4 is 4 inches.
    size = 101.6 / mm
    cq.exporters.export(cq.Workplane().box(size, size, size, centered=False), str(tmp_path / "a.step"), unit=unit)
    text = (tmp_path / "a.step").read_text()
    assert ("CONVERSION_BASED_UNIT('INCH'" in text) == (unit == "INCH")
    found = run(mesh_at(tmp_path / "a.step", (101.0, 0, 0)))
    assert found[0].value == pytest.approx(1.0 - PART_CHORD_MM, abs=EXACT_MM)
    (far,) = run(mesh_at(tmp_path / "a.step", (-103.0, 0, 0)))
    assert far.value == pytest.approx(1.4 - PART_CHORD_MM, abs=EXACT_MM)


def test_round_faces_of_a_step_are_right_to_two_hundredths(tmp_path: Path) -> None:
    # A ball of radius 30 beside the face x = 100; a ring of 40 and 10; a bar whose axis is 20 off.
    shapes = {
        30.0: cq.Solid.makeSphere(30, cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), -90, 90, 360),
        50.0: cq.Solid.makeTorus(40, 10),
        20.0: cq.Solid.makeCylinder(20, 80, cq.Vector(0, -40, 0), cq.Vector(0, 1, 0)),
    }
    for reach, shape in shapes.items():
        cq.exporters.export(cq.Workplane(shape), str(tmp_path / "round.step"))
        near = mesh_at(tmp_path / "round.step", (100 + reach + 1.0, 30, 20))
        (finding,) = run(near)
        assert finding.severity == "fail"
        assert 1.0 - 0.03 <= finding.value <= 1.0 + 1e-6, reach
        assert 1.0 - PART_CHORD_MM - 0.011 <= finding.value, reach  # the fine chord
        (finding,) = run(mesh_at(tmp_path / "round.step", (100 + reach + 2.0, 30, 20)))
        assert finding.severity == "pass", reach  # at its limit exactly


def test_free_form_faces_of_a_step_are_told_on_the_safe_side(tmp_path: Path) -> None:
    # A bar drawn along an ellipse of 30 by 18, and one that tapers: the tip is 30 out.
    bar = cq.Workplane().ellipse(30, 18).extrude(40).val()
    tapered = cq.Workplane().ellipse(30, 18).workplane(offset=40).ellipse(20, 12).loft(ruled=True).val()
    for shape in (bar, tapered):
        cq.exporters.export(cq.Workplane(shape), str(tmp_path / "free.step"))
        (finding,) = run(mesh_at(tmp_path / "free.step", (131.0, 30, 20)))
        assert finding.severity == "fail"
        assert 1.0 - 0.12 <= finding.value <= 1.0


def test_every_solid_of_an_assembly_counts_where_it_is_placed(tmp_path: Path) -> None:
    box = cq.Workplane().box(10, 10, 10, centered=False)
    near = cq.Location(cq.Vector(101.2, 0, 0))
    cq.Assembly().add(box, loc=cq.Location(cq.Vector(300, 0, 0))).add(box, loc=near).export(str(tmp_path / "a.step"))
    (finding,) = run(mesh_at(tmp_path / "a.step"))
    assert finding.value == pytest.approx(1.2 - PART_CHORD_MM, abs=EXACT_MM)


def test_two_bodies_of_an_obj_are_one_obstacle(tmp_path: Path) -> None:
    scene = trimesh.Scene()
    for k, x in enumerate((101.2, 130.0)):
        scene.add_geometry(trimesh.creation.box(bounds=[(x, 0, 0), (x + 10, 10, 10)]), geom_name=f"body{k}")
    scene.export(tmp_path / "two.obj")
    (finding,) = run(mesh_at(tmp_path / "two.obj", units="mm"))
    assert finding.value == pytest.approx(1.2 - PART_CHORD_MM, abs=EXACT_MM)


def test_faces_of_an_obj_that_are_not_convex_are_divided_well(tmp_path: Path) -> None:
    # An L whose notch holds the part's corner, 3 mm off each way.
    outline = [(103, -20), (140, -20), (140, 80), (60, 80), (60, 63), (103, 63)]
    low = "".join(f"v {x} {y} 0\n" for x, y in outline)
    high = "".join(f"v {x} {y} 40\n" for x, y in outline)
    sides = "".join(f"f {k + 1} {(k + 1) % 6 + 1} {(k + 1) % 6 + 7} {k + 7}\n" for k in range(6))
    (tmp_path / "l.obj").write_text(low + high + sides + "f 6 5 4 3 2 1\nf 7 8 9 10 \\\n 11 12\n")
    (finding,) = run(mesh_at(tmp_path / "l.obj"))
    assert (finding.severity, finding.value) == ("pass", pytest.approx(3.0 - PART_CHORD_MM, abs=EXACT_MM))


# --- inside of a housing -------------------------------------------------------------------------------------------


def hollow(wall: float = 4.0, room: float = 3.0) -> cq.Shape:
    outer = cq.Solid.makeBox(100 + 2 * (room + wall), 60 + 2 * (room + wall), 40 + 2 * (room + wall))
    inner = cq.Solid.makeBox(100 + 2 * room, 60 + 2 * room, 40 + 2 * room, cq.Vector(wall, wall, wall))
    return outer.cut(inner)


@pytest.mark.parametrize("name", ["h.step", "h.stl", "h.obj"])
def test_inside_the_cavity_of_a_housing(name: str, tmp_path: Path) -> None:
    shape = hollow()
    if name == "h.step":
        cq.exporters.export(cq.Workplane(shape), str(tmp_path / name))
    else:
        points, faces = shape.tessellate(0.01)
        trimesh.Trimesh([p.toTuple() for p in points], faces).export(tmp_path / name)
    (finding,) = run(mesh_at(tmp_path / name, (-7, -7, -7)), inside=True)
    assert (finding.severity, finding.value) == ("pass", pytest.approx(3.0 - PART_CHORD_MM, abs=EXACT_MM))
    (finding,) = run(mesh_at(tmp_path / name, (-5.5, -7, -7)), inside=True)
    assert (finding.severity, finding.value) == ("fail", pytest.approx(1.5 - PART_CHORD_MM, abs=EXACT_MM))
    (finding,) = run(mesh_at(tmp_path / name, (-2, -7, -7)), inside=True)  # through the wall
    assert finding.severity == "fail" and "clashes" in finding.message
    (finding,) = run(mesh_at(tmp_path / name, (-300, 0, 0)), inside=True)
    assert finding.severity == "fail" and "wholly outside" in finding.message


def test_rooms_that_overlap_are_one_room(tmp_path: Path) -> None:
    # Neither box holds the part; their joint does, and the faces inside of it are no walls.
    one = trimesh.creation.box(bounds=[(-5, -5, -5), (60, 65, 45)])
    other = trimesh.creation.box(bounds=[(40, -5, -5), (104, 65, 45)])
    trimesh.util.concatenate([one, other]).export(tmp_path / "room.stl")
    (finding,) = run(mesh_at(tmp_path / "room.stl"), inside=True)
    assert (finding.severity, finding.value) == ("pass", pytest.approx(4.0 - PART_CHORD_MM, abs=EXACT_MM))


# --- units ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["a.obj", "a.stl"])
def test_a_mesh_in_inches_is_warned_of_and_read_right_when_named(name: str, tmp_path: Path) -> None:
    trimesh.creation.box(bounds=[(4, 0, 0), (9, 2, 2)]).export(tmp_path / name)
    clearance, warning = run(mesh_at(tmp_path / name))
    assert warning.severity == "warn" and not warning.blocks
    assert "5 x 2 x 2 mm" in warning.message and "127 x 50.8 x 50.8 mm" in warning.message
    assert "mesh_units: in" in warning.advice and "mesh_units: mm" in warning.advice
    assert clearance.severity == "fail" and "clashes" in clearance.message  # never rescaled of itself
    (clearance,) = run(mesh_at(tmp_path / name, units="in"))
    assert clearance.value == pytest.approx(4 * 25.4 - 100 - PART_CHORD_MM, abs=EXACT_MM)
    assert len(run(mesh_at(tmp_path / name, units="mm"))) == 1  # who wrote mm is believed


def test_other_units(tmp_path: Path) -> None:
    trimesh.creation.box(bounds=[(0.103, 0, 0), (0.25, 0.05, 0.05)]).export(tmp_path / "a.obj")
    _, warning = run(mesh_at(tmp_path / "a.obj"))
    assert "mesh_units: m`" in warning.advice
    (clearance,) = run(mesh_at(tmp_path / "a.obj", units="m"))
    assert clearance.value == pytest.approx(3.0 - PART_CHORD_MM, abs=EXACT_MM)
    trimesh.creation.box(bounds=[(103, 0, 0), (250, 50, 50)]).export(tmp_path / "b.obj")
    _, warning = run(mesh_at(tmp_path / "b.obj", units="in"))
    assert warning.severity == "warn" and "mesh_units: mm" in warning.advice and "3734" in warning.message


def test_a_room_smaller_than_the_part_smells_of_inches(tmp_path: Path) -> None:
    trimesh.creation.box(bounds=[(-1, -1, -1), (8, 8, 28)]).export(tmp_path / "a.stl")
    found = run(mesh_at(tmp_path / "a.stl"), inside=True)
    assert any("mesh_units: in" in f.advice for f in found)


def test_an_ordinary_neighbour_is_not_doubted(tmp_path: Path) -> None:
    for k, size in enumerate((25.0, 100.0, 2000.0)):
        trimesh.creation.box(bounds=[(110, 0, 0), (110 + size, size / 2, size)]).export(tmp_path / f"{k}.stl")
        assert len(run(mesh_at(tmp_path / f"{k}.stl"))) == 1


# --- what is wrong, with and without repair ------------------------------------------------------------------------


def ball(r: float = 20.0) -> trimesh.Trimesh:
    return trimesh.creation.icosphere(radius=r, subdivisions=3)


def with_hole(across: float) -> trimesh.Trimesh:
    """A ball without the triangles round its top, as far as the hole may be wide."""
    mesh = ball()
    gone = np.linalg.norm(mesh.triangles_center[:, :2], axis=1) < across / 2
    return trimesh.Trimesh(mesh.vertices, mesh.faces[~(gone & (mesh.triangles_center[:, 2] > 0))], process=False)


def cracked() -> trimesh.Trimesh:
    """A box one edge of which has a corner in the middle on its one face only."""
    box = trimesh.creation.box(bounds=[(0, 0, 0), (40, 10, 10)])
    corners = np.vstack([box.vertices, (20, 0, 0)])
    a, b = (int(np.argmin(np.abs(box.vertices - p).sum(axis=1))) for p in ((0, 0, 0), (40, 0, 0)))
    faces = box.faces.tolist()
    k = next(k for k, face in enumerate(faces) if a in face and b in face)
    face = faces.pop(k)
    faces += [[8 if c == b else c for c in face], [8 if c == a else c for c in face]]
    return trimesh.Trimesh(corners, faces, process=False)


def split() -> trimesh.Trimesh:
    """A ball whose halves stand 0.004 mm apart."""
    mesh = ball()
    upper = mesh.triangles_center[:, 2] > 0
    halves = [trimesh.Trimesh(mesh.vertices, mesh.faces[side]) for side in (upper, ~upper)]
    halves[0].apply_translation((0, 0, 0.004))
    return trimesh.util.concatenate(halves)


def flipped() -> trimesh.Trimesh:
    mesh = ball()
    faces = mesh.faces.copy()
    faces[::7] = faces[::7, ::-1]
    return trimesh.Trimesh(mesh.vertices, faces, process=False)


def inverted() -> trimesh.Trimesh:
    mesh = ball()
    mesh.invert()
    return mesh


def lone_inverted() -> trimesh.Trimesh:
    other = ball(5.0)
    other.invert()
    other.apply_translation((60, 0, 0))
    return trimesh.util.concatenate([ball(), other])


def doubled() -> trimesh.Trimesh:
    mesh = ball()
    return trimesh.Trimesh(
        mesh.vertices, np.vstack([mesh.faces, mesh.faces[:5], mesh.faces[9:11, ::-1]]), process=False
    )


DEFECTS: dict[str, tuple[trimesh.Trimesh, str, str]] = {
    "hole": (with_hole(6.0), "is not closed", "filled 1 holes"),
    "crack": (cracked(), "is not closed", "closed 1 cracks"),
    "split": (split(), "2 holes or gaps", "corners closer than 0.01 mm"),
    "flipped": (flipped(), "face different ways", "to face as their neighbours do"),
    "inverted": (inverted(), "is inside out", "right side out"),
    "lone": (lone_inverted(), "inside out and lies inside no other", "turned 1 pieces right side out"),
    "doubled": (doubled(), "5 triangles lie twice", "dropped 7 double"),
}


@pytest.mark.parametrize("kind", ["stl", "obj"])
@pytest.mark.parametrize("name", list(DEFECTS))
def test_a_defect_blocks_unless_repair_is_asked_for(name: str, kind: str, tmp_path: Path) -> None:
    mesh, wrong, done = DEFECTS[name]
    path = tmp_path / f"a.{kind}"
    text = "".join(f"v {x!r} {y!r} {z!r}\n" for x, y, z in mesh.vertices.tolist())
    text += "".join(f"f {a + 1} {b + 1} {c + 1}\n" for a, b, c in mesh.faces)
    path.write_text(text) if kind == "obj" else mesh.export(path)
    (finding,) = run(mesh_at(path, (150, 0, 0), units="mm"))
    assert finding.severity == "fail" and finding.message.startswith("not checked")
    assert wrong in finding.message and "repair: yes" in finding.message
    clearance, told = run(mesh_at(path, (150, 0, 0), units="mm", repair=True))
    assert clearance.severity == "pass", clearance.message
    assert done in told.message and "volume" in told.message
    assert told.severity == ("warn" if name == "hole" else "pass")


def test_a_mended_mesh_has_its_volume_again(tmp_path: Path) -> None:
    for name, (mesh, _, _) in DEFECTS.items():
        mesh.export(tmp_path / "a.stl")
        _, told = run(mesh_at(tmp_path / "a.stl", (150, 0, 0), units="mm", repair=True))
        after = float(told.message.split("-> ")[1].split()[0])
        meant = {"crack": 4000.0, "lone": ball().volume + ball(5.0).volume}.get(name, ball().volume)
        assert after == pytest.approx(meant, rel={"hole": 0.005, "split": 2e-4}.get(name, 1e-5)), name


def test_a_large_hole_is_not_filled(tmp_path: Path) -> None:
    mesh = with_hole(22.0)
    mesh.export(tmp_path / "a.stl")
    (finding,) = run(mesh_at(tmp_path / "a.stl", (150, 0, 0), units="mm", repair=True))
    assert finding.severity == "fail" and "after a repair" in finding.message
    assert "is not closed" in finding.message
    rim = trimesh.Trimesh(mesh.vertices, mesh.faces).outline().extents
    assert float(np.linalg.norm(rim)) > HOLE_MM
    assert f"{np.linalg.norm(rim):.3g} mm across" in finding.message


def test_a_sound_mesh_needs_no_repair(tmp_path: Path) -> None:
    ball().export(tmp_path / "a.stl")
    clearance, told = run(mesh_at(tmp_path / "a.stl", (150, 0, 0), units="mm", repair=True))
    assert clearance.severity == told.severity == "pass"
    assert "nothing had to be mended" in told.message


def test_a_hollow_ball_inside_out_keeps_its_cavity(tmp_path: Path) -> None:
    inner = ball(10.0)
    inner.invert()
    mesh = trimesh.util.concatenate([ball(), inner])
    mesh.invert()
    mesh.export(tmp_path / "a.stl")
    _, told = run(mesh_at(tmp_path / "a.stl", (150, 0, 0), units="mm", repair=True))
    after = float(told.message.split("-> ")[1].split()[0])
    assert after == pytest.approx(ball().volume - ball(10.0).volume, rel=1e-5)


def test_bodies_that_touch_are_sound(tmp_path: Path) -> None:
    one = trimesh.creation.box(bounds=[(101, 0, 0), (111, 10, 10)])
    for step in ((10, 0, 0), (10, 10, 0), (10, 10, 10)):
        other = one.copy()
        other.apply_translation(step)
        trimesh.util.concatenate([one, other]).export(tmp_path / "a.stl")
        (finding,) = run(mesh_at(tmp_path / "a.stl", units="mm"))
        assert finding.value == pytest.approx(1.0 - PART_CHORD_MM, abs=EXACT_MM)


# --- files that cannot be used -------------------------------------------------------------------------------------


def cut_short(path: Path, share: float) -> None:
    data = path.read_bytes()
    path.write_bytes(data[: int(len(data) * share)])


@pytest.mark.parametrize("name", FORMATS[:4])
@pytest.mark.parametrize("share", [0.0, 0.1, 0.6, 0.97])
def test_a_file_cut_short_is_never_a_pass(name: str, share: float, tmp_path: Path) -> None:
    path = write_box(tmp_path / name, (300, 0, 0), (400, 40, 40))
    cut_short(path, share)
    (finding,) = run(mesh_at(path))
    assert finding.severity == "fail" and finding.message.startswith(f"not checked: {name}")


def test_steps_without_solids(tmp_path: Path) -> None:
    shell = cq.Workplane().box(10, 10, 10).shells().vals()[0]
    cq.exporters.export(cq.Workplane(shell), str(tmp_path / "surface.step"))
    (finding,) = run(mesh_at(tmp_path / "surface.step", (150, 0, 0)))
    assert finding.severity == "fail" and "no solid, only 6 faces" in finding.message
    found = run(mesh_at(tmp_path / "surface.step", (150, 0, 0), repair=True))
    assert [f.severity for f in found] == ["pass", "pass"]
    cq.exporters.export(cq.Workplane(cq.Edge.makeLine(cq.Vector(), cq.Vector(1, 0, 0))), str(tmp_path / "line.step"))
    (finding,) = run(mesh_at(tmp_path / "line.step"))
    assert finding.severity == "fail" and "no solid" in finding.message
    cq.exporters.export(cq.Workplane(cq.Compound.makeCompound([])), str(tmp_path / "empty.step"))
    (finding,) = run(mesh_at(tmp_path / "empty.step"))
    assert finding.severity == "fail" and "no solid" in finding.message


def test_faces_beside_solids_are_told(tmp_path: Path) -> None:
    solid = cq.Solid.makeBox(10, 10, 10, cq.Vector(200, 0, 0))
    sheet = cq.Face.makePlane(5, 5, cq.Vector(150, 0, 0))
    cq.exporters.export(cq.Workplane(cq.Compound.makeCompound([solid, sheet])), str(tmp_path / "a.step"))
    clearance, told = run(mesh_at(tmp_path / "a.step"))
    assert clearance.severity == "pass"
    assert told.severity == "warn" and "1 faces" in told.message


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 4\n", "line 4 makes no sense"),
        ("a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 0\n", "line 4 makes no sense"),
        ("a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2\n", "line 4 makes no sense"),
        ("a.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 x\n", "'x' where a number should be"),
        ("a.obj", "v 0,5 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n", "decimal point"),
        ("a.obj", "v 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n", "less than three numbers"),
        ("a.obj", "v nan 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n", "1 corners that are no numbers"),
        ("a.obj", "v 0 0 0\nl 1 1\n", "no faces"),
        ("a.obj", "v 0 0 0\ncstype bspline\nsurf 0 1 0 1 1 1\n", "curved surfaces only"),
        ("a.step", "hello", "is no STEP file"),
        ("a.step", "ISO-10303-21;\nnonsense\nEND-ISO-10303-21;\n", "STEP"),
    ],
)
def test_files_that_make_no_sense(name: str, content: str, words: str, tmp_path: Path) -> None:
    (tmp_path / name).write_text(content)
    (finding,) = run(mesh_at(tmp_path / name))
    assert finding.severity == "fail" and finding.message.startswith("not checked") and finding.advice
    assert words in finding.message or (name == "a.step" and "no solid" in finding.message)


# --- the tools, against closed forms -------------------------------------------------------------------------------


def test_how_often_a_mesh_goes_round_a_point() -> None:
    box = trimesh.creation.box((10, 10, 10))
    mesh = Triangles(np.asarray(box.vertices, dtype=np.float64), np.asarray(box.faces, dtype=np.int64))
    assert turns_round(mesh, np.array([4.9, 4.9, -4.9])) == 1
    assert turns_round(mesh, np.array([5.1, 0, 0])) == 0
    assert turns_round(Triangles(mesh.vertices, mesh.faces[:, ::-1]), np.zeros(3)) == -1


def test_least_area_over_a_ring_of_corners() -> None:
    # A regular polygon: n/2 r^2 sin(2 pi/n). A ring that is not convex: an L of area 3.
    for n in (3, 4, 7, 60):
        angle = np.arange(n) * 2 * math.pi / n
        faces, area = least_area(np.column_stack([np.cos(angle), np.sin(angle), 0 * angle]))
        assert len(faces) == n - 2
        assert area == pytest.approx(n / 2 * math.sin(2 * math.pi / n), rel=1e-9)
    corner = np.array([(0, 0, 0), (2, 0, 0), (2, 1, 0), (1, 1, 0), (1, 2, 0), (0, 2, 0)], dtype=float)
    assert least_area(corner)[1] == pytest.approx(3.0, rel=1e-9)


def test_corners_on_one_spot_are_one() -> None:
    rng = np.random.default_rng(5)
    spots = rng.normal(0, 100, (5000, 3)).astype(np.float32).astype(np.float64)
    picks = rng.integers(0, 5000, 30_000)
    points = spots[picks]
    points[::11] *= 1.0
    points[:3] = [(0.0, -0.0, 1.0), (-0.0, 0.0, 1.0), (1.0, 1.0, 1.0)]
    mesh = welded(points, np.arange(30_000).reshape(-1, 3))
    assert len(mesh.vertices) == len(np.unique(points + 0.0, axis=0))
    first = np.arange(30_000).reshape(-1, 3)[1:]
    whole = len(first) - sum(len({tuple(p) for p in points[row]}) < 3 for row in first)
    assert len(mesh.faces) == whole  # the first has two corners on one spot
    assert (mesh.corners[:50] == points[first[:50]]).all()
