"""Transitions on the finished mesh: passage, wall by its true normal, and what a sheet-metal worker would fold.

Truth from outside: sections cut by shapely from the mesh and integrated; a straight-line search for the wall that knows
nothing of how it was laid out; handbook volumes of a square-to-round and of an obelisk.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
import trimesh
from numpy.typing import NDArray
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.gp import gp_Pnt, gp_Vec
from tests.outlines import corner_section, random_section

from fitwright.checks.passage import area_mm2
from fitwright.frame import Frame
from fitwright.mesh import BodyMesh, mesh_shape
from fitwright.part import Station
from fitwright.section import LEAST_CORNER_MM, Section, circle, loft_area_mm2, oval, rectangle
from fitwright.shapes.loft import BLEND_MM, Transition, passage, root_wall_mm, tube

Points = NDArray[np.float64]

WALL = 2.52
FRAME = Frame((3.0, -20.0, 11.0), (0.0, 1.0, 0.0), (1.0, 0.0, 0.0))
D_SHAPE = corner_section([(50, -35), (50, 35), (-40, 40), (-55, 0), (-40, -40)]).grown(4)

PLAIN = {
    "square to round": Transition(rectangle(100, 100), circle(100), 90.0),
    "flat duct to round": Transition(rectangle(150, 60, 6), circle(100), 120.0),
    "rectangle to rectangle": Transition(rectangle(120, 60), rectangle(60, 120), 150.0),
    "rectangle turned": Transition(rectangle(120, 70, 3), rectangle(120, 70, 3).turned(math.radians(25)), 120.0),
    "oval to round": Transition(oval(140, 60), circle(95), 110.0),
    "outline to round": Transition(D_SHAPE, circle(80), 100.0),
    "round to rectangle, shifted": Transition(circle(100), rectangle(110, 70, 8).moved(20, -12), 130.0),
    "outline to outline, shifted": Transition(random_section(3), random_section(8).moved(-9, 6), 140.0),
    "steep": Transition(rectangle(160, 40, 4), oval(60, 100), 105.0),
    "shorter than its blends": Transition(rectangle(60, 50, 4), circle(56), 8.0),
    "grown alike all round": Transition(rectangle(80, 50, 5), rectangle(80, 50, 5).grown(12), 90.0),
}
CASES = {name: replace(t, a=t.a.rounded(), b=t.b.rounded()) for name, t in PLAIN.items()}
"""Sharp corners are built with the least radius."""


def outsides(transition: Transition) -> tuple[Section, Section]:
    """The outside at both ends, as joints would have it: a root's wall out all round."""
    root = root_wall_mm(transition, WALL)
    return transition.a.grown(root), transition.b.grown(root)


@cache
def built(case: str) -> tuple[trimesh.Trimesh, float]:
    """The wall's mesh, and the volume that it was laid out for."""
    solid, volume = tube(CASES[case], FRAME, WALL, outsides(CASES[case]))
    assert solid.isValid() and solid.Volume() == pytest.approx(volume, rel=2e-4)
    return mesh_shape(solid, 0.008, 0.2), volume


def areas(case: str, count: int) -> tuple[Points, Points]:
    """Areas of the passage in the mesh's sections at evenly spaced places along it [mm], just clear of its ends."""
    transition, mesh = CASES[case], BodyMesh(built(case)[0], 0.0)
    places = np.linspace(1e-4, transition.length_mm - 1e-4, count)
    return places, np.array([_area(mesh, transition, float(s)) for s in places])


def _area(mesh: BodyMesh, transition: Transition, s: float) -> float:
    right, up = transition.a.between(transition.b, s / transition.length_mm).centroid
    found = area_mm2([mesh], Station(Frame(FRAME.point(right, s, up), FRAME.inward, FRAME.right), 0.0))
    assert found is not None, s
    return found


@pytest.mark.parametrize("case", CASES)
def test_the_passages_volume_is_the_prismoidal_formulas(case: str) -> None:
    transition = CASES[case]
    assert passage(transition, FRAME).Volume() == pytest.approx(transition.passage_mm3, rel=1e-9)


@pytest.mark.parametrize("case", CASES)
def test_the_mesh_encloses_that_volume(case: str) -> None:
    """Simpson's rule over 41 sections of the finished mesh; within 0.03 % (the ends' 0.1 um are left out)."""
    transition = CASES[case]
    places, found = areas(case, 41)
    weights = np.array([1, *([4, 2] * 19), 4, 1]) * (places[1] - places[0]) / 3
    assert float(weights @ found) == pytest.approx(transition.passage_mm3, rel=3e-4)
    smaller = min(transition.a.area_mm2, transition.b.area_mm2)
    assert found.min() > smaller * (1 - 5e-4)
    meant = [loft_area_mm2(transition.a, transition.b, s / transition.length_mm) for s in places]
    assert np.allclose(found, meant, rtol=5e-4)


@pytest.mark.parametrize("case", CASES)
def test_one_tube_and_nothing_else(case: str) -> None:
    mesh, volume = built(case)
    assert mesh.is_watertight and mesh.is_winding_consistent and mesh.body_count == 1
    assert mesh.euler_number == 0  # of a tube
    assert mesh.volume == pytest.approx(volume, rel=2e-3)


def inside_and_outside(case: str) -> tuple[NDArray[np.bool_], NDArray[np.bool_]]:
    """Which facets are the passage's and which the outside's; neither: the flat ends."""
    mesh, transition = built(case)[0], CASES[case]
    local = np.asarray(mesh.triangles_center) - np.array(FRAME.origin)
    flat = np.abs(np.asarray(mesh.face_normals)[:, 1]) > 0.9999
    shares = local[:, 1] / transition.length_mm
    depth = np.array(
        [
            float(transition.a.between(transition.b, float(t)).distance([(x, z)])[0])
            for t, (x, _, z) in zip(shares, local, strict=True)
        ]
    )
    return ~flat & (depth < 0.5 * WALL), ~flat & (depth >= 0.5 * WALL)


def walls(case: str, count: int = 20_000) -> tuple[Points, Points]:
    """Thickness [mm] at random points of the passage and of the outside, and how far along it they lie [mm].

    The thickness is the distance to the nearest point of the other surface, exactly to its facets: the true normal's.
    """
    mesh = built(case)[0]
    inner, outer = inside_and_outside(case)
    found = []
    for here, there in ((inner, outer), (outer, inner)):
        own, other = mesh.submesh([here], append=True), mesh.submesh([there], append=True)
        points, _ = trimesh.sample.sample_surface(own, count // 2, seed=7)
        _, distance, _ = trimesh.proximity.closest_point(other, points)
        found.append((distance, points[:, 1] - FRAME.origin[1]))
    return np.concatenate([w for w, _ in found]), np.concatenate([s for _, s in found])


@pytest.mark.slow
@pytest.mark.parametrize("case", CASES)
def test_the_wall_by_its_true_normal_is_what_was_asked(case: str) -> None:
    """20,000 points: nowhere thinner (but for the mesh's chords), and thicker only beside the joints.

    Reached between the blends: 0.3 % thinner, where the mesh's chord of 0.008 mm lies; 0.2 % thicker.
    """
    transition = CASES[case]
    wall, s = walls(case)
    assert wall.min() > WALL - 0.010
    middle = (s > 1.5 * BLEND_MM) & (s < transition.length_mm - 1.5 * BLEND_MM)
    if middle.any():
        assert wall[middle].max() < 1.005 * WALL
    assert wall.max() < 1.005 * root_wall_mm(transition, WALL)


@pytest.mark.parametrize("case", CASES)
def test_it_can_be_folded_from_flat_sheet(case: str) -> None:
    """On every curved face of the passage one and the same normal stands along each straight line: developable."""
    curved = 0
    for face in passage(CASES[case], FRAME).Faces():
        if face.geomType() == "PLANE":
            continue
        curved += 1
        surface = BRepAdaptor_Surface(face.wrapped)
        ends = surface.FirstUParameter(), surface.LastUParameter()
        for u in np.linspace(*ends, 9):
            normals = np.array([normal(surface, float(u), v) for v in (0.0, 0.3, 0.7, 1.0)])
            assert np.allclose(normals, normals[0], atol=1e-6)
    assert curved >= 4


def normal(surface: Any, u: float, v: float) -> tuple[float, float, float]:
    """The surface's unit normal."""
    low, high = surface.FirstVParameter(), surface.LastVParameter()
    point, along_u, along_v = gp_Pnt(), gp_Vec(), gp_Vec()
    surface.D1(u, low + v * (high - low), point, along_u, along_v)
    n = along_u.Crossed(along_v)
    return (n.X() / n.Magnitude(), n.Y() / n.Magnitude(), n.Z() / n.Magnitude())


def test_the_flat_triangles_of_a_square_to_round() -> None:
    """Laid out by triangulation, each side is a triangle on the square's side whose true height is the hypotenuse of
    the length and of half the difference of side and diameter (any text of sheet-metal work)."""
    side, d, length = 100.0, 60.0, 90.0
    made = passage(Transition(rectangle(side, side).rounded(), circle(d), length), FRAME)
    sides = [f.Area() for f in made.Faces() if f.geomType() == "PLANE" and abs(f.normalAt().y) < 0.9999]
    true_height = math.hypot(length, (side - d) / 2)
    assert sides == pytest.approx([(side - 2 * LEAST_CORNER_MM) * true_height / 2] * 4, rel=1e-9)


def test_a_square_to_round_by_parts() -> None:
    """A pyramid on the square, four quarters of a cone on the circle, four tetrahedra between them (see test_section);
    corners of 0.3 mm shorten the square's sides by 0.13 %, and the tetrahedra with them."""
    made = passage(Transition(rectangle(100, 100).rounded(), circle(60), 90.0), FRAME)
    by_parts = 90 * (100**2 / 3 + math.pi * 60**2 / 12 + 4 * 100 * 60 / 12)
    assert made.Volume() == pytest.approx(by_parts, rel=5e-4)


def test_an_obelisk() -> None:
    """h / 6 (a b + (a + c)(b + d) + c d) between two rectangles with parallel sides (handbooks of mathematics)."""
    made = passage(Transition(rectangle(120, 60).rounded(), rectangle(60, 120).rounded(), 150.0), FRAME)
    assert made.Volume() == pytest.approx(150 / 6 * (120 * 60 + 180 * 180 + 60 * 120), rel=3e-5)


@pytest.mark.parametrize("case", CASES)
def test_steepest_is_the_steepest_facet(case: str) -> None:
    """Against the finished mesh: the tangent of the facets' lean against the axis."""
    mesh, _ = built(case)
    inner, _ = inside_and_outside(case)
    n = np.asarray(mesh.face_normals)[inner]
    lean = np.abs(n[:, 1]) / np.hypot(n[:, 0], n[:, 2])
    assert lean.max() == pytest.approx(CASES[case].steepest, rel=2e-3, abs=1e-4)
