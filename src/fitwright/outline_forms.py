"""Outlines by what they are: slot-ended, of a section, round; and outlines moved outwards all round.

Plain numbers: points are (right, up) [mm].
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from fitwright.outline import Outline, Point, Side
from fitwright.section import Section

TANGENT_RAD = 1e-4
"""Two sides that meet under less than this run into each other without a kink."""
ROUND_MM = 1e-4
LEAST_MM = 1e-6


class OutlineError(ValueError):
    """An outline that cannot be moved so far: it would fold over itself."""


def oval(width_mm: float, height_mm: float) -> Outline:
    """A slot with round ends about (0, 0): two half circles and the straights between them; the sides differ."""
    r, half = min(width_mm, height_mm) / 2, abs(width_mm - height_mm) / 2
    ends = [(half, -r), (half, r), (-half, r), (-half, -r)]
    tips = [(half + r, 0.0), None, (-half - r, 0.0), None]
    if height_mm > width_mm:
        ends = [(-y, x) for x, y in ends]
        tips = [None if p is None else (-p[1], p[0]) for p in tips]
    return Outline(tuple(Side(ends[k], ends[(k + 1) % 4], tips[k]) for k in range(4)))


def of_section(section: Section) -> Outline:
    """The outline of a section, anticlockwise: its arcs as arcs, the rest straight."""
    sides: list[Side] = []
    for arc, following in section.pairs():
        a, b, c = arc.at(arc.start), arc.at(arc.end), following.at(following.start)
        if arc.radius_mm > ROUND_MM and arc.turn > math.pi + TANGENT_RAD:
            middle = (arc.start + arc.end) / 2
            quarter = arc.turn / 4
            half = arc.at(middle)
            sides += [Side(a, half, arc.at(middle - quarter)), Side(half, b, arc.at(middle + quarter))]
        elif arc.radius_mm > ROUND_MM and math.dist(a, b) > LEAST_MM:
            sides.append(Side(a, b, arc.at((arc.start + arc.end) / 2)))
        if math.dist(b, c) > LEAST_MM:
            sides.append(Side(b, c))
    return Outline(_closed(sides))


def _closed(sides: list[Side]) -> tuple[Side, ...]:
    """Each side begins exactly where the one before ends."""
    return tuple(Side(sides[k - 1].end, side.end, side.via) for k, side in enumerate(sides))


def as_circle(outline: Outline) -> tuple[Point, float] | None:
    """Centre and diameter [mm] of an outline that is one full circle; None for any other."""
    if any(side.via is None for side in outline.sides):
        return None
    centre, r = outline.sides[0].centre, outline.sides[0].radius_mm
    same = all(math.dist(s.centre, centre) < ROUND_MM and abs(s.radius_mm - r) < ROUND_MM for s in outline.sides)
    whole = abs(abs(math.fsum(side.sweep_rad for side in outline.sides)) - math.tau) < 1e-9
    return (centre, 2 * r) if same and whole else None


def mirrored(outline: Outline) -> Outline:
    """Right and left changed over."""
    return Outline(
        tuple(
            Side((-s.start[0], s.start[1]), (-s.end[0], s.end[1]), (-s.via[0], s.via[1]) if s.via else None)
            for s in outline.sides
        )
    )


def grown(outline: Outline, by_mm: float, rounded: bool = False) -> Outline:
    """The outline moved outwards all round (inwards where `by_mm` < 0).

    Corners stay sharp, or with `rounded` get an arc about the old corner where it points outwards.

    Raises
    ------
    OutlineError
        A side or corner would vanish or the outline cross itself.
    """
    if abs(by_mm) < LEAST_MM:
        return outline
    run = outline.anticlockwise()
    moved = [_moved(side, by_mm) for side in run.sides]
    made = tuple(_joined(run.sides, moved, by_mm, rounded))
    found = Outline(made)
    if any(math.dist(s.start, s.end) < LEAST_MM for s in made) or (len(made) > 2 and found.fault() is not None):
        raise OutlineError(f"the outline folds over when it is moved by {by_mm:.2f} mm")
    if any(_turned_back(old, new) for old, new in zip(run.sides, _of_old(made, len(run.sides)), strict=False)):
        raise OutlineError(f"a side of the outline vanishes when it is moved by {by_mm:.2f} mm")
    return found


def _of_old(made: tuple[Side, ...], count: int) -> tuple[Side, ...]:
    """The sides that stand for the old ones, where no corner arcs were put in; else none (growing loses no side)."""
    return made if len(made) == count else ()


def _turned_back(old: Side, new: Side) -> bool:
    a, b = old.heading(0.0), new.heading(0.0)
    return a[0] * b[0] + a[1] * b[1] < 0.0


def _moved(side: Side, by_mm: float) -> Side:
    """One side of an anticlockwise outline, moved to its right."""
    if side.via is not None:
        r = side.radius_mm + (by_mm if side.sweep_rad > 0 else -by_mm)
        if r < LEAST_MM:
            raise OutlineError(f"an arc of radius {side.radius_mm:.2f} mm vanishes when it is moved by {by_mm:.2f} mm")
        share, c = r / side.radius_mm, side.centre

        def at(p: Point) -> Point:
            return c[0] + share * (p[0] - c[0]), c[1] + share * (p[1] - c[1])

        return Side(at(side.start), at(side.end), at(side.via))
    dx, dy = side.heading(0.0)
    shift = by_mm * dy, -by_mm * dx
    return side.mapped(1.0, shift)


def _joined(old: tuple[Side, ...], moved: list[Side], by_mm: float, rounded: bool) -> Iterator[Side]:
    """The moved sides brought to meet at their corners, with arcs between where they are asked for."""
    count = len(old)
    joints = [_corner(old[k - 1], old[k], moved[k - 1], moved[k], by_mm, rounded) for k in range(count)]
    for k in range(count):
        first, last = joints[k][1], joints[(k + 1) % count][0]
        yield _between(moved[k], first, last)
        following = joints[(k + 1) % count]
        if math.dist(following[0], following[1]) > LEAST_MM:
            yield Side(following[0], following[1], _arc_middle(old[k].end, following[0], following[1], by_mm))


def _corner(a: Side, b: Side, moved_a: Side, moved_b: Side, by_mm: float, rounded: bool) -> tuple[Point, Point]:
    """Where the side before ends, and where the one behind the corner begins."""
    h, g = a.heading(1.0), b.heading(0.0)
    turn = math.atan2(h[0] * g[1] - h[1] * g[0], h[0] * g[0] + h[1] * g[1])
    if abs(turn) < TANGENT_RAD:
        return moved_a.end, moved_a.end
    if rounded and turn * by_mm > 0.0:
        return moved_a.end, moved_b.start
    met = _meeting(moved_a, moved_b, a.end)
    return met, met


def _meeting(a: Side, b: Side, near: Point) -> Point:
    """Where two sides, drawn on, meet nearest to their old corner."""
    found = _lines(a, b) if a.via is None and b.via is None else list(_with_circles(a, b))
    if not found:
        raise OutlineError("two sides of the outline do not meet when they are moved")
    return min(found, key=lambda p: math.dist(p, near))


def _lines(a: Side, b: Side) -> list[Point]:
    (ux, uy), (vx, vy) = a.heading(0.0), b.heading(0.0)
    det = ux * vy - uy * vx
    if abs(det) < 1e-12:
        return []
    wx, wy = b.start[0] - a.start[0], b.start[1] - a.start[1]
    t = (wx * vy - wy * vx) / det
    return [(a.start[0] + t * ux, a.start[1] + t * uy)]


def _with_circles(a: Side, b: Side) -> Iterator[Point]:
    if a.via is not None and b.via is not None:
        yield from _two_circles(a.centre, a.radius_mm, b.centre, b.radius_mm)
        return
    line, arc = (a, b) if a.via is None else (b, a)
    (ux, uy), (cx, cy) = line.heading(0.0), arc.centre
    along = (cx - line.start[0]) * ux + (cy - line.start[1]) * uy
    foot = line.start[0] + along * ux, line.start[1] + along * uy
    left = arc.radius_mm**2 - math.dist(foot, arc.centre) ** 2
    if left >= 0.0:
        half = math.sqrt(left)
        yield from ((foot[0] + k * half * ux, foot[1] + k * half * uy) for k in (-1, 1))


def _two_circles(c0: Point, r0: float, c1: Point, r1: float) -> Iterator[Point]:
    apart = math.dist(c0, c1)
    if apart < LEAST_MM or apart > r0 + r1 or apart < abs(r0 - r1):
        return
    ux, uy = (c1[0] - c0[0]) / apart, (c1[1] - c0[1]) / apart
    along = (apart**2 + r0**2 - r1**2) / (2 * apart)
    half = math.sqrt(max(0.0, r0**2 - along**2))
    for k in (-1, 1):
        yield c0[0] + along * ux - k * half * uy, c0[1] + along * uy + k * half * ux


def _between(side: Side, first: Point, last: Point) -> Side:
    """The side's line or circle from one point on it to another, the way the side runs."""
    if side.via is None:
        return Side(first, last)
    (cx, cy), r = side.centre, side.radius_mm
    start = math.atan2(first[1] - cy, first[0] - cx)
    turn = math.atan2(last[1] - cy, last[0] - cx) - start
    turn %= math.tau if side.sweep_rad > 0 else -math.tau
    middle = start + turn / 2
    return Side(first, last, (cx + r * math.cos(middle), cy + r * math.sin(middle)))


def _arc_middle(corner: Point, a: Point, b: Point, by_mm: float) -> Point:
    x, y = a[0] + b[0] - 2 * corner[0], a[1] + b[1] - 2 * corner[1]
    size = math.hypot(x, y)
    return corner[0] + abs(by_mm) * x / size, corner[1] + abs(by_mm) * y / size
