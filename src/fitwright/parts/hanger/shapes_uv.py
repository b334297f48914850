"""Outlines that profiles are made of, in (u, v): boxes, discs, sectors of a ring."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from fitwright.outline import Outline, Point, Side, circle, through


def box_uv(u: tuple[float, float], v: tuple[float, float]) -> Outline:
    """A rectangle between these coordinates [mm], each low then high."""
    return through([(u[0], v[0]), (u[1], v[0]), (u[1], v[1]), (u[0], v[1])], [None] * 4)


def disc_uv(at: Point, r_mm: float) -> Outline:
    """A disc."""
    return circle(2 * r_mm).mapped(shift=at)


def polar(at: Point, r_mm: float, deg: float) -> Point:
    """The point at this distance and angle, anticlockwise from +u."""
    return at[0] + r_mm * math.cos(math.radians(deg)), at[1] + r_mm * math.sin(math.radians(deg))


def sector_uv(at: Point, r_in: float, r_out: float, from_deg: float, sweep_deg: float) -> Outline:
    """The part of a ring that runs from an angle anticlockwise through `sweep_deg` (less than 360)."""
    end, middle = from_deg + sweep_deg, from_deg + sweep_deg / 2
    corners = [polar(at, r_out, from_deg), polar(at, r_out, end), polar(at, r_in, end), polar(at, r_in, from_deg)]
    return through(corners, [None, polar(at, r_out, middle), None, polar(at, r_in, middle)])


def turned_box(at: Point, towards_deg: float, along: tuple[float, float], across: tuple[float, float]) -> Outline:
    """A rectangle in axes of its own: `along` the direction, `across` it (anticlockwise positive), from `at` [mm]."""
    there = axes_uv(at, towards_deg)
    corners = [there(along[0], across[0]), there(along[1], across[0])]
    corners += [there(along[1], across[1]), there(along[0], across[1])]
    return through(corners, [None] * 4)


def stroke_uv(path: Sequence[Side], thick_mm: float) -> Outline:
    """A bar of even thickness along a smooth path of straights and arcs, both its ends half round."""
    half = thick_mm / 2
    right = [_aside(one, half) for one in path]
    left = [_aside(one, -half).reversed() for one in reversed(path)]
    last, first = path[-1], path[0]
    out, back = last.heading(1.0), first.heading(0.0)
    far = Side(right[-1].end, left[0].start, (last.end[0] + half * out[0], last.end[1] + half * out[1]))
    near = Side(left[-1].end, right[0].start, (first.start[0] - half * back[0], first.start[1] - half * back[1]))
    return Outline((*right, far, *left, near))


def _aside(side: Side, by_mm: float) -> Side:
    """A side moved to its right (negative: left)."""

    def moved(share: float) -> Point:
        (x, y), (a, b) = side.at(share), side.heading(share)
        return x + by_mm * b, y - by_mm * a

    return Side(moved(0.0), moved(1.0), moved(0.5) if side.via else None)


def arc_uv(at: Point, r_mm: float, from_deg: float, sweep_deg: float) -> Side:
    """An arc from an angle through `sweep_deg`, anticlockwise positive."""
    ends = polar(at, r_mm, from_deg), polar(at, r_mm, from_deg + sweep_deg)
    return Side(*ends, polar(at, r_mm, from_deg + sweep_deg / 2))


def axes_uv(at: Point, towards_deg: float) -> Callable[[float, float], Point]:
    """From axes of its own (`along` the direction, `across` it, anticlockwise positive) to (u, v)."""
    c, s = math.cos(math.radians(towards_deg)), math.sin(math.radians(towards_deg))
    return lambda along, across: (at[0] + along * c - across * s, at[1] + along * s + across * c)


def segment_uv(at: Point, r_mm: float, v_mm: float) -> Outline:
    """What a straight along u cuts off a disc: the part further out than it, `v_mm` from the middle (not 0 away)."""
    half = math.sqrt(r_mm**2 - v_mm**2)
    low, high = (at[0] - half, at[1] + v_mm), (at[0] + half, at[1] + v_mm)
    top = at[0], at[1] + math.copysign(r_mm, v_mm)
    return through([low, high], [None, top]).anticlockwise()
