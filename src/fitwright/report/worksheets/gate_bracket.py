"""The gate bracket's worksheet: the gate from above and from its side, and the cylinder, with letters."""

from __future__ import annotations

from fitwright.drawing.sheet import THIN_MM
from fitwright.report.worksheets.content import Blanks, Cautions, Figure, Figures, Form, Rows, Worksheet
from fitwright.report.worksheets.gate_rows import CYLINDER_ROWS, GATE_ROWS, MORE_ROWS
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.words import LAST_BLANKS, TOP_BLANKS

_LEAD = (
    "Lay the gate on the bench, the blade coming out away from you. Slide it by hand ten times: what sticks now will "
    "stick with a cylinder on it. Read three times, write all three down and ring the unit. Leave a box empty where "
    "you do not know: it is then assumed, and the report says so."
)
_CAUTIONS = (
    "Switch the machine off and pull its plug. Shut the air off and let it out before you touch the cylinder: a rod "
    "may still move, and a blade shears.",
)
_CYLINDER = """\
cylinder:
  code: ________  # <code>
  rod_stub: [____, ____, ____]  # <stub>
  rod_thread_length: ____  # <tip>
  rod_flats: ____  # <flats>
  nose: {thread: ____, length: ____,  # <nose> <nose_long>
    nut: {across_flats: ____, height: ____}}  # <nut> <nut_high>
  length: ____  # <long>
  ports: ____  # <ports>: up, down, left, right
"""
_ALONE = """\
cylinder:
  bore: ____  # <bore>
  stroke: ____  # <stroke>
  rod: ____  # <rod>
  rod_thread: ________  # <rod_thread>
  rod_thread_length: ____  # <tip>
  rod_stub: [____, ____, ____]  # <stub>
  nose: {thread: ____, length: ____,  # <nose> <nose_long>
    nut: {across_flats: ____, height: ____}}  # <nut> <nut_high>
  body: {round: ____}  # <barrel>
  length: ____  # <long>
  ports: ____  # <ports>: up, down, left, right
"""
_FORM = f"""\
part: gate_bracket
units: ____  # mm or in
gate:
  sticks_out:
    shut: [____, ____, ____]  # <shut>
    open: [____, ____, ____]  # <open>
  blade:
    width: ____  # <wide>
    thickness: [____, ____, ____]  # <thick>
    hole: ____  # <hole>
    hole_to_edge: ____  # <hole_edge>
    material: ________  # <sheet>
  body: {{width: ____, thickness: ____,  # <body_wide> <body_thick>
    far_end: ____}}  # <far_end>: open or closed
  port: {{diameter: ____, to_edge: ____}}  # <port> <port_edge>
  screws: {{across: ____, from_edge: ____,  # <across> <from_edge>
    size: ____}}  # <size>
  drag: ____  # <drag>, with its unit
{_CYLINDER}material: ________  # filament; PETG where empty
"""
_OTHERS = (("in place of this cylinder: one of no table, by readings alone", _ALONE),)
_ADDED = ("where it is known, add", "mounted: ________  # <mounted>\npressure: ____  # with its unit: 6 bar\n")
_TITLE = "Type it in: fitwright new gate_bracket -o NAME.yaml writes a file to start from. It comes down to:"
_NOTE = (
    "Type a list of readings as it stands: [126.0, 126.5]; leave a line out where its boxes are empty. No screw near "
    "the edge: clamp: {size: M5} or, on pipe stubs, saddle: {band: 12}. No hole in the blade: leave hole and "
    "hole_to_edge out."
)
_SCALE = 0.33
_EDGE_MM = 62.0
"""The body edge stands so high in both views of the gate [mm of paper]."""
_SHUT, _OPEN = 20.0, 126.0
_BLADE, _BODY, _LONG = 118.0, 150.0, 150.0
_PORT, _TO_EDGE = 102.0, 72.0
_ACROSS, _FROM_EDGE, _HOLE_EDGE = 132.0, 12.0, 8.0


def worksheet() -> Worksheet:
    """The sheet."""
    above = "the gate from above, shut; dashed: the blade pulled out"
    side = "from its left-hand side (not to scale)"
    ram = "an air cylinder, rod pushed in; dashed: rod out"
    figures = (Figure(112.0, above, _above), Figure(58.0, side, _side))
    return Worksheet(
        "gate bracket",
        _LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(_CAUTIONS),
            Figures(112.0, figures),
            Rows("What the gate tells", GATE_ROWS),
            Rows("What makes it surer", MORE_ROWS),
            Figures(58.0, (Figure(170.0, ram, _cylinder),)),
            Rows(
                "What the cylinder tells: by its name and what was read beside it, or by readings alone", CYLINDER_ROWS
            ),
            Form(_TITLE, _FORM, _CYLINDER, _OTHERS, _ADDED, _NOTE),
            Blanks(LAST_BLANKS[1]),
        ),
    )


def _above(pad: Pad) -> None:
    """y = 0 is the body edge, the blade comes out upwards."""
    view = pad.zoomed(_SCALE, 58.0, _EDGE_MM)
    half, blade = _BODY / 2, _BLADE / 2
    view.outline(((-blade, -_LONG), (blade, -_LONG), (blade, _OPEN), (-blade, _OPEN)), 0.2, dashed=True)
    view.outline(((-half, -_LONG), (half, -_LONG), (half, 0.0), (-half, 0.0)), 0.4, 0.95)
    view.outline(((-blade, 0.0), (blade, 0.0), (blade, _SHUT), (-blade, _SHUT)), 0.35, 0.8)
    view.circle((0.0, -_TO_EDGE), _PORT / 2, 0.35)
    view.sheet.cross(view.at((0.0, -_TO_EDGE)), 3.0)
    hole = (0.0, _SHUT - _HOLE_EDGE)
    view.circle(hole, 4.0, 0.35)
    for side in (-1.0, 1.0):
        view.circle((side * _ACROSS / 2, -_FROM_EDGE), 3.0, 0.35)
    _directions(pad.zoomed(1.0, 4.0, 90.0))
    view.measure((-blade, 0.0), (-blade, _SHUT), 22.0, "shut")
    view.measure((-blade, 0.0), (-blade, _OPEN), 8.0, "open")
    view.measure((-blade, _OPEN), (blade, _OPEN), 4.0, "wide")
    view.measure((half, -_LONG), (-half, -_LONG), 7.0, "body_wide")
    view.measure((_ACROSS / 2, -_FROM_EDGE), (_ACROSS / 2, 0.0), -16.0, "from_edge")
    view.measure((-_ACROSS / 2, -_FROM_EDGE), (_ACROSS / 2, -_FROM_EDGE), -4.0, "across")
    view.measure((-_PORT / 2, -_TO_EDGE), (_PORT / 2, -_TO_EDGE), -7.0, "port")
    view.measure((0.0, -_TO_EDGE), (0.0, 0.0), 34.0, "port_edge")
    view.measure(hole, (0.0, _SHUT), -8.0, "hole_edge")
    view.lead((2.8, hole[1] + 2.8), -10.0, 13.0, "hole")
    view.lead((_ACROSS / 2 + 2.2, -_FROM_EDGE - 2.2), 12.0, -8.0, "size")
    view.lead((40.0, _SHUT), 4.0, 10.0, "sheet")
    view.lead((half, -_LONG + 20.0), 8.0, 0.0, "far_end")
    view.lead((-20.0, _OPEN), -6.0, -10.0, "drag")


def _directions(at: Pad) -> None:
    at.arrow((0.0, 0.0), (0.0, 9.0))
    at.arrow((0.0, 0.0), (9.0, 0.0))
    at.words((0.0, 9.0), "away", 1.2, -1.0)
    at.words((9.0, 0.0), "right", 1.0, -0.8)


def _side(pad: Pad) -> None:
    """Thickness is drawn larger than it is."""
    view = pad.zoomed(1.0, 22.0, _EDGE_MM)
    low, high, top = -_LONG * _SCALE, _SHUT * _SCALE, 0.0
    for left, right in ((-9.0, -1.8), (1.8, 9.0)):
        view.outline(((left, low), (right, low), (right, top), (left, top)), 0.4, 0.95)
    view.outline(((-1.5, low + 3.0), (1.5, low + 3.0), (1.5, high), (-1.5, high)), 0.35, 0.8)
    view.measure((-9.0, low), (9.0, low), -7.0, "body_thick")
    view.measure((-1.5, high), (1.5, high), 6.0, "thick")
    view.words((9.0, low + 20.0), "up", 5.0, 0.0)
    view.arrow((10.0, low + 18.0), (18.0, low + 18.0))
    view.lead((0.0, high), -9.0, 14.0, "mounted")
    view.words((9.0, 0.0), "body edge", 1.5, -0.8)


def _threaded(view: Pad, x0: float, x1: float, r: float) -> None:
    view.outline(((x0, -r), (x1, -r), (x1, r), (x0, r)), 0.3, 1.0)
    for k in range(1, int((x1 - x0) / 2.0)):
        view.line((x0 + 2.0 * k, -r), (x0 + 2.0 * k, r), THIN_MM)


def _cylinder(pad: Pad) -> None:
    """Tip of the rod at the left, x = 0 the face that the bracket lies against; mm of paper."""
    view = pad.zoomed(1.0, 62.0, 30.0)
    view.axis((-56.0, 0.0), (82.0, 0.0))
    view.outline(((0.0, -11.0), (98.0, -11.0), (98.0, 11.0), (0.0, 11.0)), 0.4, 0.95)
    _threaded(view, -16.0, 0.0, 8.0)
    view.outline(((-9.0, -11.0), (-3.0, -11.0), (-3.0, 11.0), (-9.0, 11.0)), 0.35, 0.9)
    view.outline(((-24.0, -3.5), (-16.0, -3.5), (-16.0, 3.5), (-24.0, 3.5)), 0.3, 1.0)
    _threaded(view, -38.0, -24.0, 2.6)
    view.outline(((-52.0, -2.6), (-38.0, -2.6), (-38.0, 2.6), (-52.0, 2.6)), 0.2, dashed=True)
    view.outline(((8.0, 8.0), (14.0, 8.0), (14.0, 11.0), (8.0, 11.0)), 0.3, 1.0)
    view.measure((-24.0, 11.0), (0.0, 11.0), 14.0, "stub")
    view.measure((-16.0, 11.0), (0.0, 11.0), 7.0, "nose_long")
    view.measure((-38.0, 3.0), (-24.0, 3.0), 15.0, "tip")
    view.measure((-52.0, -2.6), (-38.0, -2.6), -9.0, "stroke")
    view.measure((0.0, -11.0), (98.0, -11.0), -7.0, "long")
    view.measure((-9.0, -11.0), (-3.0, -11.0), -5.0, "nut_high")
    view.measure((88.0, -11.0), (88.0, 11.0), 0.0, "barrel")
    view.lead((-31.0, -2.6), 0.0, -9.0, "rod_thread")
    view.lead((-20.0, -3.5), -4.0, -13.0, "flats")
    view.lead((-18.0, 3.5), -6.0, 8.0, "rod")
    view.lead((-13.0, -8.0), -3.0, -15.0, "nose")
    view.lead((-3.0, 11.0), 7.0, 4.0, "nut")
    view.lead((11.0, 11.0), 6.0, 8.0, "ports")
    view.lead((40.0, 11.0), 5.0, 8.0, "code")
    view.lead((60.0, 11.0), 5.0, 8.0, "bore")
