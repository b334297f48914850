"""A flange on its bolts: in which steps it can be turned, and at which clock settings its screws have room."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Vec
from fitwright.parts.assembly import PlacedEnd
from fitwright.parts.stand_ins import DRIVER_MM
from fitwright.shapes.fold import Disc, tube_discs, turned_discs
from fitwright.shapes.profile import Polyline
from fitwright.shapes.space_path import SpacePath
from fitwright.spec.models import Flange, Holes

Numbers = NDArray[np.float64]

SAME_MM = 0.05
"""Two patterns whose holes lie no further apart are the same."""
STEP_DEG = 5
"""Clock settings are tried this far apart."""
RIM_POINTS, DENSE_MM = 120, 3.0


def turns_onto_itself(points: Sequence[tuple[float, float]]) -> int:
    """The largest n for which a pattern of (right, up) [mm], turned by 360 / n deg about its centre, is itself."""
    here = np.array(points, dtype=np.float64)
    return max(n for n in range(1, len(points) + 1) if _is_itself(here, 2 * math.pi / n))


def _is_itself(points: Numbers, turn_rad: float) -> bool:
    c, s = math.cos(turn_rad), math.sin(turn_rad)
    moved = points @ np.array([[c, s], [-s, c]])
    apart = np.linalg.norm(moved[:, None] - points[None], axis=2)
    return bool((apart.min(axis=1) <= SAME_MM).all() and (apart.min(axis=0) <= SAME_MM).all())


def steps_in_words(points: Sequence[tuple[float, float]]) -> str:
    """How often a pattern goes onto its own holes, for the report."""
    n = turns_onto_itself(points)
    if n == 1:
        return "goes on one way only"
    if n == 2:
        return "goes on two ways, half a turn apart"
    return f"turns on its bolts in steps of {360 / n:.4g} deg"


def clocking_facts(a: PlacedEnd, b: PlacedEnd, path: SpacePath, outer_r_mm: float, clock_deg: float) -> dict[str, str]:
    """Lines for the report: the steps of each flange, and free clock settings where a screw stands under the bend."""
    facts = {}
    for end in (a, b):
        joint = end.plan.end.joint
        if isinstance(joint, Flange) and joint.holes is not None:
            facts[f"{end.plan.key} pattern"] = steps_in_words([(p.right_mm, p.up_mm) for p in joint.holes.points])
    joint = a.plan.end.joint
    if isinstance(joint, Flange) and joint.holes is not None and not joint.nut_pockets:
        discs = [*tube_discs(path, outer_r_mm, finer=2), *turned_discs(_dense(b.shape.outer), b.frame)]
        said = _room_in_words(joint, joint.holes, _skin(discs), clock_deg)
        if said:
            facts["end_a screws and the bend"] = said
    return facts


def _dense(line: Polyline) -> Polyline:
    """A half-profile with corners no further apart than a driver is wide."""
    found: list[tuple[float, float]] = []
    for (s0, r0), (s1, r1) in itertools.pairwise(line):
        steps = max(1, math.ceil(math.hypot(s1 - s0, r1 - r0) / DENSE_MM))
        found += [(s0 + (s1 - s0) * k / steps, r0 + (r1 - r0) * k / steps) for k in range(steps + 1)]
    return tuple(found)


def _skin(discs: list[Disc]) -> Numbers:
    """Points (x, y, z) on the outside of the bend and of end_b."""
    angles = np.linspace(0.0, 2 * math.pi, RIM_POINTS, endpoint=False)
    rings = []
    for disc in discs:
        x, y = _across(disc.normal)
        reach = disc.radius_mm * (np.cos(angles)[:, None] * x + np.sin(angles)[:, None] * y)
        rings.append(np.array(disc.centre) + reach)
    return np.concatenate(rings)


def _across(normal: Vec) -> tuple[Numbers, Numbers]:
    n = np.array(normal)
    x = np.cross(n, np.eye(3)[np.abs(n).argmin()])
    x /= np.linalg.norm(x)
    return x, np.cross(n, x)


def _room_in_words(joint: Flange, holes: Holes, skin: Numbers, clock_deg: float) -> str:
    """Nothing where every screw has room; else which settings are free."""
    if not _blocked(joint, holes, skin, 0.0):
        return ""
    free = [d for d in range(0, 360, STEP_DEG) if not _blocked(joint, holes, skin, d - clock_deg)]
    if not free:
        return "a screw or its driver stands under the bend at any clock: a greater length, or nut_pockets, gives room"
    return f"a screw or its driver stands under the bend; free at clock {_stretches(free)}"


def _blocked(joint: Flange, holes: Holes, skin: Numbers, turn_deg: float) -> bool:
    """Whether the bend, turned clockwise by this much, stands in a screw head or in the straight line to it."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    x, y, z = skin[:, 0] * c + skin[:, 2] * s, skin[:, 1], skin[:, 2] * c - skin[:, 0] * s
    top = joint.thickness_mm + holes.washer_h_mm
    inside = (y > joint.thickness_mm + 0.1) & (y < top + DRIVER_MM)
    reach = np.where(y[inside] < top, holes.washer_d_mm / 2, holes.head_d_mm / 2 + 0.5)
    apart = [np.hypot(x[inside] - p.right_mm, z[inside] - p.up_mm) for p in holes.points]
    return any(bool((one < reach).any()) for one in apart)


def _stretches(free: list[int]) -> str:
    """`25 to 65, 115 to 155 deg` from settings STEP_DEG apart on a circle."""
    taken = set(free)
    if len(free) == 360 // STEP_DEG:
        return "any"
    starts = [d for d in free if (d - STEP_DEG) % 360 not in taken]
    said = []
    for start in starts:
        stop = start
        while (stop + STEP_DEG) % 360 in taken:
            stop += STEP_DEG
        said.append(f"{start}" if stop == start else f"{start} to {stop % 360}")
    return ", ".join(said) + " deg"
