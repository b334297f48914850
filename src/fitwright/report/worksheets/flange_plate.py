"""The flange plate's worksheet: an old inlet seen from its front, its plate and gasket from the side."""

from __future__ import annotations

import math

from fitwright.drawing.hatch import thinned
from fitwright.report.worksheets.content import Blanks, Cautions, Figure, Figures, Form, Row, Rows, Worksheet
from fitwright.report.worksheets.example import Example, built
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.words import CAUTIONS, LAST_BLANKS, TOP_BLANKS

WIDE, HIGH, OPENING, UP, CIRCLE, FIRST = 190.0, 160.0, 86.0, 14.0, 150.0, 40.0
"""The plate that is drawn [mm, deg]."""
PLATE, GASKET = 6.0, 8.0
"""Drawn thicker than they are, so that letters find room."""
_EXAMPLE = f"""\
part: flange_plate
rectangle: {{width: {WIDE}, height: {HIGH}, corner: 8}}
openings: {{round: {OPENING}, at: {{up: {UP}}}}}
holes: {{count: 4, circle: {CIRCLE}, first_at: {FIRST}, size: M6}}
"""
_LEAD = (
    "Stand in front of the plate, the machine behind it: right and up as you see them. Everything is measured from the "
    "plate's middle. Read three times and write all down; leave a box empty where the program is to choose. For bolts "
    "in no regular pattern use the bolt pattern's sheet."
)
_ROUND = """\
round: ____  # <round>
"""
_FORM = f"""\
part: flange_plate
units: ____  # mm or in
{_ROUND}openings:
  round: ____  # <opening>
  at: {{up: ____}}  # <up>
holes:
  count: ____  # <count>
  circle: ____  # <circle>
  first_at: ____  # <first>
  size: ____  # <size>
  read_with: ____  # <read>
"""
_OTHERS = (("in place of round", "rectangle: {width: ____, height: ____}  # <width>, <height>\n"),)
_ADDED = (
    "cut from sheet and not printed, with a gasket, add",
    """\
sheet:
  material: ____  # <sheet>
  thickness: ____  # <thick>
gasket:
  material: ____  # <gasket>
  thickness: ____  # <soft>
""",
)
_NOTE = "Holes that a tape found come out coarse. Several openings or patterns: see docs/families/flange_plate.md."


def worksheet() -> Worksheet:
    """The sheet; builds a plate to draw."""
    plate = built(_EXAMPLE)
    figures = (
        Figure(118.0, "from its front, the machine behind it", lambda pad: _front(pad, plate)),
        Figure(62.0, "cut, from your right-hand side (thickness not to scale)", _side),
    )
    return Worksheet(
        "flange plate",
        _LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(CAUTIONS),
            Figures(96.0, figures),
            Rows("The plate", _plate_rows()),
            Rows("Its bolts", _bolt_rows()),
            Rows("What it is made of", _made_rows(), once=True),
            Form(
                "Type it in: fitwright new flange_plate -o NAME.yaml writes a file to start from. It comes down to:",
                _FORM,
                _ROUND,
                _OTHERS,
                _ADDED,
                _NOTE,
            ),
            *(Blanks(line) for line in LAST_BLANKS),
        ),
    )


def _plate_rows() -> tuple[Row, ...]:
    room = "as much as there is room for; empty: as holes and opening need"
    return (
        Row("width", "width of the plate", "tape", room, ("rectangle", "width")),
        Row("height", "height of the plate", "tape", "the side that stands up", ("rectangle", "height")),
        Row("round", "or diameter of a round plate", "tape", "in place of width and height", ("round",)),
        Row("opening", "diameter of the opening", "caliper or tape", "3 times round", ("openings", "round")),
        Row("up", "its middle above the plate's", "tape", "0, or empty, in the middle", ("openings", "at", "up")),
    )


def _bolt_rows() -> tuple[Row, ...]:
    return (
        Row("count", "how many bolts", "count", "that the plate is held by", ("holes", "count"), "count"),
        Row(
            "circle",
            "circle through their middles",
            "caliper or tape",
            "over the outer edges of two opposite holes, less one hole",
            ("holes", "circle"),
        ),
        Row("first", "angle of the first", "set square", "clockwise from straight up", ("holes", "first_at"), "angle"),
        Row("size", "the bolt by its name", "caliper", "6 mm outside: M6; 1/4 in", ("holes", "size"), "word"),
        Row("read", "what it was read with", "-", "caliper, tape or tracing", ("holes", "read_with"), "word"),
    )


def _made_rows() -> tuple[Row, ...]:
    return (
        Row("sheet", "material of the sheet", "-", "steel, aluminium, acrylic", ("sheet", "material"), "word"),
        Row("thick", "thickness of the sheet", "caliper", "clear of the burr", ("sheet", "thickness")),
        Row("gasket", "material of the gasket", "-", "foam rubber, cork, paper", ("gasket", "material"), "word"),
        Row("soft", "thickness of the gasket", "caliper", "not squeezed", ("gasket", "thickness")),
    )


def _front(pad: Pad, example: Example) -> None:
    view = pad.zoomed(0.42, 62.0, 50.0)
    for line in example.face(1.0):
        view.outline(thinned(line, 0.02), 0.35)
    view.axis((-WIDE / 2 - 8.0, 0.0), (WIDE / 2 + 8.0, 0.0))
    view.axis((0.0, -HIGH / 2 - 8.0), (0.0, HIGH / 2 + 8.0))
    view.circle((0.0, 0.0), CIRCLE / 2, 0.2, dashed=True)
    holes = [_on_circle(FIRST + 90.0 * k) for k in range(4)]
    for hole in holes:
        view.sheet.cross(view.at(hole), 2.2)
    view.measure((-WIDE / 2, -HIGH / 2), (WIDE / 2, -HIGH / 2), -6.0, "width")
    view.measure((-WIDE / 2, -HIGH / 2), (-WIDE / 2, HIGH / 2), 8.0, "height")
    view.axis((-OPENING / 2 - 6.0, UP), (OPENING / 2 + 6.0, UP))
    turn = math.radians(215.0)
    rim = OPENING / 2 * math.cos(turn), UP + OPENING / 2 * math.sin(turn)
    view.lead(rim, 9.0, 4.0, "opening")
    view.measure((16.0, 0.0), (16.0, UP), -0.01, "up")
    view.lead(_on_circle(FIRST + 45.0), 12.0, -9.0, "circle")
    view.lead(holes[0], 12.0, 4.0, "count")
    view.lead(holes[1], 12.0, -4.0, "size")
    view.lead(holes[2], -1.0, 11.0, "read")
    view.lead(_on_circle(FIRST / 2), 1.0, 9.0, "first")
    view.lead((-WIDE / 2 + 2.0, HIGH / 2 - 2.0), -6.0, 5.0, "round")


def _on_circle(deg: float) -> tuple[float, float]:
    turn = math.radians(deg)
    return CIRCLE / 2 * math.sin(turn), CIRCLE / 2 * math.cos(turn)


def _side(pad: Pad) -> None:
    """Plate and gasket cut beside the opening: two bars each."""
    view = pad.zoomed(0.42, 26.0, 50.0)
    low, high = UP - OPENING / 2, UP + OPENING / 2
    for bottom, top in ((-HIGH / 2, low), (high, HIGH / 2)):
        view.printed([_box(0.0, PLATE, bottom, top)])
        view.bought([_box(PLATE, PLATE + GASKET, bottom, top)])
    view.lead((PLATE / 2, HIGH / 2 - 8.0), -7.0, 3.0, "thick")
    view.lead((PLATE / 2, -HIGH / 2 + 8.0), -7.0, -3.0, "sheet")
    view.lead((PLATE + GASKET / 2, HIGH / 2 - 8.0), 9.0, 3.0, "soft")
    view.lead((PLATE + GASKET / 2, -HIGH / 2 + 8.0), 9.0, -3.0, "gasket")
    view.words((PLATE + GASKET, 0.0), "machine", 5.0, -1.0)
    view.words((0.0, 0.0), "you", -5.0, -1.0, "end")


def _box(left: float, right: float, low: float, high: float) -> tuple[tuple[float, float], ...]:
    return (left, low), (right, low), (right, high), (left, high)
