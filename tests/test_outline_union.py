"""Unions and differences of outlines against shapely (fine polygons) and closed forms."""

from __future__ import annotations

import math
import random

import pytest
from shapely.geometry import Polygon
from shapely.ops import unary_union

from fitwright.outline import Outline, circle, rectangle, through
from fitwright.outline_union import difference, union

CHORD = 1e-5


def polygon(one: Outline) -> Polygon:
    return Polygon(one.polyline(CHORD))


def moved(one: Outline, x: float, y: float) -> Outline:
    return one.mapped(shift=(x, y))


def test_two_circles_closed_form() -> None:
    """A lens is 2 r^2 acos(d / 2r) - d / 2 sqrt(4 r^2 - d^2)."""
    r, d = 10.0, 12.0
    lens = 2 * r * r * math.acos(d / 2 / r) - d / 2 * math.sqrt(4 * r * r - d * d)
    one, other = circle(2 * r), moved(circle(2 * r), d, 0.0)
    (both,) = union([one, other])
    assert both.area_mm2 == pytest.approx(2 * math.pi * r * r - lens, rel=1e-12) and not both.inner
    (left,) = difference([one], [other])
    assert left.area_mm2 == pytest.approx(math.pi * r * r - lens, rel=1e-12)
    assert len(both.outer.sides) <= 4 and both.outer.fault() is None


def test_rectangles_that_share_a_side_become_one() -> None:
    one, other = rectangle(10, 6), moved(rectangle(10, 6), 10.0, 0.0)
    (both,) = union([one, other])
    assert both.area_mm2 == pytest.approx(120.0) and len(both.outer.sides) == 4


def test_a_ring_has_a_hole() -> None:
    (ring,) = difference([circle(20)], [circle(12)])
    assert len(ring.inner) == 1 and ring.area_mm2 == pytest.approx(math.pi * (100 - 36), rel=1e-12)
    assert ring.contains((8.0, 0.0)) and not ring.contains((0.0, 0.0))
    (open_ring,) = difference([circle(20)], [circle(12), moved(rectangle(20, 4), 10.0, 0.0)])
    assert not open_ring.inner


def test_four_walls_round_a_yard() -> None:
    walls = [moved(rectangle(30, 4), 0, s * 13) for s in (1, -1)] + [
        moved(rectangle(4, 30), s * 13, 0) for s in (1, -1)
    ]
    (yard,) = union(walls)
    assert len(yard.inner) == 1 and yard.area_mm2 == pytest.approx(900 - 22 * 22)


def test_apart_and_swallowed() -> None:
    assert len(union([circle(4), moved(circle(4), 10, 0)])) == 2
    (only,) = union([circle(20), moved(circle(4), 1, 0)])
    assert only.area_mm2 == pytest.approx(100 * math.pi)
    assert difference([circle(4)], [circle(10)]) == ()


def some(rng: random.Random) -> Outline:
    at = rng.uniform(-20, 20), rng.uniform(-20, 20)
    kind = rng.choice(["circle", "rectangle", "rounded", "triangle", "sector"])
    if kind == "circle":
        return moved(circle(rng.uniform(5, 30)), *at)
    if kind in ("rectangle", "rounded"):
        width, height = rng.uniform(5, 40), rng.uniform(5, 40)
        return moved(rectangle(width, height, min(width, height) / 4 if kind == "rounded" else 0.0), *at)
    turns = sorted(rng.uniform(0, 2 * math.pi) for _ in range(3))
    r = rng.uniform(8, 25)
    corners = [(r * math.cos(t), r * math.sin(t)) for t in turns]
    if kind == "triangle":
        return moved(through(corners, [None] * 3), *at)
    if turns[1] - turns[0] < 0.3:
        return moved(circle(r), *at)
    middle = (turns[0] + turns[1]) / 2
    arc = r * math.cos(middle), r * math.sin(middle)
    return moved(through([(0.0, 0.0), *corners[:2]], [None, None, arc]), *at)


@pytest.mark.parametrize("seed", range(60))
def test_random_shapes_against_shapely(seed: int) -> None:
    rng = random.Random(seed)
    shapes = [some(rng) for _ in range(rng.randint(2, 6))]
    cuts = [some(rng) for _ in range(rng.randint(1, 3))]
    regions = union(shapes)
    expected = unary_union([polygon(one) for one in shapes])
    assert sum(one.area_mm2 for one in regions) == pytest.approx(expected.area, rel=1e-5)
    left = difference(shapes, cuts)
    wanted = expected.difference(unary_union([polygon(one) for one in cuts]))
    assert sum(one.area_mm2 for one in left) == pytest.approx(wanted.area, rel=1e-5, abs=1e-3)
    for region in (*regions, *left):
        assert region.outer.signed_area_mm2 > 0 and polygon(region.outer).is_valid
