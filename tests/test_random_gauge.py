"""Any valid gauge is sound bodies of the genus and sizes meant, each mark read on its mesh; or a clear refusal.

40 random specs by default, more with FITWRIGHT_RANDOM_GAUGE=400. Some are impossible on purpose.
"""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest

from fitwright import pipeline
from fitwright.errors import RefusalError, SpecError
from fitwright.mesh import mesh_body
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

from .random_gauges import random_gauge
from .test_properties import tried

PER_TEST = 5
COUNT = int(os.environ.get("FITWRIGHT_RANDOM_GAUGE", "40"))


def outcome(text: str) -> str:
    """`built`, or which kind of refusal; asserts everything that a built gauge must be."""
    try:
        (spec,) = load_text(text, "random.yaml")
    except SpecError as error:
        assert all(p.key and p.line > 0 and p.allowed for p in error.problems), str(error)
        return "YAML refused"
    try:
        part = BUILDERS[spec.part](spec)
    except RefusalError as error:
        assert error.key in ("form", "wall", "height", "sizes"), str(error)
        assert error.allowed and error.found and error.why
        return "refused"
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    found = [f for f in pipeline.check(part, meshes, spec) if f.blocks]
    assert not [f for f in found if f.code != "printing.bed"], found
    assert len([label for body in part.bodies for label in body.labels]) == len(spec.steps)
    return "larger than the bed" if found else "built"


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_gauges(start: int, record_property: Callable[[str, object], None]) -> None:
    counts = tried("gauge", random_gauge, start, record_property, outcome, PER_TEST)
    assert counts["built"], dict(counts)
