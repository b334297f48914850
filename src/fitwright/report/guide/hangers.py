"""The drawing of a hose's outside, over its ribs: a strip of paper round it, and what goes wrong."""

from __future__ import annotations

import math

from fitwright.drawing.sheet import THICK_MM, Path, Sheet
from fitwright.report.guide.marks import CUT, METAL, area, axis, box, cross_out, ellipse, measure, say, sheet, tick_off

_HIGH, _LOW, _PITCH, _MIDDLE = 17.0, 13.8, 5.5, 52.0
"""Radius over the ribs and between them, pitch, height of the axis [mm of paper]."""


def hose_over_ribs() -> Sheet:
    """Strip of paper over the ribs; caliper jaws between ribs are wrong; pressed flat by hand."""
    on = sheet(88.0, "The outside of a hose, over its ribs")
    _ribbed(on, 14.0, 60.0)
    area(on, [(33.0, _MIDDLE - 17.6), (39.0, _MIDDLE - 17.6), (39.0, _MIDDLE + 17.6), (33.0, _MIDDLE + 17.6)], METAL)
    axis(on, (9.0, _MIDDLE), (65.0, _MIDDLE))
    measure(on, (52.5, _MIDDLE - _HIGH), (52.5, _MIDDLE + _HIGH), 0.0, "D", 0.7)
    tick_off(on, (11.0, 20.0))
    say(on, (17.0, 22.0), ["A strip of paper, snug over", "the ribs: C / 3.1416 = D"])
    _jaws(on)
    cross_out(on, (77.0, 13.0), 2.6)
    say(on, (82.0, 14.0), ["a jaw between two ribs:", "too small by two ribs"])
    wide = [(x, y) for x, y in ellipse((146.0, _MIDDLE), 44.0, 21.0)]
    on.add(Path(tuple(wide), closed=True, width_mm=THICK_MM, fill=CUT))
    on.add(Path(tuple(ellipse((146.0, _MIDDLE), 38.0, 15.0)), closed=True, width_mm=0.3, fill=1.0))
    measure(on, (146.0, _MIDDLE - 10.5), (146.0, _MIDDLE + 10.5), 0.0, "F")
    say(on, (126.0, 22.0), ["F: pressed flat by hand,", "as it goes into a hook"])
    return on


def _ribbed(on: Sheet, left: float, right: float) -> None:
    """A ribbed hose from its side."""
    count = round((right - left) / 0.5)
    wave = [
        (left + 0.5 * k, (_HIGH + _LOW) / 2 - (_HIGH - _LOW) / 2 * math.cos(math.tau * 0.5 * k / _PITCH))
        for k in range(count + 1)
    ]
    area(on, [(x, _MIDDLE + r) for x, r in wave] + [(x, _MIDDLE - r) for x, r in reversed(wave)], CUT)


def _jaws(on: Sheet) -> None:
    """Thin jaws that fall between the ribs."""
    _ribbed(on, 82.0, 115.0)
    x = 82.0 + 3 * _PITCH
    for low, high in ((_MIDDLE + _LOW, _MIDDLE + 30.0), (_MIDDLE - 30.0, _MIDDLE - _LOW)):
        box(on, x - 0.8, low, x + 0.8, high, METAL)
