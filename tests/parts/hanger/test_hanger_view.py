"""What stands round a hanger: hose, strap, template, words, and a hanger that rides on a machine."""

from __future__ import annotations

import math

import pytest
from tests.hanger_specs import HOSE_100, hanger

from fitwright.checks.clearance import check
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.envelope import Envelope, PlaneObstacle
from fitwright.spec.hanger import HangerMount, HoseHangerSpec


def clashes(part: Part, spec: HoseHangerSpec) -> list[str]:
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    return [f.message for f in check(part, meshes, spec) if f.severity != "pass"]


def test_the_hose_is_a_tube_through_the_hanger() -> None:
    """Its volume by its readings: outside 108.37 (the mean), inside 100."""
    part = build_hose_hanger(hanger())
    hose = next(one for one in part.stand_ins if one.name == "hose")
    box = hose.solid.BoundingBox()
    d = HOSE_100.size.nominal_mm
    assert hose.solid.Volume() == pytest.approx(math.pi / 4 * (d**2 - 100.0**2) * box.ylen, rel=1e-9)
    assert box.ymin < 0.0 and box.ymax > 40.0


@pytest.mark.parametrize("side", ["up", "down", "left", "right"])
def test_hose_and_strap_clash_with_nothing(side: str) -> None:
    spec = hanger(mount=HangerMount(kind="flat", side=side))
    assert clashes(build_hose_hanger(spec), spec) == []


def wall(at_x: float) -> Envelope:
    obstacle = PlaneObstacle((at_x, 0.0, 0.0), (-1.0, 0.0, 0.0), "envelope.keep_clear[0]", 3.0, "gantry's end plate")
    return Envelope(keep_clear=(obstacle,))


def test_a_hanger_that_rides_is_held_against_what_stands_still_over_all_its_travel() -> None:
    """It ends at about 132 with the surface that goes along; 600 on, a plate at 500 is in its way, 740 is not."""
    mount = HangerMount(kind="flat", side="up")
    for at_x, free in ((500.0, False), (740.0, True)):
        spec = hanger(mount=mount, travel_mm=(600.0, 0.0, 0.0), envelope=wall(at_x))
        found = clashes(build_hose_hanger(spec), spec)
        assert (found == []) is free
    spec = hanger(mount=mount, envelope=wall(500.0))
    assert clashes(build_hose_hanger(spec), spec) == []


@pytest.mark.parametrize("side", ["up", "down", "left", "right"])
def test_the_template_has_the_holes_where_the_hanger_has_them(side: str) -> None:
    """Distances between hole centres against the finished solid's own cylinders, and a printer that shrinks undone."""
    spec = hanger(mount=HangerMount(kind="flat", side=side))
    printer = spec.printer.model_copy(update={"scale_xy": 0.99})
    part = build_hose_hanger(spec.model_copy(update={"printer": printer}))
    (face,) = part.templates
    one, other = (hole.start for hole in part.bodies[0].holes)
    a, b = (hole.at for hole in face.holes)
    assert math.dist(a, b) == pytest.approx(0.99 * math.dist(one, other), abs=1e-6)


@pytest.mark.parametrize("swivel", [False, True])
def test_the_templates_holes_lie_in_the_outline_of_what_is_screwed_on(swivel: bool) -> None:
    """1.5 diameters or more inside it; and the outline is as large as that body is where it lies on the surface."""
    part = build_hose_hanger(hanger(mount=HangerMount(kind="flat", side="up"), style="hook", swivel=swivel))
    (face,) = part.templates
    left, lower, right, upper = face.lines[0].bounds_mm
    for hole in face.holes:
        (x, y), room = hole.at, 1.5 * 5.0
        assert left + room <= x <= right - room and lower + room <= y <= upper - room
    box = part.bodies[1 if swivel else 0].solid.BoundingBox()
    sides = (right - left, upper - lower)
    assert sides == pytest.approx((box.xlen, box.ylen if swivel else 44.0), abs=1e-6)


def test_the_template_is_seen_from_the_hanger() -> None:
    """Under a ceiling: right stays right, and what is away from you lies at the lower edge of the sheet."""
    spec = hanger(mount=HangerMount(kind="flat", side="up"))
    (face,) = build_hose_hanger(spec).templates
    plan = hanger_plan(spec)
    assert [round(hole.at[0], 6) for hole in face.holes] == [round(p.u, 6) for p in plan.base.points]
    assert face.upwards == "towards you"


def test_words_say_what_they_should() -> None:
    part = build_hose_hanger(hanger())
    assert any("second time" in one for one in part.cautions) and any("No safe load" in one for one in part.cautions)
    assert not any("second time" in one for one in build_hose_hanger(hanger(second_fixing=False)).cautions)
    assert "front face" in part.facts["printing"]
    shelf = build_hose_hanger(hanger(mount=HangerMount(kind="flat", side="down")))
    assert not any("hangs" in one for one in shelf.cautions)
