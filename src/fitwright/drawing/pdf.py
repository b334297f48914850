"""Sheets -> one PDF, a page a sheet, at true size; the same sheets give the same bytes."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from fitwright.drawing.sheet import Arc, Mark, Path, Sheet, View, Words

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

MM_PER_POINT = 25.4 / 72.0
"""A PDF's user unit is 1/72 in (ISO 32000-1, 8.3.2.3)."""


def pdf_bytes(sheets: Sequence[Sheet]) -> bytes:
    """All sheets as one PDF. Letters that Latin-1 lacks become question marks (the font is a standard one)."""
    from reportlab.pdfgen.canvas import Canvas

    held = io.BytesIO()
    canvas = Canvas(held, pageCompression=1, invariant=1)
    canvas.setTitle(sheets[0].title)
    canvas.setCreator("fitwright")
    for sheet in sheets:
        canvas.setPageSize((sheet.paper.width_mm / MM_PER_POINT, sheet.paper.height_mm / MM_PER_POINT))
        canvas.scale(1.0 / MM_PER_POINT, 1.0 / MM_PER_POINT)
        canvas.setLineCap(1)
        canvas.setLineJoin(1)
        for mark in sheet.marks:
            _draw(canvas, mark)
        canvas.showPage()
    canvas.save()
    return held.getvalue()


def _draw(canvas: Canvas, mark: Mark) -> None:
    if isinstance(mark, Words):
        _words(canvas, mark)
        return
    if isinstance(mark, View):
        _view(canvas, mark)
        return
    canvas.setStrokeGray(mark.grey)
    canvas.setLineWidth(mark.width_mm)
    canvas.setDash(*([list(mark.dash_mm)] if mark.dash_mm else [[]]))
    if mark.fill is not None:
        canvas.setFillGray(mark.fill)
    path = _path(canvas, mark) if isinstance(mark, Path) else _arc(canvas, mark)
    canvas.drawPath(path, stroke=int(mark.width_mm > 0.0), fill=int(mark.fill is not None), fillMode=0)


def _view(canvas: Canvas, mark: View) -> None:
    left, lower, right, upper = mark.window
    canvas.saveState()
    window = canvas.beginPath()
    window.rect(left, lower, right - left, upper - lower)
    canvas.clipPath(window, stroke=0, fill=0)
    canvas.translate(*mark.shift)
    for inner in mark.marks:
        _draw(canvas, inner)
    canvas.restoreState()


def _path(canvas: Canvas, mark: Path) -> Any:
    path = canvas.beginPath()
    for outline, closed in ((mark.points, mark.closed), *((hole, True) for hole in mark.holes)):
        path.moveTo(*outline[0])
        for point in outline[1:]:
            path.lineTo(*point)
        if closed:
            path.close()
    return path


def _arc(canvas: Canvas, mark: Arc) -> Any:
    (x, y), r = mark.centre, mark.radius_mm
    path = canvas.beginPath()
    if mark.sweep_deg >= 360.0:
        path.circle(x, y, r)
    else:
        path.arc(x - r, y - r, x + r, y + r, startAng=mark.start_deg, extent=mark.sweep_deg)
    return path


def _words(canvas: Canvas, mark: Words) -> None:
    text = mark.text.encode("latin-1", "replace").decode("latin-1")
    canvas.saveState()
    canvas.setFillGray(mark.grey)
    canvas.setFont("Helvetica-Bold" if mark.bold else "Helvetica", mark.size_mm)
    canvas.translate(*mark.at)
    canvas.rotate(mark.turn_deg)
    draw = {"start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString}
    draw[mark.anchor](0.0, 0.0, text)
    canvas.restoreState()
