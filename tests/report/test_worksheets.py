"""Worksheets: every key is in the grammar, every letter drawn, nothing overlaps, every form loads once filled in."""

from __future__ import annotations

import io
import itertools
import math
import re
from collections.abc import Iterator
from functools import cache
from typing import Any, get_args

import pypdfium2 as pdfium
import pytest

from fitwright.drawing.letters import RING_MM
from fitwright.drawing.paper import MARGIN_MM, PAPERS, PaperName
from fitwright.drawing.pdf import MM_PER_POINT, pdf_bytes
from fitwright.drawing.sheet import Arc, Path, Sheet, Words
from fitwright.drawing.text_width import Box, box_of
from fitwright.report.worksheets import WORKSHEETS
from fitwright.report.worksheets.content import LETTERS, Form, Row, Rows, Worksheet, lettered
from fitwright.report.worksheets.form import BLANK
from fitwright.report.worksheets.made import content, sheets
from fitwright.report.worksheets.table import rows_pieces
from fitwright.spec.grammar.measuring import MEASURES
from fitwright.spec.load import FAMILIES, load_text
from fitwright.spec.measure_file import asked_of_text
from fitwright.spec.schema import schema

PAPER_NAMES: tuple[PaperName, ...] = get_args(PaperName)
KNOWN = [name for name in WORKSHEETS if name in FAMILIES or name in MEASURES]
"""Sheets whose keys can be read today: a sheet of a kind of readings waits for its grammar."""
each_sheet = pytest.mark.parametrize("name", WORKSHEETS)
each_paper = pytest.mark.parametrize("paper", PAPER_NAMES)


@cache
def holds(name: str) -> Worksheet:
    return content(name)


@cache
def pages(name: str, paper: PaperName = "A4") -> tuple[Sheet, ...]:
    return tuple(sheets(holds(name), paper, name))


def forms(name: str) -> list[Form]:
    return [block for block in holds(name).blocks if isinstance(block, Form)]


# --- the keys ---------------------------------------------------------------------------------------------------


def below(node: dict[str, Any], definitions: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """All maps of the schema that may stand at this node: by reference, as one of several forms, in a list."""
    yield node
    if "$ref" in node:
        yield from below(definitions[node["$ref"].rpartition("/")[2]], definitions)
    for one in [*node.get("anyOf", []), *([node["items"]] if isinstance(node.get("items"), dict) else [])]:
        yield from below(one, definitions)


@cache
def published() -> dict[str, Any]:
    found: dict[str, Any] = schema()["$defs"]
    return found


def known_key(start: str, key: tuple[str, ...]) -> bool:
    """Whether the published schema has this key, step by step, from the map of this name."""
    definitions = published()
    nodes = [definitions[start]]
    for step in key:
        found = [
            one.get("properties", {}).get(step) or one.get("additionalProperties")
            for node in nodes
            for one in below(node, definitions)
            if "properties" in one or isinstance(one.get("additionalProperties"), dict)
            if step in one.get("properties", {}) or isinstance(one.get("additionalProperties"), dict)
        ]
        nodes = [node for node in found if isinstance(node, dict)]
        if not nodes:
            return False
    return True


@pytest.mark.parametrize("name", KNOWN)
def test_every_key_is_in_the_grammar(name: str) -> None:
    start = (FAMILIES.get(name) or MEASURES[name]).__name__
    for row in holds(name).rows:
        ways = [tuple(end if step == "end_" else step for step in row.key) for end in ("end_a", "end_b")]
        for key in ways:
            assert known_key(start, key), (row.name, key)


def test_a_key_that_is_not_in_the_grammar_is_found_out() -> None:
    assert known_key("ReducerKeys", ("end_a", "socket", "over", "circumference"))
    assert not known_key("ReducerKeys", ("end_a", "socket", "diameter"))
    assert not known_key("ReducerKeys", ("offset", "up"))


@pytest.mark.parametrize("family", ["reducer", "offset_adapter"])
def test_all_joints_and_ways_to_measure_are_served(family: str) -> None:
    """The joints of the grammar, a strip of paper, a tapering port, both sections, ribs, obstacles."""
    keys = {step for row in holds(family).rows for step in row.key}
    assert {"socket", "spigot", "hose_tail", "flange", "plain"} <= keys
    assert {"circumference", "further", "rectangle", "oval", "ribs", "wire", "hand", "keep_clear", "box"} <= keys


# --- letters ----------------------------------------------------------------------------------------------------


def rings(sheet: Sheet) -> list[Arc]:
    return [
        mark for mark in sheet.marks if isinstance(mark, Arc) and mark.radius_mm == RING_MM / 2 and mark.fill == 1.0
    ]


def ringed(sheet: Sheet) -> list[str]:
    """The letters that stand in rings."""
    words = [mark for mark in sheet.marks if isinstance(mark, Words)]
    return [
        next(one.text for one in words if abs(one.at[0] - r.centre[0]) < 0.01 and abs(one.at[1] - r.centre[1]) < 2.0)
        for r in rings(sheet)
    ]


@each_sheet
@each_paper
def test_every_letter_of_the_table_is_drawn_and_the_other_way_round(name: str, paper: PaperName) -> None:
    drawn = {letter for sheet in pages(name, paper) for letter in ringed(sheet)}
    tabled = {
        mark.text
        for sheet in pages(name, paper)
        for mark in sheet.marks
        if isinstance(mark, Words) and mark.bold and mark.anchor == "middle" and mark.at[0] == MARGIN_MM + 4.0
    }
    expected = set(holds(name).letters.values())
    assert drawn == expected
    assert tabled == expected - set(holds(name).marks.values())


def test_letters_go_on_after_z_and_leave_out_what_a_pencil_confuses() -> None:
    rows = [Row(str(k), "", "", "", ("wall",)) for k in range(60)]
    letters = list(lettered(rows).values())
    assert letters[:2] == ["A", "B"] and letters[23:26] == ["Z", "AA", "AB"] and letters[48] == "BA"
    assert len(set(letters)) == 60 and not {"I", "O"} & {c for letter in letters for c in letter}
    assert len(LETTERS) == 24


@pytest.mark.parametrize("name", WORKSHEETS)
def test_form_and_table_name_the_same_letters(name: str) -> None:
    named = {found for form in forms(name) for text in form.texts() for found in re.findall(r"<(\w+)>", text)}
    assert named and named <= {row.name for row in holds(name).rows}


# --- the paper --------------------------------------------------------------------------------------------------


def apart(a: Box, b: Box, by: float = 0.0) -> bool:
    return a[2] <= b[0] + by or b[2] <= a[0] + by or a[3] <= b[1] + by or b[3] <= a[1] + by


def ring_box(ring: Arc) -> Box:
    (x, y), r = ring.centre, ring.radius_mm
    return x - r, y - r, x + r, y + r


@each_sheet
@each_paper
def test_nothing_runs_off_the_page_and_no_words_overlap(name: str, paper: PaperName) -> None:
    wide, high = PAPERS[paper].width_mm, PAPERS[paper].height_mm
    for sheet in pages(name, paper):
        words = [(box_of(mark), mark.text) for mark in sheet.marks if isinstance(mark, Words)]
        circles = [(ring_box(one), "a ring") for one in rings(sheet)]
        for (left, low, right, top), text in [*words, *circles]:
            assert left >= MARGIN_MM - 0.01 and right <= wide - MARGIN_MM + 0.01, text
            assert low >= MARGIN_MM - 0.5 and top <= high - MARGIN_MM, text
        outside = [w for w in words if not any(_inside(w[0], ring) for ring, _ in circles)]
        for (one, text), (other, said) in itertools.combinations([*outside, *circles], 2):
            assert apart(one, other, 0.05), (sheet.title, text, said, one, other)


def _inside(box: Box, ring: Box) -> bool:
    return ring[0] <= box[0] and box[2] <= ring[2] and ring[1] <= box[1] + 1.0 and box[3] <= ring[3]


def edges(mark: Path) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    points = (*mark.points, mark.points[0]) if mark.closed else mark.points
    yield from itertools.pairwise(points)


@each_sheet
@each_paper
def test_no_rule_of_table_or_form_runs_through_words(name: str, paper: PaperName) -> None:
    for sheet in pages(name, paper):
        words = [(box_of(mark), mark.text) for mark in sheet.marks if isinstance(mark, Words)]
        ruled = [m for m in sheet.marks if isinstance(m, Path) and _ruled(m)]
        for a, b in (edge for mark in ruled for edge in edges(mark)):
            line = (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
            for box, text in words:
                assert apart(line, box, 0.02), (text, box, line)


def _ruled(mark: Path) -> bool:
    """A rule as wide as the page, or a box to write in."""
    box = mark.closed and len(mark.points) == 4 and mark.fill is None and mark.width_mm == 0.25
    return box or (len(mark.points) == 2 and abs(mark.points[0][0] - mark.points[1][0]) > 150.0)


@each_sheet
@each_paper
def test_all_text_can_be_read_at_print_size(name: str, paper: PaperName) -> None:
    for sheet in pages(name, paper):
        for mark in sheet.marks:
            if isinstance(mark, Words):
                assert mark.cap_mm >= 2.0, mark.text
                assert mark.text == mark.text.encode("latin-1", "strict").decode("latin-1")


@each_sheet
@each_paper
def test_boxes_are_large_enough_to_write_in(name: str, paper: PaperName) -> None:
    """18 x 8 mm at least; a drawing's own rectangles are of other line widths."""
    count = 0
    for sheet in pages(name, paper):
        for mark in sheet.marks:
            if isinstance(mark, Path) and mark.closed and _ruled(mark):
                xs, ys = zip(*mark.points, strict=True)
                assert max(xs) - min(xs) >= 17.99 and max(ys) - min(ys) >= 7.99
                count += 1
    assert count > 20


def test_a_row_of_many_words_wraps_and_grows() -> None:
    row = Row("a", "outside of the port " * 6, "caliper", "three times " * 9, ("end_a", "socket", "over"))
    (short,) = (p for p in rows_pieces(Rows("", (Row("a", "x", "x", "x", ("wall",)),)), {"a": "A"}, 190.0)[2:-1])
    (tall,) = (p for p in rows_pieces(Rows("", (row,)), {"a": "A"}, 190.0)[2:-1])
    assert tall.high_mm > 2 * short.high_mm
    sheet = Sheet.of("A4")
    tall.draw(sheet, (10.0, 200.0))
    assert all(box_of(m)[1] > 200.0 - tall.high_mm for m in sheet.marks if isinstance(m, Words))
    assert " ".join(m.text for m in sheet.marks if isinstance(m, Words)).count("three times") == 9


# --- the form ---------------------------------------------------------------------------------------------------

PLAUSIBLE = {
    **{"label": "saw", "units": "mm", "material": "PETG", "near_heat": "45 C", "name": "shed_220", "size": "M6"},
    **{"count": "4", "first_at": "45", "up": "60", "right": "20", "length": "260", "depth": "40", "wall": "up"},
    **{"at": "150", "corner": "5", "holes": "4", "hole": "6.6", "circle": "140", "opening": "98", "apart": "20"},
    **{"left": "190", "down": "60", "toward": "0", "away": "200", "threads": "10", "over": "12.5", "per_inch": "20"},
    **{"tapers": "no", "what": "bolt", "outside": "8", "inside": "8", "into": "100", "hose_inside": "100"},
    **{"end": "58", "further": "59", "width": "120", "height": "80", "read": "6.6", "outer": "90"},
    **{"diameter": "100", "near_edge": "20", "1-3": "90"},
    **{"shut": "20", "open": "126", "blade.thickness": "3", "blade.width": "118", "blade.material": "acrylic"},
    **{
        "hole_to_edge": "8",
        "blade.hole": "5",
        "thickness": "22",
        "body.width": "150",
        "far_end": "open",
        "to_edge": "72",
    },
    **{"across": "132", "from_edge": "12", "code": "ISO 6432 16 x 125", "rod_stub": "21.6", "rod_thread_length": "16"},
    **{"rod_flats": "5", "thread": "M16 x 1.5", "nose.length": "18", "across_flats": "24", "nut.height": "8"},
    **{"cylinder.length": "193", "ports": "up", "bore": "16", "stroke": "125", "rod": "6", "rod_thread": "M6"},
    **{
        "over_ribs.circumference": "340",
        "hose.inside": "100",
        "squeezes_to": "82",
        "side": "left",
        "joist.width": "38",
    },
    **{"joist.depth": "195", "to_axis": "90", "slot": "8.2", "bar": "25", "drop": "300", "near.left": "150"},
    **{
        "far.right": "460",
        "points.up": "75",
        "points.down": "75",
        "spacing": "1200",
        "elbow": "400",
        "above": "people",
    },
    **{
        "openings.round": "90",
        "openings.up": "3",
        "rectangle.width": "200",
        "rectangle.height": "180",
        "read_with": "tape",
        "sheet.material": "steel",
    },
    **{"sheet.thickness": "2", "gasket.material": "cork", "gasket.thickness": "5", "round": "190"},
    **{"body.round": "18", "mounted": "sideways", "drag": "12 N", "pressure": "6 bar"},
}


def held_by(text: str) -> Iterator[str]:
    """Keys that hold the last line's, from the nearest outwards: before it in the line, and of lines above."""
    *above, line = text.splitlines() or [""]
    yield from reversed(re.findall(r"([\w-]+): *\{", line))
    indent = len(line) - len(line.lstrip())
    for one in reversed(above):
        own = len(one) - len(one.lstrip())
        if own < indent:
            yield from reversed(re.findall(r"([\w-]+):(?: *\{| *$)", one.partition("#")[0]))
            indent = own


def filled(text: str, here: dict[str, str]) -> str:
    """The form as somebody would fill it in: each blank by the nearest key before it."""

    def one(found: re.Match[str]) -> str:
        before = found.string[: found.start()]
        key, known = re.findall(r"([\w-]+):", before)[-1], {**PLAUSIBLE, **here}
        return next((known[f"{one}.{key}"] for one in held_by(before) if f"{one}.{key}" in known), known.get(key, ""))

    return BLANK.sub(one, re.sub(r"<\w+>", "A", text))


_ENDS = {"over": "107.1", "inside": "56"}
_ROUND = {
    "hose_hanger": {"inside": "100", "circumference": "340", "up": "75", "down": "75", "left": "150", "right": "460"}
}


@pytest.mark.parametrize("family", [name for name in WORKSHEETS if name in FAMILIES])
def test_every_form_of_a_family_loads_once_it_is_filled_in(family: str) -> None:
    (form,) = forms(family)
    for text in form.texts():
        assert BLANK.search(text)
        (spec,) = load_text(filled(text, _ROUND.get(family, _ENDS)))
        assert spec.part == family
    assert len({filled(text, _ROUND.get(family, _ENDS)) for text in form.texts()}) == len(form.texts())


@pytest.mark.parametrize("kind", [name for name in WORKSHEETS if name in MEASURES])
def test_every_form_of_readings_loads_once_it_is_filled_in(kind: str) -> None:
    for form in forms(kind):
        for text in form.texts():
            here = {"outside": "8", "read": "8", "hole": "8"} if kind == "printer" else {}
            assert asked_of_text(filled(text, here), "bench.yaml").kind == kind


# --- the drawing ------------------------------------------------------------------------------------------------


def test_the_drawing_shows_what_was_built() -> None:
    """Template: a pipe of 107.0, 107.3, 107.1 (mean 107.13) outside and a hose of 100 inside, at one scale on paper."""
    first = pages("reducer")[0]
    scale = 0.46
    pipe = _length_beside(first, "A")
    hose = _length_beside(first, "D")
    assert pipe / scale == pytest.approx((107.0 + 107.3 + 107.1) / 3, abs=0.15)
    assert hose / scale == pytest.approx(100.0, abs=0.6)


def test_a_port_that_tapers_is_drawn_as_it_was_read() -> None:
    """56 at its end and 62 at 26 further back, at 0.42 on paper."""
    page = next(sheet for sheet in pages("reducer") if "spigot: goes into a pipe" in said_on(sheet))
    letters = holds("reducer").letters
    assert _length_beside(page, letters["t_end"]) / 0.42 == pytest.approx(56.0, abs=0.1)
    assert _length_beside(page, letters["t_further"]) / 0.42 == pytest.approx(62.0, abs=0.1)


def test_bolts_are_drawn_where_the_yaml_puts_them() -> None:
    """Six holes on a circle of 154, drawn at 0.33: their centre marks lie on it, 60 deg apart."""
    page = pages("bolts")[0]
    rounds = [m for m in page.marks if isinstance(m, Path) and m.closed and m.width_mm == 0.35]
    centres = [tuple(sum(p[k] for p in m.points) / len(m.points) for k in (0, 1)) for m in rounds]
    big = max(rounds, key=lambda m: max(x for x, _ in m.points) - min(x for x, _ in m.points))
    middle = [(min(p[k] for p in big.points) + max(p[k] for p in big.points)) / 2 for k in (0, 1)]
    off = sorted(math.dist(c, middle) / 0.33 for c in centres)
    assert off[:2] == pytest.approx([0.0, 0.0], abs=1.0) and off[2:] == pytest.approx([77.0] * 6, abs=0.6)


def said_on(sheet: Sheet) -> list[str]:
    return [mark.text for mark in sheet.marks if isinstance(mark, Words)]


def _length_beside(sheet: Sheet, letter: str) -> float:
    """Length of the upright dimension line that this letter stands on."""
    (ring,) = (r for r, text in zip(rings(sheet), ringed(sheet), strict=True) if text == letter)
    lines = [m.points for m in sheet.marks if isinstance(m, Path) and len(m.points) == 2]
    through = [
        math.dist(a, b)
        for a, b in lines
        if abs(a[0] - b[0]) < 1e-6
        and abs(a[0] - ring.centre[0]) < 1e-6
        and abs((a[1] + b[1]) / 2 - ring.centre[1]) < 1e-6
    ]
    return max(through)


@each_sheet
def test_same_bytes_and_the_pdf_can_be_read_back(name: str) -> None:
    data = pdf_bytes(pages(name))
    assert data == pdf_bytes(sheets(content(name), "A4", name))
    with pdfium.PdfDocument(io.BytesIO(data)) as document:
        assert len(document) == len(pages(name)) <= 5
        assert [side * MM_PER_POINT for side in document[0].get_size()] == pytest.approx([210.0, 297.0], abs=0.01)
        text = " ".join(page.get_textpage().get_text_bounded() for page in document)
    assert "YAML key" in text and f"fitwright worksheet {name}" in text


def test_sheets_for_families_and_cautions() -> None:
    assert {"reducer", "offset_adapter"} <= set(WORKSHEETS)
    for name in ("reducer", "offset_adapter", "bolts"):
        said = " ".join(m.text for m in pages(name)[0].marks if isinstance(m, Words))
        assert "pull its plug" in said
        for word in ("name", "date", "machine", "notes"):
            assert any(m.text.startswith(word) for s in pages(name) for m in s.marks if isinstance(m, Words)), word
