"""Kinds of bodies that no other test or example solves: on the first mesh they are analysed, and hold what they bear.

Beside those with a plain closed form stands its figure.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest
from tests.parts.gate.load_specs import SPECS as GATES
from tests.parts.test_hanger_loads import SPECS as HANGERS

from fitwright.checks.strength import WANTED, factor
from fitwright.checks.strength_tasks import tasks
from fitwright.mesh import mesh_body
from fitwright.part import Part
from fitwright.parts import BUILDERS
from fitwright.physics.elastic.task import CaseAnswer, Effort, Task
from fitwright.physics.elasticity import analyse
from fitwright.spec.part_base import PartBase

pytestmark = [pytest.mark.slow, pytest.mark.strength]
BODIES = [
    *(("rods 4 in", body) for body in ("coupling", "sleeve", "guard_up")),
    ("rods supported", "support"),
    *(("board 4 in", body) for body in ("gate_foot", "nose_foot")),
    *(("alongside", body) for body in ("bridge", "bush")),
    *(("band", body) for body in ("hanger", "cap")),
    ("swivel", "base"),
    ("clamp", "cap"),
]
SPECS: dict[str, PartBase] = {**GATES, **HANGERS}


@cache
def built(name: str) -> Part:
    return BUILDERS[SPECS[name].part](SPECS[name])


def solved(name: str, body: str, wanted: Callable[[str], bool] = bool) -> tuple[Task, tuple[CaseAnswer, ...]]:
    """A body's task on its first mesh, and the answers to its cases of these names."""
    part, spec = built(name), SPECS[name]
    (one,) = (one for one in part.bodies if one.name == body)
    (task,) = tasks(replace(part, bodies=(one,)), {body: mesh_body(one)}, spec)
    cases = tuple(case for case in task.cases if wanted(case.name))
    task = replace(task, cases=cases, effort=Effort(refinements=0))
    answer = analyse(task)
    assert not answer.why and len(answer.cases) == len(cases) > 0, answer.why
    return task, answer.cases


@pytest.mark.parametrize(("name", "body"), BODIES)
def test_it_is_analysed_and_holds(name: str, body: str) -> None:
    task, answers = solved(name, body)
    cases = {case.name: case for case in task.cases}
    safe = {one.name: factor(one, cases[one.name], task) for one in answers}
    assert min(safe.values()) >= WANTED, {case: round(one, 2) for case, one in safe.items() if one < WANTED}


def test_a_sleeve_is_crushed_most_where_the_nut_presses_on_it() -> None:
    """F over the ring under a thin nut M6, 10 across its flats (ISO 4035), less the bore of 6.5 for the rod of 6."""
    task, answers = solved("rods 4 in", "sleeve", lambda case: case.startswith("greatest"))
    (case,), (one,) = task.cases, answers
    by_hand = case.force_n / (math.pi / 4.0 * (10.0**2 - 6.5**2))
    assert one.peak.stress_mpa == pytest.approx(by_hand, rel=0.3)
