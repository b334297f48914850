"""Legs of round passages for the tests, from diameters."""

from __future__ import annotations

import math

from fitwright.airway import Leg


def area(bore_mm: float) -> float:
    return math.pi * bore_mm**2 / 4.0


def straight(bore: float, long: float) -> Leg:
    return Leg("straight", "straight", (area(bore),) * 2, (bore,) * 2, length_mm=long)


def hose(bore: float, long: float) -> Leg:
    return Leg("hose", "hose", (area(bore),) * 2, (bore,) * 2, length_mm=long)


def cone(first: float, second: float, whole_angle: float) -> Leg:
    half = math.radians(whole_angle / 2.0)
    long = abs(first - second) / 2.0 / math.tan(half)
    return Leg("cone", "cone", (area(first), area(second)), (first, second), long, whole_angle / 2.0)


def step(first: float, second: float) -> Leg:
    return Leg("step", "step", (area(first), area(second)), (first, second), facing=second < first)


def bend(bore: float, angle: float, ratio: float, follows: float | None = None) -> Leg:
    radius = ratio * bore
    long = radius * math.radians(angle)
    return Leg("bend", "bend", (area(bore),) * 2, (bore,) * 2, long, 0.0, angle, radius, follows_mm=follows)


def mitre(bore: float, angle: float, follows: float | None = None) -> Leg:
    return Leg("mitre", "mitre", (area(bore),) * 2, (bore,) * 2, angle_deg=angle, follows_mm=follows)
