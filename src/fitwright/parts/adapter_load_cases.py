"""The load cases of an adapter's ends: a hand, the hose's pull, the band's squeeze, suction on a flat wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.frame import Vec
from fitwright.loads import LoadCase, LoadFace
from fitwright.parts.adapter_load_faces import Bearing
from fitwright.physics.by_hand import HAND_N
from fitwright.physics.hose_band import BAND_N
from fitwright.physics.ring import band_mpa
from fitwright.shapes.joint import clock_direction
from fitwright.spec.models import HoseTail
from fitwright.spec.suction import Suction
from fitwright.units import Units

PULL_N = 100.0
"""Somebody drags at the hose, or it catches (common practice, no source)."""
BEYOND_MM = 50.0
"""The hose leaves the mouth straight for so long before it gives way to the pull (common practice, no source)."""
ASIDE_DEG = tuple(45.0 * k for k in range(8))
ACROSS_DEG = tuple(90.0 * k for k in range(4))


def pushed(side: Bearing, held: tuple[str, ...], share: float = 1.0) -> Iterator[LoadCase]:
    """What pushes or pulls at an end while other faces are held; `share` of it where two halves share it."""
    frame, key = side.end.frame, side.end.plan.key
    face = next(one for one in side.faces if one.name == side.on)
    if not side.hose:
        why = f"a hand pushes with {HAND_N:g} N, from any side, against {key} while the other end is held"
        ways = tuple(_aside(side, deg) for deg in ASIDE_DEG)
        yield LoadCase(f"hand at {key}", face.body, face.name, share * HAND_N, ways, held, why=why)
        return
    at = frame.point(0.0, -BEYOND_MM, 0.0)
    why = (
        f"somebody drags at the hose with {PULL_N:g} N, along it, at 45 deg or across, {BEYOND_MM:g} mm from the mouth"
    )
    yield LoadCase(f"hose pull at {key}", face.body, face.name, share * PULL_N, _dragged(side), held, why=why, at=at)


def squeezed(side: Bearing, held: tuple[str, ...]) -> Iterator[LoadCase]:
    """A band that is turned tight. What is left of it for good is judged by the closed forms of `strength.ring`."""
    joint = side.end.plan.end.joint
    if side.band is None or not isinstance(joint, HoseTail):
        return
    key, d = side.end.plan.key, 2 * side.band.r_mm
    press = band_mpa(BAND_N, joint.band_mm, d)
    why = f"the hose clamp is turned tight: {BAND_N:g} N in a band of {joint.band_mm:g} mm press with {press:.2f} MPa"
    body, name, wall = side.band.body, side.band.name, f"{key}.hose_tail.wall"
    yield LoadCase(f"band at {key}", body, name, 0.0, (), held, why=why, pressure_mpa=press, key=wall)


def sucked(wall: LoadFace, held: tuple[str, ...], pull: Suction, units: Units) -> Iterator[LoadCase]:
    """Suction on a flat wall of the passage: now and then behind a shut gate, and for good while the machine runs."""
    for pa, lasting, said in pull.cases(units):
        yield LoadCase(
            f"suction on {wall.name}, {said}",
            wall.body,
            wall.name,
            0.0,
            (),
            held,
            lasting=lasting,
            why=f"{pull.words(units)}: it pulls the {wall.name} in",
            pressure_mpa=-pa * 1e-6,
        )


def _aside(side: Bearing, clock_deg: float) -> Vec:
    """A unit vector square to the end's axis, clockwise from up."""
    return clock_direction(side.end.frame, clock_deg)


def _dragged(side: Bearing) -> tuple[Vec, ...]:
    """Along the hose, at 45 deg and across."""
    n = side.end.frame.inward
    out: Vec = (-n[0], -n[1], -n[2])
    across = [_aside(side, deg) for deg in ACROSS_DEG]
    half = math.sqrt(0.5)
    slanting = [(half * (out[0] + a), half * (out[1] + b), half * (out[2] + c)) for a, b, c in across]
    return (out, *slanting, *across)
