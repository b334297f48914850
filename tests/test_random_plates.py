"""Any valid flange plate is sound flat bodies, true to closed forms, or a refusal that names the key.

100 random plates by default, more with FITWRIGHT_RANDOM_PLATE=1000. Some are impossible on purpose.
"""

from __future__ import annotations

import os
from collections.abc import Callable

import pytest
import shapely

from fitwright import pipeline
from fitwright.errors import RefusalError, SpecError
from fitwright.finding import Finding
from fitwright.flat import Flat
from fitwright.mesh import mesh_body
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_text

from .random_plates import random_plate
from .test_properties import tried

PER_TEST = 10
COUNT = int(os.environ.get("FITWRIGHT_RANDOM_PLATE", "100"))
OURS = ("solid", "features", "wall", "fit.built", "flat.dxf", "flat.thickness", "flat.area", "flat.shape")
"""What the program itself has built wrong, whatever the YAML asked for."""


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
        assert error.key.split(".")[0] in text and error.allowed and error.found and error.why, str(error)
        return f"refused: {error.key}"
    for body in part.bodies:
        assert body.flat is None or by_shapely(body.flat) == pytest.approx(body.flat.area_mm2, rel=1e-4)
    for body in part.bodies:
        assert all(len(body.solid.intersect(one.tool).Solids()) == 1 for one in body.tries)
    meshes = {body.name: mesh_body(body) for body in part.bodies}
    blocks = [f for f in pipeline.check(part, meshes, spec) if f.blocks]
    assert not [f for f in blocks if _ours(f)], blocks
    return f"blocked: {blocks[0].code}" if blocks else "built"


def by_shapely(flat: Flat) -> float:
    """The area by an independent library, of polygons: openings and holes taken from the outline as sets."""
    whole = shapely.Polygon(flat.outline.polyline(1e-3))
    cut = [shapely.Polygon(one.polyline(1e-3)) for one in (*flat.openings, *(hole.outline for hole in flat.holes))]
    return float(whole.difference(shapely.union_all(cut)).area)


def _ours(finding: Finding) -> bool:
    told = finding.message + finding.advice
    return finding.code in OURS or "could not be checked" in told or "fault of the build" in told


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_plates(start: int, record_property: Callable[[str, object], None]) -> None:
    tried("plates", random_plate, start, record_property, outcome, PER_TEST)
