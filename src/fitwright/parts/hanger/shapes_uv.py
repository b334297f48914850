"""Outlines that profiles are made of, in (u, v): boxes, discs, sectors of a ring."""

from __future__ import annotations

import math

from fitwright.outline import Outline, Point, circle, through


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
    c, s = math.cos(math.radians(towards_deg)), math.sin(math.radians(towards_deg))

    def there(a: float, b: float) -> Point:
        return at[0] + a * c - b * s, at[1] + a * s + b * c

    corners = [there(along[0], across[0]), there(along[1], across[0])]
    corners += [there(along[1], across[1]), there(along[0], across[1])]
    return through(corners, [None] * 4)
