"""The neck between what is round the hose and the base: where it may stand, and its outline."""

from __future__ import annotations

import math

from fitwright.outline import Outline, Point, Side
from fitwright.parts.hanger.plan import Sizes

NECK_OF_R = 0.8
"""Half the neck's width in outside radii of the arms."""
MOST_OF_MID_R = 0.95
"""... and in radii of their middle line, where they are thick for their size."""
TILTED = 1e-3


def neck_span(sizes: Sizes) -> tuple[float, float]:
    """Low and high end of the neck along u from the axis; it keeps clear of the half through which the hose comes."""
    half = min(NECK_OF_R * sizes.out_r, MOST_OF_MID_R * sizes.mid_r)
    if sizes.opens[0] > TILTED:
        return -half, 0.0
    return (0.0, half) if sizes.opens[0] < -TILTED else (-half, half)


def neck_half_deg(sizes: Sizes) -> tuple[float, float]:
    """From the opening to the neck's edges [deg]: anticlockwise to the one, clockwise to the other."""
    low, high = (math.degrees(math.asin(u / sizes.out_r)) for u in neck_span(sizes))
    edges = 270.0 + low, 270.0 + high
    opens = sizes.opens_deg
    return (edges[0] - opens) % 360.0, (opens - edges[1]) % 360.0


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
