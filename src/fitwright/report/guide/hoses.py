"""Drawings of hose: inside by a stepped plug, pushed oval, pitch of the ribs and which hand they wind."""

from __future__ import annotations

import math

from fitwright.drawing.sheet import MEDIUM_MM, THICK_MM, Path, Sheet
from fitwright.report.guide.marks import (
    CUT,
    METAL,
    area,
    axis,
    box,
    disc,
    ellipse,
    measure,
    point_out,
    say,
    sheet,
)


def hose_inside() -> Sheet:
    """A stepped plug in a cut hose; the hose's end pushed oval; pitch over ten ribs."""
    on = sheet(88.0, "The inside of a hose")
    _cut_hose(on)
    steps = ((10.0, 12.0), (20.0, 14.0), (30.0, 16.0), (40.0, 18.0))
    x0 = 62.0
    outline = [(x0, 52.0 + 10.0)]
    for back, half in steps:
        outline += [(x0 - back + 10.0, 52.0 + half), (x0 - back, 52.0 + half)]
    area(on, [*outline, *[(x, 104.0 - y) for x, y in reversed(outline)]], METAL)
    axis(on, (14.0, 52.0), (111.0, 52.0))
    on.words((8.0, 74.0), "stepped plug", 2.2)
    point_out(on, (52.0, 82.0), (46.0, 66.2), "the largest step that goes in by hand")
    measure(on, (84.0, 36.8), (84.0, 67.2), 0.0, "A", 0.7)
    measure(on, (44.75, 32.0), (99.75, 32.0), -8.0, "P")
    say(on, (8.0, 10.0), ["P: over ten ribs (count gaps), divided by ten: the pitch"])
    say(on, (116.0, 82.0), ["pushed oval:"])
    on.add(Path(tuple(ellipse((138.0, 52.0), 46.0, 32.0)), closed=True, width_mm=THICK_MM, fill=CUT))
    on.add(Path(tuple(ellipse((138.0, 52.0), 42.0, 28.0)), closed=True, width_mm=MEDIUM_MM, fill=1.0))
    measure(on, (117.0, 52.0), (159.0, 52.0), 0.0, "a", 0.25)
    measure(on, (138.0, 38.0), (138.0, 66.0), 0.0, "b", 0.3)
    say(
        on,
        (116.0, 24.0),
        ["Its circumference stays.", "Once round inside / 3.1416,", "or a plug, says the true inside."],
    )
    return on


def _cut_hose(on: Sheet) -> None:
    """Both walls of a ribbed hose from x = 42 to 108, its inside 30.4 wide, a wire in every rib, pitch 5.5."""
    for sign in (1.0, -1.0):
        inner = 52.0 + sign * 15.2
        wave = [(42.0 + 0.5 * k, inner + sign * (2.6 - 1.4 * math.cos(math.tau * (0.5 * k) / 5.5))) for k in range(133)]
        area(on, [(42.0, inner), (108.0, inner), *reversed(wave)], CUT)
        for k in range(12):
            disc(on, (44.75 + 5.5 * k, inner + sign * 2.3), 1.4, 0.2, 0.0)
    box(on, 42.0, 36.8, 108.0, 67.2, 1.0)


def hose_hand() -> Sheet:
    """Two lengths of hose stood upright: ribs that climb to the right, and to the left."""
    on = sheet(74.0, "Which hand the ribs wind")
    for x, hand, sign in ((40.0, "right", 1.0), (110.0, "left", -1.0)):
        box(on, x - 14.0, 12.0, x + 14.0, 66.0, 0.96)
        for k in range(6):
            y = 16.0 + 8.0 * k
            points = [
                (x + 14.0 * math.sin(t), y + 3.0 + sign * 3.0 * t / (math.pi / 2))
                for t in (math.radians(a) for a in range(-90, 91, 6))
            ]
            on.add(Path(tuple(points), width_mm=1.2))
        on.words((x, 4.5), f"hand: {hand}", 2.8, "middle", bold=True)
        say(
            on,
            (x + 19.0, 44.0),
            ["Stood upright, the", "ribs in front climb", f"to the {hand}:  " + ("/" if sign > 0 else "\\")],
        )
    say(on, (129.0, 24.0), ["Turned upside down", "it stays the same."])
    return on
