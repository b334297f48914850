"""Random soft cuffs, slit sleeves and blank flanges: each is one sound part as asked, or a refusal that names its key.

60 by default, in chunks of ten; more with FITWRIGHT_RANDOM=3000. Some are impossible on purpose.
"""

from __future__ import annotations

import math
import os
import random
from collections.abc import Callable
from typing import Any

import pytest
import yaml

from .random_specs import _measured, _near, _offset, _size
from .test_properties import tried

PER_TEST = 10
COUNT = max(60, int(os.environ.get("FITWRIGHT_RANDOM", "60")))
TOPICS = ("soft", "slit", "cover")


def soft_yaml(seed: int) -> str:
    """A cuff or spigot of a soft material, in line or offset, or a rigid one that asks to stretch."""
    rng = random.Random(f"soft {seed}")
    d = _size(rng)
    other = _near(rng, d)
    spec: dict[str, Any] = {"part": rng.choice(["reducer", "reducer", "offset_adapter"]), "name": f"soft_{seed}"}
    materials = ["TPU", "TPU 85A", {"name": "sole", "like": "TPU", "soft": "yes", "strain_limit": 0.08}, "PETG"]
    spec["material"] = rng.choices(materials, (5, 4, 3, 1))[0]
    spec["end_a"], spec["end_b"] = _soft_end(rng, d), _soft_end(rng, other)
    if rng.random() < 0.3:
        spec["wall"] = round(rng.uniform(1.7, 4.5), 2)
    if spec["part"] == "offset_adapter":
        _offset(rng, spec, d)
    elif rng.random() < 0.2:
        spec["line"] = rng.choice(["level", "nested"])
    return str(yaml.safe_dump(spec, sort_keys=False))


def _soft_end(rng: random.Random, d: float) -> dict[str, Any]:
    kind = rng.choice(["socket", "socket", "socket", "spigot", "hose_tail", "plain"])
    if kind == "plain":
        return {"plain": {"inside": round(d, 1)}}
    if kind == "hose_tail":
        return {"hose_tail": {"hose_inside": _measured(rng, d)}}
    key = "over" if kind == "socket" else "into"
    joint: dict[str, Any] = {key: _measured(rng, d)}
    if rng.random() < 0.15:
        joint[key] = {"end": round(d, 1), "further": round(d + rng.uniform(-2, 2), 1), "apart": rng.randint(15, 50)}
    wanted = {
        "fit": (0.4, rng.choice(["stretch", "stretch", "slide", "snug"])),
        "allowance": (0.3, round(-d * rng.uniform(-0.01, 0.08), 2)),
        "depth": (0.3, round(rng.uniform(12, 70), 1)),
        "lead_in": (0.2, round(rng.uniform(0, 4), 1)),
        "stop": (0.2, round(rng.uniform(0, 4), 1)),
        "screws": (0.08, {"count": 3}),
        "taper": (0.08, 0.5),
    }
    joint |= {k: value for k, (chance, value) in wanted.items() if rng.random() < chance}
    return {kind: joint}


def slit_yaml(seed: int) -> str:
    """A slit sleeve between two sockets, or a nested one; now and then with what does not go with it."""
    rng = random.Random(f"slit {seed}")
    d = _size(rng)
    spec: dict[str, Any] = {"part": "reducer", "name": f"slit_{seed}"}
    slit: dict[str, Any] = {}
    if rng.random() < 0.4:
        slit["width"] = round(rng.uniform(1.0, 8.0), 1)
    if rng.random() < 0.3:
        slit["band"] = round(rng.uniform(6, 25), 1)
    if rng.random() < 0.5:
        slit["seal"] = rng.choice(["tape", "foam"])
    spec["slit"] = slit or "yes"
    if rng.random() < 0.3:
        spec["line"] = "nested"
        spec["end_a"] = {"socket": {"over": _measured(rng, d)}}
        outside = d + rng.uniform(4, 16)
        tail = rng.random() < 0.5
        spec["end_b"] = {"hose_tail": {"hose_inside": _measured(rng, outside)}} if tail else {}
        if not tail:
            spec["end_b"] = {"spigot": {"into": _measured(rng, outside)}}
    else:
        spec["end_a"], spec["end_b"] = _slit_end(rng, d), _slit_end(rng, _near(rng, d))
    if rng.random() < 0.3:
        spec["wall"] = round(rng.uniform(1.7, 4.5), 2)
    if rng.random() < 0.1:
        spec["material"] = "TPU"
    return str(yaml.safe_dump(spec, sort_keys=False))


def _slit_end(rng: random.Random, d: float) -> dict[str, Any]:
    if rng.random() < 0.05:
        return {"spigot": {"into": round(d, 1)}}
    joint: dict[str, Any] = {"over": _measured(rng, d)}
    if rng.random() < 0.1:
        joint["over"] = {"end": round(d, 1), "further": round(d + rng.uniform(-2, 2), 1), "apart": rng.randint(15, 50)}
    wanted = {
        "fit": (0.2, rng.choice(["slide", "snug", "press"])),
        "allowance": (0.2, round(rng.uniform(-0.5, 2.5), 1)),
        "depth": (0.2, round(rng.uniform(15, 70), 1)),
        "screws": (0.3, {"count": rng.randint(1, 12), "size": rng.choice(["No. 8", "M4"])}),
        "stop": (0.2, round(rng.uniform(0, 3), 1)),
        "clamp": (0.03, {"slits": 4}),
        "cord": (0.03, 4),
    }
    joint |= {k: value for k, (chance, value) in wanted.items() if rng.random() < chance}
    return {"socket": joint}


def cover_yaml(seed: int) -> str:
    """A flange over a hole of any shape, with or without bolts, round, rectangular or of any outline itself."""
    rng = random.Random(f"cover {seed}")
    d = math.exp(rng.uniform(math.log(25), math.log(160)))
    spec: dict[str, Any] = {"part": rng.choice(["reducer", "offset_adapter"]), "name": f"cover_{seed}"}
    flange: dict[str, Any] = {"opening": round(d * rng.uniform(0.6, 1.0), 1), "thickness": round(rng.uniform(3, 9), 1)}
    reach = d / 2 * rng.uniform(1.0, 1.6)
    if rng.random() < 0.85:
        flange["covers"] = _covered(rng, reach)
        if rng.random() < 0.6:
            flange["margin"] = round(rng.uniform(3, 12), 1)
    far = reach + flange.get("margin", 5.0) + rng.uniform(-1, 25)
    if rng.random() < 0.5:
        circle = round(2 * max(reach + 12, d / 2 + 18), 1)
        flange["holes"] = {"count": rng.randint(3, 6), "circle": circle, "size": rng.choice(["M4", "M5", "M6"])}
        far = max(far, circle / 2 + rng.uniform(9, 20))
    kind = rng.random()
    if kind < 0.2:
        flange["round"] = round(2 * far, 1)
    elif kind < 0.35:
        flange["rectangle"] = {"width": round(2.1 * far, 1), "height": round(2.3 * far, 1), "corner": 8}
    elif kind < 0.7:
        flange["points"] = _points(rng, far * 1.15, far * 1.7)
    if rng.random() < 0.3:
        flange["gussets"] = rng.randint(0, 6)
    if rng.random() < 0.15:
        flange["cord"] = 3
    end = rng.choice(["spigot", "hose_tail", "socket"])
    size = {"spigot": "into", "hose_tail": "hose_inside", "socket": "over"}[end]
    spec["end_a"], spec["end_b"] = {"flange": flange}, {end: {size: round(d, 1)}}
    if rng.random() < 0.3:
        spec["end_a"], spec["end_b"] = spec["end_b"], spec["end_a"]
    if spec["part"] == "offset_adapter":
        _offset(rng, spec, d)
    return str(yaml.safe_dump(spec, sort_keys=False))


def _covered(rng: random.Random, reach: float) -> dict[str, Any]:
    kind = rng.random()
    if kind < 0.3:
        return {"round": round(2 * reach, 1)}
    if kind < 0.5:
        return {"rectangle": {"width": round(1.5 * reach, 1), "height": round(1.2 * reach, 1), "corner": 3}}
    return {"points": _points(rng, 0.5 * reach, reach)}


def _points(rng: random.Random, low: float, high: float) -> list[dict[str, Any]]:
    """Corners round the axis, some joined by arcs that bulge out or in; now and then two are swapped."""
    count = rng.randint(3, 8)
    turns = [math.tau * (k + rng.uniform(-0.3, 0.3)) / count for k in range(count)]
    corners = [(r * math.cos(t), r * math.sin(t)) for t in turns for r in [rng.uniform(low, high)]]
    if rng.random() < 0.08:
        corners[0], corners[2] = corners[2], corners[0]
    points = []
    for k, (x, y) in enumerate(corners):
        point: dict[str, Any] = {"right": round(x, 2), "up": round(y, 2)}
        if rng.random() < 0.4:
            (ax, ay), bulge = corners[k - 1], rng.uniform(-0.3, 0.5)
            via = (ax + x) / 2 + bulge * (y - ay) / 2, (ay + y) / 2 - bulge * (x - ax) / 2
            point["via"] = {"right": round(via[0], 2), "up": round(via[1], 2)}
        points.append(point)
    return points


MAKERS: dict[str, Callable[[int], str]] = {"soft": soft_yaml, "slit": slit_yaml, "cover": cover_yaml}


@pytest.mark.slow
@pytest.mark.parametrize("topic", TOPICS)
@pytest.mark.parametrize("start", range(0, COUNT // len(TOPICS), PER_TEST))
def test_random_specs(topic: str, start: int, record_property: Callable[[str, object], None]) -> None:
    tried(topic, MAKERS[topic], start, record_property)
