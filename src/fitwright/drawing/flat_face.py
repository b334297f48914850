"""A flat piece as a face: its 1:1 template on paper, to be cut by hand or held against the real thing."""

from __future__ import annotations

from fitwright.drawing.face import Face, FaceHole, FaceLine
from fitwright.flat import Flat, Stock
from fitwright.outline import Outline
from fitwright.outline_forms import as_circle

CHORD_MM = 0.01
"""Arcs are drawn as chords that leave them by no more: far finer than a knife."""
BY_HAND = {
    "gasket": "By hand: stick this on the {words}, cut through both along the lines with a sharp knife; punch holes.",
    "sheet": "By hand: stick this on the {words}, punch each centre, drill, saw beside the lines and file up to them.",
}


def flat_face(key: str, name: str, flat: Flat, stock: Stock) -> Face:
    """Outline, openings and holes (slots too) as they are to be cut, from the front; `key` goes into file names."""
    lines = [_line("outline", flat.outline), *(_line("opening", one) for one in flat.openings)]
    holes = tuple(FaceHole(one.at, one.d_mm, one.bolt, one.long_mm, one.turned_deg) for one in flat.holes)
    says = (BY_HAND[stock.kind].format(words=stock.words),)
    return Face(key, f"{name}, {stock.words} {stock.thickness_mm:g} mm", tuple(lines), holes, says)


def _line(name: str, line: Outline) -> FaceLine:
    whole = as_circle(line)
    if whole:
        return FaceLine(name, whole[1], centre=whole[0])
    return FaceLine(name, points=tuple(line.polyline(CHORD_MM)))
