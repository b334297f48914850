"""No more material than a snag asks, numbers in refusals, and what closes a clamp is there to be met."""

from __future__ import annotations

import math
from typing import Any

import pytest
from tests.hanger_specs import HOSE_100, PIPE_110, hanger

from fitwright.checks import clearance, printing
from fitwright.errors import RefusalError, SpecError
from fitwright.mesh import mesh_body
from fitwright.parts.hanger.neck_need import neck_mm, plate_mpa, stress_mpa
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hose_hanger import build_hose_hanger, hanger_bodies
from fitwright.spec.hanger import Carried, ClampBy, HangerMount, HoseHangerSpec, Strap
from fitwright.spec.load import load_text
from fitwright.spec.size import from_readings

CEILING = HangerMount(kind="flat", side="up")


def carried(mm: float, kind: Any) -> Carried:
    return Carried(kind=kind, size=from_readings((mm,)), key=f"{kind}.over")


def test_a_necks_stress_is_that_of_a_cantilever() -> None:
    """6 F L / (b h^2) by hand: 150 N at 100 mm from a neck of 20 x 44 mm, far less along the hose."""
    assert stress_mpa(150.0, 20.0, 44.0, 100.0, 0.0) == pytest.approx(6 * 150 * 100 / (44 * 20**2))
    # twist alone: square bar, 4.8 T / a^3 (handbook: 4.81), times sqrt(3) as an equivalent stress
    assert stress_mpa(150.0, 30.0, 30.0, 0.0, 60.0) == pytest.approx(math.sqrt(3) * 4.81 * 9000 / 30**3, rel=0.01)


def test_a_plates_stress_is_that_of_a_beam_up_to_its_screw() -> None:
    """By hand: 150 N, 67.6 mm from the surface, edge at 20 mm, screw at 85: T = 96.6 N on 65 mm of 44 x 9."""
    assert plate_mpa(150.0, 20.0, 44.0, 67.6, 85.0) == pytest.approx(6 * 96.571 * 65 / (44 * 81), rel=1e-4)


@pytest.mark.parametrize(
    "spec",
    [
        hanger(),
        hanger(style="clamp", carried=PIPE_110, mount=CEILING),
        hanger(style="clamp", carried=carried(63.0, "pipe")),
        hanger(style="saddle", carried=carried(50.0, "hose"), mount=HangerMount(axis_mm=180.0)),
    ],
)
def test_a_neck_bears_a_snag_and_is_no_wider_than_the_ring_lets_it(spec: HoseHangerSpec) -> None:
    plan = hanger_plan(spec)
    sizes, axis = plan.sizes, plan.placed.axis_mm
    found = neck_mm(spec, sizes.bore_r, sizes.arm, sizes.opens, axis)
    assert sizes.neck >= found - 1e-6
    slot = spec.strap.wide_mm + 2.0 if spec.style == "saddle" and sizes.opens[0] else 0.0
    far = axis + sizes.out_r
    stress = stress_mpa(150.0, sizes.neck, sizes.wide - slot, far, sizes.out_r)
    assert stress <= spec.material.strength_mpa / 2.0 or sizes.neck == pytest.approx(0.8 * sizes.out_r, rel=0.01)


@pytest.mark.parametrize("mm", [50.0, 110.0, 160.0])
def test_a_clamps_arms_are_those_of_half_a_ring_between_two_screws(mm: float) -> None:
    """F R / 2 in the middle, Winkler's curve left out: no thinner than that, and no thicker than twice what it asks."""
    spec = hanger(style="clamp", carried=carried(mm, "pipe"), mount=CEILING, width_mm=50.0)
    sizes = hanger_plan(spec).sizes
    least = math.sqrt(6 * 75.0 * sizes.mid_r / (sizes.wide * spec.material.strength_mpa / 2.0))
    assert least <= sizes.arm <= max(5.0, 2.0 * least)


def test_a_clamps_arm_too_thin_for_a_snag_is_refused() -> None:
    with pytest.raises(RefusalError, match="on its cap") as error:
        hanger_plan(hanger(style="clamp", carried=carried(160.0, "pipe"), mount=CEILING, arm_mm=4.0))
    assert error.value.key == "arm"


@pytest.mark.parametrize("closed", [ClampBy(), ClampBy(kind="band")])
def test_what_closes_a_clamp_is_drawn_and_clashes_with_nothing(closed: ClampBy) -> None:
    spec = hanger(style="clamp", carried=PIPE_110, clamp=closed)
    part = build_hose_hanger(spec)
    drawn = [one.name for one in part.stand_ins if one.seats_in == "clamp"]
    assert ("band" in drawn) is (closed.kind == "band") and len(drawn) == (1 if closed.kind == "band" else 4)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    assert [f.message for f in clearance.check(part, meshes, spec) if f.severity != "pass"] == []


@pytest.mark.parametrize("mm", [40.0, 63.0, 110.0])
def test_a_bands_tunnel_leaves_no_ledge(mm: float) -> None:
    spec = hanger(style="clamp", carried=carried(mm, "pipe"), clamp=ClampBy(kind="band"))
    part = build_hose_hanger(spec)
    found = printing.check(part, {body.name: mesh_body(body) for body in part.bodies}, spec)
    assert [f.message for f in found if f.code == "printing.overhang" and f.severity != "pass"] == []


def test_too_many_side_by_side_names_how_many() -> None:
    with pytest.raises(RefusalError) as error:
        hanger_plan(hanger(carried=carried(50.0, "hose"), mount=CEILING, count=6))
    assert error.value.key == "count"
    fits = int(error.value.allowed.split()[0])
    assert hanger_plan(hanger(carried=carried(50.0, "hose"), mount=CEILING, count=fits))


def test_a_pipe_that_does_not_snap_in_names_a_width_that_works() -> None:
    with pytest.raises(RefusalError) as error:
        hanger_plan(hanger(carried=carried(50.0, "pipe"), mount=CEILING, style="hook"))
    wide = float(error.value.allowed.split()[0])
    assert hanger_plan(hanger(carried=carried(50.0, "pipe"), mount=CEILING, style="hook", width_mm=wide))
    with pytest.raises(RefusalError, match="a clamp"):
        hanger_plan(hanger(carried=carried(25.0, "pipe"), mount=CEILING, style="hook"))


def test_the_strap_that_carries_is_as_wide_as_a_saddle_without_yaml_too() -> None:
    assert hanger(mount=CEILING).strap.wide_mm == 38.0 and hanger(mount=CEILING).width_mm == 48.0
    assert hanger().strap.wide_mm == 25.0 and hanger(carried=PIPE_110, mount=CEILING).strap.wide_mm == 25.0
    assert hanger(mount=CEILING, strap=Strap(wide_mm=20.0)).strap.wide_mm == 20.0
    text = "part: hose_hanger\nhose: {over_ribs: 108.4, inside: 100}\nmount: ceiling\n"
    (spec,) = load_text(text, "a.yaml")
    assert isinstance(spec, HoseHangerSpec) and (spec.strap.wide_mm, spec.width_mm) == (38.0, 48.0)


J_HOOK = "part: hose_hanger\nhose: {{over_ribs: 108, inside: 100}}\nhook: {{throat: 115}}\nmount: {mount}\n{more}"


def test_a_hose_may_be_laid_into_a_hook_that_opens_upwards() -> None:
    (spec,) = load_text(J_HOOK.format(mount="joist_side", more=""), "j.yaml")
    assert isinstance(spec, HoseHangerSpec)
    plan = hanger_plan(spec)
    assert plan.sizes.throat_printed == 115.0 and hanger_bodies(plan, spec)
    assert any("gravity" in one for one in build_hose_hanger(spec).cautions)


@pytest.mark.parametrize(
    ("mount", "more"),
    [("ceiling", ""), ("wall", "above: people\n"), ("wall", "above: cutter\n")],
)
def test_it_is_not_laid_in_where_it_would_fall_on_somebody(mount: str, more: str) -> None:
    with pytest.raises(SpecError, match=r"hook\.throat"):
        load_text(J_HOOK.format(mount=mount, more=more), "j.yaml")


def test_it_is_refused_by_the_builder_too() -> None:
    with pytest.raises(RefusalError, match="weight") as error:
        hanger_plan(hanger(carried=HOSE_100, style="hook", throat_mm=115.0, above="people"))
    assert error.value.key == "hook.throat"


@pytest.mark.parametrize(("bed", "side"), [(205.0, "left"), (220.0, "up")])
def test_a_slice_longer_than_the_bed_is_one_hose_and_one_screw(bed: float, side: Any) -> None:
    spec = hanger(carried=carried(38.0, "hose"), mount=HangerMount(kind="flat", side=side), count=3)
    spec = spec.model_copy(update={"printer": spec.printer.model_copy(update={"bed_x_mm": bed, "bed_y_mm": bed})})
    plan = hanger_plan(spec)
    body = hanger_bodies(plan, spec)[0]
    piece = body.solid.intersect(body.tries[0].tool)
    box = piece.BoundingBox()
    assert len(piece.Solids()) == 1 and max(box.xlen, box.zlen) < 195.0
    first = plan.base.points[0]
    at = plan.placed.point(first.u, 1.0, 2.0)
    assert box.xmin - 1.0 < at[0] < box.xmax + 1.0 and box.zmin - 1.0 < at[2] < box.zmax + 1.0
