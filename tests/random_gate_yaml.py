"""Random YAML of gate brackets, as a user might write it: gates and cylinders that are sold, some that do not match."""

from __future__ import annotations

import random
from typing import Any

import yaml

PORTS_MM = (63.0, 80.0, 100.0, 102.0, 125.0, 152.0, 160.0)
CYLINDERS = ("ISO 6432 12", "ISO 6432 16", "ISO 6432 20", "ISO 6432 25", "ISO 15552 32", "ISO 15552 40")
STROKES_MM = (50, 80, 100, 125, 160, 200, 250)
SHEETS = ("plastic", "acrylic", "PVC", "HDPE", "hardboard", "steel", "aluminium")
MM_PER_INCH = 25.4


def random_gate(seed: int, inches: bool | None = None) -> str:
    """A gate bracket's YAML text; the same seed gives the same text; `inches` None: a sixth of them in inches."""
    rng = random.Random(f"gate_bracket {seed}")
    in_inches = rng.random() < 1 / 6
    unit = MM_PER_INCH if (in_inches if inches is None else inches) else 1.0
    port = rng.choice(PORTS_MM)
    spec: dict[str, Any] = {"part": "gate_bracket", "name": f"random_{seed}"}
    spec["gate"] = _gate(rng, port)
    spec["cylinder"] = _cylinder(rng, port)
    spec |= _top(rng)
    scaled = _scaled(spec, unit)
    return str(yaml.safe_dump({"units": "in", **scaled} if unit > 1.0 else scaled, sort_keys=False))


def _gate(rng: random.Random, port: float) -> dict[str, Any]:
    shut, metal = round(rng.uniform(16.0, 35.0), 1), rng.random() < 0.25
    blade_wide = round(port + rng.uniform(10.0, 24.0), 1)
    body_wide = round(blade_wide + rng.uniform(20.0, 50.0), 1)
    thick = round(rng.uniform(1.0, 2.0) if metal else rng.uniform(2.5, 6.0), 2)
    blade: dict[str, Any] = {"width": blade_wide, "thickness": thick}
    if rng.random() < 0.85:
        hole = round(rng.uniform(3.2, 8.5), 1)
        blade |= {"hole": hole, "hole_to_edge": round(hole / 2 + rng.uniform(2.0, 6.0), 1)}
    if metal or rng.random() < 0.4:
        blade["material"] = "steel" if metal else rng.choice(SHEETS)
    body: dict[str, Any] = {"width": body_wide, "thickness": round(thick + rng.uniform(8.0, 24.0), 1)}
    _maybe(rng, 0.4, body, "far_end", rng.choice(["open", "closed"]))
    _maybe(rng, 0.3, body, "length", round(port + rng.uniform(20.0, 60.0), 1))
    gate: dict[str, Any] = {
        "sticks_out": {"shut": shut, "open": round(shut + port + rng.uniform(2.0, 10.0), 1)},
        "blade": blade,
        "body": body,
    }
    _maybe(rng, 0.6, gate, "port", {"diameter": port, "to_edge": round(body_wide / 2 + rng.uniform(-4.0, 4.0), 1)})
    _maybe(rng, 0.3, gate, "drag", [f"{rng.randint(4, 30)} N" for _ in range(3)])
    return gate | _mount(rng, blade_wide, body_wide)


def _mount(rng: random.Random, blade_wide: float, body_wide: float) -> dict[str, Any]:
    if rng.random() < 0.2:
        return {"clamp": {"size": rng.choice(["M4", "M5", "M6"])}}
    size = rng.choice(["M4", "M5", "M6"])
    across = round(min(blade_wide + rng.uniform(8.0, 14.0), body_wide - 8.0), 1)
    return {"screws": {"across": across, "from_edge": round(rng.uniform(8.0, 16.0), 1), "size": size}}


def _cylinder(rng: random.Random, port: float) -> Any:
    long_enough = [stroke for stroke in STROKES_MM if stroke >= port + 4]
    stroke = rng.choice(long_enough[:2]) if rng.random() < 0.9 else rng.choice(STROKES_MM)
    name = f"{rng.choice(CYLINDERS)} x {stroke}"
    if rng.random() < 0.7:
        return name
    code: dict[str, Any] = {"code": name}
    _maybe(rng, 0.5, code, "ports", rng.choice(["up", "down", "left", "right"]))
    _maybe(rng, 0.5, code, "rod_flats", round(rng.uniform(4.0, 8.0), 1))
    return code


def _top(rng: random.Random) -> dict[str, Any]:
    top: dict[str, Any] = {}
    _maybe(rng, 0.4, top, "pressure", f"{rng.choice([2, 3, 4, 6, 8])} bar")
    _maybe(rng, 0.3, top, "frame", rng.choice(["one_piece", "rods", "board"]))
    _maybe(rng, 0.3, top, "mounted", rng.choice(["blade_up", "blade_down", "sideways"]))
    _maybe(rng, 0.3, top, "setting", round(rng.uniform(2.0, 8.0), 1))
    _maybe(rng, 0.3, top, "printer", rng.choice(["generic_256", "generic_300"]))
    if "frame" not in top and rng.random() < 0.15:
        top |= {"layout": "alongside", "second_guide": rng.choice(["yes", "no"])}
    return top


def _maybe(rng: random.Random, share: float, into: dict[str, Any], key: str, value: Any) -> None:
    if rng.random() < share:
        into[key] = value


def _scaled(node: Any, unit: float) -> Any:
    """Every plain length in inches where `unit` is 25.4; a plain number of a gate bracket is a length."""
    if isinstance(node, dict):
        return {key: _scaled(value, unit) for key, value in node.items()}
    if isinstance(node, list):
        return [_scaled(value, unit) for value in node]
    return f"{node / unit:.12f}" if isinstance(node, float) and unit > 1.0 else node
