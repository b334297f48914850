"""Templates at true size: the PDF is read back by another engine, the SVG by an XML parser."""

from __future__ import annotations

import io
import math
import re
from xml.etree import ElementTree as Xml

import numpy as np
import pypdfium2 as pdfium
import pytest

from fitwright.drawing.face import Face, FaceHole, FaceLine, pattern_face
from fitwright.drawing.paper import MARGIN_MM, PAPERS, Paper, PaperName
from fitwright.drawing.pdf import MM_PER_POINT, pdf_bytes
from fitwright.drawing.sheet import Path, Sheet, View, Words
from fitwright.drawing.svg import svg_text
from fitwright.drawing.template import BAR_ROOM_MM, Side, drawing, sides, template_sheets, whole_sheet
from fitwright.drawing.text_width import box_of
from fitwright.drawing.tiles import OVERLAP_MM, tiling

SVG = "{http://www.w3.org/2000/svg}"
PER_MM = 8.0
SQUARE = ((-60.0, -60.0), (60.0, -60.0), (60.0, 60.0), (-60.0, 60.0))
FLANGE = Face(
    "end_a",
    "end_a (collector), flange",
    (FaceLine("edge", points=SQUARE), FaceLine("opening", 80.0)),
    tuple(FaceHole((x, y), 7.0, "M6") for x, y in ((-50.0, 50.0), (50.0, 45.0), (50.0, -50.0), (-50.0, -50.0))),
)
LARGE = pattern_face("end_a", "large", [(140.0, 0.0), (0.0, 140.0), (-140.0, 0.0), (0.0, -140.0)], 9.0, "M8")
WIDE = Face("end_a", "300 mm", (FaceLine("edge", 300.0), FaceLine("opening", 200.0)), LARGE.holes)


def rendered(sheets: list[Sheet]) -> list[np.ndarray]:
    """Every page as grey levels, row 0 at the top."""
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes(sheets))) as document:
        return [np.asarray(page.render(scale=PER_MM * MM_PER_POINT).to_pil().convert("L")) for page in document]


def texts(sheets: list[Sheet]) -> list[str]:
    """What each page says."""
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes(sheets))) as document:
        return [page.get_textpage().get_text_range() for page in document]


def circles(sheet: Sheet) -> list[tuple[float, float, float]]:
    """(x, y up, r) [mm] of every circle on the SVG, as the file's own transforms place it."""
    root = Xml.fromstring(svg_text(sheet))
    high = float(root.get("viewBox", "").split()[3])
    found = []
    for group in root.iter(f"{SVG}g"):
        moved = re.fullmatch(r"translate\((\S+) (\S+)\)", group.get("transform", ""))
        for circle in group.findall(f"{SVG}circle"):
            assert moved
            cx, cy, r = (float(circle.get(key, "")) for key in ("cx", "cy", "r"))
            found.append((cx + float(moved[1]), high - cy - float(moved[2]), r))
    return found


def paths_of_page(sheet: Sheet) -> list[tuple[float, float, float, float]]:
    """Boxes [mm] (left, lower, right, upper) of all paths on the PDF's page, by pdfium's own objects."""
    with pdfium.PdfDocument(io.BytesIO(pdf_bytes([sheet]))) as document:
        page = document[0]
        boxes = [o.get_bounds() for o in page.get_objects() if o.type == pdfium.raw.FPDF_PAGEOBJ_PATH]
    return [tuple(MM_PER_POINT * float(c) for c in box) for box in boxes]  # type: ignore[misc]


@pytest.mark.parametrize("paper", PAPERS)
def test_hole_centres_of_the_pdf_are_where_the_face_has_them(paper: PaperName) -> None:
    """A hole is found by its box among the PDF's objects; its distance from its neighbour is the face's."""
    [front, back] = template_sheets("inlet", [FLANGE], paper, "mm")
    for sheet, sign in ((front, 1.0), (back, -1.0)):
        boxes = [box for box in paths_of_page(sheet) if 7.0 < box[2] - box[0] < 7.5 and 7.0 < box[3] - box[1] < 7.5]
        centres = [((x0 + x1) / 2, (y0 + y1) / 2) for x0, y0, x1, y1 in boxes]
        assert len(centres) == 4
        x0, y0 = centres[3]
        for (x, y), hole in zip(centres, FLANGE.holes, strict=True):
            away = hole.at[0] - FLANGE.holes[3].at[0], hole.at[1] - FLANGE.holes[3].at[1]
            assert (x - x0, y - y0) == pytest.approx((sign * away[0], away[1]), abs=0.02)


def test_the_bar_on_every_sheet_is_100_mm() -> None:
    for page in rendered(template_sheets("large", [WIDE], "A4", "mm")):
        row = page[round((297.0 - MARGIN_MM - 3.5) * PER_MM)]
        dark = np.flatnonzero(row < 128) / PER_MM
        assert dark[dark > 80.0].mean() - dark[dark < 80.0].mean() == pytest.approx(100.0, abs=0.06)


def test_each_side_says_how_it_is_seen() -> None:
    front, back = texts(template_sheets("inlet", [FLANGE], "A4", "mm"))
    assert "FRONT: as you look at the face" in front and "BACK, mirrored: as you look from behind" in back
    for text in (front, back):
        assert "inlet: end_a (collector), flange" in text and "4 x 7 mm for M6" in text
        assert "1 to 3: 141.42 mm, 2 to 4: 137.93 mm, 1 to 2: 100.12 mm" in text  # 100 sqrt 2; (100, 95); (100, 5)
    [both] = texts(template_sheets("plain", [pattern_face("p", "pattern", [(-10, 5), (10, 5)], 5.5)], "A4", "in"))
    assert "same from both sides" in both and "2 x 0.217 in" in both and "1 to 2: 0.787 in" in both


def test_an_outline_that_is_no_mirror_image_of_itself_is_drawn_from_both_sides() -> None:
    skew = FaceLine("edge", points=((-30.0, -20.0), (30.0, -20.0), (40.0, 20.0), (-30.0, 20.0)))
    assert [side.mirrored for side in sides([Face("a", "skew", (skew,))])] == [False, True]
    even = FaceLine("edge", points=((-30.0, -20.0), (30.0, -20.0), (40.0, 20.0), (-40.0, 20.0)))
    assert [side.mirrored for side in sides([Face("a", "even", (even,))])] == [False]


@pytest.mark.parametrize("paper", PAPERS)
def test_the_tiles_together_are_the_drawing(paper: PaperName) -> None:
    """Each page's window, laid at its place, equals that part of the whole drawn on one huge sheet, pixel by pixel."""
    sheets = template_sheets("large", [WIDE], paper, "mm")
    views = [mark for sheet in sheets for mark in sheet.marks if isinstance(mark, View)]
    assert len(sheets) == len(views) == 4
    left, lower, right, upper = views[0].window
    laid = tiling(Side(WIDE).bounds_mm, (right - left, upper - lower))
    assert (laid.rows, laid.columns) == (2, 2)
    (x0, y0), (wide, high) = laid.corner, laid.size_mm
    whole = Sheet(Paper("all", wide, high))
    marks = drawing(Side(WIDE), [laid.kept(tile) for tile in laid.tiles()])
    whole.add(View((*marks, *laid.seams()), (-x0, -y0), (0.0, 0.0, wide, high)))
    [everything] = rendered([whole])
    seen = np.zeros(everything.shape, dtype=bool)
    for page, tile in zip(rendered(sheets), laid.tiles(), strict=True):
        rows = slice(*(round((PAPERS[paper].height_mm - y) * PER_MM) for y in (upper, lower)))
        share = page[rows, round(left * PER_MM) : round(right * PER_MM)]
        top = round((high - (tile.lower_left[1] - y0) - (upper - lower)) * PER_MM)
        start = round((tile.lower_left[0] - x0) * PER_MM)
        part = everything[top : top + share.shape[0], start : start + share.shape[1]]
        share = share[: part.shape[0], : part.shape[1]]
        inner = (slice(4, -4), slice(4, -4))
        # a pixel is 1/8 mm: lines may lie half a pixel apart, so dark pixels are compared with their neighbours
        assert dark_within_a_pixel(share[inner], part[inner]) and dark_within_a_pixel(part[inner], share[inner])
        seen[top : top + share.shape[0], start : start + share.shape[1]] = True
    assert seen[8:-8, 8:-8].all()


def dark_within_a_pixel(one: np.ndarray, other: np.ndarray) -> bool:
    near = np.pad(other < 200, 2)
    high, wide = other.shape
    grown = np.zeros(other.shape, dtype=bool)
    for dy in range(5):
        for dx in range(5):
            grown |= near[dy : dy + high, dx : dx + wide]
    return bool((grown | (one > 100)).all())


def test_the_same_cross_is_on_both_sheets_of_a_seam_and_every_sheet_says_where_it_belongs() -> None:
    sheets = template_sheets("large", [WIDE], "A4", "mm")
    said = texts(sheets)
    for k, words in enumerate(said):
        assert f"row {k // 2 + 1}, column {k % 2 + 1} of 2 x 2" in words and "crosses of one letter must meet" in words
    laid = tiling(Side(WIDE).bounds_mm, (190.0, 220.0))
    tiles = list(laid.tiles())
    assert tiles[1].lower_left[0] - tiles[0].lower_left[0] == 190.0 - OVERLAP_MM
    assert tiles[0].lower_left[1] - tiles[2].lower_left[1] == 220.0 - OVERLAP_MM


def test_what_fits_when_turned_is_turned() -> None:
    bar = Face("a", "bar", (FaceLine("edge", points=((-110.0, -20.0), (110.0, -20.0), (110.0, 20.0), (-110.0, 20.0))),))
    assert len(template_sheets("bar", [bar], "A4", "mm")) == 1
    square = Face("a", "square", (FaceLine("edge", points=tuple((1.5 * x, 1.5 * y) for x, y in SQUARE)),))
    assert len(template_sheets("square", [square], "A4", "mm")) == 1


def test_nothing_of_the_drawing_is_lost_at_the_margins() -> None:
    """The window is inside the margins and above the bar; the drawing inside the windows, whatever its size."""
    for d in (20.0, 181.0, 183.0, 250.0, 420.0, 640.0):
        face = Face("a", f"{d:g}", (FaceLine("edge", d),))
        for paper in PAPERS.values():
            sheets = template_sheets("d", [face], paper.name, "mm")  # type: ignore[arg-type]
            for sheet in sheets:
                [view] = [mark for mark in sheet.marks if isinstance(mark, View)]
                left, lower, right, upper = view.window
                assert left >= MARGIN_MM and right <= paper.width_mm - MARGIN_MM + 1e-9
                assert lower >= MARGIN_MM + BAR_ROOM_MM and upper < paper.height_mm - MARGIN_MM - 20.0
            views = [mark for sheet in sheets for mark in sheet.marks if isinstance(mark, View)]
            assert max(v.window[2] - v.shift[0] for v in views) >= d / 2 + 2
            assert min(v.window[1] - v.shift[1] for v in views) <= -d / 2 - 2


def test_the_svg_is_true_to_size_and_in_one_piece() -> None:
    """Circles read by XML, transforms applied: the opening's and the holes' places and radii, front and mirrored."""
    for side, sign in ((Side(FLANGE), 1.0), (Side(FLANGE, mirrored=True), -1.0)):
        sheet = whole_sheet("inlet", side, "mm")
        root = Xml.fromstring(svg_text(sheet))
        assert root.get("width") == f"{sheet.paper.width_mm:g}mm"
        assert root.get("viewBox") == f"0 0 {sheet.paper.width_mm:g} {sheet.paper.height_mm:g}"
        opening, *holes = circles(sheet)
        [clip] = root.iter(f"{SVG}clipPath")
        x0, y0, wide, high = (float(clip[0].get(key, "")) for key in ("x", "y", "width", "height"))
        low = sheet.paper.height_mm - y0 - high
        assert opening[:2] == pytest.approx((x0 + wide / 2, low + high / 2), abs=1e-3)  # it is the square's middle
        assert opening[2] == 40.0 and [r for _, _, r in holes] == [3.5] * 4
        for (x, y, _), hole in zip(holes, FLANGE.holes, strict=True):
            expected = sign * hole.at[0], hole.at[1]
            assert (x - opening[0], y - opening[1]) == pytest.approx(expected, abs=1e-3)


def test_a_view_shows_nothing_outside_its_window_in_pdf() -> None:
    sheet = Sheet.of("A4")
    inner = Sheet.of("A4")
    inner.circle((0.0, 0.0), 100.0, 0.5)
    sheet.add(View(tuple(inner.marks), (100.0, 150.0), (100.0, 150.0, 180.0, 220.0)))
    [page] = rendered([sheet])
    rows, columns = np.nonzero(page < 128)
    x, y = columns / PER_MM, 297.0 - rows / PER_MM
    assert x.min() >= 99.8 and y.min() >= 149.8
    assert np.hypot(x - 100.0, y - 150.0) == pytest.approx(50.0, abs=0.5)


def test_two_views_in_one_svg_keep_their_own_windows() -> None:
    sheet = Sheet.of("A4")
    sheet.add(View((), (0.0, 0.0), (10.0, 10.0, 50.0, 50.0)), View((), (0.0, 0.0), (60.0, 10.0, 90.0, 50.0)))
    root = Xml.fromstring(svg_text(sheet))
    names = [clip.get("id") for clip in root.iter(f"{SVG}clipPath")]
    used = [group.get("clip-path") for group in root.iter(f"{SVG}g") if group.get("clip-path")]
    assert len(set(names)) == 2 and used == [f"url(#{name})" for name in names]


def test_long_names_stay_on_the_sheet() -> None:
    long = Face("end_a", "end_a (" + "very long label " * 12 + ")", (FaceLine("edge", 100.0),), says=("word " * 90,))
    for sheet in template_sheets("a_name_of_some_length", [long], "Letter", "mm"):
        [page] = rendered([sheet])
        dark = np.flatnonzero((page < 128).any(axis=0)) / PER_MM
        assert dark.min() >= MARGIN_MM - 0.5 and dark.max() <= PAPERS["Letter"].width_mm - MARGIN_MM + 0.5


def test_many_holes_have_numbers_and_the_longest_distances_are_right() -> None:
    """Twelve on a circle: the longest is the diameter, three times."""
    points = [(100 * math.sin(math.tau * k / 12), 100 * math.cos(math.tau * k / 12)) for k in range(12)]
    face = pattern_face("p", "twelve", points, 6.6, "M6")
    assert face.longest() == [(1, 7, pytest.approx(200.0)), (2, 8, pytest.approx(200.0)), (3, 9, pytest.approx(200.0))]
    assert face.is_symmetric()
    [text] = texts(template_sheets("twelve", [face], "A4", "mm")[:1])
    assert re.search(r"\b12\b", text)


def test_a_pattern_without_hole_sizes_is_crosses_only() -> None:
    face = pattern_face("p", "centres", [(-40.0, 0.0), (40.0, 0.0), (0.0, 50.0)], opening_d_mm=30.0)
    [sheet] = template_sheets("centres", [face], "A4", "mm")
    assert "Holes: 3." in texts([sheet])[0]
    assert [r for _, _, r in circles(whole_sheet("centres", Side(face), "mm"))] == [15.0]


@pytest.mark.parametrize("quarter", [False, True])
@pytest.mark.parametrize("mirrored", [False, True])
def test_turning_on_the_sheet_does_not_mirror(mirrored: bool, quarter: bool) -> None:
    """Right crossed with up keeps its sign: +1 as seen from the front, -1 in the mirror."""
    side = Side(FLANGE, mirrored, quarter)
    (a, b), (c, d) = side.at((1.0, 0.0)), side.at((0.0, 1.0))
    assert a * d - b * c == (-1.0 if mirrored else 1.0)
    left, lower, right, upper = side.bounds_mm
    for hole in FLANGE.holes:
        x, y = side.at(hole.at)
        assert left < x < right and lower < y < upper


OFF_CENTRE = tuple((x, y - 102.0) for x, y in ((-102.0, -95.0), (102.0, -95.0), (102.0, 102.0), (-102.0, 102.0)))


@pytest.mark.parametrize(
    "face",
    [
        FLANGE,
        WIDE,
        Face("e", "its centre on its edge", (FaceLine("edge", points=OFF_CENTRE),), FLANGE.holes, upwards="away"),
        pattern_face("f", "its centre outside", [(40.0, 30.0), (90.0, 30.0), (90.0, 95.0)], 5.0),
        Face("s", "small", (FaceLine("edge", 6.0),)),
    ],
    ids=lambda face: face.name,
)
@pytest.mark.parametrize("paper", PAPERS)
def test_the_arrows_and_their_words_are_whole_on_one_sheet(face: Face, paper: PaperName) -> None:
    """Heads and words lie in the window of one sheet, and on the side of the seams that is kept."""
    for side in sides([face]):
        sheets = template_sheets("arrows", [face], paper, "mm")[: None if face.is_symmetric() else 1]
        views = [mark for sheet in sheets for mark in sheet.marks if isinstance(mark, View)]
        assert any(all(_in_window(mark, view) for mark in _arrows(view, face)) for view in views)
        whole = whole_sheet("arrows", side, "mm")
        [view] = [mark for mark in whole.marks if isinstance(mark, View)]
        assert all(_in_window(mark, view) for mark in _arrows(view, face))


def _arrows(view: View, face: Face) -> list[Path | Words]:
    """Both heads, filled, and both words."""
    words = [mark for mark in view.marks if isinstance(mark, Words) and mark.text in (face.upwards, "right")]
    heads = [mark for mark in view.marks if isinstance(mark, Path) and mark.fill == 0.0]
    assert (len(words), len(heads)) == (2, 2)
    return [*words, *heads]


def _in_window(mark: Path | Words, view: View) -> bool:
    xs, ys = zip(*mark.points, strict=True) if isinstance(mark, Path) else (box_of(mark)[::2], box_of(mark)[1::2])
    (dx, dy), (left, lower, right, upper) = view.shift, view.window
    return left <= min(xs) + dx and max(xs) + dx <= right and lower <= min(ys) + dy and max(ys) + dy <= upper


def test_arrows_that_leave_the_centre_leave_a_cross_there_and_keep_off_the_holes() -> None:
    """The centre lies on the outline's edge, a hole where the arrows would come to lie first."""
    face = Face("e", "edge", (FaceLine("edge", points=OFF_CENTRE),), (FaceHole((0.0, -25.0), 8.0),))
    marks = drawing(Side(face))
    assert Path(((-3.0, 0.0), (3.0, 0.0)), width_mm=0.13) in marks
    tips = [mark.points[0] for mark in marks if isinstance(mark, Path) and mark.fill == 0.0]
    assert all(math.dist(tip, (0.0, -25.0)) > 4.0 + 5.0 for tip in tips)
    assert all(-102.0 < x < 102.0 and -197.0 < y < 0.0 for x, y in tips)
