"""Pieces of a worksheet laid under each other, page after page, with head and foot: nothing is cut off."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from fitwright.drawing.paper import MARGIN_MM, PAPERS, PaperName
from fitwright.drawing.sheet import MEDIUM_MM, Point, Sheet
from fitwright.drawing.text_width import wrapped

HEAD_MM = 12.0
FOOT_MM = 5.0
CAP_MM = 2.0
LINE_MM = 3.5
"""From base line to base line of the smallest text."""
GAP_MM = 2.5


@dataclass(frozen=True)
class Piece:
    """Something as wide as the page and `high_mm` high; `draw(sheet, (left, top))` draws it.

    `with_next` keeps it on the page of the piece after it; `head` is drawn again where a page begins with this piece.
    """

    high_mm: float
    draw: Callable[[Sheet, Point], None]
    with_next: bool = False
    head: Piece | None = None


def laid(pieces: Sequence[Piece], paper: PaperName, title: str, foot: str) -> list[Sheet]:
    """As many sheets as the pieces take."""
    room = room_mm(paper)
    pages: list[list[Piece]] = [[]]
    left = room
    for chain in _chains(pieces):
        need = sum(piece.high_mm for piece in chain)
        if need > left + 1e-9 and pages[-1]:
            head = [chain[0].head] if chain[0].head else []
            pages.append(head)
            left = room - sum(piece.high_mm for piece in head)
        pages[-1] += chain
        left -= need
    return [_drawn(page, paper, title, foot, (number, len(pages))) for number, page in enumerate(pages, start=1)]


def room_mm(paper: PaperName) -> float:
    """Height [mm] between head and foot."""
    return PAPERS[paper].height_mm - 2 * MARGIN_MM - HEAD_MM - FOOT_MM


def together(pieces: Sequence[Piece], paper: PaperName) -> list[Piece]:
    """The pieces kept on one page, where a page holds them."""
    if sum(piece.high_mm for piece in pieces) > room_mm(paper):
        return list(pieces)
    return [*(replace(piece, with_next=True) for piece in pieces[:-1]), pieces[-1]]


def _chains(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """What must stay together, together."""
    chains: list[list[Piece]] = []
    open_chain = False
    for piece in pieces:
        if open_chain:
            chains[-1].append(piece)
        else:
            chains.append([piece])
        open_chain = piece.with_next
    return chains


def _drawn(page: Sequence[Piece], paper: PaperName, title: str, foot: str, number: tuple[int, int]) -> Sheet:
    sheet = Sheet.of(paper, title)
    wide, high = sheet.paper.width_mm, sheet.paper.height_mm
    top = high - MARGIN_MM
    sheet.words((MARGIN_MM, top - 5.0), title, 4.0, bold=True)
    sheet.words((wide - MARGIN_MM, top - 5.0), f"page {number[0]} of {number[1]}", CAP_MM, "end")
    sheet.line((MARGIN_MM, top - 8.0), (wide - MARGIN_MM, top - 8.0), MEDIUM_MM)
    sheet.words((MARGIN_MM, MARGIN_MM + 1.0), foot, CAP_MM)
    y = top - HEAD_MM
    for piece in page:
        piece.draw(sheet, (MARGIN_MM, y))
        y -= piece.high_mm
    return sheet


def paragraph(text: str, wide_mm: float, cap_mm: float = CAP_MM, bold: bool = False, with_next: bool = False) -> Piece:
    """Wrapped words."""
    lines = wrapped(text, wide_mm, cap_mm, bold)
    step = LINE_MM * cap_mm / CAP_MM

    def draw(sheet: Sheet, at: Point) -> None:
        for k, line in enumerate(lines):
            sheet.words((at[0], at[1] - step * k - cap_mm - 0.4), line, cap_mm, bold=bold)

    return Piece(step * len(lines) + GAP_MM / 2, draw, with_next)


def gap(high_mm: float = GAP_MM) -> Piece:
    """Nothing, so high."""
    return Piece(high_mm, lambda sheet, at: None)
