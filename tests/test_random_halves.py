"""Random parts in halves: both families, directions and joints, and `auto`; sound, or a refusal naming its key."""

from __future__ import annotations

import os
import random
from collections.abc import Callable
from typing import Any

import pytest
import yaml

from .test_properties import tried

PER_TEST = 10
COUNT = int(os.environ.get("FITWRIGHT_RANDOM_HALVES", "40"))


def halves_yaml(seed: int) -> str:
    """A part's YAML with `halves`; the same seed gives the same text."""
    rng = random.Random(f"halves {seed}")
    d = rng.uniform(40.0, 200.0)
    spec: dict[str, Any] = {"part": rng.choice(["reducer", "offset_adapter"]), "name": f"halves_{seed}"}
    spec["end_a"] = _end(rng, d)
    spec["end_b"] = _end(rng, d * rng.uniform(0.6, 1.3))
    if all("flange" in spec[end] for end in ("end_a", "end_b")):
        spec["end_b"] = {"plain": {"inside": round(d, 1), "length": 20}}
    if spec["part"] == "offset_adapter":
        spec["offset"] = {"up": round(rng.uniform(0.3, 0.8) * d, 1)}
    elif rng.random() < 0.3:
        spec["line"] = "level"
    else:
        spec["length"] = round(d * rng.uniform(1.2, 3.0) + 100.0, 1)
    spec["halves"] = _halves(rng, d)
    return str(yaml.safe_dump(spec, sort_keys=False))


def _end(rng: random.Random, d: float) -> dict[str, Any]:
    kind = rng.choice(["socket", "socket", "spigot", "hose_tail", "flange", "plain"])
    if kind == "hose_tail":
        return {"hose_tail": {"hose_inside": round(d, 1)}}
    if kind == "plain":
        return {"plain": {"inside": round(d, 1), "length": 15}}
    if kind == "flange":
        count, first = rng.randint(3, 8), rng.choice([0, 22, 30, 45])
        holes = {"count": count, "circle": round(d + rng.uniform(35, 70), 1), "size": "M5", "first_at": first}
        return {"flange": {"opening": round(d, 1), "holes": holes}}
    joint: dict[str, Any] = {"over" if kind == "socket" else "into": round(d, 1)}
    if rng.random() < 0.3:
        joint["screws"] = {"count": rng.randint(2, 5), "size": "No. 8"}
    if kind == "socket" and "screws" not in joint and rng.random() < 0.3:
        joint["clamp"] = {"slits": 4, "band": 12}
    return {kind: joint}


def _halves(rng: random.Random, d: float) -> Any:
    if rng.random() < 0.15:
        return "auto"
    bolts = {"bolts": {"size": rng.choice(["M3", "M4", "M5"]), "spacing": round(rng.uniform(40, 90))}}
    lap = {"lap": {"length": round(rng.uniform(6, 20), 1), "keys": rng.randint(0, 6)}}
    made: dict[str, Any] = {"joint": rng.choice([bolts, lap])}
    if rng.random() < 0.5:
        made["across"] = "auto" if rng.random() < 0.6 else round(rng.uniform(0.3, 2.0) * d, 1)
    else:
        made["along"] = rng.choice(["auto", "auto", "up", "right", 40])
    return made


@pytest.mark.slow
@pytest.mark.parametrize("start", range(0, COUNT, PER_TEST))
def test_random_halves(start: int, record_property: Callable[[str, object], None]) -> None:
    tried("halves", halves_yaml, start, record_property)
