"""Random YAML of reducers whose ends are rectangular, slot-ended, given by points, or round."""

from __future__ import annotations

import math
import random
from typing import Any

import yaml


def random_sections(seed: int, family: str = "reducer") -> str:
    """A part's YAML text; the same seed gives the same text."""
    rng = random.Random(f"sections {family} {seed}")
    spec: dict[str, Any] = {"part": family, "name": f"random_{seed}"}
    d = math.exp(rng.uniform(math.log(30.0), math.log(220.0)))
    spec["end_a"] = _end(rng, d, always=True)
    spec["end_b"] = _end(rng, d * math.exp(rng.gauss(0.0, 0.2)), always=rng.random() < 0.4)
    if rng.random() < 0.3:
        spec["wall"] = round(rng.uniform(1.7, 4.0), 2)
    if family == "reducer":
        _in_line(rng, spec, d)
    else:
        _aside(rng, spec, d)
    return str(yaml.safe_dump(spec, sort_keys=False))


def _in_line(rng: random.Random, spec: dict[str, Any], d: float) -> None:
    line = rng.random()
    if line < 0.2:
        spec["line"] = "level"
    elif line < 0.4:
        spec["eccentricity"] = {"right": round(rng.uniform(-0.3, 0.3) * d, 1), "up": round(rng.uniform(-0.3, 0.3) * d)}
    if rng.random() < 0.3:
        spec["length"] = round(rng.uniform(1.0, 4.0) * d, 1)


def _aside(rng: random.Random, spec: dict[str, Any], d: float) -> None:
    spec["offset"] = {"right": round(rng.uniform(-1.0, 1.0) * d, 1), "up": round(rng.uniform(-1.0, 1.0) * d, 1)}
    if rng.random() < 0.5:
        spec["angle"] = f"{rng.uniform(0, 90):.1f} deg"
        if rng.random() < 0.5:
            spec["turns"] = rng.choice(["up", "down", "left", "right"])
    if rng.random() < 0.3:
        spec["clock"] = f"{rng.choice([0, 45, 90, 180, 270])} deg"
    if rng.random() < 0.4:
        spec["length"] = round(rng.uniform(2.0, 6.0) * d, 1)


def _section(rng: random.Random, d: float) -> dict[str, Any]:
    """A section of about the area of a circle of diameter d."""
    kind, ratio = rng.random(), math.exp(rng.uniform(0.0, math.log(5.0)))
    ratio = 1.0 / ratio if rng.random() < 0.4 else ratio
    side = d * math.sqrt(math.pi / 4.0)
    w, h = round(side * math.sqrt(ratio), 1), round(side / math.sqrt(ratio), 1)
    if kind < 0.55:
        corner = rng.choice([0.0, 0.0, round(rng.uniform(0.5, 0.45 * min(w, h)), 1)])
        return {"rectangle": {"width": w, "height": h, "corner": corner}}
    if kind < 0.8:
        return {"oval": {"width": w, "height": h}}
    return {"points": _points(rng, w, h) if kind < 0.93 else _rounded(rng, w, h)}


def _rounded(rng: random.Random, w: float, h: float) -> list[dict[str, Any]]:
    """A trapezium with round corners, each read at three places to 0.1 mm: its arcs never quite run into its sides."""
    base, slant = math.radians(rng.uniform(55.0, 90.0)), 0.45 * min(w, h)
    in_by = min(h / math.tan(base), 0.3 * w)
    corners = [(-w / 2, -h / 2), (w / 2, -h / 2), (w / 2 - in_by, h / 2), (-w / 2 + in_by, h / 2)]
    r, points = rng.uniform(0.05, 0.6) * slant, []
    for k, (x, y) in enumerate(corners):
        (ax, ay), (bx, by) = _towards((x, y), corners[k - 1]), _towards((x, y), corners[(k + 1) % 4])
        half = math.acos(ax * bx + ay * by) / 2
        run, deep = r / math.tan(half), r / math.sin(half) - r
        mx, my = _towards((0.0, 0.0), (ax + bx, ay + by))
        points.append(_read(x + ax * run, y + ay * run))
        points.append({**_read(x + bx * run, y + by * run), "via": _read(x + mx * deep, y + my * deep)})
    return points


def _towards(p: tuple[float, float], q: tuple[float, float]) -> tuple[float, float]:
    """The unit vector from one point towards another."""
    far = math.dist(p, q)
    return (q[0] - p[0]) / far, (q[1] - p[1]) / far


def _read(x: float, y: float) -> dict[str, Any]:
    return {"right": round(x, 1), "up": round(y, 1)}


def _points(rng: random.Random, w: float, h: float) -> list[dict[str, Any]]:
    """Corners on an ellipse, one of the sides an arc now and then: a D, a trapezium, an irregular port."""
    count = rng.randint(3, 6)
    turns = sorted((k + rng.uniform(-0.2, 0.2)) * math.tau / count for k in range(count))
    points: list[dict[str, Any]] = [_at(0.55 * w, 0.55 * h, t) for t in turns]
    if rng.random() < 0.5:
        before = turns[-2] if count > 1 else 0.0
        points[-1]["via"] = _at(0.57 * w, 0.57 * h, (before + turns[-1]) / 2)
    return points


def _at(a: float, b: float, turn: float) -> dict[str, Any]:
    return {"right": round(a * math.cos(turn), 1), "up": round(b * math.sin(turn), 1)}


def _end(rng: random.Random, d: float, always: bool) -> dict[str, Any]:
    face: Any = _section(rng, d) if always else round(d, 1)
    kind = rng.choice(["socket", "socket", "spigot", "flange", "plain"])
    if kind == "plain":
        return {"plain": {"inside": face, "length": round(rng.uniform(5, 40), 1)}}
    if kind == "flange":
        return {"flange": _flange(rng, d, face)}
    joint: dict[str, Any] = {"over" if kind == "socket" else "into": face}
    if rng.random() < 0.3:
        joint["fit"] = rng.choice(["slide", "snug", "glue"])
    if rng.random() < 0.3:
        joint["depth"] = round(rng.uniform(15, 60), 1)
    if rng.random() < 0.2:
        joint["cord"] = round(rng.uniform(2, 5), 1)
    if rng.random() < 0.3:
        joint["screws"] = {"count": rng.randint(2, 6), "size": rng.choice(["No. 8", "M4"])}
    return {kind: joint}


def _flange(rng: random.Random, d: float, face: Any) -> dict[str, Any]:
    wide, high = d, d
    if isinstance(face, dict):
        inner = face.get("rectangle") or face.get("oval")
        wide, high = (inner["width"], inner["height"]) if inner else (1.3 * d, 1.3 * d)
    x, y = round(wide / 2 + rng.uniform(12, 22), 1), round(high / 2 + rng.uniform(12, 22), 1)
    signs = ((1, 1), (-1, 1), (-1, -1), (1, -1))
    holes: dict[str, Any] = {"points": [{"right": a * x, "up": b * y} for a, b in signs], "size": "M5"}
    flange: dict[str, Any] = {"opening": face, "holes": holes}
    if rng.random() < 0.3:
        flange["cord"] = round(rng.uniform(2, 4), 1)
    if rng.random() < 0.4:
        flange["rectangle"] = {"width": round(2 * x + 30, 1), "height": round(2 * y + 30, 1), "corner": 6}
    return flange
