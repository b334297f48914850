"""Random YAML of fit gauges, as a user might write it: mostly sensible, some of it impossible on purpose."""

from __future__ import annotations

import math
import random
from typing import Any

import yaml

PRINTERS = (
    "generic_220",
    "generic_300",
    {"bed_x": 180, "bed_y": 180, "bed_z": 180},
    {"name": "generic_256", "nozzle": 0.6, "line": 0.65, "layer": 0.3},
    {"name": "generic_220", "scale_xy": 0.996, "hole_offset": -0.15, "outside_offset": 0.08},
)


def random_gauge(seed: int) -> str:
    """A gauge's YAML text; the same seed gives the same text."""
    rng = random.Random(f"fit_gauge {seed}")
    spec: dict[str, Any] = {"part": "fit_gauge", "name": f"random_{seed}"}
    kind = rng.choice(["rings", "rings", "plugs", "plugs", "sizes"])
    inches = kind != "sizes" and rng.random() < 0.15
    unit = 25.4 if inches else 1.0
    if inches:
        spec["units"] = "in"
    if kind == "sizes":
        spec["sizes"] = sorted(rng.sample(range(10, 140, 5), rng.randint(2, 6)))
    else:
        spec[kind] = {_way(rng, kind): _measured(rng, _size(rng) / unit, 3 if inches else 1)}
        _options(rng, spec, unit)
    _maybe(rng, 0.2, spec, "wall", round(rng.uniform(0.9, 4.0) / unit, 3))
    _maybe(rng, 0.2, spec, "height", round(rng.uniform(2.5, 12.0) / unit, 3))
    _maybe(rng, 0.3, spec, "form", rng.choice(["auto", "separate", "stepped"]))
    _maybe(rng, 0.5, spec, "printer", rng.choice(PRINTERS))
    _maybe(rng, 0.2, spec, "material", rng.choice(["PLA", "ASA", "TPU"]))
    return str(yaml.safe_dump(spec, sort_keys=False))


def _size(rng: random.Random) -> float:
    return math.exp(rng.uniform(math.log(20.0), math.log(220.0)))


def _way(rng: random.Random, kind: str) -> str:
    return "over" if kind == "rings" else rng.choice(["into", "hose_inside"])


def _measured(rng: random.Random, d: float, digits: int) -> Any:
    way = rng.random()
    if way < 0.6:
        return round(d, digits)
    if way < 0.8:
        return [round(d * (1 + rng.uniform(-0.004, 0.004)), digits) for _ in range(rng.randint(2, 5))]
    return {"catalogue": round(d, digits), "tolerance": round(0.004 * d, digits + 1)}


def _options(rng: random.Random, spec: dict[str, Any], unit: float) -> None:
    _maybe(rng, 0.4, spec, "steps", rng.randint(5, 9))
    _maybe(rng, 0.3, spec, "step", round(rng.choice([0.05, 0.1, 0.15, 0.25, 0.4, 1.0, 2.5]) / unit, 3))
    _maybe(rng, 0.3, spec, "fit", rng.choice(["slide", "snug", "press", "glue"]))
    _maybe(rng, 0.4, spec, "marks", rng.choice(["size", "allowance"]))


def _maybe(rng: random.Random, chance: float, into: dict[str, Any], key: str, value: Any) -> None:
    if rng.random() < chance:
        into[key] = value
