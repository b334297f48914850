"""A bracket that is too weak is found: its nose plate halved, a cylinder far too heavy for it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from tests.gate_specs import BORE_16, GATE_4, gate_4in, gate_bracket

from fitwright.checks.strength import judged
from fitwright.checks.strength_tasks import tasks
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.parts.gate import frame_plan
from fitwright.parts.gate.nose_hold import ThreadHold
from fitwright.parts.gate.nose_plan import NosePlan, nose_plan
from fitwright.parts.gate_bracket import build_gate_bracket
from fitwright.physics.elastic.task import Effort
from fitwright.physics.elasticity import analyse
from fitwright.spec.gate import GateBracketSpec


def found(spec: GateBracketSpec, body: str, words: str) -> list[Finding]:
    """What is said of a body's cases with these words, on the first mesh."""
    part = build_gate_bracket(spec)
    meshes = {one.name: mesh_body(one) for one in part.bodies}
    (task,) = (one for one in tasks(part, meshes, spec) if one.body == body)
    cases = tuple(one for one in task.cases if words in one.name)
    task = replace(task, cases=cases, effort=Effort(refinements=0))
    return list(judged(part, spec, task, analyse(task)))


def halved(*given: Any) -> NosePlan:
    whole = nose_plan(*given)
    assert isinstance(whole.hold, ThreadHold)
    hold = replace(whole.hold, web_mm=whole.web / 2)
    less = (whole.web + whole.chord) / 2
    return replace(whole, hold=hold, web=whole.web / 2, chord=whole.chord / 2, deep=whole.deep - less)


@pytest.mark.slow
def test_half_a_wall_is_found(monkeypatch: pytest.MonkeyPatch) -> None:
    spec = gate_4in(frame="rods", guard="no")
    assert {one.severity for one in found(spec, "nose_plate", "running")} == {"pass"}
    monkeypatch.setattr(frame_plan, "nose_plan", halved)
    weak = [one for one in found(spec, "nose_plate", "running") if one.severity != "pass"]
    moves = [one for one in weak if one.code == "strength.moves"]
    assert moves and all("frame" in one.advice and "filament" in one.advice for one in weak)


@pytest.mark.slow
def test_a_cylinder_too_heavy_to_be_knocked_wants_a_support() -> None:
    """Any way up, 4 kg on rods: 39 N for good at 277 mm."""
    heavy = BORE_16.model_copy(update={"mass_kg": 4.0})
    spec = gate_bracket(GATE_4, heavy, frame="rods", guard="no")
    weak = [one for one in found(spec, "yoke", "front nuts") if one.severity != "pass"]
    assert any(one.message.startswith(("weight", "knock")) and "second support" in one.advice for one in weak)
    light = found(gate_4in(frame="rods", guard="no"), "yoke", "knock")
    assert {one.severity for one in light} == {"pass"}
