"""Forty gates and cylinders drawn at random, the cylinder beside the gate: what is built is sound, clear and prints."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest
from tests.gate_specs import BORE_16, BORE_20, BORE_32, gate_bracket

from fitwright.checks import clearance, features, fit_built, printing, solid, wall
from fitwright.errors import RefusalError
from fitwright.mesh import mesh_body
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.spec.gate import Blade, Gate, GateBody, GateBracketSpec, GateMount, GatePort, GateScrews

SEED, COUNT, LEAST_BUILT, SHARES = 20_26, 40, 20, 4
"""At least half of them are built, in each of so many shares."""


def drawn() -> Iterator[GateBracketSpec]:
    """Screws or a clamp, thin and thick bodies, blades beside the body's middle, with a hole or without."""
    draw = random.Random(SEED)
    for _ in range(COUNT):
        port = draw.choice([63.0, 80.0, 100.0, 125.0])
        wide, shut = port + draw.uniform(10, 20), draw.uniform(20, 45)
        body = wide + draw.uniform(20, 40)
        hole = draw.choice([4.5, 5.0, 5.5, 6.5, None])
        screws = GateScrews(across_mm=draw.uniform(wide + 8, body - 8), from_edge_mm=draw.uniform(9, 16), size="M5")
        mount = draw.choice([GateMount(kind="screws", screws=screws), GateMount(kind="clamp", size="M5")])
        to_edge = None if hole is None else draw.uniform(7, 10)
        thick = draw.choice([1.0, 1.5, 3.0])
        blade = Blade(width_mm=wide, thickness_mm=thick, hole_mm=hole, hole_to_edge_mm=to_edge)
        gate = Gate(
            shut_mm=shut,
            open_mm=shut + port + 4,
            blade=blade.model_copy(update={"plane_mm": draw.choice([0.0, 2.0])}),
            body=GateBody(width_mm=body, thickness_mm=draw.uniform(10, 28), far_end="open"),
            port=GatePort(d_mm=port, to_edge_mm=port / 2 + 20),
            mount=mount,
        )
        stroke = draw.choice([s for s in (80.0, 100.0, 125.0, 160.0) if s >= port + 3.5][:2])
        ports = draw.choice(["up", "down", "left"])
        cylinder = draw.choice([BORE_16, BORE_20, BORE_32])
        cylinder = cylinder.model_copy(update={"stroke_mm": stroke, "ports_face": ports})
        guide = {"second_guide": True, "guide_d_mm": draw.choice([10.0, 12.0, 16.0])}
        yield gate_bracket(gate, cylinder, layout="alongside", setting_mm=draw.choice([0.0, 5.0]), **guide)


@pytest.mark.slow
@pytest.mark.parametrize("share", range(SHARES))
def test_random_gates(share: int) -> None:
    built = 0
    for number, spec in list(enumerate(drawn()))[share::SHARES]:
        try:
            part = build_gate_bracket(spec)
        except RefusalError as error:
            assert error.allowed, number
            continue
        built += 1
        meshes = {body.name: mesh_body(body) for body in part.bodies}
        for check in (solid, features, wall, fit_built, clearance, printing):
            found = [f.message for f in check.check(part, meshes, spec) if f.severity == "fail" and "bed" not in f.code]
            assert found == [], number
    assert built >= LEAST_BUILT / SHARES
