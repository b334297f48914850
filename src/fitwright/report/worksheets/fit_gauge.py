"""The fit gauge's worksheet: what it is made round, and which step was the right one."""

from __future__ import annotations

from fitwright.report.worksheets.content import Blanks, Cautions, Figure, Figures, Form, Grid, Row, Rows, Worksheet
from fitwright.report.worksheets.example import Example, built, span
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.words import CAUTIONS, LAST_BLANKS, TOP_BLANKS

_ENDS = """\
part: reducer
end_a: {socket: {over: 80}}
end_b: {spigot: {into: 80}}
"""
_HOSE = """\
part: reducer
end_a: {plain: {inside: 72}}
end_b: {hose_tail: {hose_inside: 80}}
"""
_LEAD = (
    "A gauge tells the allowance by trying. First the size that it is made round: read three times, write all down "
    "and ring the unit. Then print it in the filament and with the settings of the part, try each step on the thing "
    "itself, straight and by hand, and tick one box a step."
)
_RINGS = """\
rings:
  over: [____, ____, ____]  # <over>
"""
_FORM = f"""\
part: fit_gauge
units: ____  # mm or in
{_RINGS}material: ________  # PETG where empty
"""
_OTHERS = (
    ("in place of rings: plugs that go into a pipe or port", "plugs:\n  into: [____, ____, ____]  # <into>\n"),
    ("... plugs that go into a hose", "plugs:\n  hose_inside: [____, ____, ____]  # <hose>\n"),
)
_NOTE = (
    "The mark of the step that sat right goes into the part: under allowance: of the joint, or hose_inside: for a hose."
)
_SCALE = 0.55


def worksheet() -> Worksheet:
    """The sheet; builds two parts whose pipe, port and hose are drawn."""
    ends, hose = built(_ENDS), built(_HOSE)
    figures = (
        Figure(60.0, "rings go over a pipe: its outside", lambda pad: _bought(pad, ends, "end_a pipe", "over")),
        Figure(60.0, "plugs go into a port: its inside", lambda pad: _bought(pad, ends, "end_b pipe", "into")),
        Figure(60.0, "or into a hose: its inside, about", lambda pad: _bought(pad, hose, "end_b hose", "hose")),
    )
    marks = ("mark on it", "loose, falls on", "right", "tight, by force", "will not go")
    title = "After printing: copy the mark of each step, tick what it does"
    return Worksheet(
        "fit gauge",
        _LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(CAUTIONS),
            Figures(62.0, figures),
            Rows("What the gauge is made round (one of the three)", _rows()),
            Grid(title, marks, ("",) * 9, 26.0),
            Form(
                "Type it in: fitwright new fit_gauge -o NAME.yaml. It comes down to:",
                _FORM,
                _RINGS,
                _OTHERS,
                note=_NOTE,
            ),
            *(Blanks(line) for line in LAST_BLANKS[:2]),
        ),
    )


def _rows() -> tuple[Row, ...]:
    three = "3 times round, 60 deg apart, 10 mm in from its end"
    about = "3 times round, not squeezed; the gauge then tells it better than the caliper"
    return (
        Row("over", "outside of the pipe or port", "caliper", three, ("rings", "over")),
        Row("into", "inside of the pipe or port", "caliper, inner jaws", three, ("plugs", "into")),
        Row("hose", "inside of the hose", "caliper, inner jaws", about, ("plugs", "hose_inside")),
    )


def _bought(pad: Pad, example: Example, name: str, row: str) -> None:
    """What is bought, cut along its axis, with its end and a piece of its length."""
    lines = example.bought(name)
    low, high = span(lines, 0)
    left = low if name.startswith("end_b") else high - 52.0
    right = left + 52.0
    view = pad.zoomed(_SCALE, 22.0 - left * _SCALE, 31.0)
    view.axis((left - 6.0, 0.0), (right + 6.0, 0.0))
    view.bought(lines, left if left > low else low - 1.0, right if right < high else high + 1.0)
    heights = [abs(p[1]) for line in lines for p in line]
    r = max(heights) if row == "over" else min(heights)
    read = right - 10.0 if name.startswith("end_a") else left + 10.0
    view.measure((read, -r), (read, r), (read - left) * _SCALE + 9.0, row)
