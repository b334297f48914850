"""How far the nose plate gives: against handbook beams and against finite elements of the plate seen from above."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray
from tests.gate_specs import BORE_16, BORE_32, GATE_4, gate_4in, gate_6in, gate_bracket
from tests.plane_stress import Grid, Plate, moved

from fitwright.errors import RefusalError
from fitwright.parts.gate.nose_hold import SquareHold, ThreadHold
from fitwright.parts.gate.nose_plan import NosePlan, nose_plan, thrust_n
from fitwright.parts.gate.nose_stiffness import AIM_MM, LIMIT_MM, Beam, Run, gives, two_chords_mm4
from fitwright.parts.gate.plan import gate_plan
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.grammar.profiles import read_material
from fitwright.spec.grammar.values import Context

SIDEWAYS_16 = BORE_16.model_copy(update={"ports_face": "left"})
SIDE_MM, STEEL_MPA = 0.5, 200_000.0


def test_a_plain_beam_is_the_handbooks() -> None:
    """F L^3 / 48 EI, a quarter of it built in, end slope F L^2 / 16 EI (any handbook of beams)."""
    force, span, deep, modulus = 121.0, 142.0, 30.0 * 18.0**3 / 12.0, 2000.0
    found = gives(Beam(span / 2, 30.0, (Run(0.0, 30.0, deep), Run(30.0, span / 2, deep))), force, modulus)
    assert found.pinned_mm == pytest.approx(force * span**3 / (48 * modulus * deep))
    assert found.built_in_mm == pytest.approx(force * span**3 / (192 * modulus * deep))
    assert np.radians(found.tilt_deg) == pytest.approx(force * span**2 / (16 * modulus * deep))


def test_two_chords_are_the_theorem_of_parallel_axes() -> None:
    front, back, apart, high = 5.0, 7.0, 19.0, 40.0
    areas = (front * high, back * high)
    middle = areas[0] * apart / sum(areas)
    deep = high * (front**3 + back**3) / 12 + areas[0] * (apart - middle) ** 2 + areas[1] * middle**2
    assert two_chords_mm4(high, front, back, apart, high) == pytest.approx(deep)


@pytest.mark.parametrize(
    "spec",
    [
        gate_4in(frame="rods"),
        gate_4in(frame="one_piece"),
        gate_6in(frame="rods"),
        gate_bracket(GATE_4, BORE_32, frame="rods"),
        gate_bracket(GATE_4, SIDEWAYS_16, frame="rods", hold="clamp"),
    ],
    ids=["4 in rods", "4 in one piece", "6 in", "bore 32", "clamp"],
)
def test_finite_elements_give_no_more_than_the_upper_bound(spec: GateBracketSpec) -> None:
    """And no less than two thirds of it: the plate is no heavier than it must be."""
    plan = gate_plan(spec)
    force = thrust_n(spec)
    said = plan.frame.nose.gives(force, spec.material.modulus_mpa).pinned_mm
    found = _finite_elements_mm(plan.frame.nose, spec.material.modulus_mpa, force)
    assert 0.66 * said < found < 1.02 * said <= 1.02 * AIM_MM


def test_the_thrust_is_the_piston_area_at_the_set_pressure() -> None:
    """ISO 6432 bore 16 at 6 bar: 120.6 N (published force tables)."""
    assert thrust_n(gate_4in()) == pytest.approx(120.6, abs=0.05)


def test_a_plate_without_ribs_bends_too_far() -> None:
    """The web alone, 7 mm thick, as a plain beam under the thrust."""
    spec = gate_4in(frame="rods")
    nose = gate_plan(spec).frame.nose
    plain = Beam(nose.ends.rail_x, nose.high, (Run(0.0, nose.ends.rail_x, nose.high * nose.web**3 / 12),))
    assert gives(plain, thrust_n(spec), spec.material.modulus_mpa).pinned_mm > 6 * LIMIT_MM


def test_more_thrust_than_any_plate_holds_names_the_pressure_that_works() -> None:
    """The plate alone: a pin would be too thin long before."""
    plain = gate_plan(gate_bracket(GATE_4, BORE_32, frame="rods"))
    strong = BORE_32.model_copy(update={"bore_mm": 125.0})

    def plate(mpa: float) -> NosePlan:
        spec = gate_bracket(GATE_4, strong, frame="rods", pressure_mpa=mpa)
        return nose_plan(spec, plain.frame.nose.ends, plain.coupling)

    with pytest.raises(RefusalError) as refusal:
        plate(0.6)
    assert refusal.value.key == "pressure"
    bar = float(refusal.value.allowed.split(" bar")[0])
    assert 0.5 < bar < 6.0
    plate(bar / 10)
    with pytest.raises(RefusalError):
        plate(bar / 10 + 0.03)


def test_a_rubbery_material_is_refused_by_name() -> None:
    with pytest.raises(RefusalError, match="material") as refusal:
        gate_plan(gate_4in(frame="rods", material=read_material("TPU", Context())))
    assert "TPU" in refusal.value.found


def _finite_elements_mm(nose: NosePlan, modulus: float, force: float) -> float:
    """Half the plate, ends free to turn, pulled in the middle of the mounting face."""
    outer, low, high = nose.ends.outer_x, -nose.deep, 10.0
    x = (np.arange(round(outer / SIDE_MM)) + 0.5) * SIDE_MM
    v = low + (np.arange(round((high - low) / SIDE_MM)) + 0.5) * SIDE_MM
    across, along = np.meshgrid(x, v, indexing="ij")
    thick, stiff = np.where(along < 0.0, nose.high, 0.0), np.full_like(across, modulus)
    between = (along > nose.chord - nose.deep) & (along < -nose.web)
    _cut(thick, across, along, between, nose)
    if isinstance(nose.hold, ThreadHold):
        hold = nose.hold
        reach = hold.nut_m_mm + hold.washer_h_mm
        nut = (across < hold.nut_af_mm / 2) & (along < -nose.web) & (along > -nose.web - reach)
        cover = (across < hold.clamped_mm / 2) & (along > 0.0)
        thick[nut | cover], stiff[nut | cover] = 20.0, STEEL_MPA
    plate = Plate(SIDE_MM, thick, stiff)
    face, rail, middle = round(-low / SIDE_MM), round(nose.ends.rail_x / SIDE_MM), round(nose.deep / 2 / SIDE_MM)
    held = {(0, k, 0) for k in range(len(v) + 1)} | {(rail, middle, 1)}
    return float(moved(plate, {(0, face, 1): force / 2}, held)[0, face, 1])


def _cut(thick: Grid, across: Grid, along: Grid, between: NDArray[np.bool_], nose: NosePlan) -> None:
    for x0, x1 in nose.windows:
        thick[between & (across > x0) & (across < x1)] = 0.0
    if isinstance(nose.hold, ThreadHold):
        thick[between & (across < nose.middle_x)] = 0.0
        opening = (along < nose.chord - nose.deep) & (across < nose.open_x)
        thick[opening] = nose.high - 2 * nose.open_z
        return
    thick[(across < nose.hold.hole_mm / 2) & (along < 0.0)] -= nose.hold.hole_mm * (1 + 2**0.5) / 2
    thick[(across < nose.hold.hole_mm / 2 + 4.0) & (along > 0.0) & (along < 5.0)] = 20.0
    if isinstance(nose.hold, SquareHold):
        near = np.abs(across - nose.hold.apart_mm / 2) < nose.hold.screw_hole_mm / 2
        thick[near & (along < 0.0)] -= 2 * nose.hold.screw_hole_mm
