"""Sections that are not round along bends: volumes by Pappus, sizes and orientation measured on the finished mesh."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
import trimesh
from tests.whole import blocking, body_of, fact, findings, mesh_of, meshes_of, part_of, result_of

from fitwright.checks import passage
from fitwright.checks.passage import area_mm2
from fitwright.checks.passage import section_loops as loops_in
from fitwright.errors import RefusalError
from fitwright.mesh import BodyMesh
from fitwright.part import Frame
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

WALL = 2.52  # six lines of 0.42
ELBOW = """part: offset_adapter
angle: 90 deg
turns: right
bend_radius: {radius}
end_a: {{plain: {{inside: {{rectangle: {{width: 120, height: 60, corner: 5}}}}}}}}
end_b: {{plain: {{inside: {{rectangle: {{width: 120, height: 60, corner: 5}}}}}}}}
"""


def corners_mm2(radius: float) -> float:
    """What rounding takes from a rectangle's four corners."""
    return (4.0 - math.pi) * radius**2


def test_an_elbow_of_a_rectangular_duct_has_the_volume_that_pappus_gives() -> None:
    text = ELBOW.format(radius=130)
    ring = (120 + 2 * WALL) * (60 + 2 * WALL) - corners_mm2(5 + WALL) - 120 * 60 + corners_mm2(5)
    assert body_of(text).solid.Volume() == pytest.approx(ring * (10 + 10 + 130 * math.pi / 2), rel=1e-9)
    assert body_of(text).genus == 1 and not blocking(result_of(text).findings)


def test_the_passage_of_an_elbow_is_as_wide_all_along() -> None:
    text = ELBOW.format(radius=130)
    areas = [area_mm2(meshes_of(text).values(), station) for station in part_of(text).stations]
    assert areas == [pytest.approx(120 * 60 - corners_mm2(5), rel=2e-3)] * len(areas)


def test_a_flat_duct_may_bend_tightly_the_flat_way_and_not_the_other() -> None:
    """The centreline's radius must exceed half the width in the bend's plane, a wall and 2 mm."""
    flat = ELBOW.replace("turns: right", "turns: up")
    assert body_of(flat.format(radius=45)).solid.isValid()  # 30 + 2.5 + 2 = 34.5
    with pytest.raises(RefusalError, match="bend_radius") as error:
        (spec,) = load_text(ELBOW.format(radius=45), "x.yaml")
        BUILDERS["offset_adapter"](spec)
    assert error.value.key == "bend_radius" and error.value.allowed.startswith("64.5")


SPACE = """part: offset_adapter
printer: {{name: large, bed_x: 500, bed_y: 500, bed_z: 500}}
offset: {{right: 50, up: 60}}
angle: 40 deg
turns: left
end_a: {{plain: {{inside: {{rectangle: {{width: 100, height: 60, corner: 5}}}}}}}}
end_b: {{plain: {{inside: {0}}}}}
"""


def opening(text: str, depth_mm: float) -> shapely.Polygon:
    """The passage seen by who looks into end_b, so deep in its plain end: (right, up) in end_b's own frame."""
    part = part_of(text)
    (mouth,) = (at for name, at in part.labels.items() if name.startswith("end_b"))
    (spec,) = load_text(text, "x.yaml")
    angle = math.radians(spec.angle_deg)
    inward = np.array([math.sin(angle), -math.cos(angle), 0.0])  # turned left: away and to the left
    right = np.array([-math.cos(angle), -math.sin(angle), 0.0])  # level, as up stays up when it turns sideways
    origin = np.array(mouth) + depth_mm * inward
    at = Frame(tuple(origin.tolist()), tuple(inward.tolist()), tuple(right.tolist()))
    return min((shapely.Polygon(loop) for loop in loops_in(mesh_of(text), at)), key=lambda p: p.area)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("section", "width", "height", "area"),
    [
        ("{rectangle: {width: 110, height: 50, corner: 4}}", 110, 50, 110 * 50 - corners_mm2(4)),
        ("{oval: {width: 110, height: 60}}", 110, 60, 50 * 60 + math.pi * 900),
        ("80", 80, 80, math.pi * 1600),
    ],
)
def test_a_section_arrives_upright_and_in_size_through_space(
    section: str, width: float, height: float, area: float
) -> None:
    text = SPACE.format(section)
    hole = opening(text, 5.0)
    left, low, right, high = hole.bounds
    assert (right - left, high - low) == pytest.approx((width, height), abs=0.03)
    assert (left + right, low + high) == pytest.approx((0.0, 0.0), abs=0.02)
    assert hole.area == pytest.approx(area, rel=1e-3)
    assert not blocking(result_of(text).findings)


@pytest.mark.slow
def test_the_wall_is_as_asked_all_along_a_bend_in_space() -> None:
    for section in ("{oval: {width: 110, height: 60}}", "80"):
        (wall,) = (f for f in findings(SPACE.format(section), "wall") if "lip" not in f.place)
        assert wall.value is not None and wall.value >= 0.98 * WALL


def test_the_report_tells_both_sections() -> None:
    assert "100.0 x 60.0 mm at end_a, 110.0 x 60.0 mm at end_b" in fact(
        SPACE.format("{oval: {width: 110, height: 60}}"), "passage"
    )


def test_a_lump_that_stands_in_the_middle_of_a_bend_takes_from_its_passage() -> None:
    text = ELBOW.format(radius=130)
    station = part_of(text).stations[2]
    lump = trimesh.creation.icosphere(subdivisions=4, radius=20)
    lump.apply_translation(station.frame.origin)
    meshes = {**meshes_of(text), "lump": BodyMesh(lump, float(lump.volume))}
    found = area_mm2(meshes.values(), station)
    assert found == pytest.approx(station.area_mm2 - math.pi * 20**2, rel=2e-3)
    (finding,) = (f for f in passage.check(part_of(text), meshes) if "chokes" in f.message)
    assert finding.severity == "fail"
