"""A printed plate drawn 1:1 on paper, at the size that it will measure; what is cut from sheet is drawn for cutting."""

from __future__ import annotations

from fitwright.drawing.face import Face, FaceHole, FaceLine
from fitwright.outline import Outline
from fitwright.outline_forms import as_circle
from fitwright.parts.plate.flats import Piece

CHORD_MM = 0.01
FRONT = "as you look at its front"
BACK = "as you look from behind, from the flange or machine"
HOLD = "Hold it against the bolts: every hole must show its bolt's middle under its cross."
SLOTS = "Hold it against the bolts: every bolt must stand somewhere in its slot."


def printed_face(piece: Piece) -> Face:
    """Its outline, openings, holes and slots, seen from its front."""
    flat = piece.true
    lines = [_line("edge", flat.outline), *(_line("opening", one) for one in flat.openings)]
    holes = tuple(FaceHole(h.at, h.d_mm, h.bolt, h.long_mm, h.turned_deg) for h in flat.holes)
    says = (SLOTS if any(h.long_mm for h in flat.holes) else HOLD,) if holes else ()
    return Face(piece.name, piece.name, tuple(lines), holes, says, FRONT, BACK)


def _line(name: str, outline: Outline) -> FaceLine:
    found = as_circle(outline)
    if found is not None:
        return FaceLine(name, found[1], centre=found[0])
    return FaceLine(name, points=tuple(outline.polyline(CHORD_MM)))
