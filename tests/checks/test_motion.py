"""The check `motion` on hand-made brackets: every finding is seen failing, and every position follows the mesh."""

from __future__ import annotations

import math
from typing import Any

import pytest
from tests.checks.gate_by_hand import box, coupling, hand_made, meshes_of, nose, rod, sleeve, the, yoke
from tests.gate_specs import BORE_16, BORE_20, BORE_32, GATE_4, METAL_100, gate_6in, gate_bracket

from fitwright import pipeline
from fitwright.checks import motion
from fitwright.checks.motion_axis import round_holes
from fitwright.checks.motion_chain import Driven, driven
from fitwright.checks.motion_faces import crossings, face_y_mm
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.gate.plan import gate_plan
from fitwright.spec.gate import Gate, GateBracketSpec, GateScrews, Spring


def gate_4in(**changes: Any) -> GateBracketSpec:
    return gate_bracket(GATE_4, BORE_16, **{"frame": "rods", **changes})


def changed(gate: Gate, **changes: Any) -> Gate:
    """The gate with a change in it, or in its blade (`blade_...`) or body (`body_...`)."""
    blade = {k.removeprefix("blade_"): v for k, v in changes.items() if k.startswith("blade_")}
    body = {k.removeprefix("body_"): v for k, v in changes.items() if k.startswith("body_")}
    own = {k: v for k, v in changes.items() if not k.startswith(("blade_", "body_"))}
    if blade:
        own["blade"] = gate.blade.model_copy(update=blade)
    if body:
        own["body"] = gate.body.model_copy(update=body)
    return gate.model_copy(update=own)


def judged(part: Part, spec: GateBracketSpec) -> list[Finding]:
    return motion.check(part, meshes_of(part), spec)


def of(spec: GateBracketSpec, **solids: Any) -> list[Finding]:
    return judged(hand_made(spec, **solids), spec)


def at_ends(spec: GateBracketSpec, **solids: Any) -> Driven:
    part = hand_made(spec, **solids)
    return driven(part, meshes_of(part), spec)


@pytest.mark.parametrize("spec", [gate_4in(), gate_6in(frame="rods")], ids=["4 in", "6 in"])
def test_as_meant_nothing_blocks(spec: GateBracketSpec) -> None:
    found = of(spec)
    assert not [f for f in found if f.severity == "fail"]
    at = at_ends(spec)
    assert at.shut_mm == pytest.approx(spec.gate.shut_mm, abs=0.3)
    assert at.open_mm == pytest.approx(spec.gate.open_mm, abs=0.3)
    assert at.stopped_open_by == "the sleeve on the rod" and at.stopped_shut_by == "the cylinder's own end"


def test_the_chain_is_the_sum_of_its_lengths() -> None:
    """By hand: 16 x 125, WF 22, nose thread 18: rod out 147 below the face, rod in on the sleeve 18 + sleeve."""
    spec = gate_4in()
    at, plan = at_ends(spec), gate_plan(spec)
    shoulder = plan.coupling.back_y + 3.2 + 0.4
    assert at.shut_mm == pytest.approx(plan.coupling.floor_y + at.nose_face_mm - 147.0 - shoulder, abs=1e-6)
    assert at.open_mm - at.shut_mm == pytest.approx(147.0 - 18.0 - at.sleeve_mm + 0.4 - at.lost_mm, abs=1e-6)


@pytest.mark.parametrize(
    ("face", "by", "shut", "opened"),
    [
        ("fork floor", 2.0, 2.0, 0.0),
        ("coupling back", 2.0, -2.0, -2.0),
        ("nose", -2.0, -2.0, -2.0),
        ("sleeve", 2.0, 0.0, -2.0),
    ],
)
def test_a_face_that_is_elsewhere_moves_the_blade(face: str, by: float, shut: float, opened: float) -> None:
    """Measured, not believed: the declared places stay as they were."""
    spec = gate_4in()
    plan, before = gate_plan(spec), at_ends(spec)
    block, half = coupling(plan, spec), plan.coupling.wide_mm / 2
    solids: dict[str, Any] = {}
    if face == "fork floor":
        floor, high = plan.coupling.floor_y, plan.coupling.slot_mm / 2
        solids["coupling"] = block.cut(box((-half, half), (floor - 1, floor + by), (-high, high))).Solids()[0]
    elif face == "coupling back":
        back = plan.coupling.back_y
        ring = box((-half, half), (back - 1, back + by), (-8, 8))
        hole = rod(plan.coupling.rod_hole_mm, (back - 1, back + by + 1))
        solids["coupling"] = block.fuse(ring.cut(hole)).Solids()[0]
        solids["sleeve"] = sleeve(plan, spec).translate((0, by, 0))
    elif face == "nose":
        solids["nose"] = nose(plan, True).cut(box((-200, 200), (plan.nose_face_mm + by, 400), (-100, 100))).Solids()[0]
    else:
        solids["sleeve"] = sleeve(plan, spec, plan.ends.sleeve_mm + 0.4 + by)
    after = at_ends(spec, **solids)
    assert after.shut_mm - before.shut_mm == pytest.approx(shut, abs=1e-6)
    assert after.open_mm - before.open_mm == pytest.approx(opened, abs=1e-6)
    if face != "sleeve":
        assert the(of(spec, **solids), "motion.positions").severity != "pass"


def test_a_sleeve_put_somewhere_else_is_not_believed() -> None:
    spec = gate_4in()
    astray = sleeve(gate_plan(spec), spec).translate((0, 2, 0))
    part = hand_made(spec, sleeve=astray)
    found = [f for f in pipeline.check(part, meshes_of(part), spec) if f.code == "motion"]
    assert found and found[0].severity == "fail" and "not checked: the sleeve was put" in found[0].message


def test_without_a_stop_the_blade_leaves_its_guides() -> None:
    found = of(gate_4in(), sleeve=None)
    stop = the(found, "motion.stop")
    assert stop.severity == "fail" and "out of its guides" in stop.message and "sleeve" in stop.advice
    assert the(found, "motion.engagement").severity == "fail"


def test_the_blade_is_never_the_stop() -> None:
    """Over-shut by 19 mm with 10 mm of room behind the blade."""
    spec = gate_bracket(
        changed(GATE_4, body_far_end="open", body_far_room_mm=10.0), BORE_16, frame="rods", stop="over_shut"
    )
    stop = the(of(spec), "motion.stop")
    assert stop.severity == "fail" and "against the end of its slot" in stop.message and stop.limit == 10.0
    room = gate_bracket(
        changed(GATE_4, body_far_end="open", body_far_room_mm=20.0), BORE_16, frame="rods", stop="over_shut"
    )
    assert the(of(room), "motion.stop").severity == "pass"


def test_four_millimetres_short_is_refused_two_are_told() -> None:
    """The stroke as the user's cylinder has it: the check is asked, not the plan."""
    part = hand_made(gate_4in())
    for stroke, severity in ((101.8, "fail"), (103.8, "warn")):
        short = gate_bracket(GATE_4, BORE_16.model_copy(update={"stroke_mm": stroke}), frame="rods", stop="none")
        bodies = tuple(b for b in part.bodies if b.name != "sleeve")
        plan = gate_plan(gate_4in())
        shifted = nose(plan, True).translate((0, stroke - 125.0, 0))
        bodies = tuple(b if b.name != "nose" else type(b)(**{**b.__dict__, "solid": shifted}) for b in bodies)
        seats = tuple(
            s if s.name != "nose face" else type(s)(s.name, s.body, (s.at[0], s.at[1] + stroke - 125.0, 0.0), s.out)
            for s in part.seats
            if s.body != "sleeve"
        )
        made = Part("gate", "gate_bracket", bodies, motion=part.motion, seats=seats)
        finding = the(judged(made, short), "motion.positions")
        assert finding.severity == severity and "short of open" in finding.message
        if severity == "warn":
            assert "of the blade's edge stay in the bore" in finding.message


def test_too_little_of_the_blade_in_its_guides() -> None:
    """A blade 139 long, 126 out: 13 stay, 15 are asked."""
    spec = gate_bracket(changed(GATE_4, blade_length_mm=139.0), BORE_16, frame="rods")
    finding = the(of(spec), "motion.engagement")
    assert finding.severity == "fail" and finding.value == pytest.approx(13.0, abs=0.3) and finding.limit == 15.0
    assert the(of(spec), "motion.overlap").severity == "warn"  # nor does it cover the port


def test_a_blade_that_is_out_of_its_guides_is_said_so() -> None:
    """A blade 121 long, 126 out: 5 outside; no ratio of a lever that is not there."""
    spec = gate_bracket(changed(GATE_4, blade_length_mm=121.0), BORE_16, frame="rods")
    findings = of(spec)
    out, jams = the(findings, "motion.engagement"), the(findings, "motion.jamming")
    assert out.severity == jams.severity == "fail" and out.value == pytest.approx(-5.0, abs=0.3)
    assert "outside its guides" in out.message and "nothing guides the blade" in jams.message


def test_a_pull_beside_the_middle_jams() -> None:
    """Drawer rule with e = 23 + 0.5 + play 0.75 and L = 19: 2 x 0.5 x e / L = 1.3 and more."""
    spec = gate_4in()
    plan = gate_plan(spec)
    off = coupling(plan, spec).translate((23, 0, 0))
    part = hand_made(spec)
    aside = tuple(
        type(s)(s.name, s.body, (s.at[0] + (23 if s.body == "coupling" else 0), *s.at[1:]), s.out) for s in part.seats
    )
    made = hand_made(spec, coupling=off)
    made = Part("gate", "gate_bracket", made.bodies, motion=made.motion, seats=aside)
    finding = the(judged(made, spec), "motion.jamming")
    at = driven(made, meshes_of(made), spec)
    assert finding.severity == "fail" and "jams when" in finding.message
    assert finding.value == pytest.approx((23 + 0.5 + 0.75) / at.engaged_open_mm, rel=0.02)
    assert the(judged(made, spec), "motion.side_load").severity == "fail"
    assert the(of(spec), "motion.jamming").severity == "pass"


def test_a_nose_above_the_blade_loads_the_rod_aside() -> None:
    spec = gate_4in()
    raised = nose(gate_plan(spec), True).translate((0, 0, 0.7))
    finding = the(of(spec, nose=raised), "motion.side_load")
    assert finding.severity == "fail" and finding.value == pytest.approx(0.7, abs=0.02)


def test_too_little_pressure_is_refused_with_what_is_needed() -> None:
    """Pull area of 16 / 6: 172.8 mm2; 0.85 x 0.15 x 172.8 = 22 N against 2 x 22."""
    finding = the(of(gate_4in(pressure_mpa=0.15)), "motion.thrust")
    assert finding.severity == "fail" and finding.unit == "N"
    assert finding.value == pytest.approx(0.85 * 0.15 * math.pi / 4 * (16**2 - 6**2))
    assert "bar or more (pressure)" in finding.advice and "bore of" in finding.advice


@pytest.mark.parametrize(("least", "severity"), [(20.0, "fail"), (60.0, "pass")])
def test_a_spring_must_move_the_blade_where_it_is_weakest(least: float, severity: str) -> None:
    weak = BORE_20.model_copy(
        update={"spring": Spring(drives="out", least_n=least, greatest_n=80.0), "stroke_mm": 125.0}
    )
    found = of(gate_bracket(GATE_4, weak, frame="rods"))
    spring = the(found, "motion.spring")
    assert spring.severity == severity and spring.value == pytest.approx(0.85 * least)
    assert "shuts the gate" in the(found, "motion.air_loss").message


def test_a_thin_blade_bows_out() -> None:
    """pi^2 E b t^3 / 12 / L^2, b 118, L 126, E 2000: 2 mm 97 N, 1 mm 12 N."""
    found = of(gate_bracket(changed(GATE_4, blade_thickness_mm=1.0), BORE_16, frame="rods"))
    finding = the(found, "motion.buckling")
    out = at_ends(gate_bracket(changed(GATE_4, blade_thickness_mm=1.0), BORE_16, frame="rods")).open_mm
    critical = math.pi**2 * 2000 * 118 * 1.0**3 / 12 / out**2
    assert (
        finding.severity == "fail" and f"bows out at {critical:.0f} N" in finding.message and "thick" in finding.advice
    )
    assert the(of(gate_4in()), "motion.buckling").severity == "pass"
    assert the(of(gate_6in(frame="rods")), "motion.buckling").severity == "warn"


def test_a_thrust_far_over_the_drag_warns() -> None:
    easy = changed(GATE_4, drag_n=3.0)
    finding = the(of(gate_bracket(easy, BORE_16, frame="rods")), "motion.stall")
    assert finding.severity == "warn" and finding.value is not None and finding.value > 6.0


def test_a_hole_near_the_edge_tears_out() -> None:
    spec = gate_bracket(changed(GATE_4, blade_hole_to_edge_mm=3.2), BORE_16, frame="rods")
    finding = the(of(spec), "motion.hole")
    assert finding.severity == "fail" and "tearing out" in finding.message and "hole_to_edge" in finding.advice


def test_screws_in_the_blades_way() -> None:
    """M5 screws 120 across and a blade 118 wide: (118 + 5 - 120) / 2 = 1.5 mm in it; 123.5 go."""
    mount = GATE_4.mount.model_copy(update={"screws": GateScrews(across_mm=120.0, from_edge_mm=12.0, size="M5")})
    finding = the(of(gate_bracket(changed(GATE_4, mount=mount), BORE_16, frame="rods")), "motion.screws")
    assert (
        finding.severity == "fail"
        and finding.place == "gate.screws.across"
        and "1.5 mm in the blade's way" in finding.message
    )
    assert (finding.value, finding.limit) == (120.0, 123.5)


@pytest.mark.parametrize(("slot", "severity"), [(3.1, "fail"), (3.4, "pass"), (4.2, "warn")])
def test_the_forks_slot_is_measured(slot: float, severity: str) -> None:
    spec = gate_4in()
    finding = the(of(spec, coupling=coupling(gate_plan(spec), spec, slot_mm=slot)), "motion.slot")
    assert finding.severity == severity and finding.value == pytest.approx(slot, abs=1e-6)


def test_what_warns_once() -> None:
    spec = gate_bracket(
        changed(GATE_4, body_far_end="closed"),
        BORE_32.model_copy(update={"remembered": ("rod_stub_mm", "length_0_mm")}),
        frame="rods",
        setting_mm=2.0,
    )
    found = of(spec)
    for code, words in (
        ("far_end", "dust packs"), ("cylinder", "rod_stub, length"), ("weight", "0.90 kg"), ("pinch", "finger"),
        ("stack_up", "2.0 mm either way"),
    ):  # fmt: skip
        finding = the(found, f"motion.{code}")
        assert finding.severity == "warn" and words in finding.message and finding.advice, code
    helped = of(spec.model_copy(update={"support_down_mm": 60.0, "setting_mm": 8.0}))
    assert {the(helped, f"motion.{code}").severity for code in ("weight", "stack_up")} == {"pass"}


def test_a_guard_takes_the_pinch_away() -> None:
    spec = gate_4in()
    cover = box((-100, 100), (0, 180), (60, 63))
    assert "guard covers" in the(of(spec, guard=cover), "motion.pinch").message


def test_a_blade_that_falls_when_the_air_fails() -> None:
    heavy = changed(METAL_100, blade_thickness_mm=6.0)
    spec = gate_bracket(heavy, BORE_16, frame="rods", mounted="blade_up")
    finding = the(of(spec), "motion.air_loss")
    assert finding.severity == "warn" and "shuts by its own weight" in finding.message
    assert the(of(spec.model_copy(update={"mounted": "sideways"})), "motion.air_loss").severity == "pass"


def test_a_forgotten_body_blocks_and_never_passes() -> None:
    spec = gate_4in()
    part = hand_made(spec, coupling=None)
    found = [f for f in pipeline.check(part, meshes_of(part), spec) if f.code in ("motion", "stiffness")]
    assert [f.severity for f in found] == ["fail", "fail"] and all("not checked" in f.message for f in found)


def test_lines_and_holes_find_what_is_there() -> None:
    spec = gate_4in()
    part = hand_made(spec)
    mesh = mesh_body(next(b for b in part.bodies if b.name == "yoke")).mesh
    plan = gate_plan(spec).frame
    met = crossings(mesh, (0.0, 0.0, plan.window_high / 2 + 2), (0.0, 1.0, 0.0))
    assert met.at_mm == pytest.approx([plan.yoke_y0, plan.yoke_y1]) and met.enters.tolist() == [True, False]
    holes = round_holes(mesh, (plan.yoke_y0 + plan.yoke_y1) / 2)
    assert sorted(hole.x_mm for hole in holes) == pytest.approx([-plan.rail_x, plan.rail_x], abs=0.01)
    assert face_y_mm(part, meshes_of(part), "nose face") == pytest.approx(gate_plan(spec).nose_face_mm)
    assert yoke(gate_plan(spec)).isValid()
