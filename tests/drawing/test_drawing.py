"""Sheets at true size: the PDF is read back by another engine, the SVG by an XML parser."""

from __future__ import annotations

import io
import math
from xml.etree import ElementTree as Xml

import numpy as np
import pypdfium2 as pdfium
import pytest

from fitwright.drawing.check_bar import BAR_MM, check_bar
from fitwright.drawing.paper import PAPERS, PaperName
from fitwright.drawing.pdf import MM_PER_POINT, pdf_bytes
from fitwright.drawing.sheet import Arc, Path, Sheet, Words
from fitwright.drawing.svg import svg_text

SVG = "{http://www.w3.org/2000/svg}"


def pixels(sheet: Sheet, per_mm: float = 10.0) -> np.ndarray:
    """The first page as grey levels, row 0 at the top."""
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes([sheet]))) as document:
        return np.asarray(document[0].render(scale=per_mm * MM_PER_POINT).to_pil().convert("L"))


@pytest.mark.parametrize("name", PAPERS)
def test_a_page_is_as_large_as_its_paper(name: PaperName) -> None:
    """A4: ISO 216, 210 x 297; Letter: 8 1/2 x 11 in."""
    known = {"A4": (210.0, 297.0), "Letter": (8.5 * 25.4, 11 * 25.4)}[name]
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes([Sheet.of(name)]))) as document:
        assert [side * MM_PER_POINT for side in document[0].get_size()] == pytest.approx(known, abs=0.01)
    root = Xml.fromstring(svg_text(Sheet.of(name)))
    assert [float(root.get(side, "").removesuffix("mm")) for side in ("width", "height")] == pytest.approx(known)


def test_the_check_bar_is_100_mm_on_the_pdfs_pixels() -> None:
    sheet = Sheet.of("A4")
    check_bar(sheet, 30.0, 40.0)
    row = pixels(sheet)[round((297.0 - 43.5) * 10)]  # above the ticks, below the top of the end strokes
    dark = np.flatnonzero(row < 128) / 10.0
    left, right = dark[dark < 80.0].mean(), dark[dark > 80.0].mean()
    assert right - left == pytest.approx(BAR_MM, abs=0.05) and left == pytest.approx(30.0, abs=0.1)


def test_a_circle_and_an_arc_are_where_they_were_meant() -> None:
    sheet = Sheet.of("A4")
    sheet.circle((100.0, 150.0), 80.0, 0.2)
    sheet.add(Arc((100.0, 150.0), 20.0, 0.0, 90.0, 0.2))
    rows, columns = np.nonzero(pixels(sheet) < 128)
    x, y = columns / 10.0 + 0.05 - 100.0, 297.0 - rows / 10.0 - 0.05 - 150.0
    r = np.hypot(x, y)
    assert r[r > 30.0] == pytest.approx(40.0, abs=0.2)
    inner = r < 30.0
    assert r[inner] == pytest.approx(20.0, abs=0.2)
    assert np.degrees(np.arctan2(y[inner], x[inner])).min() > -1.0
    assert np.degrees(np.arctan2(y[inner], x[inner])).max() < 91.0


def test_words_have_the_height_that_was_asked() -> None:
    sheet = Sheet.of("A4")
    sheet.words((50.0, 100.0), "HEN", 10.0, bold=True)
    rows, _ = np.nonzero(pixels(sheet) < 128)
    assert (rows.max() - rows.min()) / 10.0 == pytest.approx(10.0, abs=0.2)


def test_a_hole_in_a_filled_outline_stays_white() -> None:
    outer, hole = ((50, 50), (90, 50), (90, 90), (50, 90)), ((60, 60), (80, 60), (80, 80), (60, 80))
    sheet = Sheet.of("A4")
    sheet.add(Path(outer, closed=True, fill=0.5, width_mm=0.0, holes=(hole,)))
    picture = pixels(sheet)
    assert picture[((297 - 70) * 10), 700] == 255 and abs(int(picture[((297 - 55) * 10), 550]) - 128) < 3
    assert (picture < 200).sum() / 100 == pytest.approx(40 * 40 - 20 * 20, rel=0.01)


@pytest.mark.parametrize("turn", range(0, 360, 45))
def test_a_dimension_can_be_read_from_below_or_from_the_right(turn: int) -> None:
    sheet = Sheet.of("A4")
    b = (100 + 50 * math.cos(math.radians(turn)), 150 + 50 * math.sin(math.radians(turn)))
    sheet.dimension((100.0, 150.0), b, 8.0, "50")
    (words,) = (mark for mark in sheet.marks if isinstance(mark, Words))
    assert -90.1 <= words.turn_deg <= 90.1
    assert math.dist(words.at, ((100 + b[0]) / 2, (150 + b[1]) / 2)) < 13.0


def test_the_same_sheet_gives_the_same_bytes_and_svg_says_what_the_pdf_says() -> None:
    sheet = Sheet.of("A4", "größe <&>")
    check_bar(sheet, 30.0, 40.0)
    sheet.circle((100, 100), 50)
    sheet.words((20, 20), "größe <&> 直径")
    assert pdf_bytes([sheet]) == pdf_bytes([sheet]) and svg_text(sheet) == svg_text(sheet)
    root = Xml.fromstring(svg_text(sheet))
    (circle,) = root.iter(f"{SVG}circle")
    assert [float(circle.get(key, "")) for key in ("cx", "cy", "r")] == [100.0, 197.0, 25.0]
    assert [one.text for one in root.iter(f"{SVG}text")][-1] == "größe <&> 直径"


def test_many_pages() -> None:
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes([Sheet.of("A4"), Sheet.of("Letter")]))) as document:
        assert len(document) == 2
