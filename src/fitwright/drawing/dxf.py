"""A flat piece as a DXF drawing in mm that any sheet-metal shop and laser service reads.

DXF R2000 (AC1015): the oldest edition with closed polylines that hold arcs (LWPOLYLINE with bulges), with a unit
($INSUNITS) and with layer names in plain words; every program since reads it, and many cutters' programs read no newer
one. Tags as in Autodesk's DXF reference for that edition. What is cut stands on three layers; words and the 100 mm line
on a fourth. What lies inside is drawn first, the outline last: a piece that is cut loose moves (common practice).
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

import ezdxf
from ezdxf import zoom

from fitwright.flat import Flat, Stock
from fitwright.outline import Outline, Point, Side
from fitwright.outline_forms import as_circle

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts import Modelspace

VERSION = "R2000"
MILLIMETRES, METRIC = 4, 1
"""$INSUNITS and $MEASUREMENT; they are the same whatever the YAML's units."""
OUTLINE, OPENINGS, HOLES, NOTES = "outline", "openings", "bolt holes", "notes not cut"
CUT_LAYERS = (OUTLINE, OPENINGS, HOLES)
_COLOURS = {OUTLINE: 7, OPENINGS: 5, HOLES: 3, NOTES: 8}
_ROUND_MM, _ROUND_BULGE = 6, 9
"""Decimals written: a nanometre, and an angle of 1e-9 rad; so the last bits of a sum of floats are no other file."""
_LETTERS_MM, _PITCH_MM, _FREE_MM = 4.0, 6.5, 10.0
CHECK_MM = 100.0

Corner = tuple[float, float, float]
"""x, y [mm] and the bulge of the side that starts there: tan(sweep / 4), 0 for a straight."""


def piece_dxf(flat: Flat, stock: Stock, name: str) -> bytes:
    """The drawing of a piece with its name, material and sizes beside it; the same piece gives the same bytes."""
    return dxf_bytes(flat, notes(flat, stock, name))


def dxf_bytes(flat: Flat, said: Sequence[str] = ()) -> bytes:
    """The drawing of a flat piece, seen from its front, with lines of words below it on a layer that is not cut."""
    fixed, ezdxf.options.write_fixed_meta_data_for_testing = ezdxf.options.write_fixed_meta_data_for_testing, True
    try:  # the library's own switch for files without date and random marks; it belongs to the whole process
        document = _document()
        _draw(document.modelspace(), flat, said)
        zoom.extents(document.modelspace())
        text = io.StringIO()
        document.write(text)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = fixed
    return text.getvalue().encode(document.output_encoding, errors="dxfreplace")


def notes(flat: Flat, stock: Stock, name: str) -> list[str]:
    """What a shop wants to know, all lengths in mm."""
    wide, high = flat.size_mm
    return [
        name,
        f"{stock.words}, {stock.thickness_mm:g} mm thick, 1 piece",
        f"{wide:.2f} x {high:.2f} mm, all lengths in mm; seen from the front",
    ]


def _document() -> Drawing:
    document = ezdxf.new(VERSION, units=MILLIMETRES)
    document.header["$MEASUREMENT"] = METRIC
    for name, colour in _COLOURS.items():
        document.layers.add(name, color=colour)
    return document


def _draw(space: Modelspace, flat: Flat, said: Sequence[str]) -> None:
    for hole in flat.holes:
        if hole.long_mm:
            _polyline(space, outline_corners(hole.outline), HOLES)
        else:
            _circle(space, hole.at, hole.d_mm / 2, HOLES)
    for layer, line in (*((OPENINGS, one) for one in flat.openings), (OUTLINE, flat.outline)):
        whole = as_circle(line)
        if whole is None:
            _polyline(space, outline_corners(line), layer)
        else:
            _circle(space, whole[0], whole[1] / 2, layer)
    _write(space, flat, said)


def _circle(space: Modelspace, centre: Point, radius_mm: float, layer: str) -> None:
    at = (_round(centre[0]), _round(centre[1]))
    space.add_circle(at, _round(radius_mm), dxfattribs={"layer": layer})


def _polyline(space: Modelspace, corners: Sequence[Corner], layer: str) -> None:
    points = [(_round(x), _round(y), round(bulge, _ROUND_BULGE) + 0.0) for x, y, bulge in corners]
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})


def _write(space: Modelspace, flat: Flat, said: Sequence[str]) -> None:
    """Words below the piece, and a line to hold a rule to."""
    left, lower, _, _ = flat.outline.bounds_mm
    of_notes = {"layer": NOTES}
    y = lower - _FREE_MM
    if said:
        space.add_line((_round(left), _round(y)), (_round(left + CHECK_MM), _round(y)), dxfattribs=of_notes)
    lines = [f"this line is {CHECK_MM:g} mm long", *said] if said else []
    for number, words in enumerate(lines, start=1):
        at = (_round(left), _round(y - number * _PITCH_MM))
        space.add_text(words, height=_LETTERS_MM, dxfattribs=of_notes).set_placement(at)


def outline_corners(line: Outline) -> list[Corner]:
    """The corners of a closed polyline; an arc of more than a half turn goes in two: no bulge beyond 1."""
    return [corner for side in line.sides for corner in _side(side)]


def _side(side: Side) -> Iterator[Corner]:
    if side.via is None:
        yield (*side.start, 0.0)
        return
    parts = 1 if abs(side.sweep_rad) <= math.pi + 1e-9 else 2
    for part in range(parts):
        yield (*side.at(part / parts), math.tan(side.sweep_rad / parts / 4.0))


def _round(mm: float) -> float:
    return round(mm, _ROUND_MM) + 0.0
