"""Solids made of boxes along x, y and z: the exact volume of what stands after boxes were added and cut away."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Span = tuple[float, float]
Point = tuple[float, float]
STRIPS = 400


@dataclass(frozen=True)
class Block:
    """A box between low and high coordinates [mm]."""

    x: Span
    y: Span
    z: Span

    def meets(self, other: Block) -> bool:
        """Whether the two share volume."""
        return all(a[0] < b[1] and b[0] < a[1] for a, b in zip(self.spans, other.spans, strict=True))

    @property
    def spans(self) -> tuple[Span, Span, Span]:
        """Along x, y, z."""
        return self.x, self.y, self.z


Step = tuple[Block, bool]
"""A box that is added (True) or cut away (False)."""


def cells(steps: Sequence[Step]) -> list[Block]:
    """What stands after boxes were added and cut away one after the other, as boxes that share no volume."""
    x, y, z = (_marks([b.spans[k] for b, _ in steps]) for k in range(3))
    full = np.zeros((len(x) - 1, len(y) - 1, len(z) - 1), dtype=np.bool_)
    for block, there in steps:
        i, j, k = (slice(*np.searchsorted(m, s)) for m, s in zip((x, y, z), block.spans, strict=True))
        full[i, j, k] = there
    return [
        Block((float(x[i]), float(x[i + 1])), (float(y[j]), float(y[j + 1])), (float(z[k]), float(z[k + 1])))
        for i, j, k in np.argwhere(full)
    ]


def volume_mm3(blocks: Sequence[Block]) -> float:
    """The sum of boxes that share no volume."""
    return math.fsum(math.prod(high - low for low, high in b.spans) for b in blocks)


def prism_volume_mm3(outline: Sequence[Point], y: Span, blocks: Sequence[Block]) -> float:
    """What a prism along y on a convex outline of (x, z) points takes from boxes that share no volume."""
    return math.fsum(
        (min(b.y[1], y[1]) - max(b.y[0], y[0])) * clipped_area_mm2(outline, b.x, b.z)
        for b in blocks
        if b.y[0] < y[1] and y[0] < b.y[1]
    )


def clipped_area_mm2(outline: Sequence[Point], x: Span, z: Span) -> float:
    """Area of a convex outline inside a rectangle."""
    points = list(outline)
    for axis, limit, sign in ((0, x[0], 1.0), (0, x[1], -1.0), (1, z[0], 1.0), (1, z[1], -1.0)):
        points = _halved(points, axis, limit, sign)
    turns = zip(points, [*points[1:], *points[:1]], strict=True)
    return abs(math.fsum(a[0] * b[1] - b[0] * a[1] for a, b in turns)) / 2


def hexagon(centre: Point, across_flats_mm: float) -> list[Point]:
    """A hexagon in (x, z), corners pointing along x."""
    r = across_flats_mm / math.sqrt(3.0)
    return [(centre[0] + r * math.cos(k * math.pi / 3), centre[1] + r * math.sin(k * math.pi / 3)) for k in range(6)]


def hole_volume_mm3(x: float, d_mm: float, z: Span, groove: Sequence[Sequence[Point]], slot_mm: float = 0.0) -> float:
    """A round hole along z (a slot: its middle moves `slot_mm` either way along y), less what grooves along y take.

    Without grooves this is the closed form; with them, strips of the circle across the groove's outline.
    """
    whole = (math.pi * d_mm**2 / 4 + 2 * slot_mm * d_mm) * (z[1] - z[0])
    if not any(clipped_area_mm2(g, (x - d_mm / 2, x + d_mm / 2), z) > 0 for g in groove):
        return whole
    turn = (np.arange(STRIPS) + 0.5) / STRIPS * np.pi
    edge = np.cos(np.arange(STRIPS + 1) / STRIPS * np.pi)
    wide = (edge[:-1] - edge[1:]) * d_mm / 2
    chord = d_mm * np.sin(turn) + 2 * slot_mm
    at = x + d_mm / 2 * (edge[:-1] + edge[1:]) / 2
    lost = [_deep(groove, float(a), float(w), z) for a, w in zip(at, wide, strict=True)]
    return whole - float(np.sum(np.array(lost) * chord * wide))


def _deep(groove: Sequence[Sequence[Point]], at: float, wide: float, z: Span) -> float:
    """Mean depth along z of grooves over a strip."""
    return sum(clipped_area_mm2(g, (at - wide / 2, at + wide / 2), z) for g in groove) / wide


def _marks(spans: Sequence[Span]) -> NDArray[np.float64]:
    return np.unique(np.array(spans, dtype=np.float64))


def _halved(points: list[Point], axis: int, limit: float, sign: float) -> list[Point]:
    """The part of a convex outline where sign x (coordinate - limit) >= 0."""
    kept: list[Point] = []
    for a, b in zip(points, [*points[1:], *points[:1]], strict=True):
        over_a, over_b = sign * (a[axis] - limit), sign * (b[axis] - limit)
        if over_a >= 0:
            kept.append(a)
        if (over_a > 0 > over_b) or (over_a < 0 < over_b):
            share = over_a / (over_a - over_b)
            kept.append((a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])))
    return kept
