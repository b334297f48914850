"""Random YAML of gate brackets, as a user might write it: mostly sensible, some of it impossible on purpose."""

from __future__ import annotations

import random
from typing import Any

import yaml

BORES = {8: "ISO 6432", 10: "ISO 6432", 12: "ISO 6432", 16: "ISO 6432", 20: "ISO 6432", 25: "ISO 6432"}
STROKES = (50, 80, 100, 125, 160, 200, 250)
PORTS_MM = (50.0, 63.0, 80.0, 100.0, 101.6, 125.0, 150.0, 152.4)


def random_gate(seed: int) -> str:
    """A gate bracket's YAML text; the same seed gives the same text."""
    rng = random.Random(f"gate_bracket {seed}")
    port, inches = rng.choice(PORTS_MM), rng.random() < 0.12
    unit = 25.4 if inches else 1.0
    travel = port + rng.uniform(2.0, 9.0)
    spec: dict[str, Any] = {"part": "gate_bracket", "name": f"random_{seed}"}
    if inches:
        spec["units"] = "in"
    spec["gate"] = _gate(rng, port, travel, unit)
    spec["cylinder"] = _cylinder(rng, travel, unit)
    _maybe(rng, 0.4, spec, "pressure", rng.choice(["2 bar", "3 bar", "4 bar", "60 psi", "8 bar"]))
    _maybe(rng, 0.6, spec, "frame", rng.choice(["rods", "rods", "one_piece", "board", "auto"]))
    _maybe(rng, 0.15, spec, "layout", "alongside")
    if spec.get("layout") == "alongside":
        _maybe(rng, 0.8, spec, "second_guide", "yes")
    _maybe(rng, 0.2, spec, "stop", rng.choice(["auto", "sleeve", "over_shut", "over_open", "none"]))
    _maybe(rng, 0.3, spec, "mounted", rng.choice(["blade_up", "blade_down", "sideways", "any"]))
    _maybe(rng, 0.3, spec, "guard", rng.choice(["yes", "no"]))
    _maybe(rng, 0.1, spec, "hold", "clamp")
    _maybe(rng, 0.2, spec, "setting", round(rng.uniform(2.0, 8.0) / unit, 2))
    _maybe(rng, 0.3, spec, "printer", rng.choice(["generic_256", "generic_300", {"bed_x": 180, "bed_y": 180}]))
    _maybe(rng, 0.2, spec, "material", rng.choice(["PLA", "ASA", "PA"]))
    return str(yaml.safe_dump(spec, sort_keys=False))


def _gate(rng: random.Random, port: float, travel: float, unit: float) -> dict[str, Any]:
    shut, thick = rng.uniform(14.0, 30.0), rng.choice([1.0, 1.5, 2.0, 3.0, 4.0, 5.0])
    wide = port + rng.uniform(8.0, 24.0)
    body = wide + rng.uniform(20.0, 44.0)
    digits = 3 if unit > 1 else 1
    blade: dict[str, Any] = {"width": _n(wide, unit, digits), "thickness": _n(thick, unit, digits + 1)}
    if rng.random() < 0.85:
        blade |= {"hole": _n(rng.choice([4.2, 5.0, 5.5, 6.5, 8.0]), unit, digits + 1)}
        blade |= {"hole_to_edge": _n(rng.uniform(6.0, 11.0), unit, digits)}
    if thick <= 2.0 and rng.random() < 0.7:
        blade["material"] = rng.choice(["steel", "aluminium"])
    _maybe(rng, 0.2, blade, "plane", _n(rng.uniform(-4.0, 4.0), unit, digits))
    _maybe(rng, 0.3, blade, "length", _n(shut + travel + rng.uniform(8.0, 45.0), unit, digits))
    gate: dict[str, Any] = {
        "sticks_out": {"shut": _n(shut, unit, digits), "open": _n(shut + travel, unit, digits)},
        "blade": blade,
        "body": {"width": _n(body, unit, digits), "thickness": _n(rng.uniform(10.0, 30.0), unit, digits)},
    }
    _maybe(rng, 0.3, gate["body"], "far_end", rng.choice(["open", "closed"]))
    gate["port"] = {"diameter": _n(port, unit, digits), "to_edge": _n(port / 2 + rng.uniform(16.0, 35.0), unit, digits)}
    kind = rng.random()
    if kind < 0.65:
        across = wide + rng.uniform(6.0, max(7.0, body - wide - 10.0))
        size = rng.choice(["M4", "M5", "M6", "No. 10" if unit > 1 else "M5"])
        gate["screws"] = {"across": _n(across, unit, digits), "from_edge": _n(rng.uniform(9.0, 16.0), unit, digits)}
        gate["screws"]["size"] = size
    elif kind < 0.85:
        gate["clamp"] = {"size": rng.choice(["M5", "M6"])}
    else:
        gate["port"]["stub"] = {"outside": _n(port, unit, digits), "long": _n(rng.uniform(20.0, 45.0), unit, digits)}
        gate["saddle"] = {"band": _n(12.0, unit, digits)}
    _maybe(rng, 0.2, gate, "drag", rng.choice(["12 N", "35 N", ["18 N", "22 N", "20 N"]]))
    return gate


def _cylinder(rng: random.Random, travel: float, unit: float) -> Any:
    """Mostly a bore and stroke that do; now and then too short, too long, or of the heavy kind."""
    longer = [s for s in STROKES if s >= travel - 2.0]
    stroke = longer[0] if longer and rng.random() < 0.8 else rng.choice(STROKES)
    if rng.random() < 0.12:
        return f"ISO 15552 {rng.choice([32, 40])} x {stroke}"
    bore = rng.choice([10, 12, 16, 16, 16, 20, 20, 25])
    name = f"ISO 6432 {bore} x {stroke}"
    if rng.random() < 0.25:
        stub = {8: 16, 10: 16, 12: 22, 16: 22, 20: 24, 25: 28}[bore] + rng.uniform(-1.2, 1.2)
        return {"code": name, "rod_stub": _n(stub, unit, 3 if unit > 1 else 1), "ports": rng.choice(["up", "left"])}
    return name


def _n(mm: float, unit: float, digits: int) -> float:
    return round(mm / unit, digits)


def _maybe(rng: random.Random, share: float, spec: dict[str, Any], key: str, value: Any) -> None:
    if rng.random() < share:
        spec[key] = value
