"""The worksheet of a bolt pattern: holes numbered clockwise, distances between them over their outer edges."""

from __future__ import annotations

import math

from fitwright.drawing.hatch import thinned
from fitwright.drawing.sheet import Arc
from fitwright.report.worksheets.content import Blanks, Cautions, Figure, Figures, Form, Grid, Row, Rows, Worksheet
from fitwright.report.worksheets.example import Example, built
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.words import CAUTIONS, LAST_BLANKS, TOP_BLANKS

COUNT = 6
"""So many holes are drawn; more are numbered on."""
_PLATE = """\
part: reducer
end_a: {flange: {opening: 90, round: 190, holes: {count: 6, circle: 154, first_at: 0, size: M8}}}
end_b: {plain: {inside: 90}}
"""
_PAIRS = ("1-2", "2-3", "3-4", "4-5", "5-6", "6-1", "1-3", "2-4", "1-4", "2-5", "3-6", "")
_LEAD = (
    "Number the holes clockwise as you look at the machine's face, beginning at the top. Every distance more than the "
    "least is a check on the others: the program names the reading that does not fit."
)
_FORM = """\
measure: bolts
units: ____  # mm or in
holes: ____  # <holes>
hole: [____, ____, ____]  # <hole>
between:
  1-2: {outer: ____}  # <outer>
  2-3: {outer: ____}
  3-4: {outer: ____}
  1-3: ____  # <centres>
  2-4: {outer: ____}
"""
_MORE = (
    "where the pattern shall be placed about the opening, add",
    """\
opening:
  diameter: ____  # <bore>
  from:
    1: {near_edge: ____}  # <rim>
    2: {near_edge: ____}
    3: {near_edge: ____}
""",
)


def worksheet() -> Worksheet:
    """The sheet; builds a flange to draw the holes of."""
    plate = built(_PLATE)
    seen = "as you look at the machine: holes numbered clockwise from the top"
    read = "in large: over the outer edges of two holes, and what is left to the rim of the opening"
    return Worksheet(
        "bolt pattern",
        _LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(CAUTIONS),
            Figures(80.0, (Figure(86.0, seen, lambda pad: _face(pad, plate)), Figure(94.0, read, _close))),
            Rows("What is measured", _rows()),
            Grid(
                "Distances by hole numbers (as many as you can reach; 2 x holes - 3 is the least)",
                ("holes", "over outer edges", "again", "again", "or centre to centre"),
                _PAIRS,
            ),
            Grid(
                "From the rim of the opening, the shortest way, to the near edge of each hole",
                ("hole", "rim to near edge", "again", "again"),
                tuple(str(k + 1) for k in range(COUNT)),
            ),
            Form(
                "Type it in, a line for each pair that was read, then: fitwright measure FILE.yaml", _FORM, added=_MORE
            ),
            *(Blanks(line) for line in LAST_BLANKS[1:2]),
        ),
        marks={str(k + 1): str(k + 1) for k in range(COUNT)},
    )


def _rows() -> tuple[Row, ...]:
    return (
        Row("holes", "how many holes", "count", "all that the flange is bolted by", ("holes",), "count"),
        Row("hole", "diameter of the holes", "caliper, inner jaws", "3 different holes, clear of paint", ("hole",)),
        Row(
            "outer",
            "from hole to hole",
            "caliper",
            "over the outer edges of both; long ways by tape",
            ("between", "1-2", "outer"),
            "below",
        ),
        Row(
            "centres",
            "or centre to centre",
            "tape, rule",
            "same edge to same edge: left of one to left of the other",
            ("between", "1-3"),
            "below",
        ),
        Row(
            "bore", "diameter of the opening", "caliper or tape", "3 times round, 60 deg apart", ("opening", "diameter")
        ),
        Row(
            "rim",
            "what is left from the rim to a hole",
            "caliper",
            "the shortest way, at 3 holes or more",
            ("opening", "from", "1", "near_edge"),
            "below",
        ),
    )


def _face(pad: Pad, example: Example) -> None:
    view = pad.zoomed(0.33, 43.0, 40.0)
    for line in example.face(1.0):
        view.outline(thinned(line, 0.02), 0.35)
    holes = [(hole.start[0], hole.start[2]) for hole in example.part.bodies[0].holes]
    for number, (x, y) in enumerate(holes, start=1):
        view.sheet.cross(view.at((x, y)), 2.2)
        view.ring((x * 1.4, y * 1.4), str(number))
    view.axis(holes[0], holes[2])
    view.lead(((holes[0][0] + holes[2][0]) / 2, (holes[0][1] + holes[2][1]) / 2), 5.0, 5.0, "centres")
    view.axis(holes[1], holes[2])
    r = min((x * x + y * y) ** 0.5 for line in example.face(1.0) for x, y in line)
    view.measure((0.0, -r), (0.0, r), 0.01, "bore")
    view.lead((holes[4][0], holes[4][1] + 4.0), 5.0, 2.0, "hole")
    view.lead((holes[3][0] - 4.5, holes[3][1]), -8.0, 1.0, "holes")


def _close(pad: Pad) -> None:
    """Two holes and the rim, by their dimensions."""
    view = pad.zoomed(1.0, 20.0, 42.0)
    d, apart = 14.0, 50.0
    for x in (0.0, apart):
        view.circle((x, 0.0), d / 2, 0.4)
        view.sheet.cross(view.at((x, 0.0)), 9.0)
    view.measure((-d / 2, 4.0), (apart + d / 2, 4.0), 15.0, "outer")
    centre, r = (apart / 2, -120.0), 96.0
    view.sheet.add(Arc(view.at(centre), r, 66.0, 48.0, width_mm=0.4))
    edge = _towards((apart, 0.0), centre, d / 2)
    view.measure(edge, _towards(centre, (apart, 0.0), r), 0.01, "rim")
    view.words((apart / 2, -31.0), "opening", 0.0, 0.0, "middle")


def _towards(a: tuple[float, float], b: tuple[float, float], by: float) -> tuple[float, float]:
    share = by / math.dist(a, b)
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
