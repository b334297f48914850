"""Random YAML of both adapter families, as a user might write it: mostly sensible, some of it impossible on purpose."""

from __future__ import annotations

import math
import random
from typing import Any

import yaml

LEAST_MM, GREATEST_MM = 20.0, 315.0


def random_yaml(family: str, seed: int) -> str:
    """A part's YAML text; the same seed gives the same text."""
    rng = random.Random(f"{family} {seed}")
    spec: dict[str, Any] = {"part": family, "name": f"random_{seed}"}
    d = _size(rng)
    spec["end_a"], spec["end_b"] = _end(rng, d), _end(rng, _near(rng, d))
    if all("flange" in spec[e] for e in ("end_a", "end_b")):
        spec["end_b"] = {"plain": {"inside": round(d, 1)}}
    if rng.random() < 0.3:
        spec["wall"] = round(rng.uniform(1.7, 4.5), 2)
    if family == "reducer":
        _reducer(rng, spec, d)
    else:
        _offset(rng, spec, d)
    return str(yaml.safe_dump(spec, sort_keys=False))


def _size(rng: random.Random) -> float:
    return math.exp(rng.uniform(math.log(LEAST_MM), math.log(GREATEST_MM)))


def _near(rng: random.Random, d: float) -> float:
    return min(max(d * math.exp(rng.gauss(0.0, 0.3)), LEAST_MM), GREATEST_MM)


def _measured(rng: random.Random, d: float) -> Any:
    kind = rng.random()
    if kind < 0.5:
        return round(d, 1)
    if kind < 0.7:
        return [round(d + rng.uniform(-0.3, 0.3), 1) for _ in range(rng.randint(2, 6))]
    if kind < 0.8:
        return {"circumference": round(d * math.pi, 0)}
    if kind < 0.9:
        return {"catalogue": round(d, 1), "tolerance": round(rng.uniform(0.1, 0.6), 1)}
    return f"{d / 25.4:.3f} in"


def _maybe(rng: random.Random, chance: float, into: dict[str, Any], key: str, value: Any) -> None:
    if rng.random() < chance:
        into[key] = value


def _end(rng: random.Random, d: float) -> dict[str, Any]:
    kind = rng.choice(["socket", "socket", "spigot", "hose_tail", "flange", "plain"])
    if kind == "plain":
        return {"plain": {"inside": _measured(rng, d), "length": round(rng.uniform(3, 40), 1)}}
    if kind == "hose_tail":
        tail: dict[str, Any] = {"hose_inside": _measured(rng, d)}
        _maybe(rng, 0.3, tail, "depth", round(rng.uniform(20, 70), 1))
        _maybe(rng, 0.3, tail, "bead", round(rng.uniform(0.5, 2.0), 1))
        _maybe(rng, 0.2, tail, "wall", round(rng.uniform(2.5, 5.0), 1))
        return {"hose_tail": tail}
    if kind == "flange":
        return {"flange": _flange(rng, d)}
    return {kind: _sleeve(rng, d, kind)}


def _sleeve(rng: random.Random, d: float, kind: str) -> dict[str, Any]:
    key = "over" if kind == "socket" else "into"
    joint: dict[str, Any] = {key: _measured(rng, d)}
    if rng.random() < 0.15:
        further, apart = round(d + rng.uniform(-2, 2), 1), round(rng.uniform(15, 50))
        joint[key] = {"end": round(d, 1), "further": further, "apart": apart}
    _maybe(rng, 0.4, joint, "fit", rng.choice(["slide", "snug", "press", "glue"]))
    _maybe(rng, 0.3, joint, "depth", round(rng.uniform(15, 80), 1))
    _maybe(rng, 0.2, joint, "lead_in", round(rng.uniform(0.2, 1.5), 1))
    _maybe(rng, 0.2, joint, "taper", f"{rng.uniform(0.1, 2.0):.2f} deg")
    _maybe(rng, 0.2, joint, "stop", round(rng.uniform(0.5, 3.0), 1))
    _maybe(rng, 0.2, joint, "cord", round(rng.uniform(2, 6), 1))
    _maybe(rng, 0.2, joint, "screws", {"count": rng.randint(2, 6), "size": rng.choice(["No. 8", "M4", "No. 6"])})
    if kind == "socket":
        _maybe(rng, 0.2, joint, "clamp", {"slits": rng.randint(2, 8), "band": round(rng.uniform(8, 16), 1)})
    return joint


def _flange(rng: random.Random, d: float) -> dict[str, Any]:
    count = rng.randint(3, 8)
    circle = d + rng.uniform(25, 90)
    size = rng.choice(["M4", "M5", "M6", "M8", "1/4 in"])
    flange: dict[str, Any] = {"opening": round(d, 1), "thickness": round(rng.uniform(4, 10), 1)}
    flange["holes"] = {"count": count, "circle": round(circle, 1), "size": size}
    if rng.random() < 0.3:
        x, y = round(circle / 2 * rng.uniform(0.7, 1.2), 1), round(circle / 2 * rng.uniform(0.7, 1.2), 1)
        signs = ((1, 1), (-1, 1), (-1, -1), (1, -1))
        flange["holes"] = {"points": [{"right": sx * x, "up": sy * y} for sx, sy in signs], "size": size}
        wide, high = round(2 * x + rng.uniform(20, 40), 1), round(2 * y + rng.uniform(20, 40), 1)
        flange["rectangle"] = {"width": wide, "height": high, "corner": round(rng.uniform(0, 9), 1)}
    _maybe(rng, 0.3, flange, "cord", round(rng.uniform(2, 4), 1))
    _maybe(rng, 0.2, flange, "gussets", rng.randint(0, 6))
    _maybe(rng, 0.2, flange, "nut_pockets", "yes please" if rng.random() < 0.02 else None)
    if flange.get("nut_pockets") is None:
        flange.pop("nut_pockets", None)
    return flange


def _reducer(rng: random.Random, spec: dict[str, Any], d: float) -> None:
    line = rng.random()
    if line < 0.2:
        spec["line"] = "level"
    elif line < 0.3:
        spec["line"] = "nested"
    elif line < 0.5:
        right, up = (round(rng.uniform(-0.2, 0.2) * d, 1) for _ in range(2))
        spec["eccentricity"] = {"right": right, "up": up}
    if rng.random() < 0.3:
        spec["length"] = round(rng.uniform(0.5, 3.0) * d, 1)
    elif rng.random() < 0.3:
        spec["half_angle"] = f"{rng.uniform(4, 28):.1f} deg"


def _offset(rng: random.Random, spec: dict[str, Any], d: float) -> None:
    spec["offset"] = {"right": round(rng.uniform(-1.0, 1.0) * d, 1), "up": round(rng.uniform(-1.0, 1.0) * d, 1)}
    _maybe(rng, 0.5, spec, "angle", f"{rng.uniform(0, 45):.1f} deg")
    _maybe(rng, 0.3, spec, "clock", f"{rng.choice([0, 45, 90, 180, 270])} deg")
    _maybe(rng, 0.4, spec, "length", round(rng.uniform(1.5, 5.0) * d, 1))
