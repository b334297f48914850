"""The hose hanger's worksheet: what is held, and where it is fixed, with letters."""

from __future__ import annotations

import math

from fitwright.drawing.sheet import THIN_MM
from fitwright.report.worksheets.content import Blanks, Cautions, Figure, Figures, Form, Rows, Worksheet
from fitwright.report.worksheets.hanger_rows import CARRIED_ROWS, JOIST_ROWS, PLACE_ROWS
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.words import LAST_BLANKS, TOP_BLANKS

_LEAD = (
    "What is held is the OUTSIDE: of a ribbed hose over its ribs. Its inside, by which it is called, does not tell it. "
    "Read three times, write all three down and ring the unit. Leave a box empty where you do not know. Of the places "
    "only those of your own mount are wanted."
)
_CAUTIONS = (
    "Stand on something that does not move, and look for cables and pipes in wall and ceiling before you drill. What "
    "hangs above people gets a second fixing. Local building rules come first.",
)
_JOIST = """\
  joist_side: {side: ____, to_axis: ____,  # <side> <axis>
    joist: {width: ____, depth: ____}}  # <joist> <deep>
"""
_HOLES = """\
  holes: {side: left, size: M6, points:  # side as <side>
    [{up: ____}, {down: ____}]}  # <hole_up> <hole_down>
"""
_HOSE = """\
hose:
  over_ribs: {circumference: ____}  # <round>
  inside: ____  # <inside>
  squeezes_to: ____  # <flat>
"""
_FORM = f"""\
part: hose_hanger
units: ____  # mm or in
{_HOSE}saddle: {{strap: 25}}
mount:
{_JOIST}spacing: ____  # <spacing>
elbow: ____  # <elbow>
above: ____  # <above>: people, cutter or nothing
material: ________  # filament; PETG where empty
"""
_OTHERS = (
    ("in place of joist_side: a T-slot rail", "  t_slot: {slot: ____, side: left}  # <slot>\n"),
    ("... a cable tie round a bar", "  cable_tie: {bar: ____}  # <bar>\n"),
    ("... a threaded rod", "  rod: {drop: ____, size: M8}  # <drop>\n"),
    ("... a batten between joists", "  batten: {near: {left: ____}, far: {right: ____}}  # <near> <far>\n"),
    ("... screws that are there", _HOLES),
)
_TITLE = "Type it in: fitwright new hose_hanger -o NAME.yaml writes a file to start from. It comes down to:"
_NOTE = (
    "One word may do as a mount: mount: joist_underside, wall, ceiling, shelf, strut. In place of saddle: hook: yes, "
    "or clamp: {screws: M5}. A pipe in place of hose: pipe: {over: [110.2, 110.4], wall: 3.2}."
)
_R, _RIB = 54.0, 4.0
"""The hose that is drawn: radius over the ribs, height of a rib [mm]."""


def worksheet() -> Worksheet:
    """The sheet."""
    held = (
        Figure(60.0, "the hose, cut along", _hose),
        Figure(50.0, "pressed flat by hand", _flat),
        Figure(50.0, "or a pipe", _pipe),
    )
    places = (
        Figure(66.0, "on a joist, as you stand before it", _joist),
        Figure(34.0, "a T-slot, a bar", _rail),
        Figure(70.0, "a rod; a batten from joist to joist", _above),
    )
    along = (
        Figure(110.0, "from the side: hangers along the hose", _along),
        Figure(60.0, "holes that are there", _holes),
    )
    return Worksheet(
        "hose hanger",
        _LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(_CAUTIONS),
            Figures(52.0, held),
            Rows("What it carries: a hose or a pipe", CARRIED_ROWS),
            Figures(54.0, places),
            Rows("Where it is fixed: on a joist", JOIST_ROWS),
            Figures(48.0, along),
            Rows("On something else: the lines of your own mount, and what is near", PLACE_ROWS),
            Form(_TITLE, _FORM, _JOIST, _OTHERS, note=_NOTE),
            *(Blanks(line) for line in LAST_BLANKS[:2]),
        ),
    )


def _ribbed(r: float, long: float, count: int) -> list[tuple[float, float]]:
    """The upper outline of a ribbed hose, from x = 0 to `long`."""
    step, low = long / count, r - _RIB
    points = []
    for k in range(count):
        x = k * step
        points += [(x, low), (x + 0.25 * step, r), (x + 0.5 * step, r), (x + 0.75 * step, low)]
    return [*points, (long, low)]


def _hose(pad: Pad) -> None:
    view = pad.zoomed(0.36, 12.0, 26.5)
    top = _ribbed(_R, 90.0, 6)
    view.outline([*top, *((x, -y) for x, y in reversed(top))], 0.35, 0.95)
    inside = _R - _RIB - 1.0
    for side in (1.0, -1.0):
        view.line((0.0, side * inside), (90.0, side * inside), THIN_MM, (1.6, 1.0))
    view.axis((-8.0, 0.0), (98.0, 0.0))
    view.outline(((34.0, -_R - 2.0), (41.0, -_R - 2.0), (41.0, _R + 2.0), (34.0, _R + 2.0)), 0.3, 0.8)
    view.words((34.0, _R), "strip of paper", -9.0, 2.2)
    view.lead((37.0, -_R - 2.0), 7.0, -0.5, "round")
    view.measure((78.0, -inside), (78.0, inside), 0.0, "inside")


def _flat(pad: Pad) -> None:
    view = pad.zoomed(0.36, 24.0, 26.0)
    low, wide = 41.0, 66.0
    ring = [(wide * math.cos(t), low * math.sin(t)) for t in (2 * math.pi * k / 72 for k in range(72))]
    view.outline(ring, 0.4, 0.92)
    view.outline([(0.9 * x, 0.88 * y) for x, y in ring], 0.25, 1.0)
    for side in (1.0, -1.0):
        view.arrow((-38.0, side * 64.0), (-38.0, side * 36.0))
    view.measure((0.0, -low), (0.0, low), 0.0, "flat")


def _pipe(pad: Pad) -> None:
    view = pad.zoomed(0.36, 26.0, 26.0)
    view.circle((0.0, 0.0), 55.0, 0.4)
    view.circle((0.0, 0.0), 50.0, 0.3)
    view.sheet.cross(view.at((0.0, 0.0)), 3.0)
    view.measure((-55.0, 0.0), (55.0, 0.0), -3.0, "pipe")
    view.lead((37.0, 37.0), 4.0, 5.0, "thick")


def _hanger(view: Pad, r: float = 55.0) -> None:
    """A saddle round the origin, on a surface to its left at x = -90."""
    turns = [math.pi + math.pi * k / 24 for k in range(25)]
    outer = [((r + 9.0) * math.cos(t), (r + 9.0) * math.sin(t)) for t in turns]
    inner = [(r * math.cos(t), r * math.sin(t)) for t in reversed(turns)]
    view.outline([*outer, *inner], 0.35, 0.85)
    view.outline(((-90.0, -95.0), (-82.0, -95.0), (-82.0, 95.0), (-90.0, 95.0)), 0.35, 0.85)
    view.outline(((-82.0, -40.0), (-60.0, -20.0), (-60.0, 0.0), (-82.0, 0.0)), 0.3, 0.85)


def _joist(pad: Pad) -> None:
    view = pad.zoomed(0.2, 40.0, 28.0)
    view.outline(((-128.0, -80.0), (-90.0, -80.0), (-90.0, 105.0), (-128.0, 105.0)), 0.35, 0.95)
    _hanger(view)
    view.circle((0.0, 0.0), 54.0, 0.25, dashed=True)
    view.sheet.cross(view.at((0.0, 0.0)), 3.0)
    view.measure((-90.0, -95.0), (0.0, -95.0), -5.0, "axis")
    view.measure((-128.0, 105.0), (-90.0, 105.0), 5.0, "joist")
    view.measure((-128.0, -80.0), (-128.0, 105.0), 5.0, "deep")
    view.lead((-86.0, 60.0), 10.0, 4.0, "side")


def _rail(pad: Pad) -> None:
    view = pad.zoomed(0.5, 18.0, 37.0)
    outer = ((-20.0, -10.0), (20.0, -10.0), (20.0, 20.0), (4.1, 20.0), (4.1, 14.0), (10.0, 14.0), (5.0, 6.0))
    view.outline([*outer, *((-x, y) for x, y in reversed(outer[2:]))], 0.35, 0.92)
    view.measure((-4.1, 20.0), (4.1, 20.0), 4.0, "slot")
    bar = pad.zoomed(0.5, 18.0, 16.0)
    bar.circle((0.0, 0.0), 12.5, 0.4)
    bar.measure((-12.5, 0.0), (12.5, 0.0), -9.0, "bar")


def _above(pad: Pad) -> None:
    """A rod with its clamp at the left, a batten under two joists at the right."""
    rod = pad.zoomed(0.18, 13.0, 14.0)
    rod.circle((0.0, 0.0), 30.0, 0.35)
    rod.line((0.0, 38.0), (0.0, 180.0), 0.5)
    rod.line((-30.0, 180.0), (30.0, 180.0), 0.5)
    rod.measure((0.0, 0.0), (0.0, 180.0), 6.0, "drop")
    view = pad.zoomed(0.1, 41.0, 16.0)
    view.circle((0.0, 0.0), 55.0, 0.35)
    view.outline(((-190.0, 110.0), (260.0, 110.0), (260.0, 150.0), (-190.0, 150.0)), 0.35, 0.85)
    for x in (-150.0, 220.0):
        view.outline(((x - 25.0, 150.0), (x + 25.0, 150.0), (x + 25.0, 330.0), (x - 25.0, 330.0)), 0.3, 0.95)
    view.axis((0.0, -70.0), (0.0, 370.0))
    view.measure((-150.0, 110.0), (0.0, 110.0), -17.0, "near")
    view.measure((0.0, 110.0), (220.0, 110.0), -17.0, "far")


def _along(pad: Pad) -> None:
    view = pad.zoomed(0.06, 8.0, 26.0)
    view.line((0.0, 60.0), (1480.0, 60.0))
    view.line((0.0, -60.0), (1360.0, -60.0))
    view.line((1480.0, 60.0), (1480.0, -220.0))
    view.line((1360.0, -60.0), (1360.0, -220.0))
    for x in (200.0, 1000.0):
        view.outline(((x - 30.0, -80.0), (x + 30.0, -80.0), (x + 30.0, 200.0), (x - 30.0, 200.0)), 0.35, 0.85)
    view.line((0.0, 200.0), (1560.0, 200.0), 0.5)
    view.axis((1420.0, 120.0), (1420.0, -60.0))
    view.measure((200.0, 60.0), (1000.0, 60.0), 13.0, "spacing")
    view.measure((1000.0, -60.0), (1420.0, -60.0), -9.0, "elbow")
    view.lead((600.0, -60.0), 0.0, -12.0, "above")


def _holes(pad: Pad) -> None:
    view = pad.zoomed(0.2, 34.0, 24.0)
    view.outline(((-95.0, -100.0), (-85.0, -100.0), (-85.0, 100.0), (-95.0, 100.0)), 0.35, 0.95)
    view.circle((0.0, 0.0), 55.0, 0.35)
    view.axis((-110.0, 0.0), (70.0, 0.0))
    for y in (75.0, -75.0):
        view.axis((-105.0, y), (-70.0, y))
    view.measure((-95.0, 0.0), (-95.0, 75.0), 7.0, "hole_up")
    view.measure((-95.0, -75.0), (-95.0, 0.0), 7.0, "hole_down")
