"""How far aside of the straight line the slack of a hose between two places can stand.

Lengths in mm. At rest it bows aside only by its own stiffness, or the curl it was coiled with, and then as roundly as
it can: as one arc through both ends, in any plane, up to half a circle; with more slack it hangs down (hose_bend).
Swung, pushed or kinked it may go farther, but no point of it is farther from both ends together than it is long: it
stays within the ellipse about its ends whose long axis is its length (the gardener's ellipse of pins and string).
"""

from __future__ import annotations

import math

from fitwright.frame import Vec
from fitwright.physics.hose_bend import roundest_mm

OTHERS = ((1, 2), (0, 2), (0, 1))
Reaches = tuple[float, float]
"""The least and the greatest of a coordinate."""


def arc_reaches(start: Vec, end: Vec, length_mm: float, axis: int) -> Reaches:
    """What the arc reaches along an axis, turned about the straight line into the worst plane.

    With r its radius, b half of its angle and the straight line at an angle e to the axis, cos e <= sin b: the middle
    of the line -+ (r - r cos b sin e), the farthest point of the circle; else it reaches no farther than its ends.

    >>> arc_reaches((0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 200.0 * math.pi, 1)
    (-200.0, 200.0)
    """
    ends = min(start[axis], end[axis]), max(start[axis], end[axis])
    chord = math.dist(start, end)
    if length_mm <= chord or not chord:
        return ends
    radius = max(roundest_mm(chord, 0.0, length_mm), chord / 2)
    along = abs(end[axis] - start[axis]) / chord
    if along * radius > chord / 2:
        return ends
    middle = (start[axis] + end[axis]) / 2
    half = radius - math.sqrt(max(0.0, radius**2 - chord**2 / 4) * (1.0 - along**2))
    return middle - half, middle + half


def most_reaches(start: Vec, end: Vec, length_mm: float, axis: int) -> Reaches:
    """What no hose of that length goes beyond: (p + q) / 2 -+ sqrt(L^2 - d^2) / 2, d square to the axis.

    >>> most_reaches((0.0, 0.0, 0.0), (400.0, 0.0, 0.0), 500.0, 1)
    (-150.0, 150.0)
    """
    square = math.fsum((end[k] - start[k]) ** 2 for k in OTHERS[axis])
    half = max(math.sqrt(max(0.0, length_mm**2 - square)), abs(end[axis] - start[axis])) / 2
    middle = (start[axis] + end[axis]) / 2
    return middle - half, middle + half
