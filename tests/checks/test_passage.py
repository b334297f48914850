"""`passage`: areas against closed forms; lumps, gaps and halves; parts spoilt after they were built."""

from __future__ import annotations

import math
from dataclasses import replace

import cadquery as cq
import numpy as np
import pytest
import shapely
import trimesh
from tests.handmade import box, cut, joined, turned
from tests.test_must_fail import box as solid_box
from tests.test_must_fail import only, spoilt, the
from tests.whole import blocking, body_of, part_of, result_of

from fitwright.checks import passage
from fitwright.finding import Finding
from fitwright.frame import Frame
from fitwright.mesh import BodyMesh
from fitwright.part import Part, Station
from fitwright.section import oval

UP = Frame((0.0, 0.0, 20.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))
"""Half way up a passage that stands 40 mm high along z."""
TRANSITION = """part: reducer
end_a: {socket: {over: {rectangle: {width: 120, height: 60, corner: 5}}}}
end_b: {plain: {inside: 80}}
"""


def area(*meshes: trimesh.Trimesh, frame: Frame = UP) -> float | None:
    """The passage's area where the frame stands."""
    return passage.area_mm2([BodyMesh(mesh, 0.0) for mesh in meshes], Station(frame, 0.0))


def square_tube(inside: tuple[float, float], wall: float = 3.0) -> trimesh.Trimesh:
    """A tube 40 mm high round the z axis."""
    x, y = inside[0] / 2, inside[1] / 2
    return cut(box((-x - wall, -y - wall, 0), (x + wall, y + wall, 40)), box((-x, -y, -1), (x, y, 41)))


# closed forms


def test_a_rectangular_tube() -> None:
    assert area(square_tube((70, 30))) == pytest.approx(70 * 30, rel=1e-9)


@pytest.mark.parametrize("sections", [60, 180])
def test_a_round_tube_is_the_polygon_it_is_meshed_as(sections: int) -> None:
    """n / 2 r^2 sin(2 pi / n)."""
    found = area(turned([(25, 0), (28, 0), (28, 40), (25, 40)], sections))
    assert found == pytest.approx(sections / 2 * 25**2 * math.sin(math.tau / sections), rel=1e-9)


def test_a_cone_half_way_up() -> None:
    found = area(turned([(20, 0), (33, 0), (33, 40), (30, 40)], 720))
    assert found == pytest.approx(math.pi * 25**2, rel=2e-5)


@pytest.mark.parametrize("tilt", [10.0, 35.0])
def test_a_plane_aslant_sees_a_longer_hole(tilt: float) -> None:
    """Cut at an angle, a rectangular hole is longer by 1 / cos."""
    t = math.radians(tilt)
    frame = Frame((0.0, 0.0, 20.0), (math.sin(t), 0.0, math.cos(t)), (math.cos(t), 0.0, -math.sin(t)))
    assert area(square_tube((20, 16)), frame=frame) == pytest.approx(20 * 16 / math.cos(t), rel=1e-9)


def test_bolt_holes_beside_it_are_not_the_passage() -> None:
    plate = cut(square_tube((70, 30), 20), box((45, -3, -1), (51, 3, 41)))
    assert area(plate) == pytest.approx(70 * 30, rel=1e-9)


# halves


def test_halves_close_the_passage_between_them() -> None:
    whole = square_tube((70, 30))
    left, right = (
        cut(whole, box(*corners)) for corners in (((0, -50, -5), (50, 50, 45)), ((-50, -50, -5), (0, 50, 45)))
    )
    assert area(left, right) == pytest.approx(70 * 30, rel=1e-6)
    assert area(left) is None  # one of them alone is no passage
    right.apply_translation((0.04, 0, 0))
    assert area(left, right) == pytest.approx(70.04 * 30, rel=1e-3)


def test_halves_that_stand_apart_do_not() -> None:
    whole = square_tube((70, 30))
    left, right = (
        cut(whole, box(*corners)) for corners in (((0, -50, -5), (50, 50, 45)), ((-50, -50, -5), (0, 50, 45)))
    )
    right.apply_translation((0.3, 0, 0))
    assert area(left, right) is None


# what fails


def judged(mesh: trimesh.Trimesh, middle: float) -> list[Finding]:
    """What the check says of a tube of 70 x 30 in which `middle` mm2 were meant half way up."""
    frames = [replace(UP, origin=(0.0, 0.0, z)) for z in (3.0, 20.0, 37.0)]
    stations = tuple(Station(f, a) for f, a in zip(frames, (2100.0, middle, 2100.0), strict=True))
    made: Part = replace(part_of(TRANSITION), stations=stations)
    return passage.check(made, {made.bodies[0].name: BodyMesh(mesh, 0.0)})


def waisted(by_mm: float) -> trimesh.Trimesh:
    """70 x 30, narrower by this half way up."""
    return joined(square_tube((70, 30)), box((-36, -16, 15), (36, -15 + by_mm, 25)))


def test_as_meant_and_wide_enough() -> None:
    (finding,) = judged(square_tube((70, 30)), 2100)
    assert finding.severity == "pass" and "100 %" in finding.message


def test_a_little_narrower_as_meant_passes() -> None:
    (finding,) = judged(waisted(0.5), 70 * 29.5)
    assert finding.severity == "pass" and finding.value == pytest.approx(70 * 29.5)


def test_narrower_than_its_narrower_end_even_if_it_was_meant() -> None:
    (finding,) = judged(waisted(1.0), 70 * 29)
    assert finding.severity == "fail" and finding.blocks and "97 %" in finding.message and "chokes" in finding.message


def test_a_lump_that_was_not_meant() -> None:
    wrong, narrow = judged(waisted(5.0), 2100)
    assert (wrong.severity, narrow.severity) == ("fail", "fail")
    assert narrow.value == pytest.approx(narrow.limit * 25 / 30)  # type: ignore[operator]


def test_a_slot_through_the_wall() -> None:
    found = judged(cut(square_tube((70, 30)), box((-1, 10, 15), (1, 30, 25))), 2100)
    assert [f.severity for f in found] == ["fail", "pass"] and "not closed all round" in found[0].message


def test_no_stations_no_finding() -> None:
    assert passage.check(replace(part_of(TRANSITION), stations=()), {}) == []


# parts built from YAML


def test_a_transition_passes_and_tells_its_narrowest_place() -> None:
    (finding,) = (f for f in result_of(TRANSITION).findings if f.code == "passage")
    assert finding.severity == "pass"
    assert finding.value == pytest.approx(math.pi * 40**2, rel=0.01)  # its round end is the narrower


def test_a_lump_inside_a_built_part() -> None:
    length = max(v.Y for v in body_of(TRANSITION).solid.Vertices())
    lump = solid_box((-70, length * 0.55, -60), (70, length * 0.8, -22)).intersect(hull(TRANSITION))
    found = spoilt(TRANSITION, only(body_of(TRANSITION).solid.fuse(lump)), codes=("passage",), volume_mm3=None)
    the(found, "passage", "the passage chokes")
    the(found, "passage", "were meant")


def test_a_window_in_a_built_part() -> None:
    length = max(v.Y for v in body_of(TRANSITION).solid.Vertices())
    window = solid_box((-3, length * 0.45, 10), (3, length * 0.75, 90))
    found = spoilt(TRANSITION, body_of(TRANSITION).solid.cut(window), codes=("passage",), volume_mm3=None, genus=2)
    finding = the(found, "passage", "not closed all round")
    assert finding.blocks and "passage" in blocking(found)


def hull(text: str) -> cq.Solid:
    """Everything within the part's passage and wall: what a lump must stay in."""
    made = body_of(text)
    passages = [f.tool for f in made.features if f.name.startswith("passage")]
    return only(made.solid.fuse(*passages))  # type: ignore[no-any-return]


def test_an_oval_passage_is_measured_like_shapely_does() -> None:
    """The section's own polygon, extruded: area within its chords."""
    outer, inner = (trimesh.creation.extrude_polygon(polygon(g), 40) for g in (3.0, 0.0))
    inner.apply_scale((1, 1, 2))
    inner.apply_translation((0, 0, -20))
    assert area(cut(outer, inner)) == pytest.approx(oval(90, 40).area_mm2, rel=1e-3)


def polygon(by: float) -> shapely.Polygon:
    """A slot-ended polygon grown by `by`."""
    made = oval(90, 40)
    return shapely.Polygon(np.asarray((made.grown(by) if by else made).polygon(0.005)))
