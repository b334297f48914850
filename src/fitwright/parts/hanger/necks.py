"""The neck between what is round the hose and the base: where it may stand, and its outline."""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.outline import Outline, Point, Side
from fitwright.parts.hanger.plan import Sizes

NECK_OF_R = 0.8
"""Half the neck's width in outside radii of the arms, at the most."""
MOST_OF_MID_R = 0.95
"""... and in radii of their middle line, where they are thick for their size."""
TILTED = 1e-3
FILLET_MM, FLATTER, INTO_MM = 4.0, 0.8, 0.3
"""Radius in the notch between ring, neck and base: a sharp one asks two fifths more of a print that is snagged. Its
arc is so much of one that touches them, and begins and ends so deep in them: it crosses their lines, as touching it
could not be told from passing."""


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


def fillets_uv(at: Point, sizes: Sizes, span: tuple[float, float], base_v: float) -> Iterator[Outline]:
    """What rounds the notch beside each edge of the neck, between a ring that goes on there and the base (`base_v`).

    One arc from base to ring where the notch is low, else one from the neck's edge to the ring.
    """
    out, high = sizes.out_r, at[1] - base_v
    for sign, w in zip((-1.0, 1.0), (-span[0], span[1]), strict=True):
        if not 0.0 < w < out - 2 * FILLET_MM or math.sqrt(out**2 - w**2) > high:
            continue
        both = math.sqrt((out + FILLET_MM) ** 2 - (high - FILLET_MM) ** 2) if high < out + 2 * FILLET_MM else 0.0
        low = both - FILLET_MM > w
        corner = w + FILLET_MM, -math.sqrt((out + FILLET_MM) ** 2 - (w + FILLET_MM) ** 2)
        middle = (both, FILLET_MM - high) if low else corner
        begin = (both, -high - INTO_MM) if low else (w - INTO_MM, middle[1])
        end = tuple((out - INTO_MM) / (out + FILLET_MM) * c for c in middle)
        if math.dist(begin, end) < FILLET_MM:  # so wide a neck meets the ring's side: the corner is blunt
            continue
        chord = (begin[0] + end[0]) / 2, (begin[1] + end[1]) / 2
        away = math.dist(chord, middle)
        share = FLATTER * (FILLET_MM / away - 1.0)
        via = chord[0] + share * (chord[0] - middle[0]), chord[1] + share * (chord[1] - middle[1])
        ring = sizes.mid_r / out * end[0], sizes.mid_r / out * end[1]
        inside = w - FILLET_MM / 2
        neck = inside, -math.sqrt(sizes.mid_r**2 - inside**2)
        foot = inside, begin[1] - (FILLET_MM / 2 if low else 0.0)
        corners = [(at[0] + sign * u, at[1] + v) for u, v in (begin, end, ring, neck, foot)]
        turn = Side(corners[0], corners[1], (at[0] + sign * via[0], at[1] + via[1]))
        yield Outline((turn, *(Side(corners[k], corners[(k + 1) % 5]) for k in (1, 2, 3, 4))))
