"""The try-print of a printed plate: a skin of it, from hole to hole where that is less, to hold on the real bolts."""

from __future__ import annotations

import math

from cadquery import Solid

from fitwright.flat import Flat
from fitwright.frame import Frame
from fitwright.outline import Outline, Point, rectangle
from fitwright.part import TryPiece
from fitwright.parts.plate.flats import Piece
from fitwright.shapes.flat_plate import outline_tool
from fitwright.shapes.solids import fused, prism, ring

SKIN_MM = 2.0
"""Ten layers keep a plate flat that is held on its bolts."""
STRIP_OF_D = 1.1
"""A strip stands so many hole diameters to either side of the holes' centres."""
STEPS = 40
OVER_MM = 0.1
CHORD_MM, ROUND_MM = 0.05, 0.1


def plate_tries(piece: Piece, solid: Solid) -> tuple[TryPiece, ...]:
    """The try-piece, which hangs together; none for a plate that is hardly thicker than the skin, or has no holes."""
    model = piece.model
    if model.thickness_mm < SKIN_MM + 1.0 or not model.holes:
        return ()
    tools = _strips(model, piece.frame), _band(model, piece.frame)
    whole = outline_tool(_beyond(model.outline), piece.frame, -OVER_MM, SKIN_MM)
    tool = next((one for one in tools if one is not None and len(solid.intersect(one).Solids()) == 1), whole)
    return (TryPiece("plate footprint", tool, (0.0, -1.0, 0.0)),)


def _beyond(outline: Outline) -> Outline:
    """A box round it."""
    left, low, right, high = outline.bounds_mm
    box = rectangle(right - left + 2.0, high - low + 2.0)
    return box.mapped(1.0, ((left + right) / 2, (low + high) / 2))


def _strips(flat: Flat, frame: Frame) -> Solid | None:
    """Bars from hole to hole round their middle; None where one would leave the plate or meet an opening."""
    half = STRIP_OF_D * max(h.d_mm + h.long_mm for h in flat.holes)
    points = [hole.at for hole in flat.holes]
    x0, y0 = (math.fsum(p[k] for p in points) / len(points) for k in (0, 1))
    around = sorted(points, key=lambda p: math.atan2(p[0] - x0, p[1] - y0))
    bars = list(zip(around, [*around[1:], around[0]], strict=True))[: 1 if len(points) == 2 else None]
    if len({hole.d_mm for hole in flat.holes}) > 1 or not all(_clear(a, b, half, flat) for a, b in bars):
        return None
    return fused([prism(_bar(a, b, half), frame, -OVER_MM, SKIN_MM) for a, b in bars], "footprint")


def _band(flat: Flat, frame: Frame) -> Solid | None:
    """A ring through holes that lie on a circle; None where it would leave the plate or meet an opening."""
    found = _circle(flat)
    if found is None:
        return None
    (x, y), r = found
    half = STRIP_OF_D * max(h.d_mm + h.long_mm for h in flat.holes)
    low, high = r - half, r + half
    if low < half or any(low < math.dist(p, (x, y)) < high for one in _lines(flat) for p in one.polyline(CHORD_MM)):
        return None
    there = Frame(frame.point(x, 0.0, y), frame.inward, frame.right)
    return ring([(-OVER_MM, low), (-OVER_MM, high), (SKIN_MM, high), (SKIN_MM, low)], there)


def _lines(flat: Flat) -> tuple[Outline, ...]:
    return (flat.outline, *flat.openings)


def _circle(flat: Flat) -> tuple[Point, float] | None:
    """Centre and radius where the middle of all holes is as far from each of them."""
    points = [hole.at for hole in flat.holes]
    middle = math.fsum(p[0] for p in points) / len(points), math.fsum(p[1] for p in points) / len(points)
    radii = [math.dist(p, middle) for p in points]
    return (middle, radii[0]) if max(radii) - min(radii) < ROUND_MM else None


def _clear(a: Point, b: Point, half: float, flat: Flat) -> bool:
    """Whether a bar stays in the plate and off its openings."""
    along = [(a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])) for t in (k / STEPS for k in range(STEPS + 1))]
    inside = all(flat.outline.inside_by_mm(p) > half for p in along)
    return inside and all(-one.inside_by_mm(p) > half for one in flat.openings for p in along)


def _bar(a: Point, b: Point, half: float) -> list[Point]:
    """A bar from a to b, `half` wide either side and beyond its ends."""
    length = math.dist(a, b)
    u, v = (b[0] - a[0]) / length * half, (b[1] - a[1]) / length * half
    return [
        (a[0] - u + v, a[1] - v - u),
        (b[0] + u + v, b[1] + v - u),
        (b[0] + u - v, b[1] + v + u),
        (a[0] - u - v, a[1] - v + u),
    ]
