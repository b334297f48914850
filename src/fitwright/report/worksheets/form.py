"""The YAML form of a worksheet: lines whose `____` are boxes to fill in by hand."""

from __future__ import annotations

import re
from collections.abc import Mapping

from fitwright.drawing.sheet import Point, Sheet
from fitwright.drawing.text_width import width_mm, wrapped
from fitwright.report.worksheets.content import Form
from fitwright.report.worksheets.page import CAP_MM, GAP_MM, LINE_MM, Piece, paragraph
from fitwright.report.worksheets.table import BOX_WIDE_MM, box

BLANK = re.compile(r"_{4,}")
_TEXT_MM = 2.2
_INDENT_MM = 1.5
_BOX_HIGH_MM = 8.0
_FILLED_MM, _PRINTED_MM = 9.0, 4.2
"""Height of a line with boxes, and of one without."""
_LONG_MM = 36.0
"""Width of a box for words: `________`."""


def form_pieces(form: Form, letters: Mapping[str, str], wide_mm: float) -> list[Piece]:
    """Title and note, then the form at the left and what may be swapped at its right."""
    half = (wide_mm - 4.0) / 2
    left = _column([("", form.lines)], letters, half)
    right = _column([*form.others, *([form.added] if form.added[1] else [])], letters, half)
    high = max(sum(h for h, _ in left), sum(h for h, _ in right)) + GAP_MM
    pieces = [paragraph(form.title, wide_mm, 2.4, bold=True, with_next=True)]
    if form.note:
        pieces.append(paragraph(form.note, wide_mm, with_next=True))

    def draw(sheet: Sheet, at: Point) -> None:
        for x, column in ((at[0], left), (at[0] + half + 4.0, right)):
            y = at[1]
            for line_high, line in column:
                _line(sheet, (x, y), line, line_high)
                y -= line_high

    return [*pieces, Piece(high, draw)]


def _column(texts: list[tuple[str, str]], letters: Mapping[str, str], wide: float) -> list[tuple[float, str]]:
    """Height [mm] and text of each line; a line that begins with `!` is a title."""
    lines: list[tuple[float, str]] = []
    for title, text in texts:
        if title:
            lines += [
                (LINE_MM + (1.5 if k == 0 else 0.0), f"!{line}")
                for k, line in enumerate(wrapped(title, wide, CAP_MM, True))
            ]
        for line in text.strip("\n").splitlines():
            said = re.sub(r"<(\w+)>", lambda found: letters[found[1]], line)
            lines.append((_FILLED_MM if BLANK.search(said) else _PRINTED_MM, said))
    return lines


def _line(sheet: Sheet, at: Point, line: str, high: float) -> None:
    if line.startswith("!"):
        sheet.words((at[0], at[1] - high + 0.8), line[1:], CAP_MM, bold=True)
        return
    code, _, comment = line.partition("#")
    x = at[0] + _INDENT_MM * (len(code) - len(code.lstrip()))
    base = at[1] - high / 2 - _TEXT_MM / 2
    for text in re.split(r"(_{4,})", code.strip()):
        if BLANK.fullmatch(text):
            wide = BOX_WIDE_MM if len(text) < 8 else _LONG_MM
            box(sheet, (x, at[1] - (high - _BOX_HIGH_MM) / 2), wide, _BOX_HIGH_MM)
            x += wide
        elif text:
            sheet.words((x + 0.3, base), text.strip(), _TEXT_MM)
            x += width_mm(text, _TEXT_MM) + 0.6
    if comment.strip():
        sheet.words((x + 1.5, base), comment.strip(), CAP_MM, bold=True)
