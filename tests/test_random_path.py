"""Random positions of end_b: offset both ways, angles to 90 deg, any way to turn, any clock, any length."""

from __future__ import annotations

import math
import os
import random
from collections.abc import Callable
from typing import Any

import pytest
import yaml

from .random_specs import _end, _near, _size
from .test_properties import tried

PER_TEST = 10
COUNT = int(os.environ.get("FITWRIGHT_RANDOM_PATH", "100"))
WORDS = ("right", "left", "up", "down")


def random_position(seed: int) -> str:
    """YAML of an offset adapter somewhere in space; the same seed gives the same text."""
    rng = random.Random(f"path {seed}")
    d = min(_size(rng), 200.0)
    spec: dict[str, Any] = {"part": "offset_adapter", "name": f"path_{seed}"}
    spec["end_a"], spec["end_b"] = _end(rng, d), _end(rng, _near(rng, d))
    for end in ("end_a", "end_b"):
        if "clamp" in spec[end].get("socket", {}):  # screws beside slits are judged with the joints
            spec[end]["socket"].pop("screws", None)
    if "flange" in spec["end_a"] and "flange" in spec["end_b"]:
        spec["end_b"]["flange"].setdefault("opening", round(d, 1))
    spec["angle"] = rng.choice([0, 30, 45, 60, 90, round(rng.uniform(0, 90), 1)])
    if rng.random() < 0.75:
        spec["offset"] = {k: round(rng.uniform(-1.5, 1.5) * d, 1) for k in ("right", "up")}
    elif rng.random() < 0.3:
        spec["offset"] = "auto"
    if spec["angle"] and rng.random() < 0.75:
        spec["turns"] = rng.choice(
            [*WORDS, {"right": round(rng.uniform(-1, 1), 2), "up": round(rng.uniform(-1, 1), 2)}]
        )
    if rng.random() < 0.4:
        spec["clock"] = rng.choice([45, 90, -30, 180, round(rng.uniform(-360, 360), 1)])
    if rng.random() < 0.5:
        spec["length"] = round(math.exp(rng.uniform(math.log(0.8), math.log(8.0))) * d, 1)
    if rng.random() < 0.15:
        spec["bend_radius"] = round(rng.uniform(0.4, 3.0) * d, 1)
    return str(yaml.safe_dump(spec, sort_keys=False))


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_positions(start: int, record_property: Callable[[str, object], None]) -> None:
    tried("position", random_position, start, record_property)
