"""The neck between what is round the hose and the base: where it may stand, and its outline."""

from __future__ import annotations

import math

from fitwright.outline import Outline, Point, Side
from fitwright.parts.hanger.plan import Sizes

NECK_OF_R = 0.8
"""Half the neck's width in outside radii of the arms, at the most."""
MOST_OF_MID_R = 0.95
"""... and in radii of their middle line, where they are thick for their size."""
TILTED = 1e-3


def neck_span(sizes: Sizes) -> tuple[float, float]:
    """Low and high end of the neck along u from the axis; it keeps clear of the half through which the hose comes."""
    return _span(sizes.neck or widest_mm(sizes.bore_r, sizes.arm, sizes.opens), sizes.opens)


def foot_span(sizes: Sizes) -> tuple[float, float]:
    """Low and high end of a plate that is held under the hose: as wide as the widest neck."""
    return _span(widest_mm(sizes.bore_r, sizes.arm, sizes.opens), sizes.opens)


def widest_mm(bore_r: float, arm: float, opens: Point) -> float:
    """The widest neck along u [mm]; on one side of the axis only where it opens along the surface."""
    half = min(NECK_OF_R * (bore_r + arm), MOST_OF_MID_R * (bore_r + arm / 2))
    return half if abs(opens[0]) > TILTED else 2 * half


def _span(neck: float, opens: Point) -> tuple[float, float]:
    if opens[0] > TILTED:
        return -neck, 0.0
    return (0.0, neck) if opens[0] < -TILTED else (-neck / 2, neck / 2)


def roots_deg(bore_r: float, arm: float, opens: Point, neck: float = 0.0) -> tuple[float, float]:
    """From the opening to the neck's edges, where the arms begin to bend [deg]: anticlockwise, then clockwise.

    `neck`: its width; 0: the widest.
    """
    ends = _span(neck or widest_mm(bore_r, arm, opens), opens)
    low, high = (math.degrees(math.asin(u / (bore_r + arm))) for u in ends)
    towards = math.degrees(math.atan2(opens[1], opens[0]))
    return (270.0 + low - towards) % 360.0, (towards - 270.0 - high) % 360.0


def neck_uv(at: Point, sizes: Sizes, span: tuple[float, float], base_v: float) -> Outline:
    """From the base (at `base_v`) to the arms' middle line, between the ends of the span along u."""
    r = sizes.mid_r
    low, high = span

    def on(u: float) -> Point:
        return at[0] + u, at[1] - math.sqrt(r * r - u * u)

    corners = (at[0] + low, base_v), (at[0] + high, base_v), on(high), on(low)
    middle = math.radians(270.0 + (math.degrees(math.asin(low / r)) + math.degrees(math.asin(high / r))) / 2)
    via = at[0] + r * math.cos(middle), at[1] + r * math.sin(middle)
    return Outline(
        (
            Side(corners[0], corners[1]),
            Side(corners[1], corners[2]),
            Side(corners[2], corners[3], via),
            Side(corners[3], corners[0]),
        )
    )
