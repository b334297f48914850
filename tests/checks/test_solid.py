"""Check `solid` on parts that look sound to the kernel and are not; each input was run against the kernel before."""

from __future__ import annotations

import math

import numpy as np
import pytest
import trimesh
from cadquery import Compound, Edge, Matrix, Shell, Solid, Vector, Wire, Workplane
from kernel_solids import Y, bent_tube, body, box, faults, rod, run, s_bend, tube, turned

from fitwright.checks.solid import check
from fitwright.mesh import BodyMesh, mesh_body


def plate_with_holes(holes: int) -> Solid:
    plate = box(0, 0, 0, 60, 40, 6)
    for k in range(holes):
        plate = plate.cut(Solid.makeCylinder(3, 8, Vector(10 + 12 * k, 20, -1)))
    return plate


@pytest.mark.parametrize("holes", [0, 1, 4])
def test_sound_plates_pass(holes: int) -> None:
    """Volume: plate less cylinders; genus = number of holes."""
    exact = 60 * 40 * 6 - holes * math.pi * 9 * 6
    assert faults(run(check, body(plate_with_holes(holes), holes, volume_mm3=exact))) == []


def test_sound_bends_pass() -> None:
    """Pappus: area times length of the centre line."""
    exact = math.pi * (25**2 - 22**2) * (60 + 26 * math.pi / 2)
    assert faults(run(check, body(bent_tube(26, 25, 22), 1, volume_mm3=exact))) == []
    assert faults(run(check, body(s_bend(60, 200, 53, 50), 1))) == []


@pytest.mark.parametrize(("radius", "straight"), [(24.0, 30.0), (24.0, 5.0), (24.9, 30.0)])
def test_bend_tighter_than_the_pipe(radius: float, straight: float) -> None:
    """Folds over itself: valid, watertight, volume as by the formula (same cause as CadQuery issues 674, 808)."""
    folded = bent_tube(radius, 25, 22, straight)
    exact = math.pi * (25**2 - 22**2) * (2 * straight + radius * math.pi / 2)
    assert folded.isValid() and folded.Volume() == pytest.approx(exact)
    found = faults(run(check, body(folded, 1, volume_mm3=exact)))
    assert len(found) == 1 and "runs through itself" in found[0]


def test_nothing_left() -> None:
    """A rod cut by a larger one is a valid compound of volume 0."""
    nothing = rod(20, 30).cut(rod(25, 40, y=-5))
    assert nothing.isValid()
    found = faults(run(check, body(nothing)))
    assert any("0 solids" in f for f in found) and any("nothing is left" in f for f in found)
    assert any("mesh is empty" in f for f in found)


@pytest.mark.parametrize(
    "touching",
    [
        box(0, 0, 0, 20, 20, 20).fuse(box(20, 20, 0, 40, 40, 20)),
        rod(10, 20).fuse(rod(10, 20, x=20)),
        box(0, 0, 0, 40, 20, 20).cut(rod(5, 40, x=20, y=-10, z=5)),
        box(0, 0, 0, 60, 20, 20).cut(rod(5, 40, x=20, y=-10, z=10)).cut(rod(5, 40, x=30, y=-10, z=10)),
    ],
    ids=["boxes on an edge", "tangent rods", "hole tangent to a side", "tangent holes"],
)
def test_zero_thickness_contact(touching: Solid) -> None:
    """All four are valid to the kernel, with the right volume (manifold issue 241, trimesh issue 122)."""
    genus = 0
    assert faults(run(check, body(touching, genus))) != []


def test_overlapping_boxes() -> None:
    """The mesh's `is_volume` is True, and its volume counts the shared part twice (trimesh issue 1974)."""
    one, two = box(0, 0, 0, 20, 20, 20), box(10, 5, 5, 30, 15, 15)
    both = Compound.makeCompound([one, two])
    found = faults(run(check, body(both)))
    assert any("2 solids" in f for f in found) and any("runs through itself" in f for f in found)
    assert any("loose or overlapping piece" in f for f in found)


def as_mesh(*meshes: trimesh.Trimesh) -> BodyMesh:
    whole = trimesh.util.concatenate(list(meshes))
    return BodyMesh(whole, float(whole.volume))


def test_inner_box_of_the_same_winding_is_no_hollow() -> None:
    """`is_volume` is True and the volume 9000 where 7000 is right (trimesh issue 894)."""
    outer, inner = trimesh.creation.box((20, 20, 20)), trimesh.creation.box((10, 10, 10))
    found = faults(run(check, body(box(-10, -10, -10, 10, 10, 10)), as_mesh(outer, inner)))
    assert any("overlapping piece of 1000 mm3" in f for f in found)


def test_hollow_and_stray_hole_do_not_cancel() -> None:
    """A closed hollow takes one from the summed genus, a stray hole adds one."""
    wanted = tube(20, 30, 60)
    spoiled = wanted.cut(Solid.makeSphere(2, Vector(25, 30, 0), Vector(0, 0, 1), -90, 90, 360))
    spoiled = spoiled.cut(Solid.makeCylinder(2, 20, Vector(0, 30, 15)))
    mesh = mesh_body(body(spoiled))
    assert (2 - mesh.mesh.euler_number) // 2 == 1  # the sum over both shells: as if all were well
    found = faults(run(check, body(spoiled, 1), mesh))
    assert any("2 shells" in f for f in found) and any("2 through holes where 1" in f for f in found)
    assert any("closed hollow of 33." in f for f in found)  # 4/3 pi 2^3 = 33.51


def test_inverted() -> None:
    """Watertight, and inside out."""
    whole = trimesh.creation.box((20, 20, 20))
    inside_out = trimesh.Trimesh(whole.vertices, whole.faces[:, ::-1], process=False)
    found = faults(run(check, body(box(0, 0, 0, 20, 20, 20)), BodyMesh(inside_out, 8000.0)))
    assert found == ["not checked: the mesh encloses -8000 mm3"]


def test_open_shell() -> None:
    """A box that lacks a face, exact and as a mesh."""
    faces = box(0, 0, 0, 20, 20, 20).Faces()[:-1]
    found = faults(run(check, body(Shell.makeShell(faces))))
    assert any("0 solids" in f for f in found) and any("not closed" in f for f in found)


def test_missing_mesh_is_a_failure() -> None:
    whole = trimesh.Trimesh(process=False)
    assert faults(run(check, body(box(0, 0, 0, 20, 20, 20)), BodyMesh(whole, 8000.0))) == [
        "not checked: the mesh is empty"
    ]


def test_missing_face_shows_in_the_mesh_volume() -> None:
    """The mesh of another solid: 0.5 % is the limit."""
    mesh = mesh_body(body(box(0, 0, 0, 20, 20, 20.11)))
    found = faults(run(check, body(box(0, 0, 0, 20, 20, 20)), BodyMesh(mesh.mesh, 8000.0)))
    assert found == ["the mesh does not enclose the solid's volume"]


def test_volume_against_the_formula() -> None:
    """A mirror that turns a cylinder into splines gives 1584.33 for 1570.80; 1e-6 is the limit."""
    exact = math.pi * 25 * 20
    assert faults(run(check, body(rod(5, 20), volume_mm3=exact * (1 + 5e-7)))) == []
    assert faults(run(check, body(rod(5, 20), volume_mm3=exact * (1 + 2e-6)))) == [
        "its volume is not what the formula gives"
    ]


def test_shell_of_a_cone() -> None:
    """Known kernel fault (CadQuery issue 1494): a hollowed loft is an invalid solid, and fatter than asked."""
    cone = Workplane("XY").circle(50).workplane(offset=40).circle(32).loft().faces("|Z").shell(-3).val()
    found = faults(run(check, body(cone, 1)))
    assert "the kernel calls the solid invalid" in found
    assert {"not checked: it has no mesh", "the mesh does not enclose the solid's volume"} & set(found)


def test_clean_up_that_deletes_faces() -> None:
    """Known kernel fault (CadQuery issue 2020): the ball less a box measures 45.03 after it, 87.97 is right."""
    ball = Solid.makeSphere(5, Vector(0, 0, 0), Vector(0, 0, 1), -90, 90, 360)
    rest = ball.cut(box(-4, -4, -4, 4, 4, 4))
    assert faults(run(check, body(rest.clean(), volume_mm3=87.965))) != []


def test_groove_that_breaks_through() -> None:
    """2.5 deep in a wall of 2.4: the tube falls in two."""
    made = tube(50, 52.4, 60).cut(turned([(49, 20), (52.5, 20), (52.5, 24), (49, 24)]))
    assert "it is 2 solids, not one" in faults(run(check, body(made, 1)))


def test_spline_sweep_tighter_than_the_pipe() -> None:
    """Offset 20 over 60 with a 106 mm pipe: invalid, and three solids (same cause as CadQuery issues 674, 808)."""
    path = Edge.makeSpline([Vector(0, 0, 0), Vector(20, 60, 0)], [Y, Y], scale=True)
    rings = [Wire.makeCircle(r, Vector(0, 0, 0), Y) for r in (53, 50)]
    made = Solid.sweep(rings[0], rings[1:], Wire.assembleEdges([path]), True, False)
    found = faults(run(check, body(made, 1), BodyMesh(trimesh.Trimesh(process=False), made.Volume())))
    assert "the kernel calls the solid invalid" in found and any("solids, not one" in f for f in found)


@pytest.mark.parametrize(("inner_r", "aside"), [(10.0, 0.0), (8.0, 4.0), (3.0, 20.0)], ids=["same", "past", "outside"])
def test_rings_that_are_none(inner_r: float, aside: float) -> None:
    """An inner circle as large as the outer, past its rim, or outside it: none of them raises anything."""
    inner = Wire.makeCircle(inner_r, Vector(aside, 0, 0), Y)
    made = Solid.extrudeLinear(Wire.makeCircle(10, Vector(0, 0, 0), Y), [inner], Vector(0, 20, 0))
    exact = math.pi * (100 - inner_r**2) * 20
    assert faults(run(check, body(made, 1, volume_mm3=exact if inner_r < 10 else None))) != []


def test_mirror_by_matrix_changes_the_volume() -> None:
    """Known kernel fault: the cylinder becomes splines and measures 1584.3 instead of 1570.8; mirror() is exact."""
    bar, exact = rod(5, 20), math.pi * 25 * 20
    flipped = bar.transformGeometry(Matrix([[-1, 0, 0, 0], [0, 1, 0, 0], [0, 0, 1, 0]]))
    assert faults(run(check, body(flipped, volume_mm3=exact))) != []
    assert faults(run(check, body(bar.mirror("YZ"), volume_mm3=exact))) == []


def test_forgotten_hole() -> None:
    assert faults(run(check, body(plate_with_holes(3), 4))) == ["it has 3 through holes where 4 were meant"]


@pytest.mark.parametrize(("side", "severity"), [(14.9, "warn"), (15.0, "pass"), (1000.0, "pass"), (1001.0, "warn")])
def test_suspicious_sizes_warn(side: float, severity: str) -> None:
    """STL has no units: 4 in written as 4 mm shows by its size."""
    found = run(check, body(box(0, 0, 0, side, 10, 10)))
    assert severity in {f.severity for f in found} and not faults(found)
    assert ("warn" in {f.severity for f in found}) == (severity == "warn")


def test_findings_hold_plain_numbers() -> None:
    found = run(check, body(plate_with_holes(3), 4))
    assert all(type(f.value) in (float, type(None)) and not isinstance(f.value, np.floating) for f in found)
