"""Any valid gate bracket is sound bodies that move without a clash, or a refusal that names the key and what to buy.

200 random gates and cylinders by default, more with FITWRIGHT_RANDOM_GATE=1000. Some are impossible on purpose.
"""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest

from fitwright import pipeline
from fitwright.errors import RefusalError, SpecError
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

from .random_gates import random_gate
from .test_properties import tried

PER_TEST = 5
COUNT = int(os.environ.get("FITWRIGHT_RANDOM_GATE", "200"))
OURS = ("solid", "features", "wall", "fit.built", "lettering", "printing.island", "clearance", "hardware")
"""What the program itself has built or chosen wrong, whatever the YAML asked for: no envelope is asked for here, so a
clash is one of printed bodies and bought things, and each screw joint is the plan's own choice."""


def outcome(text: str) -> str:
    """`built`, what the checks hold against it, or which kind of refusal; asserts that nothing is built wrong."""
    try:
        (spec,) = load_text(text, "random.yaml")
    except SpecError as error:
        assert all(p.key and p.line > 0 and p.allowed for p in error.problems), str(error)
        return "YAML refused"
    try:
        part = BUILDERS[spec.part](spec)
    except RefusalError as error:
        assert error.key and error.allowed and error.found and error.why, str(error)
        return f"refused: {error.key}"
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    blocks = [f for f in pipeline.check(part, meshes, spec) if f.blocks]
    assert not [f for f in blocks if _ours(f)], blocks
    return f"blocked: {blocks[0].code}" if blocks else "built"


def _ours(finding: Finding) -> bool:
    """A fault of the build. What is left to block: motion, stiffness, a bed that is too small, what hangs free."""
    told = finding.message + finding.advice
    return finding.code in OURS or "could not be checked" in told or "fault of the build" in told


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_gates(start: int, record_property: Callable[[str, object], None]) -> None:
    tried("gates", random_gate, start, record_property, outcome, PER_TEST)
