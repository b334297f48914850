"""What lies on the surface: every mount one sound solid, holes where they were meant, refusals by key and number."""

from __future__ import annotations

import math
from functools import cache
from typing import Any

import numpy as np
import pytest
import trimesh
from tests.hanger_specs import HOSE_100, PIPE_110, hanger

from fitwright.data.fasteners import fastener
from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.outline import Side
from fitwright.part import Part
from fitwright.parts.hanger.base_channel import clamped_mm
from fitwright.parts.hanger.fixing import bolt_fixing
from fitwright.parts.hanger.plan import HangerPlan
from fitwright.parts.hanger.planned import hanger_plan
from fitwright.parts.hose_hanger import build_hose_hanger
from fitwright.spec.hanger import Batten, HangerMount, HoseHangerSpec, Strap, Wood, WoodScrews
from fitwright.spec.joints import Holes, Place
from fitwright.spec.load import load_text

ROOM = {"strap": Strap(wide_mm=38.0), "width_mm": 50.0}


def given(*places: tuple[float, float], size: str = "M5") -> Holes:
    """Given screw holes of this size, medium clearance."""
    row = fastener(size)
    return Holes(
        points=tuple(Place(*one) for one in places),
        size=size,
        hole_d_mm=row.hole_mm(),
        count=len(places),
        head_d_mm=row.head_d_mm,
        head_k_mm=row.head_k_mm or 0.0,
        washer_d_mm=row.washer_d2_mm or 0.0,
        washer_h_mm=row.washer_h_mm or 0.0,
        nut_af_mm=row.nut_af_mm or 0.0,
        nut_m_mm=row.nut_m_mm or 0.0,
    )


def mounted(kind: str, side: str = "up", along: bool = True, **mount: Any) -> HangerMount:
    return HangerMount.model_validate({"kind": kind, "side": side, "along": along, **mount})


BATTEN = Batten(near_mm=150.0, far_mm=460.0)
MOUNTS: dict[str, tuple[HangerMount, int]] = {
    # the mount, and how many holes its surface gets
    "wall": (mounted("flat", "left"), 2),
    "joist": (mounted("joist_side", "right", wood=Wood(deep_mm=235.0)), 2),
    "four": (mounted("joist_side", "left", screws=WoodScrews(count=4)), 4),
    "ceiling": (mounted("flat"), 2),
    "shelf": (mounted("flat", "down"), 2),
    "joist across": (mounted("joist_underside", along=False), 2),
    "joist along": (mounted("joist_underside"), 2),
    "strut along": (mounted("strut"), 1),
    "strut across": (mounted("strut", along=False), 2),
    "strut on a wall": (mounted("strut", "left"), 1),
    "strut across a wall": (mounted("strut", "right", along=False), 2),
    "slot 8": (mounted("t_slot", slot_mm=8.2, bolt="M6"), 2),
    "slot 6 across": (mounted("t_slot", along=False, slot_mm=6.0, bolt="M5"), 2),
    "slot 10 below": (mounted("t_slot", "down", slot_mm=10.0, bolt="M8"), 1),
    "holes beside": (mounted("holes", holes=given((-90.0, 0.0), (90.0, 0.0))), 2),
    "holes under": (mounted("holes", holes=given((0.0, -12.0), (0.0, 12.0))), 2),
    "tie along": (mounted("cable_tie", bar_mm=25.0), 0),
    "tie across": (mounted("cable_tie", along=False, bar_mm=25.0), 0),
    "tie on a wall": (mounted("cable_tie", "left", along=False, bar_mm=25.0), 0),
    "rod": (mounted("rod", drop_mm=300.0), 1),
    "batten": (mounted("batten", along=False, batten=BATTEN), 2),
}
TURNS = ("ceiling", "joist across", "joist along", "strut along", "strut across", "slot 8", "batten")


def spec_of(name: str, style: str = "saddle", **changes: Any) -> HoseHangerSpec:
    carried = PIPE_110 if style == "clamp" else HOSE_100
    return hanger(carried, MOUNTS[name][0], **{**ROOM, "style": style, **changes})


@cache
def plan_of(name: str, style: str = "saddle", swivel: bool = False) -> HangerPlan:
    return hanger_plan(spec_of(name, style, swivel=swivel))


@cache
def built(name: str, style: str = "saddle", swivel: bool = False) -> Part:
    return build_hose_hanger(spec_of(name, style, swivel=swivel))


@cache
def meshes(name: str, style: str = "saddle", swivel: bool = False) -> dict[str, trimesh.Trimesh]:
    return {body.name: mesh_body(body).mesh for body in built(name, style, swivel).bodies}


def refused(mount: HangerMount, **changes: Any) -> RefusalError:
    with pytest.raises(RefusalError) as caught:
        hanger_plan(hanger(mount=mount, **{**ROOM, **changes}))
    return caught.value


def sound(part: Part, found: dict[str, trimesh.Trimesh]) -> None:
    """Watertight, of the declared genus, as large as the solid (whose closed form the build holds it against)."""
    for body in part.bodies:
        mesh = found[body.name]
        assert mesh.is_watertight
        assert 1 - mesh.euler_number / 2 == body.genus, body.name
        assert mesh.volume == pytest.approx(body.solid.Volume(), rel=2e-3)


@pytest.mark.parametrize("name", MOUNTS)
def test_every_mount_of_a_saddle_is_one_sound_solid(name: str) -> None:
    sound(built(name), meshes(name))


@pytest.mark.parametrize("style", ["hook", "clamp"])
@pytest.mark.parametrize("name", ["joist along", "strut along", "strut on a wall", "tie across", "rod", "holes beside"])
def test_so_is_every_mount_of_hook_and_clamp(name: str, style: str) -> None:
    sound(built(name, style), meshes(name, style))


@pytest.mark.parametrize("name", TURNS)
def test_a_swivel_is_two_bodies_a_gap_apart(name: str) -> None:
    part, found = built(name, swivel=True), meshes(name, swivel=True)
    assert [body.name for body in part.bodies] == ["hanger", "base"]
    sound(part, found)
    gap = found["base"].bounds[0][2] - found["hanger"].bounds[1][2]
    assert gap == pytest.approx(0.3, abs=1e-6)


@pytest.mark.parametrize("name", MOUNTS)
def test_a_ray_along_each_fixing_goes_through_the_print_and_one_beside_it_does_not(name: str) -> None:
    """Through the middle of every hole nothing is met; a hole's radius and a half to the side there is material."""
    plan, mesh = plan_of(name), meshes(name)["hanger"]
    assert len(plan.base.points) == MOUNTS[name][1]
    for p in plan.base.points:
        start = np.array(plan.placed.point(p.u, p.y, -50.0))
        way = np.array(plan.placed.direction(0.0, 1.0))
        side = np.array([0.0, 1.0, 0.0])
        for step, free in ((0.0, True), (0.45, True), (0.75, False), (-0.75, False)):
            hits = mesh.ray.intersects_location([start + step * p.hole_d * side], [way])[0]
            before = [h for h in hits if (h - start) @ way < 50.0 + p.head_v + 0.01]
            assert (not before) == free, (name, step)


@pytest.mark.parametrize("name", MOUNTS)
def test_the_head_lies_in_the_print_and_below_the_hose(name: str) -> None:
    plan = plan_of(name)
    for p in (one for one in plan.base.points if one.kind == "through" and one.fixing is not None):
        assert p.fixing is not None
        hose = plan.placed.axis_mm - plan.sizes.bore_r
        assert p.head_v + p.fixing.high <= hose - 0.99
        assert p.head_v >= 6.0


@pytest.mark.parametrize("name", ["wall", "strut on a wall", "tie on a wall"])
def test_left_and_right_are_mirror_images(name: str) -> None:
    mount = MOUNTS[name][0]
    right = build_hose_hanger(hanger(mount=mount.model_copy(update={"side": "right"}), **ROOM))
    mesh, other = meshes(name)["hanger"], mesh_body(right.bodies[0]).mesh
    assert np.allclose(mesh.bounds[:, 1:], other.bounds[:, 1:], atol=1e-6)
    assert mesh.bounds[0][0] == pytest.approx(-other.bounds[1][0], abs=1e-6)
    assert mesh.volume == pytest.approx(other.volume, rel=1e-6)
    centre = mesh.center_mass * np.array([-1.0, 1.0, 1.0])
    assert np.allclose(centre, other.center_mass, atol=1e-3)


@pytest.mark.parametrize("name", ["joist across", "joist along", "batten"])
def test_screws_stay_in_the_wood(name: str) -> None:
    """38 mm joist, 58 x 38 batten: every screw in the middle of it, its tip inside, 6 d of thread or what there is."""
    plan, mount = plan_of(name), MOUNTS[name][0]
    half = BATTEN.wide_mm / 2 if name == "batten" else mount.wood.wide_mm / 2
    for p in plan.base.points:
        across = abs(p.u) if mount.along else abs(p.y - plan.sizes.wide / 2)
        assert p.edge_mm == pytest.approx(half - across, abs=1e-6)
        assert p.edge_mm >= 1.5 * p.row.major_mm
        assert 4 * p.row.major_mm <= p.tip_mm <= p.deep_mm - 3.0 + 1e-6


@pytest.mark.parametrize("name", ["strut along", "strut across", "slot 8", "slot 6 across", "slot 10 below"])
def test_bolts_fill_their_nut_and_do_not_meet_the_ground(name: str) -> None:
    for p in plan_of(name).base.points:
        assert p.begins_mm + 0.5 * p.row.major_mm <= p.tip_mm <= p.deep_mm - 1.0 + 1e-6


def test_the_rib_goes_into_the_slot_and_not_to_the_nut() -> None:
    """Strut: slot 22, lips 9.5 deep; T-slot: as measured, less 0.3."""
    for name, wide, deep in (("strut along", 22.0 - 0.6, 9.5), ("slot 8", 8.2 - 0.3, 4.5)):
        mesh, plan = meshes(name)["hanger"], plan_of(name)
        top = plan.placed.axis_mm
        proud = mesh.vertices[mesh.vertices[:, 2] > top + 0.01]
        assert np.ptp(proud[:, 0]) == pytest.approx(wide, abs=0.05)
        assert 1.0 < proud[:, 2].max() - top < deep


def test_a_shallow_slot_thickens_the_plate_until_a_sold_bolt_fits() -> None:
    spec = spec_of("slot 10 below")
    fixing = bolt_fixing(spec, "M8")
    high = clamped_mm(spec, fixing, 6.0)
    fits = [one for one in (20, 25, 30, 35) if 4.5 + 6.5 <= one - high - fixing.washer_h <= 14.0 - 1.0 + 1e-9]
    assert fits and high >= 6.0


def test_a_bar_s_bed_is_round_about_the_bar() -> None:
    for name, axis in (("tie along", 1), ("tie across", 0)):
        mesh, plan = meshes(name)["hanger"], plan_of(name)
        middle = plan.placed.point(0.0, plan.sizes.wide / 2, -(25.0 + 0.6) / 2)
        for turn in (-40.0, 0.0, 40.0):
            way = np.zeros(3)
            way[1 - axis] = math.sin(math.radians(turn))
            way[2] = -math.cos(math.radians(turn))
            hits = mesh.ray.intersects_location([middle], [way])[0]
            assert np.linalg.norm(hits - middle, axis=1).min() == pytest.approx(12.8, abs=0.15)


def test_a_rod_is_cut_to_what_reaches_from_above_to_under_the_hose() -> None:
    """Drop 300: less what is from the axis up to the hanger's top, plus what goes through it and its nut (8 + 1.6)."""
    plan = plan_of("rod")
    rod = next(one for one in plan.base.bought if one.what.startswith("threaded rod"))
    (point,) = plan.base.points
    through = point.head_v + point.washer_h
    assert rod.long_mm is not None and rod.cut
    nut_and_end = rod.long_mm - (300.0 - plan.placed.axis_mm) - through
    assert 8.0 < nut_and_end < 12.0


def test_a_batten_s_far_end_is_lifted_by_statics() -> None:
    """150 and 460 on one side: near 460/310 of the weight, far -150/310 of it."""
    plan = plan_of("batten")
    assert plan.base.reactions == pytest.approx((460 / 310, -150 / 310))
    assert "48 N lifts it (uplift) at the far one (460 mm right" in plan.base.facts["batten"]
    assert any(one.what.startswith("batten 58 x 38 mm") and one.cut for one in plan.base.bought)


def test_a_rod_hangs_a_hook_with_a_hole_for_the_socket() -> None:
    assert any("driver hole" in cut.name for cut in plan_of("rod", "hook").cuts)
    assert not any("driver hole" in cut.name for cut in plan_of("rod").cuts)


def test_what_is_bought_is_counted() -> None:
    lines = {one.what: one for one in built("strut along").hardware}
    assert lines["hexagon bolt M8"].count == 1
    assert lines["channel nut M8 for 41 mm strut"].count == 1
    turning = {one.what: one.count for one in built("ceiling", swivel=True).hardware}
    assert turning["hexagon bolt M8"] == 1 and turning["washer M8"] == 2 and turning["locking nut M8"] == 1


REFUSED: dict[str, tuple[HangerMount, dict[str, Any], str, str]] = {
    "countersunk": (mounted("flat", screws=WoodScrews(head="countersunk")), {}, "mount.screws.head", "pan, washer"),
    "machine screw": (mounted("flat", screws=WoodScrews(size="M5")), {}, "mount.screws.size", "5.0 mm"),
    "three screws": (mounted("flat", screws=WoodScrews(count=3)), {}, "mount.screws.count", "2, 4"),
    "low joist": (mounted("joist_side", "left", wood=Wood(deep_mm=100.0)), {}, "mount.joist.depth", "mm or more"),
    "thin board": (mounted("flat", "left", wood=Wood(wide_mm=12.0)), {}, "mount.into.thickness", "18 mm or more"),
    "long screw": (mounted("flat", screws=WoodScrews(long_mm=80.0)), {}, "mount.screws.length", "30 to 45 mm"),
    "too near": (mounted("flat", axis_mm=40.0), {}, "mount.to_axis", "mm or more"),
    "narrow": (mounted("joist_underside", screws=WoodScrews(count=3)), {}, "width", "mm or more"),
    "no slot": (mounted("t_slot"), {}, "mount.slot", "5 to 10 mm"),
    "odd slot": (mounted("t_slot", slot_mm=14.0, bolt="M8"), {}, "mount.slot", "5, 6, 8 or 10 mm"),
    "bolt in slot": (mounted("t_slot", slot_mm=6.0, bolt="M8"), {}, "mount.bolt", "M5"),
    "even hoses": (mounted("strut"), {"count": 2}, "count", "1 or 3"),
    "hidden": (mounted("holes", holes=given((-40.0, 0.0), (40.0, 0.0))), {}, "mount.points[0]", "or less"),
    "meeting": (mounted("holes", holes=given((0.0, -5.0), (0.0, 5.0))), {}, "mount.points[1]", "mm or more"),
    "tie and cutter": (mounted("cable_tie", bar_mm=25.0), {"above": "cutter"}, "mount", "screws or bolts"),
    "short rod": (mounted("rod", drop_mm=80.0), {}, "mount.drop", "mm or more"),
    "rod and two": (mounted("rod", drop_mm=300.0), {"count": 2}, "count", "1"),
    "swivel on a wall": (mounted("flat", "left"), {"swivel": True}, "swivel", "up or down"),
    "swivel and two": (mounted("flat"), {"swivel": True, "count": 2}, "count", "1"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_cannot_hold_is_refused_by_key_and_number(name: str) -> None:
    mount, changes, key, allowed = REFUSED[name]
    error = refused(mount, **changes)
    assert error.key == key
    assert allowed in error.allowed
    assert error.why and error.found


def test_the_width_grows_where_nobody_said_it() -> None:
    mount = mounted("joist_underside", screws=WoodScrews(count=3))
    plan = hanger_plan(hanger(mount=mount, **ROOM, defaulted=("width",)))
    assert plan.sizes.wide > 50.0
    assert len(plan.base.points) == 3


def test_a_plate_too_long_for_the_bed_gets_its_screws_under_the_hose() -> None:
    small = hanger().printer.model_copy(update={"bed_x_mm": 150.0, "bed_y_mm": 150.0})
    plan = hanger_plan(hanger(mount=mounted("flat"), **ROOM, printer=small))
    assert {p.kind for p in plan.base.points} == {"through"}
    smaller = hanger().printer.model_copy(update={"bed_x_mm": 100.0, "bed_y_mm": 100.0})
    error = refused(mounted("flat", "left"), printer=smaller)
    assert error.key == HOSE_100.key and "mm at the most" in error.allowed


def test_the_notch_between_ring_and_base_is_round() -> None:
    """Its end is an arc of about 4 mm on both sides, from base to ring, without a hole left behind it."""
    text = (
        "part: hose_hanger\npipe: {over: 110.2, wall: 3.2}\nclamp: {screws: M5}\nmount: {strut: {side: up, bolt: M8}}\n"
    )
    (spec,) = load_text(text, "clamp.yaml")
    assert isinstance(spec, HoseHangerSpec)
    plan = hanger_plan(spec)
    axis, top, out = plan.placed.axis_mm, plan.base.thick, plan.sizes.out_r
    assert not plan.profile.inner
    small = [side for side in plan.profile.outer.sides if side.via is not None and abs(radius(side)) < 6.0]
    assert len(small) == 2 and all(3.5 < radius(side) < 5.0 for side in small)
    for side in small:
        ends = sorted((side.start, side.end), key=lambda point: point[1])
        assert ends[0][1] == pytest.approx(top, abs=1e-6)  # one end on the base, the other on the ring
        assert math.hypot(ends[1][0], ends[1][1] - axis) == pytest.approx(out, abs=1e-6)


def radius(side: Side) -> float:
    """Of the circle through an arc's three points (a b c / 4 area)."""
    assert side.via is not None
    (ax, ay), (bx, by), (cx, cy) = side.start, side.via, side.end
    double = abs((bx - ax) * (cy - ay) - (cx - ax) * (by - ay))
    return (
        math.dist(side.start, side.via) * math.dist(side.via, side.end) * math.dist(side.end, side.start) / (2 * double)
    )
