"""Sections against closed forms, and against shapely (an independent library) on polygons of many short chords."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray
from scipy.spatial import ConvexHull

from fitwright.section import (
    LEAST_CORNER_MM,
    Arc,
    Section,
    SectionError,
    circle,
    inset,
    loft_area_mm2,
    loft_volume_mm3,
    oval,
    rectangle,
    spans,
)

from .outlines import belt, corner_section, random_circles, random_section

Points = NDArray[np.float64]
TURN = 2.0 * math.pi
FINE = 1024
"""Chords of a quarter circle in shapely: (pi / 2 / 1024)^2 / 6 = 4e-7 of a disc's area are lost."""


def fine(section: Section) -> shapely.Polygon:
    """The section as a polygon of chords that stray 1 um."""
    return shapely.Polygon(section.polygon(1e-3))


SEEDS = range(40)
KNOWN = [
    rectangle(150, 60),
    rectangle(150, 60, 6),
    rectangle(60, 60, 30),
    oval(200, 80),
    oval(50, 90),
    circle(102),
    corner_section([(60, -30), (70, 40), (-50, 45), (-65, -35)]),
]
ALL = [*KNOWN, *(random_section(seed) for seed in SEEDS)]


# closed forms


@pytest.mark.parametrize(("w", "h", "r"), [(150, 60, 0), (150, 60, 6), (40, 40, 20), (33.3, 120, 1.7)])
def test_a_rectangle_with_round_corners(w: float, h: float, r: float) -> None:
    made = rectangle(w, h, r)
    assert made.area_mm2 == pytest.approx(w * h - (4 - math.pi) * r * r, rel=1e-12)
    assert made.perimeter_mm == pytest.approx(2 * (w + h) - (8 - TURN) * r, rel=1e-12)
    assert made.centroid == pytest.approx((0, 0), abs=1e-9)
    assert (made.width_mm, made.height_mm) == pytest.approx((w, h))
    assert made.hydraulic_d_mm == pytest.approx(4 * made.area_mm2 / made.perimeter_mm)


@pytest.mark.parametrize(("w", "h"), [(200, 80), (80, 200), (61, 60)])
def test_a_slot_ended_duct(w: float, h: float) -> None:
    """The trade's own formula for flat oval duct: area = pi a^2 / 4 + a (A - a), perimeter = pi a + 2 (A - a)."""
    made, a, long = oval(w, h), min(w, h), max(w, h)
    assert made.area_mm2 == pytest.approx(math.pi * a * a / 4 + a * (long - a), rel=1e-12)
    assert made.perimeter_mm == pytest.approx(math.pi * a + 2 * (long - a), rel=1e-12)
    assert (made.width_mm, made.height_mm) == pytest.approx((w, h))
    assert made.inside_r_mm == pytest.approx(a / 2) and made.reach_mm == pytest.approx(long / 2)


def test_a_half_disc() -> None:
    """The centroid of a half disc stands 4 r / (3 pi) from its straight side (any handbook of mechanics)."""
    made = Section((Arc(0, 0, 50, 0, math.pi), Arc(-50, 0, 0, math.pi, 1.5 * math.pi), Arc(50, 0, 0, -math.pi / 2, 0)))
    assert made.area_mm2 == pytest.approx(math.pi * 2500 / 2, rel=1e-12)
    assert made.centroid == pytest.approx((0, 4 * 50 / (3 * math.pi)), abs=1e-9)
    assert made.perimeter_mm == pytest.approx(math.pi * 50 + 100)


def test_a_circle() -> None:
    made = circle(102)
    assert made.is_round and not made.moved(1, 0).is_round and not rectangle(10, 10, 4).is_round
    assert made.equal_d_mm == pytest.approx(102, rel=1e-12) and made.hydraulic_d_mm == pytest.approx(102, rel=1e-12)
    assert made.moved(7, -3).centroid == pytest.approx((7, -3), abs=1e-6)


@pytest.mark.parametrize("by", [0.5, 4.0, 25.0])
@pytest.mark.parametrize("section", ALL)
def test_outwards_a_convex_outline_grows_as_j_steiner_says(section: Section, by: float) -> None:
    """Area + perimeter x d + pi d^2; perimeter + 2 pi d (J. Steiner, for any convex outline)."""
    grown = section.grown(by)
    assert grown.area_mm2 == pytest.approx(section.area_mm2 + section.perimeter_mm * by + math.pi * by * by, rel=1e-10)
    assert grown.perimeter_mm == pytest.approx(section.perimeter_mm + TURN * by, rel=1e-10)


# against shapely


@pytest.mark.parametrize("seed", SEEDS)
def test_area_centroid_and_perimeter_are_shapelys(seed: int) -> None:
    made, other = random_section(seed), belt(random_circles(seed))
    assert made.area_mm2 == pytest.approx(other.area, rel=1e-6)
    assert made.perimeter_mm == pytest.approx(other.length, rel=1e-6)
    assert made.centroid == pytest.approx((other.centroid.x, other.centroid.y), abs=1e-3)
    low_x, low_y, high_x, high_y = other.bounds
    assert (made.width_mm, made.height_mm) == pytest.approx((high_x - low_x, high_y - low_y), abs=1e-3)


@pytest.mark.parametrize("section", ALL)
def test_distance_is_shapelys(section: Section) -> None:
    points = np.random.default_rng(1).uniform(-200, 200, (400, 2))
    outline, at = fine(section), shapely.points(points)
    expected = np.where(outline.contains(at), -1, 1) * shapely.distance(outline.exterior, at)
    assert np.allclose(section.distance(points), expected, atol=2e-3)
    assert np.allclose(section.distance(section.polygon(1e-3)), 0.0, atol=1e-9)


@pytest.mark.parametrize("section", ALL)
def test_support_is_the_furthest_corner(section: Section) -> None:
    corners = section.polygon(1e-4)
    for angle in np.linspace(0, TURN, 77):
        furthest = float((corners @ np.array([math.cos(angle), math.sin(angle)])).max())
        assert section.support(float(angle)) == pytest.approx(furthest, abs=2e-4)


@pytest.mark.parametrize("by", [0.2, 2.4, 5.0, 11.0])
@pytest.mark.parametrize("section", ALL)
def test_inwards_it_is_what_a_small_disc_reaches(section: Section, by: float) -> None:
    """Moved in by d, no corner sharper than LEAST_CORNER_MM: eroded by both, then grown by the second."""
    if all(a.radius_mm - by >= LEAST_CORNER_MM for a in section.arcs):
        expected = fine(section).buffer(-by, quad_segs=FINE)
    else:
        eroded = fine(section).buffer(-by - LEAST_CORNER_MM, join_style="mitre", mitre_limit=1e3)
        expected = eroded.buffer(LEAST_CORNER_MM, quad_segs=FINE)
    if expected.is_empty:
        with pytest.raises(SectionError):
            section.grown(-by)
        return
    made = fine(section.grown(-by))
    assert made.area == pytest.approx(expected.area, rel=1e-4)
    assert made.symmetric_difference(expected).area < 1e-4 * section.area_mm2 + 1e-2


@pytest.mark.parametrize("section", ALL)
def test_rounded_is_an_opening(section: Section) -> None:
    expected = fine(section).buffer(-5, join_style="mitre", mitre_limit=1e3).buffer(5, quad_segs=FINE)
    assert section.rounded(5).area_mm2 == pytest.approx(expected.area, rel=1e-4)
    assert min(a.radius_mm for a in section.rounded(5).arcs) >= 5 - 1e-9


@pytest.mark.parametrize("share", [0.0, 0.2, 0.5, 0.9, 1.0])
@pytest.mark.parametrize("seed", SEEDS)
def test_between_two_is_their_minkowski_sum(seed: int, share: float) -> None:
    """(1 - t) A + t B: for convex polygons the hull of all sums of two corners (H. Minkowski)."""
    one, other = random_section(seed), random_section(1000 + seed)
    a, b = one.polygon(0.02), other.polygon(0.02)
    sums = ((1 - share) * a[:, None] + share * b).reshape(-1, 2)
    expected = shapely.convex_hull(shapely.MultiPoint(sums))
    made = one.between(other, share)
    assert made.area_mm2 == pytest.approx(expected.area, rel=5e-4)
    assert fine(made).symmetric_difference(expected).area < 5e-4 * expected.area
    assert loft_area_mm2(one, other, share) == pytest.approx(made.area_mm2, rel=1e-9)


def test_a_passage_is_nowhere_narrower_than_its_smaller_end() -> None:
    """The root of the area runs concave (H. Brunn, H. Minkowski), so that it never dips below either end's."""
    for seed in range(400):
        one, other = random_section(seed), random_section(5000 + seed).turned(seed)
        moved = other.scaled(0.3 + 0.005 * seed).moved(0.1 * seed, -0.2 * seed)
        a, b = one.area_mm2, moved.area_mm2
        for share in (0.1, 0.3, 0.5, 0.7, 0.9):
            area = one.between(moved, share).area_mm2
            assert math.sqrt(area) >= ((1 - share) * math.sqrt(a) + share * math.sqrt(b)) * (1 - 1e-12)
            assert area >= min(a, b)


# volumes


@pytest.mark.parametrize(("a", "b", "c", "d"), [(100, 60, 50, 80), (150, 20, 150, 60), (40, 40, 90, 90)])
def test_volume_between_two_rectangles(a: float, b: float, c: float, d: float) -> None:
    """An obelisk (handbooks of mathematics): h / 6 (a b + (a + c)(b + d) + c d)."""
    volume = 70 / 6 * (a * b + (a + c) * (b + d) + c * d)
    assert loft_volume_mm3(rectangle(a, b), rectangle(c, d), 70) == pytest.approx(volume, rel=1e-12)
    assert loft_volume_mm3(rectangle(a, b), rectangle(c, d).moved(30, 9), 70) == pytest.approx(volume, rel=1e-12)


@pytest.mark.parametrize(("a", "d"), [(100, 100), (60, 100), (120, 50)])
def test_volume_of_a_square_to_round(a: float, d: float) -> None:
    """By parts: a pyramid on the square (L a^2 / 3), four quarters of a cone on the circle (L pi d^2 / 12), and four
    tetrahedra, each between a side a of the square and a radius d / 2 square to it (L a d / 12 each)."""
    by_parts = 80 * (a * a / 3 + math.pi * d * d / 12 + 4 * a * d / 12)
    assert loft_volume_mm3(rectangle(a, a), circle(d), 80) == pytest.approx(by_parts, rel=1e-12)


@pytest.mark.parametrize("seed", SEEDS)
def test_volume_between_any_two_is_that_of_their_hull(seed: int) -> None:
    """Two convex outlines in parallel planes: the solid between them is the hull of both, by Qhull."""
    one, other = random_section(seed), random_section(2000 + seed).moved(0.7 * seed, 5)
    corners = [np.column_stack([s.polygon(2e-3), np.full(len(s.polygon(2e-3)), z)]) for s, z in ((one, 0), (other, 90))]
    hull = ConvexHull(np.concatenate(corners))
    assert loft_volume_mm3(one, other, 90) == pytest.approx(hull.volume, rel=1e-4)


# moving about, and what is no section


@pytest.mark.parametrize("section", ALL)
def test_turned_mirrored_moved_and_scaled(section: Section) -> None:
    x, y = section.centroid
    assert section.mirrored().centroid == pytest.approx((-x, y), abs=1e-9)
    assert section.moved(3, 4).centroid == pytest.approx((x + 3, y + 4), abs=1e-9)
    assert section.turned(math.pi / 2).centroid == pytest.approx((-y, x), abs=1e-9)
    assert section.scaled(2).area_mm2 == pytest.approx(4 * section.area_mm2)
    assert section.mirrored().mirrored().support(0.3) == pytest.approx(section.support(0.3))


@pytest.mark.parametrize("section", ALL)
def test_walked_lies_on_the_outline_and_looks_outwards(section: Section) -> None:
    points, normals = section.walked(np.linspace(0, 0.999, 50))
    assert np.allclose(section.distance(points), 0.0, atol=0.02)
    assert (section.distance(points + 0.5 * normals) > 0.4).all()


@pytest.mark.parametrize("section", ALL)
def test_spans_go_once_round(section: Section) -> None:
    marks = spans(section, circle(30), also=(0.1, 7.0))
    assert sum(b - a for a, b in marks) == pytest.approx(TURN)
    assert all(0 < b - a <= TURN / 3 + 1e-9 for a, b in marks)


def test_a_short_side_may_vanish_on_the_way_in() -> None:
    """A rectangle with its corners cut off: further in than 2 / (sqrt 2 - 1) / sqrt 2 mm the cuts are gone."""
    cut = [(48, -30), (50, -28), (50, 28), (48, 30), (-48, 30), (-50, 28), (-50, -28), (-48, -30)]
    made = corner_section(cut).grown(-6)
    assert made.area_mm2 == pytest.approx(88 * 48 - (4 - math.pi) * LEAST_CORNER_MM**2, rel=1e-9)


@pytest.mark.parametrize("by", [0.4, 1.5, 4.0, 9.0, 25.0])
@pytest.mark.parametrize("seed", SEEDS)
def test_short_sides_vanish_where_shapely_says(seed: int, by: float) -> None:
    """Twelve to thirty corners, as close as they come: many sides vanish on the way in, some at once."""
    rng = np.random.default_rng(seed)
    turns = np.sort(rng.uniform(0, TURN, int(rng.integers(12, 30))))
    hull = shapely.convex_hull(shapely.MultiPoint([(70 * math.cos(t), 45 * math.sin(t)) for t in turns]))
    corners = [(float(x), float(y)) for x, y in shapely.get_coordinates(hull.normalize().reverse())[:-1]]
    expected = hull.buffer(-by, join_style="mitre", mitre_limit=1e3)
    made = fine(inset(corner_section(corners), by))
    assert made.symmetric_difference(expected).area < 1e-4 * hull.area


@pytest.mark.parametrize("by", [2.0, 7.9, 12.0, 18.0])
def test_a_flat_arc_may_vanish_on_the_way_in(by: float) -> None:
    """Two shallow arcs and, where they would meet in tips, short arcs about the axis."""
    reach = 75.0
    y = (100**2 - reach**2 - 60**2) / 120  # where x^2 + y^2 = 75^2 meets x^2 + (y + 60)^2 = 100^2
    x = math.sqrt(reach**2 - y**2)
    low, upper = math.atan2(y, x), math.atan2(y + 60, x)
    truth = shapely.Point(0, -60).buffer(100, quad_segs=FINE) & shapely.Point(0, 60).buffer(100, quad_segs=FINE)
    truth &= shapely.Point(0, 0).buffer(reach, quad_segs=FINE)
    arcs = (
        Arc(0, 0, reach, -low, low),
        Arc(x, y, 0, low, upper),
        Arc(0, -60, 100, upper, math.pi - upper),
        Arc(-x, y, 0, math.pi - upper, math.pi - low),
        Arc(0, 0, reach, math.pi - low, math.pi + low),
        Arc(-x, -y, 0, math.pi + low, math.pi + upper),
        Arc(0, 60, 100, math.pi + upper, TURN - upper),
        Arc(x, -y, 0, TURN - upper, TURN - low),
    )
    section = Section(arcs)
    assert section.area_mm2 == pytest.approx(truth.area, rel=1e-5)
    expected = truth.buffer(-by, quad_segs=FINE, join_style="mitre", mitre_limit=1e3)
    assert fine(inset(section, by)).symmetric_difference(expected).area < 1e-3 * truth.area


def test_no_arcs_at_all_is_no_outline() -> None:
    with pytest.raises(SectionError, match="once round"):
        Section(())


@pytest.mark.parametrize(
    ("arcs", "words"),
    [
        ((Arc(0, 0, 5, 0, 3),), "once round"),
        ((Arc(0, 0, -5, 0, TURN),), "once round"),
        ((Arc(9, 0, 5, 0, 3), Arc(-9, 0, 5, 3.2, 3.2 + TURN - 3)), "kink"),
        ((Arc(-9, 0, 5, -math.pi / 2, math.pi / 2), Arc(9, 0, 5, math.pi / 2, 1.5 * math.pi)), "crosses"),
    ],
)
def test_what_is_no_outline(arcs: tuple[Arc, ...], words: str) -> None:
    with pytest.raises(SectionError, match=words):
        Section(arcs)


def test_corners_rounder_than_half_a_side() -> None:
    with pytest.raises(SectionError, match="half the shorter side"):
        rectangle(100, 40, 21)


@pytest.mark.parametrize(
    "section", [rectangle(100, 8), oval(100, 8), circle(8), corner_section([(5, -3), (0, 6), (-5, -3)])]
)
def test_nothing_is_left_of_a_narrow_outline(section: Section) -> None:
    with pytest.raises(SectionError, match="nothing is left"):
        section.grown(-4.5)
    with pytest.raises(SectionError):
        inset(section, 4.5)
