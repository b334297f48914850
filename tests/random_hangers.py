"""Random YAML of hose hangers, as a user might write it: mostly sensible, some of it impossible on purpose."""

from __future__ import annotations

import random
from typing import Any

import yaml

MM_PER_INCH = 25.4
STYLES = ("saddle", "hook", "clamp")
WORDS = ("joist_side", "joist_underside", "wall", "ceiling", "shelf", "strut")
KINDS = (*WORDS, "t_slot", "holes", "cable_tie", "rod", "batten")
SIDES = ("up", "left", "right", "down")
WOODS = ("spruce", "pine", "oak", "plywood", "OSB", "Douglas fir")
PIPES = ("EN 1401 DN 110", "EN 1401 DN 160", "4 in sewer-and-drain", "EN 1451 DN 75", "EN 1506 duct 100")
BEDS: tuple[Any, ...] = ("generic_220", "generic_256", "generic_300", {"bed_x": 180.0, "bed_y": 180.0, "bed_z": 180.0})


def random_hanger(seed: int, inches: bool | None = None) -> str:
    """A hose hanger's YAML text; the same seed gives the same hanger; `inches` None: an eighth of them in inches."""
    rng = random.Random(f"hose_hanger {seed}")
    in_inches, over = rng.random() < 0.12, round(rng.uniform(25.0, 130.0 if rng.random() < 0.75 else 200.0), 1)
    spec: dict[str, Any] = {"part": "hose_hanger", "name": f"random_{seed}"}
    pipe = rng.random() < 0.4
    spec |= _carried(rng, over, pipe)
    kind = rng.choice(KINDS)
    side = _mount(rng, spec, kind)
    _style(rng, spec, over, side)
    _top(rng, spec, over, side, kind)
    if not (in_inches if inches is None else inches):
        return str(yaml.safe_dump(spec, sort_keys=False))
    return str(yaml.safe_dump({"units": "in", **_scaled(spec)}, sort_keys=False))


def _carried(rng: random.Random, over: float, pipe: bool) -> dict[str, Any]:
    readings: Any = over
    if rng.random() < 0.3:
        readings = [round(over + rng.uniform(-0.01, 0.01) * over, 1) for _ in range(3)]
    if pipe:
        if rng.random() < 0.4:
            return {"pipe": rng.choice(PIPES)}
        said: dict[str, Any] = {"over": readings}
        _maybe(rng, 0.5, said, "wall", round(rng.uniform(1.5, 4.0), 1))
        _maybe(rng, 0.3, said, "material", rng.choice(["PVC", "ABS", "PP", "steel"]))
        return {"pipe": said}
    hose: dict[str, Any] = {"over_ribs": readings}
    _maybe(rng, 0.5, hose, "inside", round(over * rng.uniform(0.85, 0.95), 1))
    _maybe(rng, 0.4, hose, "squeezes_to", round(over * rng.uniform(0.3, 0.9), 1))
    _maybe(rng, 0.3, hose, "kind", rng.choice(["ribbed PVC", "light polyurethane", "heavy polyurethane"]))
    _maybe(rng, 0.2, hose, "weight", rng.choice(["400 g", "0.8 kg", "1 lb"]))
    return {"hose": hose}


def _mount(rng: random.Random, spec: dict[str, Any], kind: str) -> str:
    """Writes the mount; on which side of the hose it lies."""
    if kind in WORDS and rng.random() < 0.4:
        spec["mount"] = kind
        return {"joist_side": "left", "wall": "left", "shelf": "down"}.get(kind, "up")
    inner: dict[str, Any] = {}
    side = {"shelf": "down", "joist_side": "left", "wall": "left"}.get(kind, "up")
    if kind in ("joist_side", "wall"):
        _maybe(rng, 0.5, inner, "side", "right")
    if kind in ("strut", "t_slot", "cable_tie", "holes"):
        inner["side"] = rng.choice(SIDES)
    side = str(inner.get("side", side))
    if kind in ("strut", "t_slot", "cable_tie", "joist_underside"):
        _maybe(rng, 0.7, inner, "runs", rng.choice(["along", "across"]))
    if kind not in ("rod", "holes"):
        _maybe(rng, 0.15, inner, "to_axis", round(rng.uniform(60.0, 220.0), 1))
    inner |= _of_kind(rng, kind, side)
    spec["mount"] = {kind: inner}
    return side


def _of_kind(rng: random.Random, kind: str, side: str) -> dict[str, Any]:
    said: dict[str, Any] = {}
    if kind in ("joist_side", "joist_underside"):
        wide = rng.choice([38.0, 45.0, 63.0])
        _maybe(rng, 0.5, said, "joist", {"width": wide, "depth": rng.choice([120.0, 195.0]), "wood": "pine"})
    if kind in ("wall", "ceiling", "shelf"):
        _maybe(rng, 0.5, said, "into", {"wood": rng.choice(WOODS), "thickness": rng.choice([12.0, 18.0, 38.0])})
    if kind in ("wall", "ceiling", "shelf", "joist_side", "joist_underside", "batten"):
        screws = {"size": rng.choice(["4.0 mm", "5.0 mm", "6.0 mm", "No. 8", "No. 10"])}
        _maybe(rng, 0.5, said, "screws", {**screws, "length": rng.choice([30.0, 50.0, 70.0])})
    if kind == "strut":
        _maybe(rng, 0.5, said, "bolt", rng.choice(["M6", "M8", "M10"]))
    if kind == "t_slot":
        said["slot"] = rng.choice([5.1, 6.2, 8.2, 10.2])
    if kind == "holes":
        said |= _holes(rng, side)
    if kind == "cable_tie":
        said["bar"] = round(rng.uniform(15.0, 60.0), 1)
        _maybe(rng, 0.4, said, "tie", {"width": 4.8, "thickness": 1.3})
    if kind == "rod":
        said |= {"drop": round(rng.uniform(100.0, 900.0)) + 0.5, "size": rng.choice(["M6", "M8", "M10"])}
    if kind == "batten":
        said["near"] = {rng.choice(["left", "right"]): round(rng.uniform(0.0, 200.0), 1)}
        said["far"] = {rng.choice(["left", "right"]): round(rng.uniform(310.0, 600.0), 1)}
    return said


def _holes(rng: random.Random, side: str) -> dict[str, Any]:
    size = rng.choice(["M4", "M5", "M6", "1/4 in", "No. 10"])
    if rng.random() < 0.3:
        return {"count": rng.choice([2, 3, 4]), "circle": round(rng.uniform(40.0, 220.0), 1), "size": size}
    one, other = ("right", "left") if side in ("up", "down") else ("up", "down")
    half = round(rng.uniform(10.0, 140.0), 1)
    points = [{one: half}, {other: half}]
    if rng.random() < 0.3:
        points = [{one: half, "away": 8.0}, {other: half, "toward": 8.0}]
    return {"points": points, "size": size}


def _style(rng: random.Random, spec: dict[str, Any], over: float, side: str) -> None:
    style = rng.choice([*STYLES, ""])
    if style == "saddle":
        spec["saddle"] = rng.choice(["yes", {"strap": 20.0}, {"strap": {"width": 25.0, "thickness": 2.0}}])
    elif style == "hook":
        hook: dict[str, Any] = {}
        _maybe(rng, 0.5, hook, "throat", round(over * rng.uniform(0.55, 0.98), 1))
        ways = {"up": ["left", "right"], "left": ["up", "right"], "right": ["up", "left"]}
        _maybe(rng, 0.4, hook, "opens", rng.choice(ways.get(side, ["up", "right"])))
        spec["hook"] = hook or "yes"
    elif style == "clamp":
        spec["clamp"] = rng.choice(["yes", {"screws": rng.choice(["M4", "M5", "M6"])}, {"band": 12.0}, {"gap": 3.0}])


def _top(rng: random.Random, spec: dict[str, Any], over: float, side: str, kind: str) -> None:
    if rng.random() < 0.2 and kind != "rod":
        spec["count"] = rng.choice([2, 2, 3, 4])
        _maybe(rng, 0.3, spec, "apart", round(over * rng.uniform(1.1, 2.2), 1))
    elif side == "up" and kind not in ("rod", "cable_tie"):
        _maybe(rng, 0.25, spec, "swivel", "yes")
    _maybe(rng, 0.3, spec, "width", round(rng.uniform(38.5, 60.0), 1))
    _maybe(rng, 0.2, spec, "arm", round(rng.uniform(4.0, 12.0), 1))
    if side != "down":
        _maybe(rng, 0.3, spec, "above", rng.choice(["people", "cutter", "nothing"]))
        _maybe(rng, 0.3, spec, "second_fixing", rng.choice(["yes", "no"]))
    _maybe(rng, 0.2, spec, "spacing", round(rng.uniform(600.0, 2500.0), 1))
    _maybe(rng, 0.2, spec, "elbow", round(rng.uniform(100.0, 1500.0), 1))
    _maybe(rng, 0.1, spec, "travel", {"right": round(rng.uniform(100.0, 900.0), 1)})
    _maybe(rng, 0.2, spec, "dust", rng.choice(["chips", "shavings", "fine"]))
    _maybe(rng, 0.4, spec, "printer", rng.choice(BEDS))
    _maybe(rng, 0.3, spec, "material", rng.choice(["PLA", "ASA", "ABS", "PA"]))


def _maybe(rng: random.Random, share: float, into: dict[str, Any], key: str, value: Any) -> None:
    if rng.random() < share:
        into[key] = value


def _scaled(node: Any) -> Any:
    """The same in inches: every plain number of a hose hanger with a point in it is a length."""
    if isinstance(node, dict):
        return {key: _scaled(value) for key, value in node.items()}
    if isinstance(node, list):
        return [_scaled(value) for value in node]
    return f"{node / MM_PER_INCH:.12f}" if isinstance(node, float) else node
