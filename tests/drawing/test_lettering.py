"""Widths, wrapping, hatching and letters: against closed forms, the font's own table, and another PDF engine."""

from __future__ import annotations

import io
import math
from itertools import pairwise

import numpy as np
import pypdfium2 as pdfium
import pytest

from fitwright.drawing.hatch import area_mm2, hatching, thinned, within
from fitwright.drawing.letters import RING_MM, broken_end, leader, lettered, ring
from fitwright.drawing.pdf import MM_PER_POINT, pdf_bytes
from fitwright.drawing.sheet import Arc, Path, Sheet, Words
from fitwright.drawing.text_width import box_of, width_mm, wrapped

SQUARE = ((0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0))
HOLE = tuple((20.0 + 12.0 * math.cos(k / 50 * math.pi), 20.0 + 12.0 * math.sin(k / 50 * math.pi)) for k in range(100))


def test_widths_are_the_fonts() -> None:
    """Helvetica's AFM: H is 722, i 222, a blank 278 of 1000; capitals are 718 high (here 0.72)."""
    assert width_mm("H", 7.2) == pytest.approx(7.22, abs=0.001)
    assert width_mm("i i", 7.2) == pytest.approx(2.22 * 2 + 2.78, abs=0.001)
    assert width_mm("H", 7.2, bold=True) == pytest.approx(7.22, abs=0.001)


@pytest.mark.parametrize("anchor", ["start", "middle", "end"])
@pytest.mark.parametrize("turn", [0.0, 90.0, 180.0, -90.0])
def test_the_box_of_words_is_where_the_ink_is(anchor: str, turn: float) -> None:
    words = Words((100.0, 150.0), "Hxjpg", 6.0, anchor, turn_deg=turn)  # type: ignore[arg-type]
    sheet = Sheet.of("A4")
    sheet.add(words)
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes([sheet]))) as document:
        ink = np.asarray(document[0].render(scale=10 * MM_PER_POINT).to_pil().convert("L")) < 128
    rows, columns = np.nonzero(ink)
    seen = (columns.min() / 10, 297 - rows.max() / 10, columns.max() / 10, 297 - rows.min() / 10)
    box = box_of(words)
    assert all(box[k] <= seen[k] + 0.25 and box[k + 2] >= seen[k + 2] - 0.25 for k in (0, 1))
    assert seen == pytest.approx(box, abs=0.9)


def test_wrapping_loses_nothing_and_keeps_to_the_width() -> None:
    text = "3 times round, 60 deg apart, off the bead, antidisestablishmentarianism"
    for wide in (8.0, 15.0, 40.0, 400.0):
        lines = wrapped(text, wide, 2.0)
        assert all(width_mm(line, 2.0) <= wide for line in lines)
        assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert len(wrapped(text, 400.0, 2.0)) == 1 and wrapped("", 10.0, 2.0) == [""]


def test_hatching_covers_the_area_between_outline_and_hole() -> None:
    """Length of all strokes x gap is the area: 1600 - 144 pi, for fine hatching."""
    for slope in (0.0, 45.0, -45.0, 30.0):
        strokes = hatching([SQUARE, HOLE], 0.1, slope)
        assert 0.1 * sum(math.dist(a, b) for a, b in strokes) == pytest.approx(1600 - 144 * math.pi, rel=0.005)
        for a, b in strokes:
            x, y = (a[0] + b[0]) / 2 - 20, (a[1] + b[1]) / 2 - 20
            assert math.hypot(x, y) > 11.9 and max(abs(x), abs(y)) < 20.0
    assert hatching([], 1.0, 45.0) == []


def test_a_long_pipe_is_cut_off_where_it_is_broken() -> None:
    assert area_mm2(within(SQUARE, 10.0, 25.0)) == pytest.approx(15.0 * 40.0)
    assert within(SQUARE, 50.0, 60.0) == ()
    assert set(within(SQUARE, -1.0, 41.0)) == set(SQUARE)
    assert area_mm2(within(HOLE, 20.0, 99.0)) == pytest.approx(area_mm2(HOLE) / 2, rel=1e-6)


def test_thinning_keeps_the_outline_within_its_limit() -> None:
    few = thinned(HOLE, 0.05)
    assert 10 < len(few) < 60 and set(few) <= set(HOLE)
    assert area_mm2(few) == pytest.approx(area_mm2(HOLE), rel=0.01)
    assert thinned(((0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)), 0.01) == (
        (0.0, 0.0),
        (2.0, 0.0),
        (2.0, 2.0),
        (0.0, 2.0),
    )


@pytest.mark.parametrize("long", [5.0, 40.0])
def test_a_letter_on_a_dimension_line(long: float) -> None:
    sheet = Sheet.of("A4")
    lettered(sheet, (50.0, 100.0), (50.0 + long, 100.0), 8.0, "B")
    (circle,) = (mark for mark in sheet.marks if isinstance(mark, Arc))
    (words,) = (mark for mark in sheet.marks if isinstance(mark, Words))
    assert words.text == "B" and math.dist(words.at, circle.centre) < 2.0
    x, y = circle.centre
    assert y == pytest.approx(108.0) and (x == pytest.approx(70.0) if long > 13 else x > 55.0 + RING_MM / 2)
    heads = [mark.points[0] for mark in sheet.marks if isinstance(mark, Path) and mark.fill == 0.0]
    assert sorted(heads) == [pytest.approx((50.0, 108.0)), pytest.approx((50.0 + long, 108.0))]


def test_a_letter_at_the_end_of_a_leader_and_two_letters_in_a_ring() -> None:
    sheet = Sheet.of("A4")
    leader(sheet, (50.0, 100.0), (60.0, 110.0), "AB")
    ring(sheet, (90.0, 90.0), "C")
    boxes = [box_of(mark) for mark in sheet.marks if isinstance(mark, Words)]
    circles = [mark for mark in sheet.marks if isinstance(mark, Arc) and mark.radius_mm == RING_MM / 2]
    for (left, low, right, top), circle in zip(boxes, circles, strict=True):
        corners = [(x, y) for x in (left, right) for y in (low + 0.3 * (top - low), top)]
        assert all(math.dist(corner, circle.centre) < RING_MM / 2 for corner in corners)


def test_a_broken_end_runs_from_one_side_to_the_other_without_straying() -> None:
    sheet = Sheet.of("A4")
    broken_end(sheet, (30.0, 40.0), (30.0, 90.0))
    (line,) = (mark for mark in sheet.marks if isinstance(mark, Path))
    assert line.points[0] == pytest.approx((30.0, 40.0)) and line.points[-1] == pytest.approx((30.0, 90.0))
    assert max(abs(x - 30.0) for x, _ in line.points) < 0.7
    assert all(a[1] < b[1] for a, b in pairwise(line.points))
