"""A worksheet's content -> sheets of paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from importlib import import_module

from fitwright.drawing.paper import PAPERS, PaperName
from fitwright.drawing.sheet import MEDIUM_MM, THIN_MM, Path, Point, Sheet
from fitwright.drawing.text_width import width_mm, wrapped
from fitwright.report.worksheets import WORKSHEETS
from fitwright.report.worksheets.content import Blanks, Block, Cautions, Figures, Form, Grid, Rows, Worksheet
from fitwright.report.worksheets.form import form_pieces
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.page import CAP_MM, GAP_MM, LINE_MM, Piece, gap, laid, paragraph, together
from fitwright.report.worksheets.table import grid_pieces, rows_pieces


def content(name: str) -> Worksheet:
    """What stands on the worksheet of this name; the kernel is loaded where its example is a part."""
    made: Worksheet = import_module(f"fitwright.report.worksheets.{name}").worksheet()
    return made


def sheets(sheet: Worksheet, paper: PaperName, name: str) -> list[Sheet]:
    """The pages of a worksheet."""
    wide = PAPERS[paper].inner_mm[0]
    pieces = [paragraph(sheet.lead, wide)]
    for group in _groups(sheet.blocks):
        own = [piece for block in group for piece in _pieces(block, sheet.letters, wide)]
        pieces += together(own, paper) if len(group) > 1 else own
    foot = f"fitwright worksheet {name}   |   The drawings show an example: measure the thing, not the paper."
    return laid(pieces, paper, f"Worksheet: {sheet.title}", foot)


def _groups(blocks: Sequence[Block]) -> list[list[Block]]:
    """A drawing with its rows is one, but for the first, whose page has a beginning of its own."""
    groups: list[list[Block]] = []
    for k, block in enumerate(blocks):
        before = blocks[k - 1] if k else block
        drawn_before = any(isinstance(one, Figures) for one in blocks[: max(k - 1, 0)])
        if isinstance(block, Rows) and isinstance(before, Figures) and drawn_before:
            groups[-1].append(block)
        else:
            groups.append([block])
    return groups


def worksheet_sheets(name: str, paper: PaperName = "A4") -> list[Sheet]:
    """The pages of the worksheet of this name, one of WORKSHEETS."""
    assert name in WORKSHEETS
    return sheets(content(name), paper, name)


def _pieces(block: Block, letters: Mapping[str, str], wide: float) -> list[Piece]:
    if isinstance(block, Figures):
        return _figures(block, letters, wide)
    if isinstance(block, Rows):
        return rows_pieces(block, letters, wide)
    if isinstance(block, Grid):
        return grid_pieces(block, wide)
    if isinstance(block, Form):
        return form_pieces(block, letters, wide)
    return [_blanks(block, wide)] if isinstance(block, Blanks) else _cautions(block, wide)


def _figures(block: Figures, letters: Mapping[str, str], wide: float) -> list[Piece]:
    """Drawings side by side, the room left over between them, each over its caption."""
    room = (wide - sum(figure.wide_mm for figure in block.figures)) / max(len(block.figures) - 1, 1)
    captions = [wrapped(figure.caption, figure.wide_mm, CAP_MM) for figure in block.figures]
    under = max(map(len, captions)) * LINE_MM + GAP_MM

    def draw(sheet: Sheet, at: Point) -> None:
        x = at[0]
        for figure, lines in zip(block.figures, captions, strict=True):
            figure.draw(Pad(sheet, x, at[1] - block.high_mm, letters))
            for k, line in enumerate(lines):
                y = at[1] - block.high_mm - 3.0 - LINE_MM * k
                sheet.words((x + figure.wide_mm / 2, y), line, CAP_MM, "middle")
            x += figure.wide_mm + room

    return [Piece(block.high_mm + under, draw, with_next=True)]


def _blanks(block: Blanks, wide: float) -> Piece:
    def draw(sheet: Sheet, at: Point) -> None:
        x, base = at[0], at[1] - 7.0
        for text, share in block.fields:
            sheet.words((x, base), text, CAP_MM)
            start = x + (width_mm(text, CAP_MM) + 1.5 if text else 0.0)
            sheet.line((start, base - 0.8), (x + share * wide - 3.0, base - 0.8), THIN_MM)
            x += share * wide

    return Piece(9.5, draw)


def _cautions(block: Cautions, wide: float) -> list[Piece]:
    lines = [line for text in block.lines for line in wrapped(text, wide - 6.0, CAP_MM)]
    high = len(lines) * LINE_MM + 2.5

    def draw(sheet: Sheet, at: Point) -> None:
        (x, top) = at
        corners = ((x, top), (x + wide, top), (x + wide, top - high), (x, top - high))
        sheet.add(Path(corners, closed=True, width_mm=MEDIUM_MM, fill=0.93))
        for k, line in enumerate(lines):
            sheet.words((x + 3.0, top - 3.6 - LINE_MM * k), line, CAP_MM)

    return [Piece(high, draw), gap()]
