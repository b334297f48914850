"""Random gates: each loads, in inches as in mm, and has a plan that adds up, or is refused by a key that exists."""

from __future__ import annotations

from functools import cache

import pytest
from tests.random_gates import random_gate

from fitwright.errors import RefusalError
from fitwright.parts.gate.plan import GatePlan, gate_plan
from fitwright.physics.slide.chain import EXACT_MM
from fitwright.spec.gate import GateBracketSpec
from fitwright.spec.grammar.gate_bracket import GateBracketKeys
from fitwright.spec.load import load_text

SEEDS = range(60)


def made(seed: int, inches: bool | None = None) -> GateBracketSpec:
    (spec,) = load_text(random_gate(seed, inches))
    assert isinstance(spec, GateBracketSpec)
    return spec


@cache
def planned(seed: int) -> GatePlan | RefusalError:
    """The plan of this gate, or why there is none."""
    try:
        return gate_plan(made(seed))
    except RefusalError as error:
        return error


@pytest.mark.parametrize("seed", SEEDS)
def test_it_loads_and_its_lengths_add_up(seed: int) -> None:
    """In line: nose face = blade edge + coupling + rod stub + stroke, rod out; alongside the rod points outwards."""
    spec = made(seed)
    assert spec.gate.travel_mm > 0 and spec.gate.port.d_mm < spec.gate.travel_mm + 1e-9
    plan = planned(seed)
    if isinstance(plan, RefusalError):
        assert plan.key.partition(".")[0] in GateBracketKeys.keys(), plan.key
        assert plan.found and plan.allowed and plan.why
        return
    reach = spec.cylinder.rod_stub_mm + spec.cylinder.stroke_mm
    if spec.layout == "in_line":
        assert plan.nose_face_mm == pytest.approx(plan.ends.blade_shut_mm + plan.coupling.long_mm + reach)
    assert plan.moved_mm <= spec.cylinder.stroke_mm + EXACT_MM + 1e-9


@pytest.mark.parametrize("seed", range(0, 100, 5))
def test_in_inches_it_is_the_same_gate(seed: int) -> None:
    mm, inches = made(seed, inches=False), made(seed, inches=True)
    assert inches.units == "in"
    assert inches.gate.shut_mm == pytest.approx(mm.gate.shut_mm, abs=1e-9)
    assert inches.gate.body.thickness_mm == pytest.approx(mm.gate.body.thickness_mm, abs=1e-9)
    for one, other in ((mm.gate.blade, inches.gate.blade), (mm.cylinder, inches.cylinder)):
        for key, value in one.model_dump().items():
            same = pytest.approx(value, abs=1e-9) if isinstance(value, float) else value
            assert getattr(other, key) == same, key


def test_most_of_them_have_a_plan() -> None:
    """Else they would try little."""
    assert sum(not isinstance(planned(seed), RefusalError) for seed in SEEDS) > 0.6 * len(SEEDS)
