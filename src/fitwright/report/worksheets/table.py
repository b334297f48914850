"""The table of a worksheet: letter, what, with what, where and how often, key, boxes to write in, unit."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from fitwright.drawing.sheet import MEDIUM_MM, THIN_MM, Path, Point, Sheet
from fitwright.drawing.text_width import wrapped
from fitwright.report.worksheets.content import Grid, Row, Rows
from fitwright.report.worksheets.page import CAP_MM, GAP_MM, LINE_MM, Piece, paragraph

BOX_WIDE_MM, BOX_HIGH_MM = 18.0, 9.0
"""A box that a pencil fills: 18 x 8 mm is the least."""
_LETTER_MM, _WITH_MM, _KEY_MM, _UNIT_MM = 8.0, 18.0, 29.0, 8.0
_PAD_MM = 1.0
_HEADINGS = ("", "what to measure", "with what", "where, how often", "YAML key", "three readings", "unit")
_ONCE_MM = 30.0
_UNITS = {"length": ("mm", "in"), "angle": ("deg",), "count": (), "word": (), "below": ("mm", "in")}


def _columns(wide_mm: float, once: bool) -> list[float]:
    """Widths [mm] of letter, what, with, where, key, readings, unit."""
    boxes = _ONCE_MM if once else 3 * BOX_WIDE_MM
    key = _KEY_MM + (3 * BOX_WIDE_MM - boxes if once else 0.0)
    left = wide_mm - (_LETTER_MM + _WITH_MM + key + boxes + _UNIT_MM)
    return [_LETTER_MM, 0.44 * left, _WITH_MM, 0.56 * left, key, boxes, _UNIT_MM]


def rows_pieces(block: Rows, letters: Mapping[str, str], wide_mm: float) -> list[Piece]:
    """The title, the headings and a piece a row; the headings come again on the next page."""
    columns = _columns(wide_mm, block.once)
    head = _head(columns, "one reading" if block.once else _HEADINGS[5])
    pieces = [paragraph(block.title, wide_mm, 2.4, bold=True, with_next=True), head]
    pieces += [_row(row, letters[row.name], columns, head) for row in block.rows]
    return [*pieces, Piece(GAP_MM, lambda sheet, at: None)]


def _head(columns: Sequence[float], readings: str) -> Piece:
    def draw(sheet: Sheet, at: Point) -> None:
        x = at[0]
        for text, wide in zip((*_HEADINGS[:5], readings, _HEADINGS[6]), columns, strict=True):
            sheet.words((x + _PAD_MM, at[1] - 3.4), text, CAP_MM, bold=True)
            x += wide
        sheet.line((at[0], at[1] - 5.0), (x, at[1] - 5.0), MEDIUM_MM)

    return Piece(5.0, draw, with_next=True)


def _row(row: Row, letter: str, columns: Sequence[float], head: Piece) -> Piece:
    texts = [_cell(text, wide) for text, wide in zip((row.what, row.tool, row.how), columns[1:4], strict=True)]
    texts.append(_key_lines(row, columns[4] - 2 * _PAD_MM))
    high = max(BOX_HIGH_MM, max(map(len, texts)) * LINE_MM + 2.0)

    def draw(sheet: Sheet, at: Point) -> None:
        x, top = at
        sheet.words((x + columns[0] / 2, top - high / 2 - 1.5), letter, 3.0 if len(letter) < 2 else 2.4, "middle", True)
        x += columns[0]
        for lines, wide, bold in zip(texts, columns[1:5], (False, False, False, True), strict=True):
            _lines(sheet, (x + _PAD_MM, top), lines, bold)
            x += wide
        if row.kind == "below":
            _lines(sheet, (x + _PAD_MM, top), ["write it into the grid below"], False)
        count = _boxes_of(row, columns[5])
        for k in range(count):
            box(sheet, (x + k * columns[5] / count, top), columns[5] / count, high)
        _lines(sheet, (x + columns[5] + _PAD_MM, top), list(_UNITS[row.kind]), False)
        sheet.line((at[0], top - high), (at[0] + sum(columns), top - high), THIN_MM)

    return Piece(high, draw, head=head)


def _boxes_of(row: Row, wide: float) -> int:
    """How many boxes a row has in so much room."""
    if row.kind == "below":
        return 0
    return 3 if row.kind in ("length", "angle") and wide > _ONCE_MM else 1


def _cell(text: str, wide: float) -> list[str]:
    return wrapped(text, wide - 2 * _PAD_MM, CAP_MM)


def _key_lines(row: Row, wide: float) -> list[str]:
    """The key's steps, as many to a line as fit."""
    return wrapped(" ".join(step.replace(" ", "\u00a0") for step in row.key_steps), wide, CAP_MM, True)


def _lines(sheet: Sheet, at: Point, lines: Sequence[str], bold: bool) -> None:
    for k, line in enumerate(lines):
        sheet.words((at[0], at[1] - 3.2 - LINE_MM * k), line.replace("\u00a0", " "), CAP_MM, bold=bold)


def box(sheet: Sheet, at: Point, wide: float, high: float) -> None:
    """An empty box to write in; `at` is its left upper corner."""
    (x, top) = at
    corners = ((x, top), (x + wide, top), (x + wide, top - high), (x, top - high))
    sheet.add(Path(corners, closed=True, width_mm=MEDIUM_MM))


def grid_pieces(block: Grid, wide_mm: float) -> list[Piece]:
    """A grid of boxes with a printed first column."""
    count = len(block.headings) - 1
    wide = min((wide_mm - block.lead_mm) / count, 34.0)
    columns = [block.lead_mm, *[wide] * count]
    headed = [
        wrapped(text, width - 2 * _PAD_MM, CAP_MM, True) for text, width in zip(block.headings, columns, strict=True)
    ]
    head_high = max(map(len, headed)) * LINE_MM + 1.5

    def draw_head(sheet: Sheet, at: Point) -> None:
        x = at[0]
        for lines, width in zip(headed, columns, strict=True):
            _lines(sheet, (x + _PAD_MM, at[1] + 0.6), lines, True)
            x += width

    head = Piece(head_high, draw_head, with_next=True)
    pieces = [paragraph(block.title, wide_mm, 2.4, bold=True, with_next=True), head]
    pieces += [_grid_row(text, columns, head) for text in block.first]
    return [*pieces, Piece(GAP_MM, lambda sheet, at: None)]


def _grid_row(text: str, columns: Sequence[float], head: Piece) -> Piece:
    lines = wrapped(text, columns[0] - 2 * _PAD_MM, CAP_MM, True)
    high = max(BOX_HIGH_MM, len(lines) * LINE_MM + 2.0)

    def draw(sheet: Sheet, at: Point) -> None:
        x = at[0]
        for k, wide in enumerate(columns):
            box(sheet, (x, at[1]), wide, high)
            if k == 0:
                _lines(sheet, (x + _PAD_MM, at[1] - (high - len(lines) * LINE_MM) / 2 + 0.6), lines, True)
            x += wide

    return Piece(high, draw, head=head)
