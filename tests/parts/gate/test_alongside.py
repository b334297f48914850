"""The cylinder beside the gate: the finished bodies pass the checks that concern them; what cannot be is refused."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest
from tests.gate_specs import BORE_16, BORE_32, METAL_100, gate_4in, gate_bracket, metal_alongside

from fitwright.checks import clearance, features, fit_built, motion, printing, solid, stiffness, wall
from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.gate.alongside_collar import half_disc_mm2, torsion_mm4
from fitwright.parts.gate.alongside_guide import least_bush_mm
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.physics.slide.bridge import Bridge
from fitwright.spec.gate import Cylinder, GateBracketSpec


def beside_4in(**changes: Any) -> GateBracketSpec:
    return gate_4in(**{"layout": "alongside", "second_guide": True, **changes})


def beside_32(**changes: Any) -> GateBracketSpec:
    return gate_bracket(METAL_100, BORE_32, **{"layout": "alongside", "second_guide": True, **changes})


def turned(field: str, value: object) -> Cylinder:
    return BORE_16.model_copy(update={field: value})


SPECS = [metal_alongside(), beside_4in(), beside_32()]


@pytest.mark.parametrize("spec", SPECS, ids=["metal", "4in", "square"])
def test_the_finished_bodies_pass_every_check_of_shape_and_movement(spec: GateBracketSpec) -> None:
    part = build_gate_bracket(spec)
    assert [body.name for body in part.bodies] == ["yoke", "bridge", "bush", "coupling", "sleeve"]
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    for check in (solid, features, wall, fit_built, printing, clearance, motion, stiffness):
        assert [f for f in check.check(part, meshes, spec) if f.severity == "fail"] == []


def test_nothing_needs_support_and_all_fits_a_small_bed() -> None:
    for spec in SPECS[:2]:
        part = build_gate_bracket(spec)
        meshes = {body.name: mesh_body(body) for body in part.bodies}
        found = printing.check(part, meshes, spec)
        assert {f.severity for f in found if f.code in ("printing.bed", "printing.overhang", "printing.island")} == {
            "pass"
        }


@pytest.mark.parametrize("spec", SPECS, ids=["metal", "4in", "square"])
def test_chain_closes(spec: GateBracketSpec) -> None:
    """Nose face = blade open + coupling - rod stub - stroke: rod out is open (the design's chain of lengths)."""
    plan, cylinder = gate_plan(spec), spec.cylinder
    assert plan.way == -1.0
    out = plan.nose_face_mm + cylinder.rod_stub_mm + cylinder.stroke_mm
    assert out == pytest.approx(plan.ends.blade_open_mm + plan.chain.coupling_mm)
    assert plan.shoulder_shut_mm == pytest.approx(out - plan.moved_mm)
    assert -plan.axis_x_mm >= spec.gate.body.width_mm / 2 + cylinder.body_mm / 2 + 4.0 - 1e-9


def test_guide_rod_is_long_enough_for_the_whole_travel() -> None:
    plan = gate_plan(metal_alongside())
    assert plan.beside is not None and plan.beside.guide is not None
    guide = plan.beside.guide
    assert guide.y1 >= guide.bush_y[1] + plan.moved_mm + 4.9
    cut = [line for line in build_gate_bracket(metal_alongside()).hardware if line.cut]
    assert [line.long_mm for line in cut] == [pytest.approx(guide.y1 - guide.y0)]


def test_bush_costs_no_more_thrust_than_there_is() -> None:
    """1 + 2 mu e / (B - 2 mu g), worked by hand for e = 90, g = 24, mu = 0.3, B = 69: 1 + 54 / 54.6."""
    assert least_bush_mm(90.0, 24.0, 2.0, 0.3) == 69.0
    assert Bridge(90.0, 24.0, 69.0, 0.3).thrust_over_drag == pytest.approx(1.0 + 54.0 / 54.6)


def test_closed_forms_of_the_collar() -> None:
    """Half a disc; torsion of a square 0.1406 a^4 and of a long strip a b^3 / 3 (Roark, from memory)."""
    assert half_disc_mm2(3.0, 3.0) == pytest.approx(math.pi * 4.5)
    assert torsion_mm4(2.0, 2.0) == pytest.approx(0.1406 * 16.0, rel=3e-3)
    assert torsion_mm4(1000.0, 1.0) == pytest.approx(1000.0 / 3.0, rel=1e-3)


@pytest.mark.parametrize(
    ("spec", "key", "works"),
    [
        (metal_alongside(second_guide=False), "second_guide", "layout: in_line"),
        (metal_alongside(guide_d_mm=8.0), "second_guide", "diameter 10 mm"),
        (metal_alongside(frame="rods"), "frame", "auto"),
        (metal_alongside(hold="clamp"), "hold", "nose or front_square"),
        (
            gate_bracket(METAL_100, turned("ports_face", "right"), layout="alongside", second_guide=True),
            "cylinder.ports",
            "up, down or left",
        ),
        (
            gate_bracket(METAL_100, turned("rod_thread_long_mm", 11.0), layout="alongside", second_guide=True),
            "cylinder.rod_thread_length",
            "or more",
        ),
    ],
)
def test_what_cannot_be_is_refused_with_what_would_work(spec: GateBracketSpec, key: str, works: str) -> None:
    with pytest.raises(RefusalError) as caught:
        build_gate_bracket(spec)
    assert caught.value.key == key
    assert works in caught.value.allowed


def test_a_thin_guide_rod_fails_the_check_of_movement() -> None:
    """The same bracket with a guide declared thinner than it is: bent by the couple as 1 / d^4."""
    spec = metal_alongside()
    part = build_gate_bracket(spec)
    assert part.guide is not None
    thin: Part = replace(part, guide=replace(part.guide, d_mm=6.0))
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    assert [f.severity for f in motion.check(thin, meshes, spec) if f.code == "motion.guide"] == ["pass", "fail"]
    short: Part = replace(part, guide=replace(part.guide, bush_mm=20.0))
    assert next(f.severity for f in motion.check(short, meshes, spec) if f.code == "motion.guide") == "fail"
