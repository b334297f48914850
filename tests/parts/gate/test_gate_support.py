"""The second support: where it is wanted, that it carries and does not clamp, that it prints, what it refuses."""

from __future__ import annotations

import math

import pytest
from tests.gate_specs import BORE_16, BORE_20, BORE_32, GATE_4, gate_4in, gate_bracket

from fitwright.checks import features, fit_built, hardware, printing, solid, wall
from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts.gate.plan import gate_plan
from fitwright.parts.gate.support import support_bodies
from fitwright.parts.gate.support_plan import heavy, support_plan
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.spec.gate import GateBracketSpec

HEAVY_ROUND = BORE_20.model_copy(update={"mass_kg": 0.5})
SPECS = {
    "square on a surface": gate_bracket(GATE_4, BORE_32, frame="rods", support_down_mm=60.0),
    "square on the board": gate_bracket(GATE_4, BORE_32, frame="board"),
    "round on a surface": gate_bracket(GATE_4, HEAVY_ROUND, frame="rods", support_down_mm=45.0),
    "round on the board": gate_bracket(GATE_4, HEAVY_ROUND, frame="board", stop="over_open"),
}


def support(spec: GateBracketSpec) -> Part:
    return Part("g", "gate_bracket", support_bodies(gate_plan(spec), spec))


@pytest.mark.parametrize("name", SPECS)
def test_it_is_sound_and_prints(name: str) -> None:
    spec = SPECS[name]
    part = support(spec)
    meshes = {"support": mesh_body(part.bodies[0])}
    for check in (solid.check, features.check, wall.check, fit_built.check, printing.check):
        assert not [f for f in check(part, meshes, spec) if f.severity != "pass"]


@pytest.mark.parametrize("name", SPECS)
def test_it_stands_on_its_surface_with_air_round_the_barrel(name: str) -> None:
    """By rays on the mesh: 0.3 mm below and beside; wherever the cylinder is set it lies on barrel, not on a cover."""
    spec = SPECS[name]
    plan, part = gate_plan(spec), support(spec)
    at, mesh = support_plan(plan, spec), mesh_body(part.bodies[0]).mesh
    assert at is not None
    down = spec.support_down_mm or plan.frame.board_up
    assert mesh.bounds[0][2] == pytest.approx(-down, abs=1e-6)
    y = at.y[0] + 2.0
    below, _, _ = mesh.ray.intersects_location([(0, y, -1)], [(0, 0, -1.0)], multiple_hits=False)
    beside, _, _ = mesh.ray.intersects_location([(0, y, -0.5)], [(1.0, 0, 0)], multiple_hits=False)
    half = spec.cylinder.body_mm / 2 + 0.3
    assert -below[0][2] == pytest.approx(half, abs=0.05)
    assert beside[0][0] == pytest.approx(math.sqrt(half**2 - 0.25) if at.round else half, abs=0.05)
    rear = plan.nose_face_mm + spec.cylinder.long_mm
    assert plan.nose_face_mm + spec.setting_mm < at.y[0] and at.y[1] < rear - spec.setting_mm


def test_it_is_there_only_where_it_is_wanted() -> None:
    light = gate_4in(support_down_mm=60.0, frame="rods")
    assert not heavy(gate_plan(light), light) and support(light).bodies == ()
    nowhere = gate_bracket(GATE_4, BORE_32, frame="rods")
    assert heavy(gate_plan(nowhere), nowhere) and support(nowhere).bodies == ()


@pytest.mark.parametrize(("mass", "over"), [(0.29, False), (0.31, True)])
def test_the_limit_is_0_3_kg(mass: float, over: bool) -> None:
    """And 1 N m: 0.29 kg x 9.80665 x (187 + 90.5) mm = 0.79 N m, under it."""
    spec = gate_bracket(GATE_4, BORE_16.model_copy(update={"mass_kg": mass}))
    assert heavy(gate_plan(spec), spec) is over


@pytest.mark.parametrize(("down", "word"), [(20.0, "or more"), (400.0, "or less")])
def test_a_surface_too_near_or_too_far_is_refused(down: float, word: str) -> None:
    spec = gate_bracket(GATE_4, BORE_32, frame="rods", support_down_mm=down)
    with pytest.raises(RefusalError) as caught:
        support(spec)
    assert caught.value.key == "support.down" and word in caught.value.allowed


def test_its_screws_stay_in_the_board() -> None:
    """2 mm short of the other face, 1 d in the wood at least (common practice, no source)."""
    for thick in (12.0, 15.0, 18.0, 25.0):
        spec = gate_bracket(GATE_4, BORE_32, frame="board", board_thick_mm=thick)
        at = support_plan(gate_plan(spec), spec)
        assert at is not None
        assert 5.0 <= at.screw_long_mm - 6.0 - 1.0 <= thick - 2.0


def test_a_board_too_thin_for_any_wood_screw_is_refused() -> None:
    spec = gate_bracket(GATE_4, BORE_32, frame="board", board_thick_mm=8.0)
    with pytest.raises(RefusalError) as caught:
        support_plan(gate_plan(spec), spec)
    assert caught.value.key == "board.thickness"


def test_its_screws_go_together() -> None:
    spec = SPECS["square on the board"]
    part = build_gate_bracket(spec)
    screws = tuple(one for one in part.fastenings if one.name.startswith("support"))
    assert len(screws) == 2
    body = next(one for one in part.bodies if one.name == "support")
    found = hardware.check(Part("g", "gate_bracket", (body,), fastenings=screws), {"support": mesh_body(body)}, spec)
    assert [f.severity for f in found] == ["pass"]
