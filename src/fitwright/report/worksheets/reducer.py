"""The reducer's worksheet: the template's own part in section, pipe and hose in it, and the pipe seen on its end."""

from __future__ import annotations

import math

from fitwright.report.worksheets.content import Blanks, Cautions, Figure, Figures, Form, Row, Rows, Worksheet
from fitwright.report.worksheets.example import Example, built, span
from fitwright.report.worksheets.joints import OTHER_ENDS, hose_rows, other_joints, pipe_rows
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.places import ADDED, keep_clear
from fitwright.report.worksheets.words import CAUTIONS, LAST_BLANKS, LEAD, NOTE, TAIL, TOP_BLANKS
from fitwright.spec.template import template

_SCALE = 0.46
_RUN_MM = 38.0
"""So much of pipe and hose is drawn beyond the mouths [part mm]."""
_HIGH_MM = 84.0
_READ_AT_MM = -10.0
"""The pipe is read this far from its end, clear of the burr."""

_END_B = """\
  hose_tail:
    hose_inside: [____, ____, ____]  # <hose>
"""
_FORM = f"""\
part: reducer
units: ____  # mm or in
end_a:
  label: ________
  socket:
    over: [____, ____, ____]  # <pipe>
    depth: ____  # <depth>
end_b:
  label: ________
{_END_B}length: ____  # <length>
{TAIL}"""


def worksheet() -> Worksheet:
    """The sheet; builds the template's part."""
    example = built(template("reducer"))
    rows = (
        *pipe_rows("end_a"),
        *hose_rows("end_b"),
        Row(
            "length",
            "whole length of the part",
            "tape",
            "pipe and hose where they shall stay: from where the socket begins on the pipe to where the tail ends in "
            "the hose. Empty: as short as can be",
            ("length",),
        ),
    )
    return Worksheet(
        "reducer",
        LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(CAUTIONS),
            Figures(
                _HIGH_MM,
                (
                    Figure(
                        118.0,
                        "the part cut along its axis (dark), the pipe and the hose that meet it (pale)",
                        lambda pad: _section(pad, example),
                    ),
                    Figure(
                        62.0,
                        "the pipe seen on its end: read it along 1, 2 and 3, 60 deg apart",
                        lambda pad: _end_view(pad, example),
                    ),
                ),
            ),
            Rows("What this reducer needs", rows),
            *(Blanks(line) for line in LAST_BLANKS),
            Form(
                "Type it in: fitwright new reducer -o NAME.yaml writes a file to start from. It comes down to:",
                _FORM,
                _END_B,
                OTHER_ENDS,
                ADDED,
                NOTE,
            ),
            *(Blanks(line) for line in LAST_BLANKS[1:]),
            *keep_clear(),
            *other_joints(skip="socket"),
        ),
    )


def _section(pad: Pad, example: Example) -> None:
    part, pipe, hose = example.section, example.bought("end_a pipe"), example.bought("end_b hose")
    clamp = example.bought("end_b hose clamp")
    end = span(part, 0)[1]
    low, high = -_RUN_MM, end + _RUN_MM
    view = pad.zoomed(_SCALE, 16.0 + _RUN_MM * _SCALE, 52.0)
    view.axis((low - 6.0, 0.0), (high + 6.0, 0.0))
    view.bought(pipe, low, high)
    view.bought(hose, low, high)
    view.bought(clamp)
    view.printed(part)
    r_pipe, deep = span(pipe, 1)[1], span(pipe, 0)[1]
    r_hose = min(abs(p[1]) for line in hose for p in line)
    seated = span(hose, 0)[0]
    view.measure((low + 10.0, -r_pipe), (low + 10.0, r_pipe), _RUN_MM * _SCALE - 2.0, "pipe")
    view.measure((high - 10.0, -r_hose), (high - 10.0, r_hose), -8.0, "hose")
    under = min(clamp, key=lambda line: span([line], 1)[0])  # the housing, wider than the band, is on the other side
    bottom = span([under], 1)[0]
    view.measure((span([under], 0)[1], bottom), (span([under], 0)[0], bottom), 4.5, "band")
    view.measure((0.0, -r_pipe - 6.0), (deep, -r_pipe - 6.0), -4.5, "depth")
    view.measure((seated, bottom), (end, bottom), -12.0, "on")
    view.measure((0.0, bottom - 10.0), (end, bottom - 10.0), -14.0, "length")
    view.words((low, r_pipe), "pipe", 2.0, 2.5)
    view.words((high, span(hose, 1)[1]), "hose", -9.0, 2.5)
    view.words((0.0, span(part, 1)[1]), "end_a", 1.0, 2.0)
    view.words((end, r_hose), "end_b", -2.0, -5.0, "end")


def _end_view(pad: Pad, example: Example) -> None:
    rings = example.bought_face("end_a pipe", _READ_AT_MM)
    view = pad.zoomed(_SCALE, 31.0, 52.0)
    view.bought(rings)
    r = span(rings, 1)[1]
    for number, deg in enumerate((90.0, 30.0, -30.0), start=1):
        turn = math.radians(deg)
        x, y = math.cos(turn), math.sin(turn)
        view.arrow((0.0, 0.0), (r * x, r * y))
        view.arrow((0.0, 0.0), (-r * x, -r * y))
        far = r + 7.0
        view.words((far * x, far * y), str(number), 0.0, -1.0, "middle")
    view.lead((-r * math.cos(math.radians(40.0)), -r * math.sin(math.radians(40.0))), -3.0, -12.0, "strip")
    view.words((-r * math.cos(math.radians(40.0)), -r * math.sin(math.radians(40.0))), "strip of paper", 1.0, -13.0)
