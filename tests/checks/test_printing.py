"""Printing: each limit is met from both sides; spans and areas come from the geometry that was put in."""

from __future__ import annotations

import math

import numpy as np
import pytest
import trimesh
from tests.handmade import box, cut, joined, part, spec, turned

from fitwright.checks.printing import check
from fitwright.finding import Finding
from fitwright.part import Pose
from fitwright.pose import PoseChoice, choose_pose


def found(mesh: trimesh.Trimesh, code: str, **changes: object) -> list[Finding]:
    made, meshes = part(mesh)
    return [f for f in check(made, meshes, spec(**changes)) if f.code == f"printing.{code}"]


def one(mesh: trimesh.Trimesh, code: str, **changes: object) -> Finding:
    (finding,) = found(mesh, code, **changes)
    return finding


# --- bed -----------------------------------------------------------------------------------------------------------


def test_one_millimetre_larger_than_the_bed_fails():
    finding = one(box((0, 0, 0), (221, 221, 10)), "bed")
    assert finding.severity == "fail"
    assert (finding.value, finding.limit, finding.unit) == (pytest.approx(221.0), 220.0, "mm")
    assert finding.advice


def test_exactly_as_large_as_the_bed_passes():
    assert one(box((0, 0, 0), (220, 220, 240)), "bed").severity == "pass"


def test_one_millimetre_taller_than_the_printer_fails():
    finding = one(box((0, 0, 0), (20, 20, 241)), "bed")
    assert finding.severity == "fail"
    assert (finding.value, finding.limit) == (pytest.approx(241.0), 240.0)


def test_a_long_part_passes_turned_across_the_diagonal():
    # A strip a x b at 45 deg takes (a + b) / sqrt(2) each way: 290 + 20 gives 219.2, its own box is 290.
    finding = one(box((0, 0, 0), (290, 20, 10)), "bed")
    assert finding.severity == "pass"
    assert "turned 45 deg" in finding.place or "turned 135 deg" in finding.place
    # 291.2 + 20 gives 220.06.
    assert one(box((0, 0, 0), (291.2, 20, 10)), "bed").severity == "fail"


def test_the_outline_counts_and_not_its_box():
    # A thin cross of two strips fits turned although the box of the turned part is wider than its own box would allow.
    arm = box((-150, -5, 0), (150, 5, 10))
    other = arm.copy()
    other.apply_transform(trimesh.transformations.rotation_matrix(math.pi / 2, (0, 0, 1)))
    # Turned by 45 deg a cross of length L and width w takes (L + w) / sqrt(2) = 219.2.
    assert one(joined(arm, other), "bed").severity == "pass"


@pytest.mark.parametrize(("bed", "severity"), [((300.0, 30.0), "pass"), ((299.0, 30.0), "fail")])
def test_a_narrow_bed_takes_a_strip_along_its_long_side(bed, severity):
    mesh = box((0, 0, 0), (30, 300, 10))
    assert one(mesh, "bed", printer={"bed_x_mm": bed[0], "bed_y_mm": bed[1]}).severity == severity


# --- undersides ----------------------------------------------------------------------------------------------------


def graded(finding: Finding) -> str:
    """Overhangs only warn, since support can always be printed; the words say which warning it is."""
    words = {": it needs support": "support", ": it prints, a little rough": "rough"}
    grade = next((grade for said, grade in words.items() if said in finding.message), "clean")
    assert finding.severity == ("pass" if grade == "clean" else "warn")
    assert bool(finding.advice) == (grade != "clean")
    return grade


def outer_ledge(width: float) -> trimesh.Trimesh:
    return turned([(50, 0), (53, 0), (53, 30), (53 + width, 30), (53 + width, 40), (50, 40)])


def inner_ledge(width: float) -> trimesh.Trimesh:
    return turned([(50, 0), (53, 0), (53, 40), (50 - width, 40), (50 - width, 30), (50, 30)])


@pytest.mark.parametrize("ledge", [outer_ledge, inner_ledge])
@pytest.mark.parametrize(("width", "grade"), [(0.6, "clean"), (0.8, "clean"), (1.0, "rough"), (2.0, "support")])
def test_an_annular_shoulder_is_a_ledge(ledge, width, grade):
    finding = one(ledge(width), "overhang")
    assert graded(finding) == grade
    assert finding.value == pytest.approx(width, abs=0.01)
    assert (finding.limit, finding.unit) == (0.8, "mm")


def test_a_narrowing_of_a_small_bore_is_a_ledge_too():
    # Chords from wall to wall that pass beside the narrower hole are no bridges.
    mesh = turned([(10, 0), (15, 0), (15, 20), (8, 20), (8, 10), (10, 10)])
    finding = one(mesh, "overhang")
    assert (graded(finding), finding.value) == ("support", pytest.approx(2.0, abs=0.01))


def doorway(width: float) -> trimesh.Trimesh:
    return cut(box((0, 0, 0), (width + 10, 20, 20)), box((5, -1, -1), (5 + width, 21, 15)))


@pytest.mark.parametrize("turn_deg", [0.0, 17.0, 45.0])
@pytest.mark.parametrize(("width", "grade"), [(8, "clean"), (15, "rough"), (25, "support")])
def test_a_roof_between_two_walls_is_a_bridge(width, grade, turn_deg):
    mesh = doorway(width)
    mesh.apply_transform(trimesh.transformations.rotation_matrix(math.radians(turn_deg), (0, 0, 1)))
    finding = one(mesh, "overhang")
    assert graded(finding) == grade
    if grade != "support":
        assert finding.value == pytest.approx(width, abs=0.01)
    assert "bridge" in finding.message or grade == "support"


def test_a_closed_room_bridges_its_short_side():
    mesh = cut(box((0, 0, 0), (20, 60, 20)), box((5, 5, -1), (13, 45, 15)))
    finding = one(mesh, "overhang")
    assert (graded(finding), finding.value) == ("clean", pytest.approx(8.0, abs=0.01))


def test_a_round_roof_bridges_its_diameter():
    finding = one(turned([(0, 15), (7.5, 15), (7.5, 0), (18, 0), (18, 20), (0, 20)]), "overhang")
    assert (graded(finding), finding.value) == ("rough", pytest.approx(15.0, abs=0.1))


def block_with_horizontal_hole(d: float) -> trimesh.Trimesh:
    hole = trimesh.creation.cylinder(radius=d / 2, height=100, sections=128)
    hole.apply_transform(trimesh.transformations.rotation_matrix(math.pi / 2, (1, 0, 0)))
    hole.apply_translation((0, 0, 40))
    return cut(box((-30, -10, 0), (30, 10, 80)), hole)


@pytest.mark.parametrize(("d", "grade"), [(4, "clean"), (10, "clean"), (20, "rough"), (30, "support")])
def test_the_roof_of_a_horizontal_hole_counts_0_707_of_its_diameter(d, grade):
    finding = one(block_with_horizontal_hole(d), "overhang")
    assert graded(finding) == grade
    # The part of a circle flatter than 45 deg is 2 r sin 45; facets of 2.8 deg and 1 deg of slack shift it by 5 %.
    if grade != "support":
        assert finding.value == pytest.approx(d * math.sin(math.pi / 4), rel=0.05)


def cone(slope_deg: float, rise: float = 10.0) -> trimesh.Trimesh:
    reach = rise / math.tan(math.radians(slope_deg))
    return turned([(0, 0), (20, 0), (20, 5), (20 + reach, 5 + rise), (20 + reach, 25), (0, 25)])


@pytest.mark.parametrize("slope_deg", [45.0, 50.0, 80.0])
def test_an_underside_of_45_degrees_raises_nothing(slope_deg):
    finding = one(cone(slope_deg), "overhang")
    assert (graded(finding), finding.value) == ("clean", None)


@pytest.mark.parametrize(("slope_deg", "grade"), [(43, "rough"), (40, "rough"), (30, "rough"), (20, "support")])
def test_a_flatter_underside_is_reported_with_its_slope(slope_deg, grade):
    finding = one(cone(slope_deg), "overhang")
    assert graded(finding) == grade
    assert finding.value == pytest.approx(slope_deg, abs=0.05)
    assert (finding.limit, finding.unit) == (45.0, "deg")


def test_thinner_layers_make_a_flat_slope_better():
    # Step = layer / tan slope: at 20 deg 0.2 mm gives 0.55 > 0.42, 0.12 mm gives 0.33.
    assert graded(one(cone(20), "overhang", printer={"layer_mm": 0.12})) == "rough"


def test_a_small_flat_slope_is_no_worse_than_a_ledge():
    assert one(cone(20, rise=0.25), "overhang").severity == "pass"


def test_steps_lower_than_a_layer_are_one_ledge():
    steps = [(20 + 0.7 * k, 10 + 0.1 * (k - 1)) for k in (1, 2, 3)]
    profile = [(0, 0), (20, 0), (20, 10)]
    for r, z in steps:
        profile += [(r, z), (r, z + 0.1)]
    finding = one(turned([*profile[:-1], (steps[-1][0], 20), (0, 20)]), "overhang")
    assert (graded(finding), finding.value) == ("support", pytest.approx(2.1, abs=0.01))


def test_steps_of_a_millimetre_carry_the_next():
    profile = [
        (0, 0),
        (20, 0),
        (20, 10),
        (20.7, 10),
        (20.7, 11),
        (21.4, 11),
        (21.4, 12),
        (22.1, 12),
        (22.1, 20),
        (0, 20),
    ]
    assert one(turned(profile), "overhang").severity == "pass"


def test_a_prong_beside_a_wall_that_it_does_not_touch_is_held_at_its_root_only():
    # The prong runs 1 mm beside a wall; what counts is its 12 mm from the root, not the gap to the wall.
    root, prong, wall = box((0, 0, 0), (5, 20, 30)), box((5, 5, 25), (17, 10, 30)), box((4, 11, 0), (17, 20, 30))
    finding = one(joined(root, prong, wall), "overhang")
    assert graded(finding) == "support"
    assert finding.value == pytest.approx(12.0, abs=0.02)


# --- islands -------------------------------------------------------------------------------------------------------


def test_what_hangs_down_is_an_island():
    mesh = joined(box((0, 0, 0), (5, 20, 30)), box((0, 0, 25), (40, 20, 30)), box((30, 0, 10), (35, 20, 26)))
    finding = one(mesh, "island")
    assert finding.severity == "fail"
    assert "10.0 mm above the bed" in finding.place


def test_a_hanging_point_and_a_hanging_edge_are_islands():
    spike = trimesh.creation.cone(radius=4, height=10)
    spike.apply_transform(trimesh.transformations.rotation_matrix(math.pi, (1, 0, 0)))
    spike.apply_translation((12, 0, 22))
    base = turned([(0, 0), (5, 0), (5, 20), (20, 20), (20, 25), (0, 25)])
    assert one(joined(base, spike), "island").severity == "fail"
    lip = turned([(0, 0), (10, 0), (10, 30), (14, 15), (16, 30), (16, 40), (0, 40)])
    assert one(lip, "island").severity == "fail"


def test_pits_and_pots_are_no_islands():
    pit = cut(box((0, 0, 0), (20, 20, 20)), trimesh.creation.icosphere(radius=5).apply_translation((10, 10, 20)))
    assert one(pit, "island").severity == "pass"
    pot = cut(box((0, 0, 0), (20, 20, 20)), box((5, 5, 5), (15, 15, 25)))
    assert one(pot, "island").severity == "pass"


def test_a_flat_bottom_with_rounding_errors_is_no_island():
    mesh = outer_ledge(0.5)
    mesh.vertices += np.random.default_rng(1).normal(0.0, 1e-7, mesh.vertices.shape)
    assert one(mesh, "island").severity == "pass"


# --- first layer, stance, cost -------------------------------------------------------------------------------------


def test_the_first_layer_is_measured():
    finding = one(turned([(50, 0), (53, 0), (53, 30), (50, 30)]), "first_layer")
    exact = math.pi * (53**2 - 50**2)
    assert (finding.severity, finding.unit) == ("pass", "mm2")
    assert finding.value == pytest.approx(exact, rel=1e-3)  # 180 facets: area 0.02 % low


def test_a_ball_hardly_stands():
    finding = one(trimesh.creation.icosphere(radius=10, subdivisions=4), "first_layer")
    assert finding.severity == "warn"


def test_tall_and_thin():
    finding = one(box((0, 0, 0), (20, 40, 120)), "tall")
    assert (finding.severity, finding.value, finding.limit) == ("warn", pytest.approx(6.0), 5.0)
    assert one(box((0, 0, 0), (25, 40, 120)), "tall").severity == "pass"


def test_the_least_width_of_a_turned_base_counts():
    mesh = box((0, 0, 0), (20, 40, 120))
    mesh.apply_transform(trimesh.transformations.rotation_matrix(0.6, (0, 0, 1)))
    assert one(mesh, "tall").value == pytest.approx(6.0)


def test_a_centre_of_mass_outside_the_base():
    # Foot 20 x 20 x 30 (12000 mm3, centre at 10) and an arm on it from 20 to 80, 20 wide, 20 high (24000 mm3, at 50).
    mesh = joined(box((0, 0, 0), (20, 20, 30)), box((0, 0, 30), (80, 20, 50)))
    finding = one(mesh, "tall")
    # Arm 0..80 x 20 x 20 = 32000 mm3 at x = 40: (12000 * 10 + 32000 * 40) / 44000 = 31.82, 11.82 beyond 20.
    assert finding.severity == "warn"
    assert "11.8 mm outside" in finding.message


def test_mass_and_filament():
    finding = one(box((0, 0, 0), (100, 50, 20)), "cost")
    assert finding.value == pytest.approx(127.0)  # 100 cm3 x 1.27 g/cm3
    assert "41.6 m" in finding.message  # 100000 / (pi 1.75^2 / 4) = 41575 mm
    assert "roughly" in finding.message


def test_an_empty_mesh_is_not_checked():
    finding = one(trimesh.Trimesh(), "bed")
    assert finding.severity == "fail"
    assert "not checked" in finding.message


# --- pose ----------------------------------------------------------------------------------------------------------

DOWN, UP, SIDE = (Pose(n, d) for n, d in (("down", (0, 0, -1)), ("up", (0, 0, 1)), ("side", (1, 0, 0))))


def chosen(mesh: trimesh.Trimesh, *poses: Pose, **changes: object) -> PoseChoice:
    made, meshes = part(mesh, tuple(poses))
    return choose_pose(made.bodies[0], meshes["body"], spec(**changes).printer)


def test_the_pose_without_overhang_is_chosen():
    mesh = turned([(10, 0), (12, 0), (12, 30), (30, 30), (30, 36), (10, 36)])
    choice = chosen(mesh, DOWN, UP)
    assert choice.pose.name == "up"
    assert choice.others == ("down",)


def test_the_lower_of_two_good_poses_is_chosen():
    assert chosen(box((0, 0, 0), (20, 30, 80)), DOWN, SIDE).pose.name == "side"


def test_a_pose_that_does_not_fit_is_not_chosen():
    mesh = turned([(10, 0), (12, 0), (12, 250), (10, 250)])
    choice = chosen(mesh, DOWN, SIDE, printer={"bed_x_mm": 260.0})
    assert choice.pose.name == "side"


@pytest.mark.parametrize("down", [(0, 0, -1), (0, -1, 0), (1, 0, 0), (-1, 0.5, 2), (-1, 0, 0)])
@pytest.mark.parametrize("size", [(30, 20, 10), (290, 20, 10)])
def test_the_matrix_lays_the_part_on_the_bed(down, size):
    mesh = box((5, 6, 7), (5 + size[0], 6 + size[1], 7 + size[2]))
    choice = chosen(mesh, Pose("any", down))
    rotation = choice.rotation[:3, :3]
    assert rotation @ rotation.T == pytest.approx(np.eye(3), abs=1e-12)
    assert np.linalg.det(rotation) == pytest.approx(1.0)
    assert rotation @ (np.array(down) / np.linalg.norm(down)) == pytest.approx([0, 0, -1], abs=1e-12)
    laid = mesh.copy()
    laid.apply_transform(choice.rotation)
    (x0, y0, z0), (x1, y1, z1) = laid.bounds
    assert (x0 + x1, y0 + y1, z0) == pytest.approx((0, 0, 0), abs=1e-9)
    assert (x1 - x0, y1 - y0) == pytest.approx((choice.plan.width_mm, choice.plan.depth_mm))
    if choice.plan.fits:
        assert max(x1 - x0, y1 - y0) <= 220 + 1e-6
    assert z1 == pytest.approx(choice.height_mm)


@pytest.mark.parametrize("faces", [slice(None, -1), slice(0, 1), slice(0, 6)])
def test_a_broken_mesh_is_laid_all_the_same(faces):
    """`solid` says what is wrong with it; this check must not stumble over it."""
    whole = outer_ledge(2.0)
    mesh = trimesh.Trimesh(whole.vertices, whole.faces[faces], process=False)
    assert found(mesh, "bed")


def test_a_ball_on_a_point_stands_on_nothing():
    spike = trimesh.creation.cone(radius=4, height=10)
    spike.apply_transform(trimesh.transformations.rotation_matrix(math.pi, (1, 0, 0)))
    finding = one(spike, "tall")
    assert (finding.severity, finding.value) == ("warn", None)
