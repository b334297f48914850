"""Check `wall` against closed forms: within 1 % of the least wall plus the mesh's own chord error of 2 x 0.008 mm."""

from __future__ import annotations

import math
import re

import pytest
import trimesh
from cadquery import Shape, Solid, Vector, Wire
from kernel_solids import ALONG, bent_tube, body, box, faults, oblique_loft, rod, run, s_bend, tube, turned

from fitwright.checks.wall import check
from fitwright.mesh import BodyMesh
from fitwright.part import WallZone


def least(solid: Shape, *zones: WallZone) -> float:
    found = run(check, body(solid, wall_zones=zones))
    assert found[0].value is not None
    return found[0].value


def about(wall_mm: float) -> object:
    return pytest.approx(wall_mm, abs=0.01 * wall_mm + 0.016)


def lip(name: str, to_s: float, limit: float) -> WallZone:
    return WallZone(name, ALONG, -1.0, to_s, 0.0, 60.0, limit)


@pytest.mark.parametrize("wall", [0.8, 2.4, 5.0])
def test_tube(wall: float) -> None:
    assert least(tube(50, 50 + wall, 60)) == about(wall)


@pytest.mark.parametrize(("right", "up"), [(1.1, 0.0), (-0.4, 0.9), (2.0, -2.0)])
def test_eccentric_tube(right: float, up: float) -> None:
    """Wall less the distance between the axes."""
    assert least(rod(54, 60).cut(rod(50, 62, x=right, y=-1, z=up))) == about(4 - math.hypot(right, up))


@pytest.mark.parametrize("gap", [0.0, 1.0, 2.0])
def test_stepped_tube_from_corner_to_corner(gap: float) -> None:
    """Two re-entrant corners, `gap` by 2 mm apart, which no normal of a face joins."""
    profile = [(25 - gap, 0), (30, 0), (30, 40), (25, 40), (25, 80), (20, 80), (20, 38), (25 - gap, 38)]
    assert least(turned(profile)) == about(math.hypot(gap, 2))


def test_stepped_tube_face_to_face() -> None:
    """The steps overlap by 2: their faces are 2.5 apart along the axis, both walls 5."""
    assert least(turned([(25, 0), (30, 0), (30, 40), (23, 40), (23, 80), (18, 80), (18, 37.5), (25, 37.5)])) == about(
        2.5
    )


@pytest.mark.parametrize("half_angle", [5.0, 15.0, 30.0, 45.0])
def test_cone_with_its_wall_taken_level(half_angle: float) -> None:
    """3 mm between the radii are 3 cos(half angle) square to the surface."""
    run_out = 30 * math.tan(math.radians(half_angle))
    assert least(turned([(40, 0), (43, 0), (43 + run_out, 30), (40 + run_out, 30)])) == about(
        3 * math.cos(math.radians(half_angle))
    )


@pytest.mark.parametrize("offset", [0.0, 20.0, 50.0, 90.0])
def test_oblique_loft(offset: float) -> None:
    """CadQuery issues 523, 1918: level wall 3, square to the surface 3 cos atan((offset + 18) / 60)."""
    exact = 3 * math.cos(math.atan((offset + 18) / 60))
    found = run(check, body(oblique_loft(offset), 1, wall_mm=2.4))
    assert found[0].value == about(exact)
    assert found[0].severity == ("pass" if exact > 2.4 else "fail")


@pytest.mark.parametrize(("offset", "wall"), [(60.0, 3.0), (30.0, 2.4)])
def test_s_bend(offset: float, wall: float) -> None:
    """A swept tube keeps its wall everywhere."""
    assert least(s_bend(offset, 200, 50 + wall, 50)) == about(wall)


def test_bend_at_its_tightest() -> None:
    """1 mm between the inner bend's surface and its axis; the wall is still 3."""
    assert least(bent_tube(26, 25, 22)) == about(3)


@pytest.mark.parametrize("ligament", [0.3, 1.0])
def test_hole_near_an_edge(ligament: float) -> None:
    plate = box(0, 0, 0, 60, 40, 6).cut(Solid.makeCylinder(2.5, 8, Vector(2.5 + ligament, 20, -1)))
    assert least(plate) == about(ligament)


@pytest.mark.parametrize("ligament", [0.6, 1.2])
def test_between_two_holes(ligament: float) -> None:
    plate = box(0, 0, 0, 60, 40, 6)
    for x in (20.0, 30.0 + ligament):
        plate = plate.cut(Solid.makeCylinder(5, 8, Vector(x, 20, -1)))
    assert least(plate) == about(ligament)


def test_facing_grooves() -> None:
    """1.1 from outside and 1.2 from inside leave 1.7 of 4."""
    made = tube(50, 54, 60).cut(turned([(52.9, 20), (55, 20), (55, 24), (52.9, 24)]))
    assert least(made.cut(turned([(49, 20.5), (51.2, 20.5), (51.2, 24.5), (49, 24.5)]))) == about(1.7)


def test_staggered_grooves() -> None:
    """They pass each other: 0.6 across, 1.0 along, corner to corner."""
    made = tube(50, 54, 60).cut(turned([(52.4, 20), (55, 20), (55, 24), (52.4, 24)]))
    assert least(made.cut(turned([(49, 25), (51.8, 25), (51.8, 29), (49, 29)]))) == about(math.hypot(0.6, 1.0))


def test_groove_that_breaks_through() -> None:
    """2.39 of 2.4 are gone: a skin of 0.01 is left."""
    made = tube(50, 52.4, 60).cut(turned([(49, 20), (52.39, 20), (52.39, 24), (49, 24)]))
    assert least(made) == pytest.approx(0.01, abs=0.016)


@pytest.mark.parametrize("thickness", [0.6, 3.0])
def test_plate_passes_at_its_own_thickness(thickness: float) -> None:
    """Inscribed spheres gave 0.03 for a 3 mm plate, rays from its edge faces 60."""
    assert least(box(0, 0, 0, 60, 40, thickness)) == pytest.approx(thickness, abs=1e-6)


def test_thin_large_plate() -> None:
    """Rays started 1e-8 inside gave 0.0 everywhere (trimesh issue 48)."""
    assert least(box(0, 0, 0, 1000, 1000, 0.4)) == pytest.approx(0.4, abs=1e-6)


def test_tube_tapering_to_a_narrow_end() -> None:
    """3 to 1 mm over 60: about 1.0, and not 0.156 from the narrow end face."""
    assert least(turned([(20, 0), (23, 0), (21, 60), (20, 60)])) == about(math.cos(math.atan(2 / 60)))


@pytest.mark.parametrize("angle", [15.0, 45.0])
def test_lead_in_raises_nothing_where_its_lip_is_declared(angle: float) -> None:
    """Wall 2.4, lead-in 1.2 radial: the lip is 1.2 and its own limit 1.0."""
    length = 1.2 / math.tan(math.radians(angle))
    made = turned([(51.2, 0), (52.4, 0), (52.4, 60), (50, 60), (50, length)])
    found = run(check, body(made, 1, wall_zones=(lip("end_a lip", length, 1.0),)))
    assert [f.severity for f in found] == ["pass", "pass"]
    assert found[0].value == about(2.4) and found[1].value == about(1.2) and "end_a lip" in found[1].place


@pytest.mark.parametrize("angle", [30.0, 45.0])
def test_sharp_edge_of_a_full_lead_in_is_an_edge(angle: float) -> None:
    made = turned([(52.4, 0), (52.4, 60), (50, 60), (50, 2.4 / math.tan(math.radians(angle)))])
    assert least(made) == about(2.4)


def test_knife_edge_is_a_thin_lip() -> None:
    """At 10 deg the edge is thin long before it ends: a feather, not an edge."""
    made = turned([(52.4, 0), (52.4, 60), (50, 60), (50, 2.4 / math.tan(math.radians(10)))])
    assert least(made) < 0.3


def test_45_deg_edges_of_a_plate_raise_nothing() -> None:
    """A wedge with a 45 deg edge along its side."""
    points = [(0, 0), (60, 0), (54, 6), (0, 6)]
    wedge = Solid.extrudeLinear(
        Wire.makePolygon([Vector(x, 0, z) for x, z in points], close=True), [], Vector(0, 40, 0)
    )
    assert least(wedge) == about(6.0)


def test_air_between_two_walls_is_no_wall() -> None:
    """Two tubes one in the other, 0.5 apart, joined by a floor: the gap is air."""
    profile = [(20, 0), (23, 0), (23, 40), (23.5, 40), (23.5, 0), (26.5, 0), (26.5, 43), (20, 43)]
    assert least(turned(profile)) == about(3.0)


@pytest.mark.parametrize(("wall", "severity"), [(2.4, "pass"), (2.3, "fail")])
def test_a_tenth_too_thin_fails(wall: float, severity: str) -> None:
    found = run(check, body(tube(50, 50 + wall, 60), 1, wall_mm=2.4))
    assert found[0].severity == severity
    assert bool(found[0].advice) == (severity == "fail")


def test_zone_too_thin_fails_by_its_own_limit_and_says_where() -> None:
    made = turned([(51.6, 0), (52.4, 0), (52.4, 60), (50, 60), (50, 1.6)])
    found = run(check, body(made, 1, wall_zones=(lip("end_a lip", 1.6, 1.0),)))
    assert [f.severity for f in found] == ["pass", "fail"]
    assert found[1].value == about(0.8) and found[1].place.startswith("end_a lip, ")


def test_zone_with_nothing_in_it_is_not_checked() -> None:
    zone = WallZone("end_a lip", ALONG, 100.0, 110.0, 0.0, 60.0, 1.0)
    assert faults(run(check, body(tube(50, 53, 60), 1, wall_zones=(zone,)))) == [
        "not checked: no wall was found in end_a lip"
    ]


def test_place_is_in_the_words_of_the_frame() -> None:
    """The only thin place is a hole 0.3 from the plate's left edge, 20 away."""
    plate = box(0, 0, 0, 60, 40, 6).cut(Solid.makeCylinder(2.5, 8, Vector(2.8, 20, -1)))
    place = run(check, body(plate, 1))[0].place
    assert re.match(r"0\.[12] mm right, (19\.[5-9]|20\.[0-5]) mm away, [0-6]\.\d mm up", place)


def test_same_part_same_finding() -> None:
    assert run(check, body(oblique_loft(50), 1)) == run(check, body(oblique_loft(50), 1))


@pytest.mark.parametrize("broken", ["open", "empty"])
def test_broken_mesh_is_not_checked(broken: str) -> None:
    whole = trimesh.creation.box((20, 20, 20))
    faces = whole.faces[:-1] if broken == "open" else whole.faces[:0]
    mesh = trimesh.Trimesh(whole.vertices, faces, process=False)
    found = run(check, body(box(0, 0, 0, 20, 20, 20)), BodyMesh(mesh, 8000.0))
    assert [f.severity for f in found] == ["fail"] and "not checked" in found[0].message
