"""The worksheet of a printer: what the holes and outsides of printed gauges really measure."""

from __future__ import annotations

import math

from fitwright.report.worksheets.content import Blanks, Figure, Figures, Form, Grid, Row, Rows, Worksheet
from fitwright.report.worksheets.example import Example, built, span
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.words import TOP_BLANKS

_RING = """\
part: reducer
wall: 6
end_a: {plain: {inside: 60, length: 12}}
end_b: {plain: {inside: 60, length: 12}}
"""
_LEAD = (
    "Print rings or blocks of known size in your filament, with the settings of the real part, and let them cool. Use "
    "sizes from the smallest to the largest that you print: 10, 40 and 100 mm say more than three of 40. One sheet "
    "for each printer and filament."
)
_FORM = """\
measure: printer
name: ________  # <name>
material: ________  # <material>
units: ____  # mm or in
gauges:
  - hole: ____  # <hole>
    read: [____, ____, ____]  # <read>
  - hole: ____
    read: [____, ____, ____]
"""
_OUTSIDES = (
    "and in the same way for each outside",
    """\
  - outside: ____  # <outside>
    read: [____, ____, ____]  # <read>
  - outside: ____
    read: [____, ____, ____]
""",
)


def worksheet() -> Worksheet:
    """The sheet; builds a ring to draw."""
    ring = built(_RING)
    return Worksheet(
        "printer",
        _LEAD,
        (
            Blanks(TOP_BLANKS[:2]),
            Figures(
                66.0,
                (
                    Figure(
                        78.0,
                        "a printed ring from above: read along 1, 2 and 3 (or along its bars), not over the seam",
                        lambda pad: _plan(pad, ring),
                    ),
                    Figure(
                        100.0,
                        "the same cut upright: half-way up, clear of the first layer's foot",
                        lambda pad: _cut(pad, ring),
                    ),
                ),
            ),
            Rows("What is written down", _rows()),
            Grid(
                "Gauges: a line for each hole and for each outside (a ring that is read on both is two)",
                ("hole or outside", "modelled size", "reading 1", "reading 2", "reading 3"),
                ("hole", "hole", "hole", "hole", "outside", "outside", "outside", "outside", "", ""),
                26.0,
            ),
            Form("Type it in, two lines for each gauge, then: fitwright measure FILE.yaml", _FORM, added=_OUTSIDES),
            Blanks((("notes (nozzle, temperature, flow, spool)", 1.0),)),
        ),
    )


def _rows() -> tuple[Row, ...]:
    caliper = "caliper"
    return (
        Row("name", "a name for this printer", "your choice", "parts say printer: and this name", ("name",), "word"),
        Row(
            "material", "the filament", "the spool", "PETG, ASA ...: each shrinks in its own way", ("material",), "word"
        ),
        Row(
            "hole",
            "a hole's modelled size",
            "your model",
            "what the model says, not the caliper",
            ("gauges", "hole"),
            "below",
        ),
        Row(
            "outside", "an outside's modelled size", "your model", "what the model says", ("gauges", "outside"), "below"
        ),
        Row(
            "read",
            "what it measures",
            caliper,
            "3 times, 60 deg apart, half-way up, jaws flat and light",
            ("gauges", "read"),
            "below",
        ),
    )


def _plan(pad: Pad, example: Example) -> None:
    view = pad.zoomed(0.72, 39.0, 33.0)
    rings = example.face(12.0)
    view.printed(rings)
    r_out = span(rings, 1)[1]
    for number, deg in enumerate((90.0, 30.0, -30.0), start=1):
        x, y = math.cos(math.radians(deg)), math.sin(math.radians(deg))
        for side in (1.0, -1.0):
            view.arrow((0.0, 0.0), (side * 30.0 * x, side * 30.0 * y))
        view.words(((r_out + 4.0) * x, (r_out + 4.0) * y), str(number), 0.0, -1.0, "middle")
    view.lead((-r_out, 0.0), -8.0, 6.0, "read")


def _cut(pad: Pad, example: Example) -> None:
    view = pad.zoomed(0.8, 50.0, 20.0)
    turned = [tuple((p[1], p[0]) for p in line) for line in example.section]
    high, r_out = span(turned, 1)[1], span(turned, 0)[1]
    r_in = min(abs(p[0]) for line in turned for p in line)
    view.printed(turned)
    view.axis((0.0, -2.0), (0.0, high + 4.0))
    view.measure((-r_in, high / 2), (r_in, high / 2), 0.01, "hole")
    view.measure((-r_out, high), (r_out, high), 8.0, "outside")
    view.line((-r_out - 6.0, 0.0), (r_out + 6.0, 0.0), 0.5)
    view.words((0.0, 0.0), "bed", 0.0, -5.5, "middle")
    view.lead((-r_out - 3.0, 0.0), -6.0, -6.0, "name")
    view.lead((r_out - 2.0, high * 0.3), 11.0, 4.0, "material")
