"""The one tessellation: round enough, repeatable, leaves the exact solid alone; broken meshes are refused by name."""

from __future__ import annotations

import math
import sys
from pathlib import Path

import numpy as np
import pytest
import trimesh
from cadquery import Solid, Vector, Wire

from fitwright.errors import BuildError
from fitwright.mesh import mesh_body, mesh_shape, to_manifold

sys.path.insert(0, str(Path(__file__).parent / "checks"))
from kernel_solids import body, box, oblique_loft, s_bend, tube


def digest(mesh: trimesh.Trimesh) -> tuple[bytes, bytes]:
    return np.asarray(mesh.vertices).tobytes(), np.asarray(mesh.faces).tobytes()


def test_a_100_mm_bore_is_within_0_02_of_round() -> None:
    """Across flats of an n-gon is D cos(pi/n); the coarse default of the kernel gave 99.27 for 100."""
    mesh = mesh_body(body(tube(50, 53, 60), 1)).mesh
    flats = mesh.triangles_center[:, (0, 2)]
    inner = np.hypot(*flats.T)[np.einsum("ij,ij->i", mesh.face_normals[:, (0, 2)], flats) < -1.0]
    across = np.hypot(*mesh.vertices[:, (0, 2)].T)
    assert across.min() == pytest.approx(50.0, abs=1e-6)
    assert 2 * inner.min() > 99.98


@pytest.mark.parametrize("angle", [0.0, 37.0])
def test_volume_and_closure(angle: float) -> None:
    """Tube volume pi (R^2 - r^2) L, here placed anywhere."""
    solid = tube(50, 53, 60).rotate(Vector(0, 0, 0), Vector(1, 2, 3), angle).translate(Vector(5, -70, 12))
    made = mesh_body(body(solid, 1))
    exact = math.pi * (53**2 - 50**2) * 60
    assert made.brep_volume_mm3 == pytest.approx(exact, rel=1e-9)
    assert made.mesh.volume == pytest.approx(exact, rel=5e-4)
    assert made.mesh.is_watertight and made.mesh.is_winding_consistent


def test_same_shape_same_bytes_whatever_was_asked_before() -> None:
    """The kernel caches meshes on the shape (CadQuery issue 1432): fine then coarse gave the fine one again."""
    fresh = digest(mesh_shape(tube(50, 53, 60), 0.1, 0.25))
    solid = tube(50, 53, 60)
    fine = mesh_shape(solid, 0.008, 0.2)
    assert digest(mesh_shape(solid, 0.1, 0.25)) == fresh
    assert len(fine.faces) > 2 * len(mesh_shape(solid, 0.1, 0.25).faces)


def test_bounding_box_is_the_same_before_and_after() -> None:
    """It grew from 60.0 to 63.1 for a D60 sphere (CadQuery issue 798)."""
    ball = Solid.makeSphere(30, Vector(0, 0, 0), Vector(0, 0, 1), -90, 90, 360)
    before = ball.BoundingBox().xlen
    mesh_shape(ball, 1.0, 0.5)
    assert ball.BoundingBox().xlen == before


def test_s_bend_stays_small_enough() -> None:
    """Two arcs of a 106 mm pipe: volume pi (R^2 - r^2) x length of the centre line (Pappus); below 150,000 facets."""
    made = mesh_body(body(s_bend(60, 200, 53, 50), 1))
    turn = 2 * math.atan2(60, 200)
    exact = math.pi * (53**2 - 50**2) * (60 + 200 * turn / math.sin(turn))
    assert made.mesh.volume == pytest.approx(exact, rel=5e-4)
    assert len(made.mesh.faces) < 150_000


@pytest.mark.parametrize("offset", [0.0, 20.0, 50.0])
def test_oblique_cones_are_meshed_lightly_and_well(offset: float) -> None:
    """Round at each height, with a radius linear in the height. Volume by the principle of Cavalieri."""
    made = mesh_body(body(oblique_loft(offset), 1))
    rise = math.pi * 60 / 3
    exact = rise * (53 * 53 + 53 * 35 + 35 * 35) - rise * (50 * 50 + 50 * 32 + 32 * 32)
    assert made.mesh.volume == pytest.approx(exact, rel=2e-4)
    assert len(made.mesh.faces) < 12_000
    middles = made.mesh.triangles_center
    share = middles[:, 1] / 60
    radius = np.hypot(middles[:, 0] - offset * share, middles[:, 2]) + 18 * share
    slanted = (share > 1e-6) & (share < 1 - 1e-6)
    assert np.minimum(np.abs(radius - 53), np.abs(radius - 50))[slanted].max() < 0.012


def test_twisted_ruled_surface_is_not_taken_for_a_cone() -> None:
    """A circle joined to an ellipse turned by 30 deg: straight lines, but the normal turns along them."""
    ellipse = Wire.makeEllipse(40, 25, Vector(0, 60, 0), Vector(0, 1, 0), Vector(1, 0, 0), rotation_angle=30.0)
    solid = Solid.makeLoft([Wire.makeCircle(40, Vector(0, 0, 0), Vector(0, 1, 0)), ellipse], True)
    assert mesh_shape(solid, 0.008, 0.2).volume == pytest.approx(solid.Volume(), rel=2e-4)


def test_too_many_triangles_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("fitwright.mesh.TOLERANCES", type("Few", (), {"max_triangles": 10, "weld_mm": 1e-5})())
    with pytest.raises(BuildError, match="more than 10"):
        mesh_shape(tube(50, 53, 60), 0.1, 0.25)


def test_empty_shape_gives_an_empty_mesh() -> None:
    """Everything cut away is a valid compound to the kernel."""
    nothing = box(0, 0, 0, 1, 1, 1).cut(box(-1, -1, -1, 2, 2, 2))
    assert len(mesh_shape(nothing, 0.01, 0.2).faces) == 0


def test_manifold_of_a_sound_mesh() -> None:
    assert to_manifold(trimesh.creation.box((2, 3, 4))).volume() == pytest.approx(24.0)


def open_box() -> trimesh.Trimesh:
    whole = trimesh.creation.box((2, 3, 4))
    return trimesh.Trimesh(whole.vertices, whole.faces[:-1], process=False)


def inverted_box() -> trimesh.Trimesh:
    whole = trimesh.creation.box((2, 3, 4))
    return trimesh.Trimesh(whole.vertices, whole.faces[:, ::-1], process=False)


@pytest.mark.parametrize("broken", [open_box(), inverted_box(), trimesh.Trimesh(process=False)])
def test_broken_meshes_are_not_checked_instead_of_passing(broken: trimesh.Trimesh) -> None:
    """Open: a gap equal to the search length; inverted: NoError and -24 mm3 (manifold issues 186, 765)."""
    with pytest.raises(BuildError, match="not checked"):
        to_manifold(broken)
