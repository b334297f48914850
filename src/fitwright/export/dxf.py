"""The DXF of a body that is cut from sheet: the drawing of its flat, read back before it goes on."""

from __future__ import annotations

from fitwright.drawing.dxf import MILLIMETRES, piece_dxf
from fitwright.drawing.dxf_read import read_dxf
from fitwright.errors import ExportError
from fitwright.part import Body


def body_dxf(body: Body, name: str) -> bytes:
    """The drawing, called `name` in its notes.

    Raises
    ------
    ExportError
        The body has no flat drawing or is not cut from stock, or the drawing does not read back as closed lines in mm.
    """
    if body.flat is None or body.stock is None:
        raise ExportError(f"{name}: no flat drawing belongs to it; nothing was written")
    data = piece_dxf(body.flat, body.stock, name)
    found = read_dxf(data)
    lines = 1 + len(body.flat.openings) + len(body.flat.holes)
    if found.strange or found.insunits != MILLIMETRES or len(found.loops) != lines:
        why = "; ".join(found.strange) or f"{len(found.loops)} closed lines for {lines}"
        raise ExportError(f"{name}: the DXF does not read back as it was meant ({why}); nothing was written")
    return data
