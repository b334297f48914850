"""Plate and gasket drawn 1:1 on paper, at the size that they will measure."""

from __future__ import annotations

from fitwright.drawing.face import Face, FaceHole, FaceLine
from fitwright.outline import Outline
from fitwright.outline_forms import as_circle
from fitwright.parts.plate.flats import Piece
from fitwright.shapes.flat_plate import hole_outline

CHORD_MM = 0.01
FRONT = "as you look at its front"
BACK = "as you look from behind, from the flange or machine"
HOLD = "Hold it against the bolts: every hole must show its bolt's middle under its cross."
SLOTS = "Slots: every bolt must stand somewhere in its slot."


def plate_face(piece: Piece) -> Face:
    """Its outline, openings, holes and slots, seen from its front."""
    flat = piece.true
    lines = [_line("edge", flat.outline)]
    lines += [_line("opening", one) for one in flat.openings]
    lines += [_line("slot", hole_outline(hole)) for hole in flat.holes if hole.long_mm]
    holes = tuple(FaceHole(hole.at, 0.0 if hole.long_mm else hole.d_mm, hole.bolt) for hole in flat.holes)
    says = (HOLD,) if holes else ()
    says += (SLOTS,) if any(hole.long_mm for hole in flat.holes) else ()
    return Face(piece.name, piece.name, tuple(lines), holes, says, FRONT, BACK)


def _line(name: str, outline: Outline) -> FaceLine:
    found = as_circle(outline)
    if found is not None:
        return FaceLine(name, found[1], centre=found[0])
    return FaceLine(name, points=tuple(outline.polyline(CHORD_MM)))
