"""Any valid hose hanger is sound bodies that hold their hose, or a refusal that names the key and what would do.

200 random hangers by default, more with FITWRIGHT_RANDOM_HANGER=1000. Some are impossible on purpose.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator

import pytest
from pydantic import BaseModel

from fitwright import pipeline
from fitwright.errors import RefusalError, SpecError
from fitwright.finding import Finding
from fitwright.mesh import mesh_body
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text
from fitwright.spec.size import Size

from .random_hangers import random_hanger
from .test_properties import tried

PER_TEST = 5
COUNT = int(os.environ.get("FITWRIGHT_RANDOM_HANGER", "200"))
OURS = ("solid", "features", "wall", "fit.built", "lettering", "printing.island", "clearance")
"""What the program itself has built or chosen wrong, whatever the YAML asked for: no envelope is asked for here."""


def outcome(text: str) -> str:
    """`built`, what the checks hold against it, or which kind of refusal; asserts that nothing is built wrong."""
    try:
        (spec,) = load_text(text, "random.yaml")
    except SpecError as error:
        assert all(p.key and p.line > 0 and p.allowed for p in error.problems), str(error)
        return f"YAML refused: {error.problems[0].key}"
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
    """A fault of the build. What is left to block: throat, edge distances, screws, a bed that is too small."""
    told = finding.message + finding.advice
    return finding.code in OURS or "could not be checked" in told or "fault of the build" in told


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_hangers(start: int, record_property: Callable[[str, object], None]) -> None:
    tried("hangers", random_hanger, start, record_property, outcome, PER_TEST)


def test_most_of_them_load() -> None:
    """A generator whose YAML is mostly refused would try nothing."""
    refused = 0
    for seed in range(COUNT):
        try:
            load_text(random_hanger(seed), "random.yaml")
        except SpecError:
            refused += 1
    assert refused < COUNT / 5


@pytest.mark.parametrize("seed", range(12))
def test_inches_mean_the_same(seed: int) -> None:
    try:
        (mm,), (inches,) = (load_text(random_hanger(seed, inches), "random.yaml") for inches in (False, True))
    except SpecError:
        return
    assert dict(_lengths(mm)) == pytest.approx(dict(_lengths(inches)), rel=1e-9, abs=1e-9)


def _lengths(meant: BaseModel, path: str = "") -> Iterator[tuple[str, float]]:
    """Every number of a spec by its path, those of printer and filament left out."""
    for name in type(meant).model_fields:
        value = getattr(meant, name)
        if isinstance(value, BaseModel) and name not in ("printer", "material", "envelope"):
            yield from _lengths(value, f"{path}{name}.")
        elif isinstance(value, Size):
            yield f"{path}{name}", value.nominal_mm
        elif isinstance(value, float):
            yield f"{path}{name}", value
        elif isinstance(value, tuple) and all(isinstance(one, float) for one in value):
            yield from ((f"{path}{name}.{k}", one) for k, one in enumerate(value))
