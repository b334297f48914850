"""Random ends for wire-ribbed hose, mostly sensible, some impossible on purpose: a sound part or a refusal by name."""

from __future__ import annotations

import math
import os
import random
from collections.abc import Callable
from typing import Any

import pytest
import yaml

from .test_properties import PER_TEST, tried

COUNT = int(os.environ.get("FITWRIGHT_RANDOM_RIDGE", "60"))


def ridge_yaml(seed: int) -> str:
    """A part with a ridge, a bonding lug or both; d 25 to 200, pitch 5 to 30; the same seed gives the same text."""
    rng = random.Random(f"ridge {seed}")
    d = math.exp(rng.uniform(math.log(25.0), math.log(200.0)))
    kind = ("hose_tail", "socket")[seed % 2]
    end = _tail(rng, d) if kind == "hose_tail" else _socket(rng, d)
    other: dict[str, Any] = rng.choice(
        [
            {"plain": {"inside": round(d * rng.uniform(0.8, 1.2), 1)}},
            {"socket": {"over": round(d * rng.uniform(0.8, 1.2), 1)}},
            {"spigot": {"into": round(d * rng.uniform(0.9, 1.2), 1)}},
        ]
    )
    if rng.random() < 0.2:
        other = {"hose_tail": _tail(rng, d * rng.uniform(0.8, 1.1))}
    ends = [{kind: end}, other]
    rng.shuffle(ends)
    spec: dict[str, Any] = {"part": "reducer", "name": f"ridge_{seed}", "end_a": ends[0], "end_b": ends[1]}
    if rng.random() < 0.15:
        spec |= {"part": "offset_adapter", "offset": {"up": round(0.3 * d, 1), "right": round(0.1 * d, 1)}}
    elif rng.random() < 0.3:
        spec["line"] = "level"
    if rng.random() < 0.3:
        spec["wall"] = round(rng.uniform(1.7, 4.0), 2)
    return str(yaml.safe_dump(spec, sort_keys=False))


def _ridge(rng: random.Random, d: float) -> dict[str, Any]:
    pitch = math.exp(rng.uniform(math.log(5.0), math.log(30.0)))
    wire = pitch * rng.uniform(0.15, 0.35 if rng.random() < 0.9 else 0.6)
    said: Any = round(pitch, 1)
    if rng.random() < 0.3:
        said = {"ribs": (ribs := rng.randint(3, 9)), "over": round(ribs * pitch, 1)}
    elif rng.random() < 0.3:
        said = [round(pitch * rng.uniform(0.98, 1.02), 2) for _ in range(3)]
    made: dict[str, Any] = {"pitch": said, "hand": rng.choice(["left", "right"])}
    made["wire"] = round(min(max(wire, 0.8), 8.0), 1)
    if rng.random() < 0.2:
        made["height"] = round(rng.uniform(0.4, 0.6) * made["wire"], 2)
    if rng.random() < 0.3:
        made["turns"] = round(rng.uniform(1.0, 4.0), 2)
    return made


def _tail(rng: random.Random, d: float) -> dict[str, Any]:
    tail: dict[str, Any] = {"hose_inside": round(d, 1)}
    if rng.random() < 0.75:
        tail["ridge"] = _ridge(rng, d)
    if rng.random() < 0.5 or "ridge" not in tail:
        tail["bond"] = {"screw": rng.choice(["M3", "M4", "M5", "No. 8"]), "wire": round(rng.uniform(0.8, 2.5), 1)}
        tail["bond"]["at"] = f"{rng.choice([0, 45, 90, 137, 180, 270])} deg"
    if rng.random() < 0.3:
        tail["band"] = round(rng.uniform(8.0, 16.0), 1)
    if rng.random() < 0.25:
        tail["depth"] = round(rng.uniform(20.0, 90.0), 1)
    return tail


def _socket(rng: random.Random, d: float) -> dict[str, Any]:
    joint: dict[str, Any] = {"over": round(d, 1), "ridge": _ridge(rng, d)}
    if rng.random() < 0.25:
        joint["depth"] = round(rng.uniform(20.0, 90.0), 1)
    if rng.random() < 0.2:
        joint["fit"] = "glue"
    if rng.random() < 0.2:
        joint["stop"] = round(rng.uniform(0.5, 3.0), 1)
    return joint


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_ridges(start: int, record_property: Callable[[str, object], None]) -> None:
    counts = tried("ridged end", ridge_yaml, start, record_property)
    assert counts["built"] >= PER_TEST // 3, counts
