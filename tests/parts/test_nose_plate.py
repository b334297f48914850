"""The nose plate: its three holds on finished solids, their screws and spanners, and what must be refused."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from typing import Any

import pytest
from tests.gate_specs import (
    BORE_16,
    BORE_20,
    BORE_32,
    GATE_4,
    GATE_6,
    METAL_100,
    gate_4in,
    gate_6in,
    gate_bracket,
)

from fitwright.checks import features, fit_built, printing, solid, wall
from fitwright.data.fasteners import fastener
from fitwright.errors import RefusalError
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.gate.nose import POSES, nose_piece, roofed_mm2
from fitwright.parts.gate.nose_hold import (
    NECK_DEG,
    SPANNER_WIDE,
    ClampHold,
    SquareHold,
    ThreadHold,
    clamp_grips_n,
    clamp_hold,
    nose_washer,
    preload_n,
    square_hold,
)
from fitwright.parts.gate.nose_plan import thrust_n
from fitwright.parts.gate.nose_stiffness import LIMIT_MM
from fitwright.parts.gate.piece import body_of
from fitwright.parts.gate.plan import GatePlan, gate_plan
from fitwright.spec.gate import GateBracketSpec

HANDLE_WIDE = 0.8
"""Handle of an open spanner, in widths across flats (common practice, no source)."""
SWING_DEG = 30.0
"""An open spanner that is flipped over after each pull needs no more (its jaws stand at 15 deg; common practice)."""
SIDEWAYS_16, SIDEWAYS_32 = (c.model_copy(update={"ports_face": "left"}) for c in (BORE_16, BORE_32))
HELD = {
    "4 in": gate_4in(frame="rods"),
    "6 in": gate_6in(frame="rods"),
    "bore 32": gate_bracket(GATE_4, BORE_32, frame="rods"),
    "round clamp": gate_bracket(GATE_4, SIDEWAYS_16, frame="rods", hold="clamp"),
    "square clamp": gate_bracket(GATE_4, SIDEWAYS_32, hold="clamp", frame="rods", pressure_mpa=0.3),
}


def judged(spec: GateBracketSpec, rods: bool) -> tuple[GatePlan, Part, list[Finding]]:
    """The plate alone, by the real checks."""
    plan = gate_plan(spec)
    body = body_of(nose_piece(plan, spec, rods), spec.wall_mm, POSES)
    part = Part("nose", "gate_bracket", (body,))
    meshes = {body.name: mesh_body(body)}
    checks = (solid, features, wall, printing, fit_built)
    return plan, part, [finding for check in checks for finding in check.check(part, meshes, spec)]


def spanner_swings_deg(bay_half_mm: float, high_mm: float, af_mm: float) -> float:
    """How far an open spanner swings in a bay that is open above and below; 0 where its head does not go in.

    The handle leaves the bay `high_mm / 2` above the nut: there h tan(a) + w / (2 cos(a)) <= half the bay's width.
    """
    if SPANNER_WIDE * af_mm / 2 > bay_half_mm:
        return 0.0
    high, half = high_mm / 2, HANDLE_WIDE * af_mm / 2
    reach = math.hypot(high, bay_half_mm)
    turn = math.asin(min(1.0, half / reach))
    return 2.0 * max(0.0, math.degrees(math.atan2(bay_half_mm, high) - turn))


@pytest.mark.parametrize("rods", [True, False], ids=["rods", "square ends"])
@pytest.mark.parametrize("name", HELD)
def test_every_hold_passes_every_check(name: str, rods: bool) -> None:
    """Watertight, of its closed form's volume and genus, holes and cuts as meant, printable without support."""
    _, part, findings = judged(HELD[name], rods)
    assert [str(f) for f in findings if f.severity != "pass"] == []
    assert len(part.bodies[0].features) >= 3


@pytest.mark.parametrize("name", HELD)
def test_turned_round_it_is_its_mirror_image(name: str) -> None:
    """Where the body lies inwards of the mounting face: the same plate, mirrored in that face."""
    plan = gate_plan(HELD[name])
    one, other = (nose_piece(replace(plan, way=way), HELD[name], True) for way in (1.0, -1.0))
    assert other.solid.Volume() == pytest.approx(one.solid.Volume())
    there, back = one.solid.Center(), other.solid.Center()
    assert back.y - plan.nose_face_mm == pytest.approx(plan.nose_face_mm - there.y, abs=1e-6)
    assert (back.x, back.z) == (pytest.approx(there.x, abs=1e-6), pytest.approx(there.z, abs=1e-6))


def test_the_roofed_hole_is_three_quarters_of_a_circle_and_a_square() -> None:
    """By cutting it up: a half circle, and what lies under two planes at 45 deg, in a thousand strips."""
    r, n = 8.25, 100_000
    strips = ((2 * k + 1) / n - 1.0 for k in range(n))
    c = r / math.sqrt(2)
    top = sum(2 * c - abs(u * r) if abs(u * r) < c else math.sqrt(r * r - u * u * r * r) for u in strips) * 2 * r / n
    assert roofed_mm2(r) == pytest.approx(math.pi * r * r / 2 + top, rel=1e-6)


@pytest.mark.parametrize("name", ["4 in", "6 in"])
def test_the_nose_nut_finds_its_full_thread_and_its_spanner_swings(name: str) -> None:
    spec = HELD[name]
    nose = gate_plan(spec).frame.nose
    hold = nose.hold
    assert isinstance(hold, ThreadHold)
    assert hold.web_mm + hold.washer_h_mm + hold.nut_m_mm <= spec.cylinder.nose_mm + 1e-9
    assert nose.high >= hold.bears_mm
    if hold.washer_d_mm:
        assert hold.washer_d_mm > hold.nut_af_mm and hold.web_mm >= 7.0
    else:  # a washer of 3 mm would leave less than 7 mm of the web
        assert hold.web_mm == pytest.approx(spec.cylinder.nose_mm - hold.nut_m_mm) and hold.web_mm < 7.0 + 3.0
    assert nose.bay >= hold.spanner_mm - 1e-9
    assert spanner_swings_deg(nose.middle_x, nose.high, hold.nut_af_mm) >= SWING_DEG


def test_a_spanner_in_a_narrow_or_deep_bay_does_not_swing() -> None:
    assert spanner_swings_deg(24.0, 40.0, 24.0) == 0.0
    assert 0.0 < spanner_swings_deg(26.0, 160.0, 24.0) < SWING_DEG


def test_swing_is_where_the_handle_meets_the_bays_edge() -> None:
    """Walked round in steps of a thousandth of a degree: the handle's near edge at the bay's upper edge."""
    half, high, af = 27.0, 40.0, 24.0
    turn = 0.0
    while high / 2 * math.tan(math.radians(turn)) + 0.4 * af / math.cos(math.radians(turn)) < half:
        turn += 0.001
    assert spanner_swings_deg(half, high, af) == pytest.approx(2 * turn, abs=0.01)


def test_a_nose_too_short_for_its_nut_is_refused() -> None:
    short = BORE_16.model_copy(update={"nose_mm": 11.0})
    with pytest.raises(RefusalError) as refusal:
        gate_plan(gate_bracket(GATE_4, short, frame="rods"))
    assert (refusal.value.key, refusal.value.allowed) == ("cylinder.nose.length", "12 mm or more")


def test_a_short_nose_goes_without_a_washer() -> None:
    small = BORE_16.model_copy(update={"nose_mm": 14.0})
    hold = gate_plan(gate_bracket(GATE_4, small, frame="rods")).frame.nose.hold
    assert isinstance(hold, ThreadHold)
    assert (hold.washer_d_mm, hold.web_mm) == (0.0, 6.0)


def test_washers_are_those_of_the_standard() -> None:
    """ISO 7089: M10 20 x 2, M12 24 x 2.5 (our table of screws), M16 30 x 3, M20 37 x 3 (from memory)."""
    assert [nose_washer(d) for d in (10.0, 12.0, 16.0, 20.0)] == [(20, 2), (24, 2.5), (30, 3), (37, 3)]


def test_cover_screws_engage_and_do_not_bottom() -> None:
    spec = HELD["bore 32"]
    nose = gate_plan(spec).frame.nose
    hold = nose.hold
    assert isinstance(hold, SquareHold)
    engaged = hold.long_mm - nose.deep - hold.washer_h_mm
    assert hold.engaged_mm == pytest.approx(engaged) and 6.0 <= engaged <= 15.0


def test_heads_stay_clear_of_what_goes_along_the_rod() -> None:
    spec = HELD["bore 32"]
    plan = gate_plan(spec)
    hold = plan.frame.nose.hold
    assert isinstance(hold, SquareHold)
    shoulder_open = plan.ends.blade_open_mm + plan.coupling.long_mm
    heads = plan.nose_face_mm - plan.frame.nose.deep - hold.washer_h_mm - hold.head_k_mm
    assert heads > shoulder_open


def test_a_cover_without_depth_is_refused() -> None:
    shallow = BORE_32.model_copy(update={"square_deep_mm": 6.0})
    with pytest.raises(RefusalError) as refusal:
        gate_plan(gate_bracket(GATE_4, shallow, frame="rods"))
    assert (refusal.value.key, refusal.value.found) == ("cylinder.square.deep", "6 mm")


def test_no_screw_sold_fits_some_plates() -> None:
    """M6 in 8 deep: 6 to 7 mm may engage, and lengths go by fives: a 20 mm plate with its washer leaves 3.4 or 8.4."""
    spec = gate_bracket(GATE_4, BORE_32.model_copy(update={"square_deep_mm": 8.0}), frame="rods")
    assert square_hold(spec, 20.0) is None
    hold = gate_plan(spec).frame.nose.hold
    assert isinstance(hold, SquareHold) and 6.0 <= hold.engaged_mm <= 7.0


def test_a_clamp_holds_half_as_much_again_as_the_stalled_thrust() -> None:
    spec = HELD["round clamp"]
    hold = gate_plan(spec).frame.nose.hold
    assert isinstance(hold, ClampHold)
    assert hold.grips_n >= 1.5 * thrust_n(spec)
    assert hold.band_mm >= spec.cylinder.body_mm
    assert hold.screw_v_mm[1] - hold.screw_v_mm[0] > (fastener(hold.size).washer_d2_mm or 0.0)


def test_friction_counts_only_what_the_screws_press() -> None:
    """Coulomb on both cheeks: 2 mu n P; P is 10 MPa on the washer's ring, M5 of ISO 7089: 10 over a hole of 5.5."""
    ring = math.pi / 4 * (10.0**2 - 5.5**2)
    assert preload_n(fastener("M5")) == pytest.approx(10.0 * ring)
    assert clamp_grips_n(fastener("M5")) == pytest.approx(2 * 0.2 * 2 * 10.0 * ring)


def test_a_clamp_that_cannot_hold_names_the_pressure() -> None:
    with pytest.raises(RefusalError) as refusal:
        clamp_hold(gate_bracket(GATE_4, SIDEWAYS_32, hold="clamp", frame="rods"), 1178.0)
    assert refusal.value.key == "pressure" and "friction" in refusal.value.why


def test_a_clamp_wants_the_ports_at_a_side() -> None:
    with pytest.raises(RefusalError) as refusal:
        gate_plan(gate_4in(hold="clamp", frame="rods"))
    assert (refusal.value.key, refusal.value.allowed) == ("cylinder.ports", "left or right")


def test_the_clamps_neck_is_a_cantilever_under_an_end_moment() -> None:
    """M L / EI and the lever of the thrust line (any handbook of beams); a thinner neck would tilt too far."""
    spec = HELD["round clamp"]
    hold = gate_plan(spec).frame.nose.hold
    assert isinstance(hold, ClampHold)
    force, modulus = thrust_n(spec), spec.material.modulus_mpa
    along, tilt = hold.neck(force, modulus)
    thick = hold.down_mm - hold.cover_mm / 2
    lever = hold.cover_mm / 2 + thick / 2
    turn = force * lever * hold.off_mm / (modulus * 2 * hold.neck_half_mm * thick**3 / 12)
    assert (along, math.radians(tilt)) == (pytest.approx(lever * turn), pytest.approx(turn))
    assert tilt <= NECK_DEG < replace(hold, down_mm=hold.down_mm - 4.0).neck(force, modulus)[1]


def test_holds_that_the_cylinder_lacks_are_refused() -> None:
    for cylinder, hold in ((BORE_32, "nose"), (BORE_16, "front_square")):
        with pytest.raises(RefusalError) as refusal:
            gate_plan(gate_bracket(GATE_4, cylinder, hold=hold, frame="rods"))
        assert refusal.value.key == "hold"


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(20))
def test_any_gate_gives_a_sound_plate_or_a_clear_refusal(seed: int) -> None:
    chance = random.Random(seed)
    spec = _any(chance)
    rods = spec.frame == "rods" and chance.random() < 0.7
    try:
        plan, part, findings = judged(spec, rods)
    except RefusalError as refusal:
        assert refusal.key and refusal.found and refusal.allowed and refusal.why
        return
    bad = [f for f in findings if f.severity == "fail" and f.code != "printing.bed"]
    assert [str(f) for f in bad] == []
    force = thrust_n(spec)
    assert plan.frame.nose.gives(force, spec.material.modulus_mpa).pinned_mm <= LIMIT_MM
    assert part.bodies[0].genus >= 3


def _any(chance: random.Random) -> GateBracketSpec:
    gate = chance.choice([GATE_4, GATE_6, METAL_100])
    cylinder = chance.choice([BORE_16, BORE_20, BORE_32])
    stroke = gate.travel_mm + chance.uniform(-2.0, 30.0)
    changed: dict[str, Any] = {"stroke_mm": stroke, "ports_face": chance.choice(["left", "right", "left", "up"])}
    if cylinder.nose_thread:
        changed["nose_mm"] = cylinder.nose_mm + chance.uniform(-2.0, 4.0)
    hold = chance.choice(["clamp", "nose" if cylinder.nose_thread else "front_square"])
    frame = chance.choice(["rods", "one_piece"])
    pressure = chance.uniform(0.15, 0.7)
    return gate_bracket(
        gate,
        cylinder.model_copy(update=changed),
        hold=hold,
        frame=frame,
        pressure_mpa=pressure,
        rod_size=chance.choice([None, "M10"]),
        setting_mm=chance.uniform(0.0, 8.0),
        stop="none" if stroke > gate.travel_mm + 0.5 else "auto",
    )
