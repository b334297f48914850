"""Circles through points: published fits, the definition of least squares, random rims; arcs and their uncertainty."""

from __future__ import annotations

import math

import numpy as np
import pytest

from fitwright.measure.circle import StraightError, algebraic_circle, arc_circle, rim_circle

GANDER = [(1.0, 7.0), (2.0, 6.0), (5.0, 8.0), (7.0, 7.0), (9.0, 5.0), (3.0, 7.0)]
"""Gander, Golub, Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994), the six points of section 2."""


def test_published_geometric_fit() -> None:
    circle = rim_circle(GANDER)
    assert (circle.right_mm, circle.up_mm) == pytest.approx((4.7398, 2.9835), abs=5e-5)
    assert circle.size.d_mm / 2 == pytest.approx(4.7142, abs=5e-5)


def test_published_algebraic_fit() -> None:
    x, y, r = algebraic_circle(GANDER)
    assert (x, y, r) == pytest.approx((5.3794, 7.2532, 3.0370), abs=5e-5)


def test_no_other_circle_is_nearer_to_the_points() -> None:
    """The definition: the sum of squared distances grows whichever way centre or radius is moved."""
    circle = rim_circle(GANDER)
    least = sum(r * r for r in circle.residuals_mm)
    for dx, dy, dr in np.vstack([np.eye(3), -np.eye(3)]) * 1e-3:
        x, y, r = circle.right_mm + dx, circle.up_mm + dy, circle.size.d_mm / 2 + dr
        assert sum((math.hypot(px - x, py - y) - r) ** 2 for px, py in GANDER) > least


def test_three_points_lie_on_their_circle() -> None:
    """The circle round the 3-4-5 triangle has its hypotenuse for a diameter (Thales)."""
    circle = rim_circle([(0.0, 0.0), (30.0, 0.0), (0.0, 40.0)])
    assert (circle.right_mm, circle.up_mm, circle.size.d_mm) == pytest.approx((15.0, 20.0, 50.0))
    assert circle.residuals_mm == pytest.approx((0.0, 0.0, 0.0), abs=1e-9)
    assert circle.form() is None


@pytest.mark.parametrize("away", [(0.0, 0.0), (4000.0, -3000.0)])
def test_place_and_size_do_not_matter(away: tuple[float, float]) -> None:
    points = [(away[0] + 20 * x, away[1] + 20 * y) for x, y in GANDER]
    assert rim_circle(points).size.d_mm == pytest.approx(20 * 2 * 4.7142, abs=3e-3)


@pytest.mark.parametrize(
    "points",
    [
        [(0, 0), (1, 1), (2, 2)],
        [(0, 0), (0, 0), (5, 1)],
        [(3, 3), (3, 3), (3, 3)],
        [(10, 0), (20, 0), (35, 0), (90, 0)],
    ],
)
def test_points_on_a_line_have_no_circle(points: list[tuple[float, float]]) -> None:
    with pytest.raises(StraightError):
        rim_circle(points)


def test_a_short_arc_is_as_open_as_it_is() -> None:
    """13 deg of a 100 mm rim, points good to +-0.5 mm: the chord is 11 mm, its height 0.16 mm: it may be straight."""
    arc = [(50 * math.cos(t), 50 * math.sin(t)) for t in np.radians([0.0, 6.5, 13.0])]
    short = rim_circle(arc)
    assert short.arc_deg == pytest.approx(13.0, abs=1e-6)
    assert math.isinf(short.size.greatest_mm) and short.size.least_mm < 100
    full = rim_circle([(50 * math.cos(t), 50 * math.sin(t)) for t in np.radians(np.arange(0, 360, 30))])
    assert full.size.error_mm < 0.5


def test_200_random_rims() -> None:
    """5 to 19 points over 120 to 360 deg, each off by 0.1 mm (one standard deviation) in right and in up."""
    rng = np.random.default_rng(5)
    within = suspects = lobed = forms = 0
    for _ in range(200):
        d, count, arc = rng.uniform(30, 250), int(rng.integers(5, 20)), rng.uniform(120, 360)
        t = np.radians(np.linspace(0, arc, count, endpoint=arc < 350) + rng.uniform(0, 360))
        x, y = d / 2 * np.cos(t) + rng.uniform(-80, 80), d / 2 * np.sin(t) + rng.uniform(-80, 80)
        noisy = zip(x + rng.normal(0, 0.1, count), y + rng.normal(0, 0.1, count), strict=True)
        circle = rim_circle([(float(a), float(b)) for a, b in noisy], tool_mm=0.1)
        within += circle.size.least_mm <= d <= circle.size.greatest_mm
        suspects += circle.suspect is not None
        form = circle.form()
        forms += form is not None
        lobed += form is not None and (form.lobes_mm > form.lobes_error_mm or form.oval_mm > form.oval_error_mm)
    assert within >= 182
    assert suspects <= 8
    assert forms > 20 and lobed <= 3


def rim(d_mm: float, oval_mm: float, lobes_mm: float, count: int = 24) -> list[tuple[float, float]]:
    t = np.radians(np.arange(count) * 360.0 / count)
    r = d_mm / 2 + oval_mm / 4 * np.cos(2 * (t - math.radians(20))) + lobes_mm / 2 * np.cos(3 * t)
    return [(float(x), float(y)) for x, y in zip(r * np.cos(t) + 5, r * np.sin(t) - 3, strict=True)]


def test_oval_and_three_lobes_are_told_apart() -> None:
    oval, lobed = rim_circle(rim(118, 3.0, 0.0)).form(), rim_circle(rim(118, 0.0, 2.0)).form()
    assert oval is not None and lobed is not None
    assert (oval.oval_mm, oval.wide_at_deg) == pytest.approx((3.0, 20.0), abs=0.05)
    assert oval.lobes_mm < oval.lobes_error_mm
    assert lobed.lobes_mm == pytest.approx(2.0, abs=0.05)
    assert lobed.oval_mm < lobed.oval_error_mm


def test_a_point_slipped_by_3_mm_is_named() -> None:
    points = rim(118, 0.0, 0.0, 12)
    points[7] = (points[7][0] + 3.0, points[7][1])
    assert rim_circle(points).suspect == 7


@pytest.mark.parametrize("d", [40.0, 100.0, 300.0])
@pytest.mark.parametrize("half_deg", [25.0, 60.0, 90.0])
def test_chord_and_height_of_a_known_circle(d: float, half_deg: float) -> None:
    """Chord = d sin a, height = d (1 - cos a) / 2: the closed forms of a segment."""
    half = math.radians(half_deg)
    size, each = arc_circle([d * math.sin(half)], [d * (1 - math.cos(half)) / 2])
    assert size.d_mm == pytest.approx(d) and each == pytest.approx((d,))
    assert size.least_mm < d < size.greatest_mm


def test_uncertainty_of_an_arc_is_that_of_its_readings() -> None:
    """Chord and height moved by what a caliper may err, by the formula itself: the range covers both ends of 95 %."""
    rng = np.random.default_rng(3)
    inside = 0
    for _ in range(400):
        d, half = rng.uniform(60, 300), rng.uniform(0.6, 1.5)
        chord = d * math.sin(half) + rng.normal(0, 0.05)
        height = d * (1 - math.cos(half)) / 2 + rng.normal(0, 0.05)
        size, _ = arc_circle([chord], [height])
        inside += size.least_mm <= d <= size.greatest_mm
    assert inside >= 380


def test_the_surer_pair_weighs_more() -> None:
    size, each = arc_circle([80.0, 40.0], [20.0, 4.5])
    assert abs(size.d_mm - each[0]) < abs(size.d_mm - each[1])
