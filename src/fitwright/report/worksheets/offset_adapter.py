"""The offset adapter's worksheet: the template's own part in section, and the inlet's face with its bolts."""

from __future__ import annotations

import math

from fitwright.drawing.hatch import thinned
from fitwright.drawing.sheet import THIN_MM, Arc
from fitwright.report.worksheets.content import Blanks, Block, Cautions, Figure, Figures, Form, Row, Rows, Worksheet
from fitwright.report.worksheets.example import Example, built, span
from fitwright.report.worksheets.joints import OTHER_ENDS, flange_face, flange_rows, hose_rows, other_joints
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.places import ADDED, keep_clear
from fitwright.report.worksheets.words import CAUTIONS, LAST_BLANKS, LEAD, NOTE, TAIL, TOP_BLANKS
from fitwright.spec.template import template

_SCALE, _FACE_SCALE = 0.35, 0.29
_RUN_MM, _INLET_MM = 38.0, 12.0
"""So much of the hose beyond its mouth, and of the inlet's own flange, is drawn [part mm]."""
_HIGH_MM = 92.0
_STRAIGHT_UP, _ASIDE = "offset: {up: 60}", "offset: {right: 45, up: 60}"
_ELBOW = """\
part: offset_adapter
angle: 45
offset: {up: 30}
end_a: {socket: {over: 60}}
end_b: {hose_tail: {hose_inside: 60}}
"""
_END_B = """\
  hose_tail:
    hose_inside: [____, ____, ____]  # <hose>
"""
_FORM = f"""\
part: offset_adapter
units: ____  # mm or in
offset: {{right: ____, up: ____}}  # <right> <up>
length: ____  # <length>
end_a:
  label: ________
  flange:
    opening: ____  # <opening>
    holes: {{count: ____, circle: ____,  # <count> <circle>
      first_at: ____, size: ____}}  # <first> <bolt>
end_b:
  label: ________
{_END_B}{TAIL}"""
_TITLE = "Type it in: fitwright new offset_adapter -o NAME.yaml writes a file to start from. It comes down to:"


def worksheet() -> Worksheet:
    """The sheet; builds the template's part, and once more with its far end aside."""
    text = template("offset_adapter")
    assert _STRAIGHT_UP in text
    example, aside = built(text), built(text.replace(_STRAIGHT_UP, _ASIDE))
    cut = "the part cut upright, from your right-hand side; the hose that meets it is pale"
    face = "as the machine sees it, looking into end_a; facing the machine, left and right change places"
    figures = (
        Figure(122.0, cut, lambda pad: _section(pad, example)),
        Figure(62.0, face, lambda pad: _face(pad, aside)),
    )
    return Worksheet(
        "offset adapter",
        LEAD,
        (
            Blanks(TOP_BLANKS),
            Cautions(CAUTIONS),
            Figures(_HIGH_MM, figures),
            Rows("What this adapter needs", (*flange_rows("end_a"), *_between(), *hose_rows("end_b"))),
            *(Blanks(line) for line in LAST_BLANKS),
            Form(_TITLE, _FORM, _END_B, OTHER_ENDS, ADDED, NOTE),
            *(Blanks(line) for line in LAST_BLANKS[1:]),
            *_angled(),
            *keep_clear(),
            *other_joints(skip="flange"),
        ),
    )


def _between() -> tuple[Row, ...]:
    """How the two ends lie to each other."""
    far = "from the middle of the inlet to the middle of the far pipe"
    aside, level = "how far aside end_b is", "how much higher end_b is"
    long = "from the inlet's face straight away to where the part shall end in the hose. Empty: as short as can be"
    return (
        Row("up", level, "tape, spirit level", f"{far}; write a minus where it is lower", ("offset", "up")),
        Row(
            "right",
            aside,
            "tape, plumb line",
            f"{far}. As you face the machine: to its left is plus, to its right minus",
            ("offset", "right"),
        ),
        Row("length", "whole length", "tape", long, ("length",)),
    )


def _section(pad: Pad, example: Example) -> None:
    part, hose = example.section, example.bought("end_b hose")
    clamp = example.bought("end_b hose clamp")
    end, up = example.fit("end_b").frame.origin[1:]
    high = end + _RUN_MM
    view = pad.zoomed(_SCALE, 17.0, 40.0)
    plate = _inlet(view, example)
    pad.frame((2.0, 78.0), "away")
    view.axis((-_INLET_MM - 6.0, 0.0), (end + 8.0, 0.0))
    view.axis((end - 70.0, up), (high + 6.0, up))
    view.bought(hose, end - 100.0, high)
    view.bought(clamp)
    view.printed(part)
    r_hose = min(abs(p[1] - up) for line in hose for p in line)
    seated = span(hose, 0)[0]
    view.measure((high - 8.0, up - r_hose), (high - 8.0, up + r_hose), -9.0, "hose")
    view.measure((end, 0.0), (end, up), -3.5, "up")
    under = min(clamp, key=lambda line: span([line], 1)[0])
    low, band = span([under], 1)[0], span([under], 0)
    view.measure((seated, low), (end, low), -12.0, "on")
    view.measure((band[1], low), (band[0], low), 4.5, "band")
    view.measure((0.0, -plate), (end, -plate), -4.5, "length")
    view.words((0.0, plate), "end_a", 0.0, 1.5)
    view.words((end, up + r_hose), "end_b", -3.0, -6.0, "end")
    view.words((high, up + r_hose), "hose", -8.0, 4.5)
    view.words((-_INLET_MM, plate), "inlet", -1.0, 1.5, "end")


def _inlet(view: Pad, example: Example) -> float:
    """The inlet's own flange, which the part is bolted to: as high as ours, with the same opening; half its height."""
    mouth = [abs(p[1]) for line in example.section for p in line if p[0] < 1.0]
    opening, plate = min(mouth), max(mouth)
    for side in (1.0, -1.0):
        low, high = sorted((side * opening, side * plate))
        view.bought([((-_INLET_MM, low), (0.0, low), (0.0, high), (-_INLET_MM, high))])
    return plate


def _face(pad: Pad, example: Example) -> None:
    view = pad.zoomed(_FACE_SCALE, 30.0, 36.0)
    flange_face(view, example)
    pad.frame((2.0, 76.0), "right")
    right, end, up = example.fit("end_b").frame.origin
    for line in example.face(end - 1.0):
        view.outline(thinned(line, 0.02), 0.2, dashed=True)
    view.sheet.cross(view.at((right, up)), 2.0)
    view.measure((0.0, up), (right, up), (122.0 - up) * _FACE_SCALE, "right")
    view.measure((right, 0.0), (right, up), (right - 98.0) * _FACE_SCALE, "up")


def _angled() -> tuple[Block, ...]:
    """The far end at an angle."""
    elbow = built(_ELBOW)
    where = "up or down; what is left as you face the machine is right here, and right left. Empty: towards the offset"
    rows = (
        Row(
            "angle",
            "how far end_b looks out of end_a's line",
            "bevel, protractor",
            "0 where both are parallel",
            ("angle",),
            "angle",
        ),
        Row("turns", "where to", "look", where, ("turns",), "word"),
    )
    seen = "the far end at an angle, cut upright: offset and length go to the middle of end_b's mouth"
    return (
        Figures(38.0, (Figure(90.0, seen, lambda pad: _elbow(pad, elbow)),)),
        Rows("If the far end looks elsewhere", rows),
    )


def _elbow(pad: Pad, example: Example) -> None:
    view = pad.zoomed(0.24, 14.0, 16.0)
    view.printed(example.section)
    frame = example.fit("end_b").frame
    (_, x, y), (_, dx, dy) = frame.origin, frame.inward
    along, turn = math.hypot(dx, dy), math.degrees(math.atan2(-dy, -dx))
    corner = (x - y * dx / dy, 0.0)
    far = (x - 40.0 * dx / along, y - 40.0 * dy / along)
    view.axis((-15.0, 0.0), (max(corner[0], x) + 70.0, 0.0))
    view.axis(corner, far)
    r = 62.0
    view.sheet.add(Arc(view.at(corner), r * view.scale, 0.0, turn, width_mm=THIN_MM))
    half = math.radians(turn / 2)
    view.lead((corner[0] + r * math.cos(half), r * math.sin(half)), 8.0, 0.0, "angle")
    view.lead(far, 8.0, 0.0, "turns")
    view.words((0.0, 36.0), "end_a", -2.0, 0.0, "middle")
