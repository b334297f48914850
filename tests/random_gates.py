"""Random YAML of gate brackets, as a user might write it: mostly sensible, some of it impossible on purpose."""

from __future__ import annotations

import random
from typing import Any

import yaml

STROKES_MM = (50, 80, 100, 125, 160, 200, 250)
PORTS_MM = (50.0, 63.0, 80.0, 100.0, 101.6, 125.0, 150.0, 152.4, 160.0)
SHEETS = ("plastic", "acrylic", "PVC", "HDPE", "hardboard")
MM_PER_INCH = 25.4


def random_gate(seed: int, inches: bool | None = None) -> str:
    """A gate bracket's YAML text; the same seed gives the same gate; `inches` None: an eighth of them in inches."""
    rng = random.Random(f"gate_bracket {seed}")
    in_inches, port = rng.random() < 0.12, rng.choice(PORTS_MM)
    travel = round(port + rng.uniform(2.0, 9.0), 1)
    spec: dict[str, Any] = {"part": "gate_bracket", "name": f"random_{seed}"}
    spec |= {"gate": _gate(rng, port, travel), "cylinder": _cylinder(rng, travel), **_top(rng)}
    if not (in_inches if inches is None else inches):
        return str(yaml.safe_dump(spec, sort_keys=False))
    return str(yaml.safe_dump({"units": "in", **_scaled(spec)}, sort_keys=False))


def _top(rng: random.Random) -> dict[str, Any]:
    top: dict[str, Any] = {}
    _maybe(rng, 0.4, top, "pressure", rng.choice(["2 bar", "3 bar", "4 bar", "60 psi", "8 bar"]))
    if rng.random() < 0.15:
        top["layout"] = "alongside"
        _maybe(rng, 0.8, top, "second_guide", rng.choice(["yes", "yes", {"diameter": 8.0}]))
    else:
        _maybe(rng, 0.6, top, "frame", rng.choice(["rods", "rods", "one_piece", "board", "auto"]))
    _maybe(rng, 0.2, top, "stop", rng.choice(["auto", "sleeve", "over_shut", "over_open", "none"]))
    _maybe(rng, 0.3, top, "mounted", rng.choice(["blade_up", "blade_down", "sideways", "any"]))
    _maybe(rng, 0.3, top, "guard", rng.choice(["yes", "no"]))
    _maybe(rng, 0.1, top, "hold", "clamp")
    if top.get("frame") == "rods":
        _maybe(rng, 0.2, top, "rods", rng.choice(["M6", "M10"]))
    _maybe(rng, 0.2, top, "setting", round(rng.uniform(2.0, 8.0), 1))
    _maybe(rng, 0.3, top, "printer", rng.choice(["generic_256", "generic_300", {"bed_x": 180.0, "bed_y": 180.0}]))
    _maybe(rng, 0.2, top, "material", rng.choice(["PLA", "ASA", "PA"]))
    return top


def _gate(rng: random.Random, port: float, travel: float) -> dict[str, Any]:
    shut, thick = round(rng.uniform(14.0, 30.0), 1), rng.choice([1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0])
    wide = round(port + rng.uniform(8.0, 24.0), 1)
    body = round(wide + rng.uniform(20.0, 48.0), 1)
    gate: dict[str, Any] = {
        "sticks_out": {"shut": shut, "open": round(shut + travel, 1)},
        "blade": _blade(rng, wide, thick, shut + travel),
        "body": {"width": body, "thickness": round(thick + rng.uniform(7.0, 26.0), 1)},
    }
    _maybe(rng, 0.3, gate["body"], "far_end", rng.choice(["open", "closed"]))
    _maybe(rng, 0.2, gate["body"], "length", round(port + rng.uniform(40.0, 80.0), 1))
    to_edge = round(port / 2 + rng.uniform(16.0, 35.0), 1)
    mount = _mount(rng, wide, body)
    if "saddle" in mount or rng.random() < 0.7:
        gate["port"] = {"diameter": port, "to_edge": to_edge}
    if "saddle" in mount:
        gate["port"]["stub"] = {"outside": port, "long": round(rng.uniform(20.0, 50.0), 1)}
    _maybe(rng, 0.3, gate, "drag", rng.choice(["12 N", "35 N", [f"{rng.randint(4, 30)} N" for _ in range(3)]]))
    return gate | mount


def _blade(rng: random.Random, wide: float, thick: float, out: float) -> dict[str, Any]:
    blade: dict[str, Any] = {"width": wide, "thickness": thick}
    if rng.random() < 0.85:
        blade |= {"hole": rng.choice([3.2, 4.2, 5.0, 5.5, 6.5, 8.0, 8.5]), "hole_to_edge": round(rng.uniform(6, 11), 1)}
    if thick <= 2.0 and rng.random() < 0.7:
        blade["material"] = rng.choice(["steel", "aluminium"])
    else:
        _maybe(rng, 0.3, blade, "material", rng.choice(SHEETS))
    _maybe(rng, 0.2, blade, "plane", {rng.choice(["above", "below"]): round(rng.uniform(0.5, 4.0), 1)})
    _maybe(rng, 0.3, blade, "length", round(out + rng.uniform(8.0, 45.0), 1))
    return blade


def _mount(rng: random.Random, wide: float, body: float) -> dict[str, Any]:
    kind = rng.random()
    if kind < 0.65:
        across = round(wide + rng.uniform(6.0, max(7.0, body - wide - 10.0)), 1)
        size = rng.choice(["M4", "M5", "M5", "M6", "No. 10"])
        return {"screws": {"across": across, "from_edge": round(rng.uniform(8.0, 16.0), 1), "size": size}}
    if kind < 0.85:
        return {"clamp": {"size": rng.choice(["M4", "M5", "M6"])}}
    return {"saddle": {"band": rng.choice([9.0, 12.0])}}


def _cylinder(rng: random.Random, travel: float) -> Any:
    """Mostly a bore and stroke that do; now and then too short, too long, or of the heavy kind."""
    longer = [s for s in STROKES_MM if s >= travel - 2.0]
    stroke = longer[0] if longer and rng.random() < 0.8 else rng.choice(STROKES_MM)
    if rng.random() < 0.12:
        return f"ISO 15552 {rng.choice([32, 40])} x {stroke}"
    bore = rng.choice([10, 12, 16, 16, 16, 20, 20, 25])
    name = f"ISO 6432 {bore} x {stroke}"
    if rng.random() > 0.3:
        return name
    read: dict[str, Any] = {"code": name}
    stub = {10: 16, 12: 22, 16: 22, 20: 24, 25: 28}[bore] + rng.uniform(-1.2, 1.2)
    _maybe(rng, 0.7, read, "rod_stub", round(stub, 1))
    _maybe(rng, 0.7, read, "ports", rng.choice(["up", "down", "left", "right"]))
    _maybe(rng, 0.3, read, "rod_flats", {10: 3.0, 12: 5.0, 16: 5.0, 20: 7.0, 25: 8.0}[bore])
    return read


def _maybe(rng: random.Random, share: float, into: dict[str, Any], key: str, value: Any) -> None:
    if rng.random() < share:
        into[key] = value


def _scaled(node: Any) -> Any:
    """The same in inches: every plain number of a gate bracket is a length."""
    if isinstance(node, dict):
        return {key: _scaled(value) for key, value in node.items()}
    if isinstance(node, list):
        return [_scaled(value) for value in node]
    return f"{node / MM_PER_INCH:.12f}" if isinstance(node, float) else node
