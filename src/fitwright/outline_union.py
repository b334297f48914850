"""Exact unions and differences of closed outlines of straights and arcs: no kernel, no facets.

Each outline is cut where it meets the others, the pieces that bound the result are kept, and chained to loops again.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fitwright.errors import BuildError
from fitwright.outline import Outline, Point, Side

NODE_MM = 1e-5
"""Ends of pieces closer than this are one node."""
ON_MM = 1e-6
"""A piece whose middle is this near to another outline runs along it."""


@dataclass(frozen=True)
class Region:
    """One connected region: its outer loop, anticlockwise, and the loops of the holes in it, clockwise."""

    outer: Outline
    inner: tuple[Outline, ...] = ()

    @property
    def area_mm2(self) -> float:
        """Area [mm2] in closed form."""
        return self.outer.area_mm2 - math.fsum(one.area_mm2 for one in self.inner)

    def contains(self, point: Point) -> bool:
        """Whether a point lies in it (on the line itself is unsure)."""
        return self.outer.contains(point) and not any(one.contains(point) for one in self.inner)


def union(outlines: Sequence[Outline]) -> tuple[Region, ...]:
    """The regions that are covered by at least one of the outlines, each outline simple.

    Raises
    ------
    BuildError
        The lines touch in a way that leaves no clear inside (a point contact).
    """
    turned = [one.anticlockwise() for one in outlines]
    kept = [p for k, one in enumerate(turned) for p in _pieces(one, turned, k) if _outside(p, turned, k)]
    return _regions(_loops(kept))


def difference(whole: Sequence[Outline], taken: Sequence[Outline]) -> tuple[Region, ...]:
    """What is left of the union of `whole` where all of `taken` is cut away; BuildError as `union`."""
    loops = [loop for region in union(whole) for loop in (region.outer, *region.inner)]
    cuts = [loop for region in union(taken) for loop in (region.outer, *region.inner)]
    everything = [*loops, *cuts]
    kept: list[Side] = []
    for k, one in enumerate(loops):
        kept += [p for p in _pieces(one, everything, k) if _left_of(p, cuts)]
    for k, one in enumerate(cuts):
        pieces = _pieces(one, everything, len(loops) + k)
        kept += [p.reversed() for p in pieces if _beside(p, loops) is None and _inside(p.at(0.5), loops)]
    return _regions(_loops(kept))


def _pieces(one: Outline, others: Sequence[Outline], own: int) -> Iterator[Side]:
    """The sides of an outline cut wherever another outline meets them."""
    for side in one.sides:
        met = [p for k, other in enumerate(others) if k != own for theirs in other.sides for p in side.meets(theirs)]
        yield from cut_at(side, met)


def cut_at(side: Side, points: Sequence[Point]) -> list[Side]:
    """A side cut at points that lie on it, in order."""
    shares = sorted(_share(side, p) for p in points)
    least = NODE_MM / max(side.length_mm, NODE_MM)
    stops = [0.0]
    stops += [s for s in shares if least < s < 1.0 - least]
    stops.append(1.0)
    stops = [s for k, s in enumerate(stops) if k in (0, len(stops) - 1) or s - stops[k - 1] > least]
    ends = [side.start, *(side.at(s) for s in stops[1:-1]), side.end]
    made: list[Side] = []
    for (a, b), (s, t) in zip(itertools.pairwise(ends), itertools.pairwise(stops), strict=True):
        made.append(Side(a, b, side.at((s + t) / 2) if side.via else None))
    return made


def _share(side: Side, point: Point) -> float:
    """Where on a side a point lies, as a share of its length."""
    if side.via is None:
        (ax, ay), (bx, by) = side.start, side.end
        square = (bx - ax) ** 2 + (by - ay) ** 2
        return ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / square
    cx, cy = side.centre
    first = math.atan2(side.start[1] - cy, side.start[0] - cx)
    turned = math.copysign(1.0, side.sweep_rad) * (math.atan2(point[1] - cy, point[0] - cx) - first)
    turned = (turned + 1e-9) % math.tau - 1e-9
    return turned / abs(side.sweep_rad)


def _outside(piece: Side, outlines: Sequence[Outline], own: int) -> bool:
    """Whether a piece bounds the union: in none of the others; of two that run along each other the first counts."""
    middle = piece.at(0.5)
    for k, other in enumerate(outlines):
        if k == own:
            continue
        same = _beside(piece, [other])
        if same is None:
            if other.contains(middle):
                return False
        elif not same or k < own:
            return False
    return True


def _left_of(piece: Side, cuts: Sequence[Outline]) -> bool:
    """Whether a piece of the whole still bounds something once the cuts are made."""
    same = _beside(piece, cuts)
    if same is not None:
        return not same
    return not _inside(piece.at(0.5), cuts)


def _beside(piece: Side, outlines: Sequence[Outline]) -> bool | None:
    """True where the piece runs along one of the outlines the same way, False against it, None where along none."""
    middle, way = piece.at(0.5), piece.heading(0.5)
    for other in outlines:
        for side in other.sides:
            if side.distance_mm(middle) < ON_MM:
                theirs = side.heading(min(1.0, max(0.0, _share(side, middle))))
                along = way[0] * theirs[0] + way[1] * theirs[1]
                if abs(along) > 0.9:
                    return along > 0.0
    return None


def _inside(point: Point, loops: Sequence[Outline]) -> bool:
    """Inside an odd number of loops (holes count as loops)."""
    return sum(loop.contains(point) for loop in loops) % 2 == 1


def _loops(pieces: Sequence[Side]) -> list[Outline]:
    """Pieces chained end to start; where several go on, the one that turns most to the right (the loops stay apart)."""
    left = [p for p in pieces if p.length_mm > NODE_MM]
    loops: list[Outline] = []
    while left:
        chain = [left.pop()]
        while math.dist(chain[-1].end, chain[0].start) > NODE_MM:
            on = [p for p in left if math.dist(p.start, chain[-1].end) <= NODE_MM]
            if not on:
                raise BuildError(f"an outline does not close at {chain[-1].end[0]:.4f}, {chain[-1].end[1]:.4f}")
            chosen = min(on, key=lambda p: _turned(chain[-1], p))
            left.remove(chosen)
            chain.append(Side(chain[-1].end, chosen.end, chosen.via))
        chain[-1] = Side(chain[-1].start, chain[0].start, chain[-1].via)
        loops.append(Outline(tuple(_joined(chain))))
    return loops


def _turned(one: Side, other: Side) -> float:
    a, b = one.heading(1.0), other.heading(0.0)
    return math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1])


def _joined(chain: list[Side]) -> list[Side]:
    """Neighbours that go on along the same straight or circle made one side (an arc stays below a whole turn)."""
    made: list[Side] = []
    for side in chain:
        made.append(side)
        if len(made) > 1 and (whole := _one_of(made[-2], made[-1])):
            made[-2:] = [whole]
    if len(made) > 2 and (whole := _one_of(made[-1], made[0])):
        made = [whole, *made[1:-1]]
    return made


def _one_of(one: Side, other: Side) -> Side | None:
    if (one.via is None) != (other.via is None):
        return None
    if one.via is None:
        return Side(one.start, other.end) if abs(_turned(one, other)) < 1e-9 else None
    same = math.dist(one.centre, other.centre) < NODE_MM and abs(one.radius_mm - other.radius_mm) < NODE_MM
    sweep = one.sweep_rad + other.sweep_rad
    if not same or one.sweep_rad * other.sweep_rad < 0.0 or abs(sweep) > 1.9 * math.pi:
        return None
    share = sweep / 2 / one.sweep_rad
    return Side(
        one.start, other.end, one.at(share) if share <= 1.0 else other.at((sweep / 2 - one.sweep_rad) / other.sweep_rad)
    )


def _regions(loops: Sequence[Outline]) -> tuple[Region, ...]:
    """Loops sorted into regions: each clockwise loop is a hole of the smallest anticlockwise one round it."""
    outer = sorted((one for one in loops if one.signed_area_mm2 > 0.0), key=lambda one: one.area_mm2)
    holes: dict[int, list[Outline]] = {k: [] for k in range(len(outer))}
    for hole in (one for one in loops if one.signed_area_mm2 < 0.0):
        at = hole.sides[0].at(0.5)
        holes[next(k for k, one in enumerate(outer) if one.contains(at))].append(hole)
    return tuple(Region(one, tuple(holes[k])) for k, one in reversed(list(enumerate(outer))))
