"""A piece of hose with a spiral rib, drawn by its dimensions: the ribs are the hose's, no part of ours is cut."""

from __future__ import annotations

from fitwright.drawing.sheet import THIN_MM, Arc
from fitwright.report.worksheets.pad import Pad

_PITCH, _WIRE, _R, _RIBS, _SPAN = 12.0, 3.6, 33.0, 8, 5


def draw_ribs(pad: Pad) -> None:
    """Ribs cut above and below, half a pitch apart, and what is counted and measured at them."""
    view = pad.zoomed(0.46, 10.0, 19.5)
    view.axis((-8.0, 0.0), (_PITCH * _RIBS + 8.0, 0.0))
    for side, shift in ((1.0, 0.0), (-1.0, _PITCH / 2)):
        view.line((-4.0, side * _R), (_PITCH * _RIBS + 4.0, side * _R), 0.35)
        for k in range(_RIBS + (side > 0)):
            centre = (k * _PITCH + shift, side * (_R + _WIRE / 2))
            view.sheet.add(Arc(view.at(centre), _WIRE / 2 * view.scale, width_mm=0.25, fill=0.75))
    for k in range(_RIBS):
        near = ((k + 0.0) * _PITCH, _R)
        view.line(near, ((k + 0.5) * _PITCH, -_R), THIN_MM, (1.2, 0.9))
    crest = _R + _WIRE
    first, last = _PITCH, _PITCH * (1 + _SPAN)
    view.measure((first, crest), (last, crest), 4.5, "over")
    for k in range(1, _SPAN + 1):
        view.words((first + k * _PITCH, _R), str(k), 0.0, -3.4, "middle")
    view.lead((first + 2.5 * _PITCH, _R), 0.0, -9.0, "ribs")
    wire = _PITCH * (_RIBS - 0.5)
    view.lead((wire, -_R - _WIRE / 2), 7.0, 5.0, "wire")
    view.lead((_PITCH * 7.25, 0.0), 7.0, 5.0, "hand")
