"""The check `stiffness` on hand-made frames: closed forms, plates off the thrust line, rods, boards."""

from __future__ import annotations

import math
from typing import Any

import cadquery as cq
import pytest
from tests.checks.gate_by_hand import body, box, hand_made, meshes_of, nose, rod, seats, yoke
from tests.gate_specs import BORE_32, GATE_4, gate_4in, gate_6in, gate_bracket

from fitwright import pipeline
from fitwright.checks import stiffness
from fitwright.checks.motion_axis import Hole
from fitwright.checks.motion_chain import driven
from fitwright.checks.motion_load import load
from fitwright.checks.stiffness_frames import Push, nose_plate, on_board, on_rods, one_piece
from fitwright.checks.stiffness_sections import across_x, across_y, cut
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.part import Motion, Part
from fitwright.parts.gate.plan import gate_plan
from fitwright.physics.slide.frames import Movement
from fitwright.spec.gate import GateBracketSpec

LINE = Hole(0.0, 0.0, 16.0)


def rods_4in(**changes: Any) -> GateBracketSpec:
    return gate_4in(frame="rods", **changes)


def judged(part: Part, spec: GateBracketSpec) -> list[Finding]:
    return stiffness.check(part, meshes_of(part), spec)


def one_body(spec: GateBracketSpec, solid: cq.Solid) -> Part:
    """Yoke, frame and nose plate fused, with the coupling and sleeve of the rest."""
    plan, rest = gate_plan(spec), hand_made(spec)
    moving = tuple(one for one in rest.bodies if one.moving)
    return Part("gate", "gate_bracket", (body("frame", solid), *moving), motion=Motion((0.0, 1.0, 0.0), plan.moved_mm),
                seats=seats(plan, spec, "frame"))  # fmt: skip


def fused(*solids: cq.Solid) -> cq.Solid:
    made: Any = solids[0]
    for one in solids[1:]:
        made = made.fuse(one)
    return made.Solids()[0]


def test_a_rectangles_section_is_its_closed_form() -> None:
    found = cut(mesh_body(body("bar", box((-30, 30), (0, 50), (-24, -16)))).mesh, across_y(20.0))
    (piece,) = found.pieces
    assert piece.area_mm2 == pytest.approx(480.0)
    assert (piece.right_at, piece.up_at) == pytest.approx((0.0, -20.0), abs=1e-9)
    assert piece.up_mm4 == pytest.approx(60 * 8**3 / 12) and piece.right_mm4 == pytest.approx(8 * 60**3 / 12)


def test_a_tube_counts_its_hole_and_two_rails_their_distance() -> None:
    tube = rod(20.0, (0, 50)).cut(rod(10.0, (-1, 51))).Solids()[0]
    (piece,) = cut(mesh_body(body("tube", tube)).mesh, across_y(20.0)).pieces
    assert piece.up_mm4 == pytest.approx(math.pi * (20**4 - 10**4) / 64, rel=0.01)
    pair = fused(
        box((-50, -40), (0, 50), (-15, 15)), box((40, 50), (0, 50), (-15, 15)), box((-50, 50), (50, 60), (-15, 15))
    )
    found = cut(mesh_body(body("pair", pair)).mesh, across_y(20.0))
    assert len(found.pieces) == 2 and found.up_mm4 == pytest.approx(2 * 10 * 30**3 / 12)
    assert found.joined_right_mm4 == pytest.approx(2 * (30 * 10**3 / 12 + 300 * 45**2))
    assert cut(mesh_body(body("pair", pair)).mesh, across_x(45.0)).area_mm2 == pytest.approx(60 * 30)


def test_a_plate_off_the_line_moves_as_the_cantilever_with_an_end_moment() -> None:
    """F e L^2 / 2EI aside, F e L / EI tilt (beam tables): a 60 x 8 plate 20.6 below the line under 121 N."""
    mesh = mesh_body(body("plate", box((-30, 30), (0.0, 184.5), (-24.6, -16.6)))).mesh
    found = one_piece(mesh, 184.5, LINE, Push(121.0, 1750.0), 0.0).thrust
    second = 60 * 8**3 / 12
    assert found.aside_mm == pytest.approx(121 * 20.6 * 184.5**2 / (2 * 1750 * second), rel=1e-6)
    assert found.tilt_deg == pytest.approx(math.degrees(121 * 20.6 * 184.5 / (1750 * second)), rel=1e-6)
    assert 9.4 < found.aside_mm < 9.6 and 5.8 < found.tilt_deg < 6.0


def test_a_plain_nose_plate_is_the_beam_of_the_tables() -> None:
    """F s^3 / 48EI and the shear F s / (4 k G A), k = 5/6, G = E / 2(1 + nu)."""
    span, high, deep, e, f = 100.0, 30.0, 12.0, 1750.0, 121.0
    mesh = mesh_body(body("bar", box((-60, 60), (100 - deep, 100), (-high / 2, high / 2)))).mesh
    found = nose_plate(mesh, LINE, span, 100.0, Push(f, e)).along_mm
    bending = f * span**3 / (48 * e * high * deep**3 / 12)
    shear = f * span / (4 * 5 / 6 * e / (2 * 1.36) * high * deep)
    assert found == pytest.approx(bending + shear, rel=0.002)


def test_a_window_lets_the_chords_bend_for_themselves() -> None:
    whole = box((-60, 60), (74, 100), (-15, 15))
    windows = [box((a, b), (80, 94), (-16, 16)) for a, b in ((-45, -10), (10, 45))]
    parted = whole.cut(*windows).Solids()[0]
    push = Push(121.0, 1750.0)
    solid, open_ones = (
        nose_plate(mesh_body(body("bar", s)).mesh, LINE, 100.0, 100.0, push).along_mm for s in (whole, parted)
    )
    chord = 30 * 6**3 / 12 / (1 + 2 * 1.36 * 6 / 5 * (6 / 35) ** 2)
    panel = 121 / 2 / 1750 * 35**3 / (12 * 2 * chord)
    assert open_ones - solid > panel and open_ones - solid == pytest.approx(panel, rel=0.35)


def test_rods_at_axis_height_are_stiff_and_below_it_not() -> None:
    spec = rods_4in()
    assert {f.severity for f in judged(hand_made(spec), spec)} == {"pass"}
    plan = gate_plan(spec)
    y, half = plan.nose_face_mm, plan.frame.nose_wide / 2
    low = fused(nose(plan, False), box((-half, half), (y - 8, y), (-60, -10)))
    holes = [rod(plan.frame.rod_d_mm + 1, (100, 200), side * plan.frame.rail_x, -40.0) for side in (-1, 1)]
    found = judged(hand_made(spec, nose=low.cut(*holes).Solids()[0]), spec)
    assert found[0].severity == "fail" and "moves" in found[0].message and found[0].advice


def test_a_plate_under_the_thrust_line_is_refused_and_rails_at_its_height_are_not() -> None:
    spec = gate_4in(frame="one_piece", pressure_mpa=0.6)
    plan = gate_plan(spec)
    y0, y1, x = plan.frame.yoke_y0, plan.nose_face_mm, plan.frame.rail_x
    ends = (yoke(plan, rods=False), nose(plan, False))
    rails = [box((side * x - 6, side * x + 6), (y0, y1), (-15, 15)) for side in (-1, 1)]
    beside = one_body(spec, fused(*ends, *rails))
    assert judged(beside, spec)[0].severity == "pass"
    under = one_body(spec, fused(*ends, box((-30, 30), (y0, y1), (-24.6, -16.6))))
    finding = judged(under, spec)[0]
    assert finding.severity == "fail" and finding.value is not None and finding.limit == 0.5


def test_a_heavy_cylinder_sags_unless_it_is_carried_or_stands_upright() -> None:
    spec = gate_bracket(GATE_4, BORE_32, frame="rods")
    part = hand_made(spec)
    sags = judged(part, spec)[1]
    assert sags.severity == "warn" and "weight" in sags.message and "support" in sags.advice
    heavy = spec.model_copy(update={"cylinder": spec.cylinder.model_copy(update={"mass_kg": 3.0})})
    assert judged(part, heavy)[1].severity == "fail"
    for change in ({"support_down_mm": 60.0}, {"mounted": "blade_up"}):
        assert len(judged(part, spec.model_copy(update=change))) == 1


def test_a_board_below_bends_more_the_thinner_it_is() -> None:
    spec = gate_6in(frame="board", board_thick_mm=27.0)
    plan = gate_plan(spec)
    y = plan.nose_face_mm
    foot = fused(box((-60, 60), (y - 40, y), (-60, 20))).cut(rod(22.5, (y - 60, y + 1))).Solids()[0]
    gate = fused(yoke(plan, rods=False), box((-60, 60), (plan.frame.yoke_y0, plan.frame.yoke_y0 + 30), (-60, -20)))
    part = hand_made(spec, nose=foot, yoke=gate)
    thick = judged(part, spec)[0]
    thin = judged(part, spec.model_copy(update={"board_thick_mm": 6.0, "board_material": "mdf"}))[0]
    assert thick.severity != "fail" and thin.severity == "fail"
    assert thick.value is not None and thin.value is not None and thin.value > 5 * thick.value


def test_what_cannot_be_measured_blocks() -> None:
    spec = rods_4in()
    part = hand_made(spec, nose=nose(gate_plan(spec), rods=False))
    found = [f for f in pipeline.check(part, meshes_of(part), spec) if f.code == "stiffness"]
    assert [f.severity for f in found] == ["fail"] and "not checked" in found[0].message


def test_rods_beside_the_line_bend_as_two_bars_with_an_end_moment() -> None:
    """Tilt F e L / (E 2 I) with I of the stress area's circle (M8: 36.6 mm2, ISO 898-1); the plate as good as rigid."""
    spec = rods_4in()
    plan = gate_plan(spec)
    part = hand_made(spec)
    low = Hole(0.0, 20.6, 16.5)
    found = on_rods(part, meshes_of(part), plan.nose_face_mm, low, Push(121.0, 1e9)).thrust
    second = 36.6**2 / (4 * math.pi)  # pi d^4 / 64 with d^2 = 4 A / pi
    tilt = 121 * 20.6 * plan.nose_face_mm / (205_000 * 2 * second)
    assert found.tilt_deg == pytest.approx(math.degrees(tilt), rel=0.01)
    assert found.aside_mm == pytest.approx(tilt * plan.nose_face_mm / 2, rel=0.01)
    middle, aside = (
        on_rods(part, meshes_of(part), plan.nose_face_mm, Hole(x, 0.0, 16.5), Push(121.0, 1e9)).thrust for x in (0, 5)
    )
    span = 2 * plan.frame.rail_x  # F e turns against one rod stretched, one squeezed, and both bent
    turning = 205_000 / plan.nose_face_mm * (36.6 * span**2 / 2 + 2 * second)
    assert aside.tilt_deg - middle.tilt_deg == pytest.approx(math.degrees(121 * 5 / turning), rel=0.01)


def test_a_board_bends_about_its_own_middle() -> None:
    """Tilt F e L / E I with e from the thrust line to the board's middle; the feet as good as rigid."""
    spec = gate_6in(frame="board", board_thick_mm=27.0)
    plan = gate_plan(spec)
    y = plan.nose_face_mm
    foot = fused(box((-60, 60), (y - 40, y), (-60, 20))).cut(rod(22.5, (y - 60, y + 1))).Solids()[0]
    gate = fused(yoke(plan, rods=False), box((-60, 60), (plan.frame.yoke_y0, plan.frame.yoke_y0 + 30), (-60, -20)))
    part = hand_made(spec, nose=foot, yoke=gate)
    found = on_board(part, meshes_of(part), spec, Hole(0.0, 0.0, 22.5), Push(150.0, 1e9)).thrust
    tilt = 150 * (60 + 13.5) * y / (6000 * 120 * 27**3 / 12)
    assert found.tilt_deg == pytest.approx(math.degrees(tilt), rel=0.01)


@pytest.mark.parametrize(("aside", "severity"), [(0.44, "pass"), (0.47, "warn"), (0.51, "fail")])
def test_less_than_a_tenth_to_spare_warns(aside: float, severity: str) -> None:
    assert stiffness._thrust(Movement(0.0, aside, 0.0), 100.0, "nose", "").severity == severity


def test_a_print_is_taken_at_half_its_modulus() -> None:
    """The thrust lasts: as the page of the check says."""
    spec = rods_4in()
    part, y = hand_made(spec), gate_plan(spec).nose_face_mm
    [finding] = [f for f in judged(part, spec) if f.code == "stiffness"]
    on = load(part, meshes_of(part), spec, driven(part, meshes_of(part), spec))
    half = Push(on.force_n, spec.material.modulus_mpa / 2)
    assert finding.value == pytest.approx(on_rods(part, meshes_of(part), y, Hole(0.0, 0.0, 16.5), half).thrust.along_mm)
