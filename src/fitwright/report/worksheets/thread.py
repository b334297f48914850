"""The worksheet of threads whose names are not known: bolts, fittings, and the three threads of an air cylinder."""

from __future__ import annotations

from fitwright.drawing.sheet import THIN_MM
from fitwright.report.worksheets.content import Blanks, Cautions, Figure, Figures, Form, Grid, Row, Rows, Worksheet
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.words import LAST_BLANKS, TOP_BLANKS

_LEAD = (
    "Diameter and pitch together name a thread; one alone does not (5/16 in and M8 are 0.06 mm apart). Brush it "
    "clean, read three times, write all three down and ring the unit."
)
_CAUTIONS = (
    "Shut off and vent the air before you touch a cylinder or its fittings, and pull the machine's plug. A rod may "
    "still move.",
)
_FORM = """\
measure: thread
units: ____  # mm or in
outside: [____, ____, ____]  # <outside>
pitch: {over: ____, threads: ____}  # <over> <threads>
tapers: ____  # <tapers>: yes or no
what: ________  # <what>
"""
_OUTSIDE = "outside: [____, ____, ____]  # <outside>\n"
_OTHERS = (("in place of outside, for a nut or a tapped hole", "inside: [____, ____, ____]  # <inside>\n"),)
_MORE = ("where a thread gauge's leaf was used as well, add", "per_inch: ____  # <per_inch>\n")
_PITCH_MM, _TURNS, _COUNTED = 5.0, 11, 6


def worksheet() -> Worksheet:
    """The sheet."""
    cylinder = "an air cylinder: 1 rod end, 2 nose, 3 air port (a tapped hole)"
    return Worksheet(
        "thread",
        _LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(_CAUTIONS),
            Figures(
                56.0,
                (
                    Figure(92.0, "a bolt, rod or fitting: over its crests", _bolt),
                    Figure(88.0, "a nut or tapped hole, cut", _nut),
                ),
            ),
            Rows("What is measured", _rows()),
            Figures(44.0, (Figure(150.0, cylinder, _cylinder),)),
            Grid(
                "One line a thread (outside of a male one, inside of a female one)",
                ("which thread", "diameter", "again", "again", "over so many", "threads"),
                ("1 rod end", "2 nose", "3 air port", "", "", ""),
                26.0,
            ),
            Form(
                "Type it in, a file for each thread, then: fitwright measure FILE.yaml", _FORM, _OUTSIDE, _OTHERS, _MORE
            ),
            *(Blanks(line) for line in LAST_BLANKS[1:]),
        ),
        marks={"rod": "1", "nose": "2", "port": "3"},
    )


def _rows() -> tuple[Row, ...]:
    return (
        Row(
            "outside", "over the crests", "caliper", "3 times round, 60 deg apart, clear of the worn end", ("outside",)
        ),
        Row(
            "inside",
            "between the crests of a nut",
            "caliper, inner jaws",
            "3 times round; jaws square to the axis",
            ("inside",),
        ),
        Row(
            "over",
            "length over several threads",
            "caliper, rule",
            "crest to crest, as many as you can",
            ("pitch", "over"),
        ),
        Row("threads", "how many threads that is", "count", "the first crest is 0", ("pitch", "threads"), "count"),
        Row("per_inch", "or threads per inch", "thread gauge", "the leaf that shows no light", ("per_inch",), "count"),
        Row("tapers", "does it taper?", "caliper", "near its end and 10 mm further on: the same?", ("tapers",), "word"),
        Row("what", "what it is on", "look", "bolt, fitting or rod", ("what",), "word"),
    )


def _flanks(view: Pad, y: float, side: float, first: float, turns: int, half: float) -> None:
    """The saw-teeth of a thread along a line: 60 deg between flanks."""
    high = 0.6 * _PITCH_MM * side
    for k in range(turns):
        x = first + k * _PITCH_MM
        view.line((x, y - high + half), (x + _PITCH_MM / 2, y + half), 0.3)
        view.line((x + _PITCH_MM / 2, y + half), (x + _PITCH_MM, y - high + half), 0.3)


def _bolt(pad: Pad) -> None:
    view = pad.zoomed(1.0, 16.0, 26.0)
    r, long = 12.0, _PITCH_MM * _TURNS
    view.outline(((-10.0, -18.0), (0.0, -18.0), (0.0, 18.0), (-10.0, 18.0)), 0.4)
    view.axis((-13.0, 0.0), (long + 5.0, 0.0))
    for side in (1.0, -1.0):
        _flanks(view, side * r, side, 0.0, _TURNS, 0.0)
    for k in range(_TURNS):
        x = (k + 0.5) * _PITCH_MM
        view.line((x, r), (x, -r), THIN_MM)
    view.line((long, r - 3.0), (long, -r + 3.0), 0.3)
    first = 2.5 * _PITCH_MM
    view.measure((first, r), (first + _COUNTED * _PITCH_MM, r), 8.0, "over")
    view.measure((long - _PITCH_MM / 2, -r), (long - _PITCH_MM / 2, r), -12.0, "outside")
    for k in range(_COUNTED + 1):
        view.words((first + k * _PITCH_MM, r), str(k), 0.0, 1.5, "middle")
    view.lead((first + _COUNTED * _PITCH_MM, -r), 4.0, -7.0, "threads")
    view.lead((first, -r), -2.0, -7.0, "per_inch")
    view.lead((_PITCH_MM * 5.5, -r), 0.0, -7.0, "tapers")
    view.lead((-5.0, -18.0), 6.0, -5.0, "what")


def _nut(pad: Pad) -> None:
    view = pad.zoomed(1.0, 26.0, 26.0)
    r, turns = 10.0, 7
    long = _PITCH_MM * turns
    for side in (1.0, -1.0):
        teeth = [(k * _PITCH_MM / 2, side * (r + (3.0 if k % 2 == 0 else 0.0))) for k in range(2 * turns + 1)]
        view.printed([(*teeth, (long, side * 20.0), (0.0, side * 20.0))])
    view.axis((-4.0, 0.0), (long + 4.0, 0.0))
    view.measure((_PITCH_MM / 2, -r), (_PITCH_MM / 2, r), 14.0, "inside")


def _cylinder(pad: Pad) -> None:
    view = pad.zoomed(1.0, 14.0, 21.0)
    view.axis((-8.0, 0.0), (128.0, 0.0))
    view.outline(((44.0, -13.0), (120.0, -13.0), (120.0, 13.0), (44.0, 13.0)), 0.4, 0.95)
    view.outline(((30.0, -8.0), (44.0, -8.0), (44.0, 8.0), (30.0, 8.0)), 0.3, 1.0)
    view.outline(((0.0, -3.5), (30.0, -3.5), (30.0, 3.5), (0.0, 3.5)), 0.3, 1.0)
    for x, r in ((30.0, 8.0), (0.0, 3.5)):
        for k in range(1, 6):
            view.line((x + 2.2 * k, -r), (x + 2.2 * k, r), THIN_MM)
    view.outline(((50.0, 13.0), (58.0, 13.0), (58.0, 9.0), (50.0, 9.0)), 0.3, 1.0)
    view.lead((5.0, -3.5), 0.0, -9.0, "rod")
    view.lead((37.0, -8.0), 0.0, -6.0, "nose")
    view.lead((54.0, 11.0), 9.0, 7.0, "port")
