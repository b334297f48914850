"""Random flange plates as YAML text: all shapes of outline and opening, patterns, stocks, printers; some impossible."""

from __future__ import annotations

import random

SIZES = ("M3", "M4", "M5", "M6", "M8", "1/4 in", "No. 10")
SHEETS = ("steel", "stainless", "aluminium", "acrylic", "plywood", "PC", "HDPE")
GASKETS = ("foam rubber", "rubber", "cork", "paper", "felt")


def random_plate(seed: int) -> str:
    """The YAML of one plate."""
    pick = random.Random(seed)
    lines = ["part: flange_plate"]
    across = pick.uniform(60.0, 260.0)
    lines += _outline(pick, across)
    lines += _openings(pick, across)
    lines += _holes(pick, across)
    lines += _made(pick)
    return "\n".join(lines) + "\n"


def _outline(pick: random.Random, across: float) -> list[str]:
    kind = pick.choice(("none", "none", "round", "rectangle", "points"))
    w, h = across * pick.uniform(1.1, 1.6), across * pick.uniform(1.0, 1.5)
    if kind == "round":
        return [f"round: {w:.1f}"]
    if kind == "rectangle":
        corner = f", corner: {pick.uniform(0.0, 0.3) * min(w, h):.2f}" if pick.random() < 0.7 else ""
        return [f"rectangle: {{width: {w:.1f}, height: {h:.1f}{corner}}}"]
    if kind == "points":
        x, y = w / 2, h / 2
        bulge = f", via: {{right: {x + pick.uniform(2.0, 15.0):.1f}, up: 0}}" if pick.random() < 0.5 else ""
        cut = pick.uniform(0.05, 0.3)
        top = f"{{left: {x * (1 - cut):.1f}, up: {y:.1f}}}, {{left: {x:.1f}, up: {y * (1 - cut):.1f}}}"
        low = f"{{left: {x:.1f}, down: {y:.1f}}}"
        return [f"points: [{{right: {x:.1f}, down: {y:.1f}}}, {{right: {x:.1f}, up: {y:.1f}{bulge}}}, {top}, {low}]"]
    return []


def _opening(pick: random.Random, across: float, middle: bool) -> str:
    d = across * (pick.uniform(0.3, 0.75) if middle else pick.uniform(0.05, 0.15))
    kind = pick.choice(("round", "round", "rectangle", "oval", "points"))
    shape = f"round: {d:.2f}"
    w, h = max(d * pick.uniform(0.7, 1.1), 11.0), max(d * pick.uniform(0.4, 0.8), 10.5)
    if kind == "rectangle":
        shape = f"rectangle: {{width: {w:.1f}, height: {h:.1f}, corner: {pick.uniform(0, 0.4) * min(w, h):.1f}}}"
    elif kind == "oval" and abs(w - h) > 0.2:
        shape = f"oval: {{width: {w:.1f}, height: {h:.1f}}}"
    elif kind == "points":
        shape = f"points: [{{right: {w / 2:.1f}}}, {{up: {h / 2:.1f}}}, {{left: {w / 2:.1f}}}, {{down: {h / 2:.1f}}}]"
        if pick.random() < 0.3:  # a hollow arc
            shape = shape.replace("{left:", f"{{via: {{left: {w / 8:.1f}, up: {h / 8:.1f}}}, left:")
    if middle and pick.random() < 0.6:
        return f"{{{shape}}}"
    reach = 0.1 * across if middle else 0.45 * across
    at = f"{{right: {pick.uniform(-reach, reach):.1f}, up: {pick.uniform(-reach, reach):.1f}}}"
    return f"{{{shape}, at: {at}}}"


def _openings(pick: random.Random, across: float) -> list[str]:
    if pick.random() < 0.1:
        return []
    if pick.random() < 0.6:
        return [f"openings: {_opening(pick, across, True)}"]
    more = [_opening(pick, across, False) for _ in range(pick.randint(1, 2))]
    return [f"openings: [{', '.join([_opening(pick, across, True), *more])}]"]


def _pattern(pick: random.Random, across: float) -> str:
    read = ""
    if pick.random() < 0.4:
        residual = f", residual: {pick.uniform(0.1, 1.2):.2f}" if pick.random() < 0.6 else ""
        read = f", read_with: {pick.choice(('tape', 'tracing'))}{residual}"
    size = pick.choice(SIZES)
    circle = across * pick.uniform(0.85, 1.1)
    if pick.random() < 0.6:
        first = f", first_at: {pick.uniform(-180, 180):.0f}" if pick.random() < 0.5 else ""
        return f"{{count: {pick.choice((2, 3, 4, 6, 8))}, circle: {circle:.1f}{first}, size: {size}{read}}}"
    x, y = circle / 2 * pick.uniform(0.75, 1.0), circle / 2 * pick.uniform(0.7, 1.0)
    places = ", ".join(
        f"{{right: {sx * x + pick.uniform(-4, 4):.1f}, up: {sy * y + pick.uniform(-4, 4):.1f}}}"
        for sx, sy in ((1, 1), (1, -1), (-1, -1), (-1, 1))
    )
    return f"{{points: [{places}], size: {size}{read}}}"


def _holes(pick: random.Random, across: float) -> list[str]:
    roll = pick.random()
    if roll < 0.08:
        return []
    if roll < 0.85:
        return [f"holes: {_pattern(pick, across)}"]
    return [f"holes: [{_pattern(pick, across)}, {_pattern(pick, 0.4 * across)}]"]


def _made(pick: random.Random) -> list[str]:
    lines = []
    roll = pick.random()
    if roll < 0.45:
        lines.append(f"sheet: {{material: {pick.choice(SHEETS)}, thickness: {pick.uniform(0.5, 6.0):.1f}}}")
    elif roll < 0.7:
        lines.append(f"thickness: {pick.uniform(3.0, 10.0):.1f}")
    scale, hole, outside = pick.uniform(0.995, 1.004), pick.uniform(-0.3, 0.1), pick.uniform(-0.1, 0.3)
    if pick.random() < 0.5:
        bed = "bed_x: 350, bed_y: 350, bed_z: 300"
        offsets = f"hole_offset: {hole:.2f}, outside_offset: {outside:.2f}"
        lines.append(f"printer: {{name: generic_220, {bed}, scale_xy: {scale:.4f}, {offsets}}}")
    if pick.random() < 0.5:
        alone = ", alone: yes" if roll >= 0.7 and pick.random() < 0.3 else ""
        lines.append(f"gasket: {{material: {pick.choice(GASKETS)}{alone}}}" if alone or roll < 0.6 else "gasket: yes")
    return lines
