"""Findings of the check `hanger`, and places on a hanger in words."""

from __future__ import annotations

import math
from dataclasses import dataclass

from fitwright.finding import Finding, Severity
from fitwright.frame import Vec

CLOCK = ("above", "above right", "right", "below right", "below", "below left", "left", "above left")


@dataclass(frozen=True)
class Of:
    """What a finding is about: the YAML key or place that decides, the body, the value with its limit and unit."""

    place: str
    body: str = ""
    value: float | None = None
    limit: float | None = None
    unit: str = "mm"


def say(what: str, severity: Severity, of: Of, message: str, advice: str = "") -> Finding:
    """One finding `hanger.what`."""
    value = None if of.value is None else float(of.value)
    limit = None if of.limit is None else float(of.limit)
    unit = of.unit if value is not None else ""
    return Finding(f"hanger.{what}", severity, of.body, value, limit, unit, of.place, message, advice)


def where(deg: float, y_mm: float) -> str:
    """A place on a bore: `below right (125 deg from up), 12 mm from the front`."""
    turned = deg % 360.0
    return f"{CLOCK[round(turned / 45.0) % 8]} ({turned:.0f} deg from up), {y_mm:.0f} mm from the front"


def way(direction: Vec) -> str:
    """A direction in words: the axis that it goes along most, seen along the hose."""
    words = (("left", "right"), ("towards you", "away"), ("down", "up"))
    parts = [
        (abs(part), words[k][part > 0.0]) for k, part in enumerate(direction) if abs(part) > math.sin(math.radians(25))
    ]
    return " and ".join(word for _, word in sorted(parts, reverse=True))
