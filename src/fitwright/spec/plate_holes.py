"""The bolt holes of a plate one by one, and the outline that it gets where the YAML gives none. Plain numbers, mm."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from fitwright.flat import FlatHole
from fitwright.outline import Outline, Point, circle, rectangle
from fitwright.outline_forms import as_circle
from fitwright.spec.plate import FlangePlateSpec, Opening, PlatePattern

OWN_EDGE = 2.0
"""An outline of our own choice: hole centre to edge in hole diameters, which brittle sheet bears as well."""
FROM_AXIS_MM = 0.01


def pattern_holes(pattern: PlatePattern) -> tuple[FlatHole, ...]:
    """Its holes; slots lie along the line from the pattern's middle."""
    holes, (x0, y0) = pattern.holes, (pattern.at.right_mm, pattern.at.up_mm)
    found = []
    for place in holes.points:
        x, y = place.right_mm - x0, place.up_mm - y0
        turned = math.degrees(math.atan2(x, y)) % 180.0 if math.hypot(x, y) > FROM_AXIS_MM else 0.0
        point = place.right_mm, place.up_mm
        found.append(FlatHole(point, holes.hole_d_mm, holes.size, pattern.slot_mm, turned if pattern.slot_mm else 0.0))
    return tuple(found)


def plate_holes(patterns: Sequence[PlatePattern]) -> tuple[FlatHole, ...]:
    """All holes of all patterns, in order."""
    return tuple(hole for pattern in patterns for hole in pattern_holes(pattern))


def hole_ends(hole: FlatHole) -> Iterator[Point]:
    """Centres of its round ends: both of a slot, once the middle of a round hole."""
    turn, half = math.radians(hole.turned_deg), hole.long_mm / 2
    for sign in (-1.0, 1.0) if half > 0 else (0.0,):
        yield hole.at[0] + sign * half * math.sin(turn), hole.at[1] + sign * half * math.cos(turn)


def own_outline(spec: FlangePlateSpec) -> Outline:
    """Where none is given: 2 hole diameters beyond the bolts' centres, `rim_mm` beyond the openings.

    Round where all is round about the middle, else the rectangle round it all, corners rounded.
    """
    holes = plate_holes(spec.patterns)
    if _all_round(spec):
        reach = [OWN_EDGE * h.d_mm + max(math.hypot(*p) for p in hole_ends(h)) for h in holes]
        reach += [one.outline.reach_mm + spec.rim_mm for one in spec.openings]
        return circle(_up(2 * max(reach)))
    boxes = [_around(p, OWN_EDGE * h.d_mm) for h in holes for p in hole_ends(h)]
    boxes += [_wider(one, spec.rim_mm) for one in spec.openings]
    left, low = (min(box[k] for box in boxes) for k in (0, 1))
    right, high = (max(box[k] for box in boxes) for k in (2, 3))
    corner = min([OWN_EDGE * h.d_mm / 2 for h in holes] or [spec.rim_mm / 2])
    middle = (left + right) / 2, (low + high) / 2
    return rectangle(right - left, high - low, corner).mapped(1.0, middle)


def _all_round(spec: FlangePlateSpec) -> bool:
    on_axis = all(
        p.holes.circle_mm is not None and math.hypot(p.at.right_mm, p.at.up_mm) < FROM_AXIS_MM for p in spec.patterns
    )
    circles = [as_circle(one.outline) for one in spec.openings]
    return on_axis and all(c is not None and math.hypot(*c[0]) < FROM_AXIS_MM for c in circles)


def _up(size_mm: float) -> float:
    """To the next 0.1 mm."""
    return math.ceil(size_mm * 10.0 - 1e-6) / 10.0


def _around(at: Point, by: float) -> tuple[float, float, float, float]:
    return at[0] - by, at[1] - by, at[0] + by, at[1] + by


def _wider(one: Opening, by: float) -> tuple[float, float, float, float]:
    left, low, right, high = one.outline.bounds_mm
    return left - by, low - by, right + by, high + by
