"""One straight slit along a whole turned sleeve: its cutter, and the volume that it takes, in closed form."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
from cadquery import Solid

from fitwright.frame import Frame
from fitwright.shapes.joint import OVERSHOOT_MM
from fitwright.shapes.profile import SAME_MM, Point
from fitwright.shapes.solids import prism

SLIT_DEG = 0.0
"""The slit runs along the top: clear of the section drawing, and at the same clock angle seen from either mouth."""
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(16)


def slit_tool(frame: Frame, width_mm: float, outer: Sequence[Point]) -> Solid:
    """The cutter: from the axis outwards past the largest radius, drawn out past both mouths."""
    a, half = math.radians(SLIT_DEG), width_mm / 2
    out = max(r for _, r in outer) + 1.0
    along, across = (math.sin(a), math.cos(a)), (math.cos(a) * half, -math.sin(a) * half)
    far = out * along[0], out * along[1]
    outline = [
        (-across[0], -across[1]),
        (far[0] - across[0], far[1] - across[1]),
        (far[0] + across[0], far[1] + across[1]),
        across,
    ]
    return prism(outline, frame, outer[0][0] - OVERSHOOT_MM, outer[-1][0] + OVERSHOOT_MM)


def strip_mm3(line: Sequence[Point], width_mm: float) -> float:
    """Volume [mm3] of the turned solid that lies in a half-strip of this width, from its axis outwards.

    Across a section of radius r: h sqrt(r^2 - h^2) + r^2 asin(h / r), h half the width; along a cone by Gauss's rule
    with 16 nodes, which is exact to the last digits.
    """
    half, total = width_mm / 2, 0.0
    for (s0, r0), (s1, r1) in itertools.pairwise(line):
        if s1 - s0 < SAME_MM:
            continue
        r = (r0 + r1) / 2 + (r1 - r0) / 2 * _NODES
        area = half * np.sqrt(r * r - half * half) + r * r * np.arcsin(half / r)
        total += (s1 - s0) / 2 * float(_WEIGHTS @ area)
    return total
