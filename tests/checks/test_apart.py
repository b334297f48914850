"""The quick proof of `features`: a tool moved by a hundredth of a millimetre is never called clear of the part."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from cadquery import Location, Vector

from fitwright.checks.apart import Finished
from fitwright.parts import BUILDERS
from fitwright.spec.load import load_file

ROOT = Path(__file__).parents[2]


@pytest.mark.slow
@pytest.mark.parametrize("name", ["pipe_to_hose", "offset_inlet", "hood", "clamped_socket", "drain_to_hose"])
def test_a_tool_moved_by_a_hundredth_is_never_shown_to_be_outside(name: str) -> None:
    rng = random.Random(name)
    (spec, *_) = load_file(ROOT / "configs" / f"{name}.yaml")
    for body in BUILDERS[spec.part](spec).bodies:
        finished = Finished(body.solid)
        cuts = [f for f in body.features if f.kind == "cut" and not f.by_mesh]
        sides = [finished.side(f.tool) for f in cuts]
        assert "outside" in sides and "inside" not in sides  # as built, some at least are proved without a boolean
        for feature in cuts:
            way = Vector(*(rng.uniform(-1.0, 1.0) for _ in range(3))).normalized()
            assert finished.side(feature.tool.moved(Location(way * 0.01))) != "outside", feature.name
