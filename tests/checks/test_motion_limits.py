"""The check `motion` just inside and just outside its limits, on hand-made brackets."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from tests.checks.gate_by_hand import box, coupling, hand_made, meshes_of, nose, sleeve, the
from tests.gate_specs import BORE_16, GATE_4, gate_bracket

from fitwright.checks import motion
from fitwright.checks.motion_chain import driven
from fitwright.checks.motion_force import forces
from fitwright.checks.motion_load import load
from fitwright.finding import Finding
from fitwright.parts.gate.plan import gate_plan
from fitwright.spec.gate import GateBracketSpec


def rods(**cylinder: Any) -> GateBracketSpec:
    return gate_bracket(GATE_4, BORE_16.model_copy(update=cylinder), frame="rods")


def of(spec: GateBracketSpec, **solids: Any) -> list[Finding]:
    part = hand_made(spec, **solids)
    return motion.check(part, meshes_of(part), spec)


@pytest.mark.parametrize(("out_mm", "severity"), [(0.2, "pass"), (0.5, "fail")])
def test_half_a_millimetre_short_of_shut_is_too_much(out_mm: float, severity: str) -> None:
    """As meant it stands 0.2 out, half of the play of 0.4: 0.4 passes, 0.7 does not."""
    spec = rods()
    moved = nose(gate_plan(spec), True).translate((0, out_mm, 0))
    finding = the(of(spec, nose=moved), "motion.positions")
    assert finding.severity == severity
    if severity == "fail":
        assert "short of shut" in finding.message and finding.value == pytest.approx(20.7, abs=0.01)


def test_a_sleeve_too_short_for_its_gap_leaves_the_stop_to_the_cylinder() -> None:
    """WF 22, nose 18: rod in by itself the shoulder is 22 off; a sleeve of 3 would hold it at 18 + 3 - 0.4 only."""
    spec = rods()
    part = hand_made(spec, sleeve=sleeve(gate_plan(spec), spec, 3.0))
    begin = next(seat for seat in part.seats if seat.name == "sleeve begin")
    short = replace(begin, name="sleeve end", at=(begin.at[0], begin.at[1] + 3.0, begin.at[2]), out=(0.0, 1.0, 0.0))
    part = replace(part, seats=tuple(short if seat.name == "sleeve end" else seat for seat in part.seats))
    at = driven(part, meshes_of(part), spec)
    assert at.sleeve_mm == pytest.approx(3.0) and at.stopped_open_by == "the cylinder's own end"
    assert at.moved_mm == pytest.approx(125.0 - at.lost_mm)


def test_a_pins_slot_that_is_two_millimetres_too_long_hammers() -> None:
    spec = rods()
    at = gate_plan(spec).coupling
    wide, half = at.pin_d_mm / 2, at.high_mm / 2 + 1
    low = at.pin_y - at.pin_d_mm / 2
    longer = coupling(gate_plan(spec), spec).cut(box((-wide, wide), (low - 2, at.pin_y), (-half, half))).Solids()[0]
    as_meant, finding = the(of(spec), "motion.play"), the(of(spec, coupling=longer), "motion.play")
    assert as_meant.severity == "pass" and finding.severity == "warn"
    assert finding.value is not None and as_meant.value is not None
    assert finding.value - as_meant.value == pytest.approx(2.0, abs=0.02)


@pytest.mark.parametrize(
    ("mass_kg", "length_0_mm", "severity"), [(0.31, 69, "warn"), (0.29, 300, "warn"), (0.29, 69, "pass")]
)
def test_a_third_of_a_kilogram_or_a_newton_metre_wants_a_support(
    mass_kg: float, length_0_mm: float, severity: str
) -> None:
    """m g (nose face 187 + half the cylinder's length): 0.86 N m by mass alone, 1.14 N m by its arm alone."""
    spec = rods(mass_kg=mass_kg, length_0_mm=length_0_mm)
    finding = the(of(spec), "motion.weight")
    assert finding.severity == severity
    arm = gate_plan(spec).nose_face_mm + (length_0_mm + 125) / 2
    assert finding.value == pytest.approx(mass_kg * 9.80665 * arm / 1000, rel=0.01)


def test_what_the_setting_leaves_over_may_lie_within_the_lip() -> None:
    """1 mm more than can be set is less than the lap at the bore's far edge, 3 mm are more."""
    spec = rods()
    off, lap = (the(of(spec), f"motion.{name}").value for name in ("stack_up", "overlap"))
    assert off is not None and lap is not None and 1.0 < lap < 3.0 < off
    few, many = (the(of(spec.model_copy(update={"setting_mm": off - by})), "motion.stack_up") for by in (1.0, 3.0))
    assert few.severity == "pass" and "1.00 mm left over lie within the blade's lip" in few.message
    assert many.severity == "warn" and f"uncover the bore by {3.0 - lap:.1f} mm" in many.message


def test_a_bushs_toll_is_asked_of_the_thrust_and_a_bore_to_pull_counts_its_rod() -> None:
    """Need = margin x toll x drag; pulling, the piston less the rod: bore^2 = 4 A / pi + rod^2."""
    spec = rods().model_copy(update={"pressure_mpa": 0.16})
    part = hand_made(spec)
    meshes = meshes_of(part)
    on = load(part, meshes, spec, driven(part, meshes, spec))
    plain, dear = (next(iter(forces(replace(on, toll=toll), spec))) for toll in (1.0, 1.5))
    assert plain.limit == pytest.approx(2 * on.drag.opening_n) and dear.limit == pytest.approx(1.5 * plain.limit)
    area = plain.limit / (0.85 * 0.16)
    assert math.ceil(math.sqrt(4 * area / math.pi)) < (bore := math.ceil(math.sqrt(4 * area / math.pi + 6**2)))
    assert f"a bore of {bore} mm" in plain.advice


def test_a_pinch_names_its_gaps_at_both_ends() -> None:
    """Coupling tip to the yoke's front: open, tip + way - front; the sleeve is the way off the nose, shut."""
    spec = rods()
    plan, part = gate_plan(spec), hand_made(spec)
    moved = driven(part, meshes_of(part), spec).moved_mm
    message = the(of(spec), "motion.pinch").message
    assert f"sleeve to the cylinder's nose ({moved:.1f} mm shut, 0.0 mm open)" in message
    from_yoke = plan.coupling.tip_y + moved - plan.frame.yoke_y1
    assert f"coupling to yoke (0.0 mm shut, {from_yoke:.1f} mm open)" in message
