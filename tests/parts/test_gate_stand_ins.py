"""Stand-ins of a gate bracket: volumes against closed forms, where they stand at both ends."""

from __future__ import annotations

import math

import pytest
from tests.gate_specs import BORE_16, BORE_32, GATE_4, METAL_100, gate_4in, gate_6in, gate_bracket, metal_alongside

from fitwright.data.air import fitting, tube
from fitwright.part import StandIn
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate.stand_ins import gate_stand_ins
from fitwright.spec.gate import GateBracketSpec, Proud


def things(spec: GateBracketSpec) -> dict[str, StandIn]:
    found = gate_stand_ins(gate_plan(spec), spec)
    assert len({one.name for one in found}) == len(found)
    return {one.name: one for one in found}


def disc(d: float) -> float:
    return math.pi * d * d / 4


SPECS = {
    "4 in": gate_4in(frame="rods"),
    "6 in": gate_6in(frame="rods"),
    "metal": metal_alongside(),
    "profile": gate_bracket(METAL_100, BORE_32, frame="rods"),
    "ports right": gate_bracket(GATE_4, BORE_16.model_copy(update={"ports_face": "right"}), frame="rods"),
}


@pytest.mark.parametrize("name", SPECS)
def test_every_stand_in_is_one_sound_solid(name: str) -> None:
    for thing in things(SPECS[name]).values():
        assert thing.solid.isValid() and len(thing.solid.Solids()) == 1, thing.name
        assert thing.solid.Volume() > 0 and thing.seats_in, thing.name


def test_the_gate_is_a_box_with_slot_and_port() -> None:
    found = things(SPECS["metal"])
    # 140 x 150 x 12; slot 1.9 high, 113 wide, all through; port 100 round where there is no slot.
    port = disc(100.0) * (12.0 - 1.9)
    assert found["gate body"].solid.Volume() == pytest.approx(140 * 150 * 12 - 113 * 150 * 1.9 - port, rel=1e-6)
    # 148 of blade: 24 out, 72 to the port's middle, 50 its radius, 2 over it. A hole of 6.5.
    assert found["gate blade"].solid.Volume() == pytest.approx(112 * 148 * 1.5 - disc(6.5) * 1.5, rel=1e-9)
    stub = found["gate pipe stub above"].solid
    assert stub.Volume() == pytest.approx((disc(100) - disc(96)) * 40, rel=1e-9)
    assert (stub.BoundingBox().zmin, stub.BoundingBox().zmax) == (pytest.approx(6.0), pytest.approx(46.0))


def test_the_blade_fills_its_slot_but_for_its_clearance() -> None:
    found = things(SPECS["4 in"])
    assert found["gate body"].solid.intersect(found["gate blade"].solid).Volume() == pytest.approx(0.0, abs=1e-9)


def test_a_blade_that_is_not_in_the_middle_moves_the_body() -> None:
    blade = GATE_4.blade.model_copy(update={"plane_mm": 3.0})
    box = things(gate_bracket(GATE_4.model_copy(update={"blade": blade})))["gate body"].solid.BoundingBox()
    assert (box.zmin, box.zmax) == (pytest.approx(-14.0), pytest.approx(8.0))


def test_what_stands_proud() -> None:
    proud = Proud(label="rib", x_mm=10, y_mm=30, across_mm=8, along_mm=20, high_mm=5, side="down")
    box = things(gate_bracket(GATE_4.model_copy(update={"proud": (proud,)})))["gate rib"].solid.BoundingBox()
    assert [box.xmin, box.xmax, box.ymin, box.ymax] == pytest.approx([6, 14, -50, -30])
    assert [box.zmin, box.zmax] == pytest.approx([-16, -11])


@pytest.mark.parametrize("name", ["4 in", "6 in", "profile", "metal"])
def test_the_rod_fully_in_ends_wf_from_the_nose(name: str) -> None:
    # ISO 6432 WF, ISO 15552 WH: mounting face to shoulder, rod in. With a sleeve it stops `sleeve - gap` before that.
    spec = SPECS[name]
    plan, cylinder = gate_plan(spec), spec.cylinder
    box = things(spec)["cylinder rod"].solid.BoundingBox()
    in_line = spec.layout == "in_line"
    tip = box.ymin if in_line else box.ymax
    at_end = plan.moved_mm if in_line else 0.0  # in line the rod is in when open, alongside when shut
    shoulder = abs(plan.nose_face_mm - (tip + at_end)) - cylinder.rod_thread_long_mm
    spare = cylinder.stroke_mm - plan.moved_mm
    assert shoulder == pytest.approx(cylinder.rod_stub_mm + spare)
    out = plan.moved_mm - at_end if not in_line else 0.0
    assert abs(plan.nose_face_mm - (tip + out)) == pytest.approx(
        cylinder.rod_stub_mm + cylinder.stroke_mm + cylinder.rod_thread_long_mm
    )


@pytest.mark.parametrize("name", ["4 in", "6 in", "profile", "metal"])
def test_the_rod_stays_in_its_barrel_at_both_ends(name: str) -> None:
    spec = SPECS[name]
    plan, found = gate_plan(spec), things(SPECS[name])
    body, rod = found["cylinder body"].solid.BoundingBox(), found["cylinder rod"].solid.BoundingBox()
    for moved in (0.0, plan.moved_mm):
        if plan.way > 0:
            assert plan.nose_face_mm < rod.ymax + moved < body.ymax
        else:
            assert body.ymin < rod.ymin + moved < plan.nose_face_mm


def test_the_cylinder_in_closed_form() -> None:
    found = things(SPECS["profile"])
    # 45 square, 94 + 125 long, boss 30 x 4; hollow 12.4 from the boss to 1 before the rear end.
    solid = 45**2 * 219 + disc(30) * 4 - disc(12.4) * (219 + 4 - 1)
    assert found["cylinder body"].solid.Volume() == pytest.approx(solid, rel=1e-6)
    # Rod 12: piston 0.3 x 94 behind the face when out; M10 thread 22 long.
    rod = disc(12) * (26 + 125 + 0.3 * 94) + disc(10) * 22
    assert found["cylinder rod"].solid.Volume() == pytest.approx(rod, rel=1e-6)


def test_nuts_are_rings_as_wide_as_their_corners() -> None:
    found = things(SPECS["4 in"])
    # Thin nut M6: 10 across flats, 3.2 high (ISO 4035); M8 full nut caught: 13 across flats, 6.8 high (ISO 4032).
    jam = (disc(20 / math.sqrt(3)) - disc(6.2)) * 3.2
    assert found["coupling jam nut"].solid.Volume() == pytest.approx(jam, rel=1e-6)
    caught = (disc(13) - disc(8.2)) * 6.8
    assert found["frame nut in the yoke left"].solid.Volume() == pytest.approx(caught, rel=1e-6)


def test_a_fitting_and_its_hose_in_closed_form() -> None:
    found, row = things(SPECS["4 in"]), fitting("M5")
    arm = disc(0.8 * row.body_mm) * (row.reach_mm - row.body_mm / 2)
    assert found["cylinder front fitting"].solid.Volume() == pytest.approx(row.body_mm**2 * row.above_mm + arm)
    bend = tube(row.tube_mm).bend_radius_mm
    assert found["cylinder rear hose bend"].solid.Volume() == pytest.approx(
        disc(row.tube_mm) * (10 + math.pi / 2 * bend + 30), rel=1e-6
    )


@pytest.mark.parametrize(
    ("face", "axis", "sign"), [("up", "z", 1), ("down", "z", -1), ("left", "x", -1), ("right", "x", 1)]
)
def test_fittings_stand_on_the_side_that_the_ports_look_to(face: str, axis: str, sign: int) -> None:
    cylinder = BORE_16.model_copy(update={"ports_face": face})
    box = things(gate_bracket(GATE_4, cylinder))["cylinder front fitting"].solid.BoundingBox()
    reach = getattr(box, f"{axis}{'max' if sign > 0 else 'min'}") * sign
    assert reach == pytest.approx(10.0 + fitting("M5").above_mm)  # the front cover of this bore is 20 wide


def test_a_port_that_no_table_knows_gets_the_usual_fitting() -> None:
    cylinder = BORE_16.model_copy(update={"port": "Rc 3/4", "standard": "as measured"})
    assert "cylinder front fitting" in things(gate_bracket(GATE_4, cylinder))


def test_room_for_dust_behind_the_far_end() -> None:
    box = things(SPECS["metal"])["gate room for dust"].solid.BoundingBox()
    # The blade's tip (24 - 148 = -124) stays inside a body of 150: 10 beyond its end.
    assert [box.ymin, box.ymax] == pytest.approx([-160.0, -150.0])
    short = METAL_100.model_copy(update={"body": METAL_100.body.model_copy(update={"length_mm": 120.0})})
    box = things(gate_bracket(short))["gate room for dust"].solid.BoundingBox()
    assert box.ymin == pytest.approx(-120.0 - 4.0 - 10.0)
    closed = METAL_100.model_copy(update={"body": METAL_100.body.model_copy(update={"far_end": "closed"})})
    assert "gate room for dust" not in things(gate_bracket(closed))


def test_driven_beyond_shut_all_that_moves_is_further_in() -> None:
    body = GATE_4.body.model_copy(update={"far_end": "open", "far_room_mm": 30.0})
    gate = GATE_4.model_copy(update={"body": body, "shut_mm": 40.0, "open_mm": 146.0})
    over, plain = (things(gate_bracket(gate, stop=stop, frame="rods")) for stop in ("over_shut", "sleeve"))
    for name in ("gate blade", "coupling pin", "coupling nut", "coupling jam nut", "cylinder rod"):
        first, second = (one[name].solid.BoundingBox().ymin for one in (over, plain))
        assert first - second == pytest.approx(-19.0), name  # 125 of stroke for 106 of travel
