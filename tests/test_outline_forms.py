"""Outlines by what they are, and moved outwards, beside closed forms and an independent library (shapely's buffer)."""

from __future__ import annotations

import math

import pytest
import shapely

from fitwright import section
from fitwright.outline import Outline, circle, rectangle, through
from fitwright.outline_forms import OutlineError, as_circle, grown, mirrored, of_section, oval

BEAN = through(
    [(-40.0, -10.0), (40.0, -10.0), (40.0, 20.0), (10.0, 20.0), (-10.0, 20.0), (-40.0, 20.0)],
    [(-50.0, 5.0), None, (48.0, 5.0), None, (0.0, 12.0), None],
)
"""Two bulging ends, a hollow arc on top, corners that point in and out."""


def polygon(outline: Outline) -> shapely.Polygon:
    return shapely.Polygon(outline.polyline(1e-4))


def test_oval() -> None:
    for wide, high in ((60.0, 20.0), (20.0, 60.0)):
        made = oval(wide, high)
        assert made.area_mm2 == pytest.approx(40 * 20 + math.pi * 100, rel=1e-12)
        assert made.length_mm == pytest.approx(80 + 20 * math.pi, rel=1e-12)
        assert made.bounds_mm == pytest.approx((-wide / 2, -high / 2, wide / 2, high / 2))


@pytest.mark.parametrize(
    "made",
    [section.circle(50.0), section.rectangle(80.0, 40.0, 6.0), section.rectangle(80.0, 40.0), section.oval(90.0, 30.0)],
)
def test_a_section_and_its_outline_are_the_same(made: section.Section) -> None:
    outline = of_section(made)
    assert outline.area_mm2 == pytest.approx(made.area_mm2, rel=1e-9)
    assert outline.length_mm == pytest.approx(made.perimeter_mm, rel=1e-9)
    assert len(outline.sides) <= 2 or outline.fault() is None


def test_a_circle_is_known() -> None:
    assert as_circle(circle(30.0).mapped(1.0, (3.0, 4.0))) == (pytest.approx((3.0, 4.0)), pytest.approx(30.0))
    assert as_circle(oval(30.0, 20.0)) is None and as_circle(rectangle(5.0, 5.0)) is None


@pytest.mark.parametrize("by", [2.0, 0.1, -0.1, -2.0])
@pytest.mark.parametrize(
    "outline", [circle(40.0), rectangle(80.0, 40.0), rectangle(80.0, 40.0, 5.0), oval(70.0, 30.0), BEAN]
)
def test_moved_outlines_by_an_independent_library(outline: Outline, by: float) -> None:
    """Rounded where it grows: shapely's round buffer. Sharp: its mitred one, where no arc meets another line."""
    rounded = polygon(grown(outline, by, rounded=True))
    buffered = polygon(outline).buffer(by, quad_segs=4000)
    assert rounded.symmetric_difference(buffered).area < 0.02
    if all(side.via is None for side in outline.sides):
        mitred = polygon(outline).buffer(by, join_style="mitre", mitre_limit=50.0)
        assert polygon(grown(outline, by)).symmetric_difference(mitred).area < 0.02


def test_a_sharp_rectangle_stays_sharp() -> None:
    assert grown(rectangle(80.0, 40.0), 1.5).area_mm2 == pytest.approx(83.0 * 43.0, rel=1e-12)
    assert grown(rectangle(80.0, 40.0), 1.5, rounded=True).area_mm2 == pytest.approx(
        83.0 * 43.0 - (4 - math.pi) * 1.5**2, rel=1e-12
    )


@pytest.mark.parametrize("by", [-6.0, -25.0])
def test_what_would_fold_over_is_refused(by: float) -> None:
    with pytest.raises(OutlineError):
        grown(rectangle(80.0, 40.0, 5.0), by)


def test_a_mirror_image_is_one() -> None:
    one = polygon(mirrored(BEAN))
    other = shapely.affinity.scale(polygon(BEAN), -1.0, 1.0, origin=(0.0, 0.0))
    assert one.symmetric_difference(other).area < 1e-6
