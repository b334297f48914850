"""Clearance of what moves: at both ends, on its way, beside it; room for tools and for dust. Must-fail for each."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import cadquery as cq
import numpy as np
import pytest
from tests.gate_handmade import body, bracket, built
from tests.gate_specs import BORE_16, GATE_4, gate_4in, gate_bracket, metal_alongside

from fitwright.checks.clearance import check
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.part import Body, Motion, Part, StandIn
from fitwright.parts.gate.piece import box
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate.stand_ins import gate_stand_ins
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.spec.envelope import BoxObstacle, Envelope, Obstacle, PlaneObstacle
from fitwright.spec.gate import GateMount, GateScrews

SPEC = gate_4in(frame="rods", guard="no")
PLAN = gate_plan(SPEC)
STAND_INS = gate_stand_ins(PLAN, SPEC)


def run(
    more: tuple[Body, ...] = (),
    stand_ins: tuple[StandIn, ...] = (),
    peg: cq.Shape | None = None,
    keep_clear: tuple[Obstacle, ...] = (),
) -> list[Finding]:
    part, meshes = bracket(more, stand_ins, peg)
    return check(part, meshes, SPEC.model_copy(update={"envelope": Envelope(keep_clear)}))


def failing(findings: list[Finding]) -> list[Finding]:
    return [finding for finding in findings if finding.severity == "fail"]


def two(mover: cq.Shape, still: cq.Shape, travel: float = 100.0, **changes: Any) -> list[Finding]:
    """A body that moves outwards past one that stands still, and nothing else."""
    bodies = (body("slider", mover, moving=True), body("frame", still))
    part = Part("try", "gate_bracket", bodies, changes.get("stand_ins", ()), motion=Motion((0.0, 1.0, 0.0), travel))
    given = SimpleNamespace(envelope=Envelope(changes.get("keep_clear", ())))
    return check(part, {one.name: mesh_body(one) for one in bodies}, given)  # type: ignore[arg-type]


# --- the whole bracket ---------------------------------------------------------------------------------------------


def test_a_bracket_with_room_enough_does_not_fail() -> None:
    assert failing(run()) == []


def test_a_peg_half_way_is_met_and_the_place_named() -> None:
    at, high = PLAN.coupling, PLAN.frame.yoke_high / 2
    middle = (at.nut_y1 + at.back_y) / 2 + 0.5 * PLAN.moved_mm  # over the box round the nut, half way
    top, x = at.box_mm / 2, at.wide_mm / 2
    arm = box((x - 2.0, x + 4.0), (5.0, middle + 2.0), (high - 2.0, high + 2.0))
    tooth = box((x - 2.0, x + 4.0), (middle - 2.0, middle + 2.0), (top - 3.0, high + 2.0))
    (found,) = failing(run(peg=arm.fuse(tooth)))
    assert found.body == "coupling"
    assert "the coupling and the yoke" in found.message and "half way, " in found.message
    assert "mm open" in found.message and "they meet from" in found.message
    assert "length" not in found.advice
    # The tooth, 4 long, stands 2 x 3 deep in the corner of the box while it is in full.
    assert found.value == pytest.approx(4.0 * 2.0 * 3.0, rel=0.02)


def test_a_peg_behind_the_coupling_is_free() -> None:
    # Inwards of the coupling's tip nothing passes.
    half = PLAN.frame.window_high / 2
    peg = box((6.0, 8.0), (PLAN.frame.yoke_y0, PLAN.coupling.tip_y - 1.0), (-half - 1.0, -3.0))
    assert failing(run(peg=peg)) == []


def test_a_thin_rib_between_any_two_steps_is_found() -> None:
    # 0.3 mm wide against a lip 0.3 mm long: they share volume for 0.6 of 100 mm.
    mover = box((-5, 5), (0, 20), (-5, 5)).fuse(box((-1, 1), (10.0, 10.3), (4, 8)))
    still = box((-20, 20), (0, 140), (-20, -10)).fuse(
        box((-20, -18), (61.05, 61.35), (-15, 12)), box((-20, 20), (61.05, 61.35), (7, 12))
    )
    found = failing(two(mover, still))
    assert found and found[0].body == "slider"
    assert "51 of 100 mm open" in found[0].message


def test_a_fitting_in_the_bracket_fails_and_the_ports_are_advised() -> None:
    y = PLAN.nose_face_mm
    wall = body("wall", box((-30, 30), (y + 1.0, y + 24.0), (30.0, 36.0)))
    found = failing(run((wall,)))
    assert [("cylinder front fitting" in f.message, f.body) for f in found] == [(True, "wall")]
    assert "cylinder.ports" in found[0].advice


def test_a_hose_in_the_way_warns() -> None:
    y = PLAN.nose_face_mm
    wall = body("wall", box((-30, 30), (y + 30.0, y + 48.0), (45.0, 50.0)))
    found = [f for f in run((wall,)) if "hose bend" in f.message]
    assert [f.severity for f in found] == ["warn"]


# --- dust ------------------------------------------------------------------------------------------------------------


def test_a_bracket_that_closes_the_far_end_fails() -> None:
    far = min(thing.solid.BoundingBox().ymin for thing in STAND_INS if thing.name == "gate body")
    lid = body("lid", box((-70, 70), (far - 6.0, far - 0.5), (-11, 11)))
    (found,) = failing(run((lid,)))
    assert "room for dust" in found.message and "packs" in found.advice


def test_a_blade_that_runs_into_its_closed_far_end_fails() -> None:
    # An over-shut of 19 where the slot was said to have 25 beyond the blade's tip, and really ends after 5.
    gate = SPEC.gate.model_copy(update={"shut_mm": 40.0, "open_mm": 146.0})
    said, real = (
        gate_bracket(
            gate.model_copy(update={"body": gate.body.model_copy(update={"far_end": "closed", "far_room_mm": room})}),
            BORE_16,
            stop=stop,
            frame="rods",
            guard="no",
        )
        for room, stop in ((25.0, "over_shut"), (5.0, "sleeve"))
    )
    (part, meshes), spec = built(said), said
    body = next(s for s in build_gate_bracket(real).stand_ins if s.name == "gate body")
    part = replace(part, stand_ins=tuple(body if s.name == "gate body" else s for s in part.stand_ins))
    found = [f for f in failing(check(part, meshes, spec)) if "gate blade" in f.message and "gate body" in f.message]
    assert found and "shut" in found[0].message


# --- obstacles -------------------------------------------------------------------------------------------------------


def test_an_obstacle_that_the_blade_reaches_only_when_open() -> None:
    edge = PLAN.ends.blade_open_mm
    shelf = BoxObstacle((45.0, edge + 1.2, -20.0), (80.0, 400.0, 20.0), "envelope.keep_clear[0]", 2.0, "shelf")
    found = [f for f in run(keep_clear=(shelf,)) if "gate blade (" in f.message]
    assert [(f.severity, f.value) for f in found] == [("fail", pytest.approx(1.2, abs=0.02))]
    assert "(open)" in found[0].message and "shelf" in found[0].place
    assert "offset" not in found[0].advice and "envelope.keep_clear[0]" in found[0].advice


def test_an_obstacle_that_is_met_half_way_only() -> None:
    mover, still = box((-5, 5), (0, 10), (-5, 5)), box((-60, -50), (0, 10), (-5, 5))
    post = BoxObstacle((6.0, 55.0, -30.0), (8.0, 56.0, 30.0), "envelope.keep_clear[0]", 2.0, "post")
    (found,) = failing(two(mover, still, keep_clear=(post,)))
    assert found.value == pytest.approx(1.0, abs=0.02)
    assert "mm open" in found.message or "half way" in found.message
    through = replace(post, low=(3.0, 55.0, -30.0))
    (found,) = failing(two(mover, still, keep_clear=(through,)))
    assert found.value == 0.0 and "half way" in found.message and "clashes" in found.message


def test_a_wall_ahead_of_what_moves() -> None:
    mover, still = box((-5, 5), (0, 10), (-5, 5)), box((-60, -50), (0, 10), (-5, 5))
    wall = PlaneObstacle((0, 111.0, 0), (0, -1, 0), "k", 2.0)
    (found,) = failing(two(mover, still, keep_clear=(wall,)))
    assert found.value == pytest.approx(1.0, abs=0.02) and "(open)" in found.message
    clear = two(mover, still, keep_clear=(replace(wall, point=(0, 113.0, 0)),))
    assert not failing(clear) and any("(open) is nearest" in f.message for f in clear)


# --- gaps beside -----------------------------------------------------------------------------------------------------


def gap(mm: float) -> Finding:
    mover = box((-5, 5), (0, 20), (-5, 5))
    still = box((5 + mm, 15), (50, 60), (-8, 8)).fuse(box((14, 15), (0, 60), (-8, 8)))
    return next(f for f in two(mover, still) if f.limit == 0.8)


@pytest.mark.parametrize(("mm", "severity"), [(0.2, "fail"), (0.6, "warn"), (0.85, "pass"), (2.5, "pass")])
def test_the_least_gap_beside(mm: float, severity: str) -> None:
    found = gap(mm)
    assert (found.severity, found.value) == (severity, pytest.approx(mm, abs=0.03))
    assert "the slider and the frame" in found.message and "mm open" in found.place


def test_a_stop_is_met_at_the_end_and_is_no_gap_beside() -> None:
    mover, stop = box((-5, 5), (0, 20), (-5, 5)), box((-8, 8), (120, 130), (-8, 8))
    found = two(mover, stop)
    assert [f.severity for f in found] == ["pass", "pass"]
    past = two(mover, stop, travel=101.0)
    (clash,) = failing(past)
    assert clash.value == pytest.approx(100.0) and "when open" in clash.message


# --- what is there at one end only, and seats ------------------------------------------------------------------------


def test_what_is_there_at_one_end_only() -> None:
    mover, still = box((-5, 5), (0, 10), (-5, 5)), box((-60, -50), (0, 10), (-5, 5))
    latch = box((-5, 5), (50, 60), (-5, 5))
    always = StandIn("latch", latch, "gate", None)
    assert failing(two(mover, still, stand_ins=(always,)))
    for end in ("begin", "end"):
        assert not failing(two(mover, still, stand_ins=(replace(always, only_at=end),)))
    there = replace(always, solid=box((-5, 5), (105, 120), (-5, 5)), only_at="end")
    (found,) = failing(two(mover, still, stand_ins=(there,)))
    assert found.value == pytest.approx(500.0)


def test_a_moving_things_seat_is_its_own_bodys_only() -> None:
    mover, still = box((-5, 5), (0, 20), (-5, 5)), box((-60, -50), (0, 10), (-5, 5))
    pin = box((-2, 2), (5, 10), (-12, 12))
    seated = StandIn("coupling pin", pin, "coupling", pin, moving=True)
    assert not failing(two(mover, still, stand_ins=(seated,)))
    bar = still.fuse(box((-55, 5), (60, 64), (9, 14)), box((-55, -50), (8, 64), (-5, 14)))
    (found,) = failing(two(mover, bar, stand_ins=(seated,)))
    assert "coupling pin" in found.message and found.body == "frame"


def test_room_for_a_tool_is_needed_once() -> None:
    # A line that what moves stands in when shut is free when open; one that the frame stands in is not.
    mover, still = box((-5, 5), (0, 20), (-5, 5)), box((-60, -50), (0, 10), (-5, 5))
    line = StandIn("gate screw 1 driver line", box((-1, 1), (5, 7), (-50, 50)), "gate", None)
    assert not [f for f in two(mover, still, stand_ins=(line,)) if f.severity != "pass"]
    through = replace(line, solid=box((-56, -54), (5, 7), (-50, 50)))
    (found,) = [f for f in two(mover, still, stand_ins=(through,)) if f.severity != "pass"]
    assert found.severity == "warn" and "the frame stands in the gate screw 1 driver line" in found.message


# --- alongside, and what cannot be checked ---------------------------------------------------------------------------


def test_alongside_stand_ins_clear_each_other_where_the_axis_is_set_aside() -> None:
    spec = metal_alongside()
    plan = replace(gate_plan(spec), axis_x_mm=100.0)
    things = gate_stand_ins(plan, spec)
    frame = body("frame", box((-200, -190), (0, 10), (0, 10)))
    part = Part("a", "gate_bracket", (frame,), things, motion=Motion((0.0, 1.0, 0.0), plan.moved_mm))
    assert not failing(check(part, {"frame": mesh_body(frame)}, spec))


def test_a_broken_mesh_of_what_moves_is_not_checked() -> None:
    part, meshes = bracket()
    broken = meshes["coupling"].mesh.copy()
    broken.update_faces(np.arange(len(broken.faces)) > 3)
    meshes["coupling"] = replace(meshes["coupling"], mesh=broken)
    (found,) = failing(check(part, meshes, SPEC))
    assert found.body == "coupling" and "not checked" in found.message


def test_a_gates_own_screws_in_its_blade_are_told_what_helps_and_no_other_frame_is_advised() -> None:
    """Screws 100 mm apart, a blade 118 mm wide: clamp or saddle or other holes help, each by its key."""
    mount = GateMount(kind="screws", screws=GateScrews(across_mm=100.0, from_edge_mm=12.0, size="M5"))
    spec = gate_bracket(GATE_4.model_copy(update={"mount": mount}), BORE_16, frame="rods", guard="no")
    part = build_gate_bracket(spec)
    found = failing(check(part, {one.name: mesh_body(one) for one in part.bodies}, spec))
    told = [one for one in found if "gate screw" in one.message and "gate blade" in one.message]
    assert len(told) == 2
    for one in told:
        assert "choose another frame" not in one.advice
        assert all(key in one.advice for key in ("gate.screws.across", "gate.blade.width", "gate.clamp", "gate.saddle"))
