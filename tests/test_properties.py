"""Any valid spec gives one sound solid with the wall that was asked, or a refusal that names the key to change.

300 random specs by default, more with FITWRIGHT_RANDOM=3000. Some are impossible on purpose; nothing but SpecError and
RefusalError may come of them.
"""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Callable

import pytest

from fitwright.checks import fit_built, solid, wall
from fitwright.errors import RefusalError, SpecError
from fitwright.mesh import mesh_body
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

from .random_specs import random_yaml

PER_TEST = 10
COUNT = int(os.environ.get("FITWRIGHT_RANDOM", "300"))
FAMILIES = ("reducer", "offset_adapter")


def outcome(text: str) -> str:
    """`built`, or which kind of refusal; asserts everything that a built part must be."""
    try:
        spec = load_text(text, "random.yaml")[0]
    except SpecError as error:
        assert all(p.key and p.line > 0 and p.allowed for p in error.problems), str(error)
        return "YAML refused"
    try:
        part = BUILDERS[spec.part](spec)
    except RefusalError as error:
        assert error.key.split(".")[0] in type(spec).model_fields or error.key.split(".")[0] in text, str(error)
        assert error.allowed and error.found
        return "refused"
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    found = [f for run in (solid.check, wall.check, fit_built.check) for f in run(part, meshes, spec)]
    walls = [f for f in found if f.code == "wall" and f.value is not None and f.limit is not None]
    assert walls, "no wall was measured"
    for finding in walls:
        assert finding.value is not None and finding.limit is not None
        assert finding.value >= 0.97 * finding.limit, finding
    assert not [f for f in found if f.blocks], [f for f in found if f.blocks]
    return "built"


def tried(
    topic: str,
    make: Callable[[int], str],
    start: int,
    record: Callable[[str, object], None],
    judge: Callable[[str], str] = outcome,
    count: int = PER_TEST,
) -> Counter[str]:
    """The outcomes of `count` specs from seed `start` on, recorded as `topic`; a failure shows its seed and YAML."""
    counts: Counter[str] = Counter()
    for seed in range(start, start + count):
        text = make(seed)
        try:
            counts[judge(text)] += 1
        except Exception as error:
            raise AssertionError(f"seed {seed} of {topic}: {type(error).__name__}: {error}\n{text}") from error
    record("random specs", {topic: dict(counts)})
    return counts


@pytest.mark.slow
@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("start", range(0, COUNT // len(FAMILIES), PER_TEST))
def test_random_specs(family: str, start: int, record_property: Callable[[str, object], None]) -> None:
    tried(family, lambda seed: random_yaml(family, seed), start, record_property)
