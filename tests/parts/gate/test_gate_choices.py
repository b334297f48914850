"""Sizes that the plan chooses so that nothing clashes and every nut is turned, as random gates had shown."""

from __future__ import annotations

import math
from typing import Any

import pytest
from tests.gate_specs import GATE_4, gate_6in, gate_bracket

from fitwright.checks import clearance, hardware, motion, printing
from fitwright.data.fasteners import fastener
from fitwright.data.spanners import spanner
from fitwright.errors import RefusalError
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.parts.gate.coupling_plan import coupling_plan
from fitwright.parts.gate.frame_plan import EAR_EDGE
from fitwright.parts.gate.guard_plan import APART_MM, guard_pieces, guard_plan
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate.yoke_plan import rod_holes
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.spec.gate import Cylinder, Gate, GateBracketSpec
from fitwright.spec.load import load_text

YAML = """part: gate_bracket
gate:
  sticks_out: {shut: 20, open: 126}
  blade: {width: 118, thickness: 3, hole: 5, hole_to_edge: 8}
  body: {width: 150, thickness: 22}
  screws: {across: 132, from_edge: 12}
"""


def changed(gate: Gate, **keys: Any) -> Gate:
    return gate.model_copy(update=keys)


def blocking(spec: GateBracketSpec, *codes: str) -> list[Finding]:
    part = build_gate_bracket(spec)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    runs = (clearance.check, hardware.check, motion.check, printing.check)
    found = [f for run in runs for f in run(part, meshes, spec) if f.blocks]
    return [f for f in found if f.code.partition(".")[0] in codes]


def cylinder(text: str) -> Cylinder:
    (spec,) = load_text(YAML + text)
    assert isinstance(spec, GateBracketSpec)
    return spec.cylinder


def test_a_thin_body_keeps_the_rods_nuts_clear_of_its_screws() -> None:
    """Edge of the groove that the nut slides in along the ear: 1.5 d from the screw's middle."""
    body = GATE_4.body.model_copy(update={"thickness_mm": 9.5})
    spec = gate_bracket(changed(GATE_4, body=body), frame="rods")
    plan = gate_plan(spec)
    hole, screws = rod_holes(plan, spec)[1], GATE_4.mount.screws
    assert screws is not None
    half = (hole.pocket_af_mm - 9.5 / 2) / math.sqrt(3.0)
    assert abs(hole.x_mm - screws.across_mm / 2) - half >= EAR_EDGE * fastener(screws.size).major_mm


@pytest.mark.parametrize("rods", ["M6", "M8", "M10"])
def test_a_spanner_turns_the_nut_beside_a_thick_blade(rods: str) -> None:
    """Either its head passes beside the blade, or the blade stands in its mouth and leaves 40 deg to swing."""
    blade = GATE_4.blade.model_copy(update={"thickness_mm": 6.0, "hole_mm": 6.5})
    plan = gate_plan(gate_bracket(changed(GATE_4, blade=blade), frame="rods", rod_size=rods))
    af = plan.frame.rod_nut_af_mm
    head, beside = spanner(af).head_usual_mm / 2, plan.frame.rail_x - blade.width_mm / 2
    free = 2 * math.degrees(math.asin(af / 2 / head) - math.atan2(3.0, beside))
    assert beside >= head or free >= 40.0


def test_a_jaw_keeps_its_screws_edge_distance_at_the_heel() -> None:
    """A 40 mm cylinder on a blade without a hole asks for M8."""
    blade = GATE_4.blade.model_copy(update={"hole_mm": None, "hole_to_edge_mm": None})
    spec = gate_bracket(changed(GATE_4, blade=blade), cylinder("cylinder: ISO 15552 40 x 125"), pressure_mpa=0.3)
    jaw = coupling_plan(spec).jaw
    assert jaw is not None
    assert jaw.heel_y - jaw.screw_y >= 1.5 * jaw.screw_d_mm


def test_a_long_guard_is_printed_in_pieces_that_fit_the_bed() -> None:
    spec = gate_6in(frame="rods", guard="yes")
    plan = gate_plan(spec)
    bed = spec.printer.model_copy(update={"bed_x_mm": 212.0, "bed_y_mm": 160.0})
    spec = spec.model_copy(update={"printer": bed})
    whole, pieces = guard_plan(plan, spec), guard_pieces(plan, spec)
    assert whole.plate.y[1] - whole.plate.y[0] > 160.0 and len(pieces) > 1
    assert sum(p.plate.y[1] - p.plate.y[0] for p in pieces) + APART_MM * (len(pieces) - 1) == pytest.approx(
        whole.plate.y[1] - whole.plate.y[0]
    )
    for piece in pieces:
        low, high = piece.plate.y
        assert len(piece.ties) == 4 and all(low < t.y[0] and t.y[1] < high for t in piece.ties)
        assert all(low < s.y[0] and s.y[1] < high for s in piece.slots)


@pytest.mark.slow
def test_a_long_guard_in_pieces_is_sound() -> None:
    assert blocking(gate_6in(frame="rods", guard="yes"), "clearance", "hardware", "printing") == []


def test_a_clamp_turns_ports_that_nobody_named_and_refuses_those_that_it_cannot_pass() -> None:
    assert cylinder("cylinder: ISO 6432 16 x 125\nhold: clamp").ports_face == "left"
    assert cylinder("cylinder: ISO 6432 16 x 125").ports_face == "up"
    (spec,) = load_text(YAML + "cylinder: {code: ISO 6432 16 x 125, ports: up}\nhold: clamp")
    assert isinstance(spec, GateBracketSpec)
    with pytest.raises(RefusalError, match="left or right") as refused:
        gate_plan(spec)
    assert refused.value.key == "cylinder.ports"


@pytest.mark.slow
@pytest.mark.parametrize("frame", ["rods", "one_piece"])
def test_a_clamped_cylinder_goes_together(frame: str) -> None:
    (spec,) = load_text(YAML + f"cylinder: ISO 6432 20 x 125\nhold: clamp\nframe: {frame}\npressure: 3 bar\n")
    assert isinstance(spec, GateBracketSpec)
    found = blocking(spec, "clearance", "hardware", "motion")
    assert [f for f in found if f.code in ("clearance", "hardware", "motion")] == []


def test_over_shut_against_a_closed_slot_is_refused_with_the_room_that_is_wanted() -> None:
    """The stroke is 19 mm longer than the travel of 106."""
    body = GATE_4.body.model_copy(update={"far_end": "closed", "far_room_mm": 4.0})
    with pytest.raises(RefusalError) as refused:
        gate_plan(gate_bracket(changed(GATE_4, body=body), stop="over_shut"))
    assert refused.value.key == "stop" and "19 mm or more" in refused.value.allowed


@pytest.mark.slow
def test_a_washer_on_the_rod_leaves_the_sleeve_its_room_and_the_jam_nut_a_thin_spanner() -> None:
    spec = gate_bracket(GATE_4, cylinder("cylinder: ISO 15552 40 x 125"), pressure_mpa=0.3, stop="sleeve")
    assert gate_plan(spec).coupling.washer_h_mm > 0.0
    assert blocking(spec, "clearance", "hardware") == []


@pytest.mark.slow
def test_rods_stand_clear_of_a_fitting_that_looks_at_them() -> None:
    """A narrow gate, the ports to the left: the nut outside the nose plate is turned beside the front fitting."""
    narrow = YAML.replace("126", "77").replace("118", "66").replace("width: 150", "width: 100").replace("132", "80")
    (spec,) = load_text(narrow + "cylinder: {code: ISO 6432 20 x 80, ports: left}\nframe: rods\npressure: 3 bar\n")
    assert isinstance(spec, GateBracketSpec)
    assert blocking(spec, "clearance", "hardware") == []
