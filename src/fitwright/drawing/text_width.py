"""How wide words are on paper, and lines broken so that they fit. The widths are those of the PDF's own fonts."""

from __future__ import annotations

from functools import cache

from fitwright.drawing.sheet import CAP_OF_SIZE, Words

Box = tuple[float, float, float, float]
DESCENT = 0.29
"""How far g and y hang below the base line, over the height of a capital (Helvetica's AFM: -207 of 718)."""


@cache
def width_mm(text: str, cap_mm: float, bold: bool = False) -> float:
    """Width [mm] of one line whose capitals are `cap_mm` high."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return float(stringWidth(text, "Helvetica-Bold" if bold else "Helvetica", cap_mm / CAP_OF_SIZE))


def wrapped(text: str, wide_mm: float, cap_mm: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than `wide_mm`; broken at blanks, a single word that is wider between its letters."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if width_mm(longer, cap_mm, bold) <= wide_mm:
            lines[-1] = longer
            continue
        *whole, last = _broken(word, wide_mm, cap_mm, bold)
        lines += [*whole, last]
    return lines if lines[0] or len(lines) == 1 else lines[1:]


def _broken(word: str, wide_mm: float, cap_mm: float, bold: bool) -> list[str]:
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_mm(pieces[-1] + letter, cap_mm, bold) > wide_mm:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def box_of(words: Words) -> Box:
    """Left, bottom, right, top [mm] of words that lie level or stand upright (turned by whole 90 deg)."""
    wide = width_mm(words.text, words.cap_mm, words.bold)
    start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[words.anchor]
    low, high = -DESCENT * words.cap_mm, words.cap_mm
    (x, y), quarter = words.at, round(words.turn_deg / 90.0) % 4
    corners = [(start, low), (start + wide, high)]
    turned = [{0: (u, v), 1: (-v, u), 2: (-u, -v), 3: (v, -u)}[quarter] for u, v in corners]
    xs, ys = zip(*turned, strict=True)
    return x + min(xs), y + min(ys), x + max(xs), y + max(ys)
