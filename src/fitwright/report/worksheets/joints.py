"""Rows and pictures of the joints: each picture is cut from a part that was really built."""

from __future__ import annotations

import math
from typing import Literal

from fitwright.drawing.hatch import thinned
from fitwright.drawing.sheet import THIN_MM, Arc
from fitwright.report.worksheets.content import Block, Figure, Figures, Row, Rows
from fitwright.report.worksheets.example import Example, built, reach, span
from fitwright.report.worksheets.pad import Pad
from fitwright.report.worksheets.ribs import draw_ribs

_CALIPER, _INNER, _TAPE, _STRIP = "caliper", "caliper, inner jaws", "tape or steel rule", "strip of paper, pencil"
_THREE = "3 times round, 60 deg apart"
_WIDE_MM, _HIGH_MM = 46.0, 42.0
_PIPE_ENDS = """\
part: reducer
end_a: {spigot: {into: 60}}
end_b: {plain: {inside: 56}}
"""
_APART_MM = 26.0
_TAPERED = f"""\
part: reducer
end_a: {{socket: {{over: {{end: 56, further: 62, apart: {_APART_MM:g}}}}}}}
end_b: {{plain: {{inside: 50}}}}
"""
BOLTED = """\
part: reducer
end_a:
  flange:
    opening: 50
    rectangle: {width: 90, height: 90, corner: 10}
    holes: {count: 4, circle: 90, first_at: 45, size: M6}
end_b: {plain: {inside: 50}}
"""
_OVER = """\
part: reducer
end_a: {socket: {over: 60}}
end_b: {plain: {inside: 60}}
"""
_FLAT = """\
part: reducer
end_a: {socket: {over: {rectangle: {width: 90, height: 56, corner: 8}}}}
end_b: {spigot: {into: {oval: {width: 90, height: 46}}}}
"""

OTHER_ENDS = (
    ("in place of end_b's joint: a socket over a pipe", "  socket: {over: [____, ____, ____]}\n"),
    ("... a spigot into a pipe or port", "  spigot: {into: [____, ____, ____]}\n"),
    ("... a bare tube end", "  plain: {inside: ____}\n"),
    (
        "... a port that tapers",
        "  socket: {over: {apart: ____,\n    end: [____, ____, ____],\n    further: [____, ____, ____]}}\n",
    ),
    (
        "... a rectangle (an oval the same way, without corner)",
        "  socket: {over: {rectangle: {width: ____,\n    height: ____, corner: ____}}}\n",
    ),
)


def pipe_rows(end: str) -> tuple[Row, ...]:
    """A pipe that the part goes over."""
    return (
        Row(
            "pipe",
            "outside of the pipe or port",
            _CALIPER,
            f"{_THREE}, 10 mm in from its end, off any bead or burr",
            (end, "socket", "over"),
        ),
        Row(
            "strip",
            "or: once round its outside",
            _STRIP,
            "lay it square round the pipe, mark the overlap, read it flat",
            (end, "socket", "over", "circumference"),
        ),
        Row(
            "depth",
            "how far the pipe can go in",
            _TAPE,
            "straight clean length from its end to the first bead, weld or clip",
            (end, "socket", "depth"),
        ),
    )


def hose_rows(end: str) -> tuple[Row, ...]:
    """A hose that is pushed over the part and clamped."""
    return (
        Row(
            "hose",
            "inside of the hose",
            "caliper, inner jaws",
            f"{_THREE}, 10 mm in, hose not squeezed; not what is printed on it",
            (end, "hose_tail", "hose_inside"),
        ),
        Row(
            "on",
            "how far the hose can be pushed on",
            _TAPE,
            "from its end to the first bend or cuff",
            (end, "hose_tail", "depth"),
        ),
        Row("band", "width of the hose clamp", _CALIPER, "across the band, once", (end, "hose_tail", "band")),
    )


def flange_rows(end: str) -> tuple[Row, ...]:
    """A flange and its bolts."""
    return (
        Row("opening", "the opening in the middle", "caliper or rule", f"inside, {_THREE}", (end, "flange", "opening")),
        Row(
            "count", "how many bolts", "count", "on the circle, all of them", (end, "flange", "holes", "count"), "count"
        ),
        Row(
            "circle",
            "circle through the bolts' centres",
            "caliper or rule",
            "opposite bolts, outer edge to outer edge, less one bolt. Odd number or uneven: fitwright worksheet bolts",
            (end, "flange", "holes", "circle"),
        ),
        Row(
            "first",
            "where the first bolt is",
            "angle finder",
            "degrees from straight up, anticlockwise as you face the machine",
            (end, "flange", "holes", "first_at"),
            "angle",
        ),
        Row(
            "bolt",
            "the bolts' size",
            "caliper, thread gauge",
            "by its name: M6, 1/4 in; outside of the thread if unknown",
            (end, "flange", "holes", "size"),
            "word",
        ),
        Row(
            "plate",
            "room for the plate",
            "rule",
            "largest disc that lies flat there; or width and height, then rectangle:",
            (end, "flange", "round"),
        ),
    )


def other_joints(skip: Literal["socket", "flange"]) -> tuple[Block, ...]:
    """Pictures and rows of all joints that the first page does not show; `skip` is the one that it does."""
    title = "Other round ends (write a or b into end_ _)"
    return (
        Figures(_HIGH_MM, _round_figures(skip)),
        Rows(title, _round_rows(skip)),
        Figures(_HIGH_MM, _flat_figures()),
        Rows("Hose with a spiral rib, and ends that are not round", _flat_rows()),
    )


def _round_rows(skip: str) -> tuple[Row, ...]:
    into = f"{_THREE}, 10 mm in from its end"
    return (
        Row("bore", "inside of the pipe or port that the part goes into", _INNER, into, ("end_", "spigot", "into")),
        Row("t_end", "port that tapers: at its very end", _CALIPER, _THREE, ("end_", "socket", "over", "end")),
        Row("t_further", "the same, further along", _CALIPER, _THREE, ("end_", "socket", "over", "further")),
        Row("t_apart", "from one place to the other", "rule", "along the axis", ("end_", "socket", "over", "apart")),
        Row("tube", "inside of a bare tube end", _CALIPER, "as you want it", ("end_", "plain", "inside")),
        *(flange_rows("end_") if skip == "socket" else pipe_rows("end_")),
    )


def _round_figures(skip: str) -> tuple[Figure, ...]:
    ends, tapered, other = built(_PIPE_ENDS), built(_TAPERED), built(BOLTED if skip == "socket" else _OVER)
    flange = Figure(
        _WIDE_MM, "flange, seen looking into it", lambda pad: flange_face(pad.zoomed(0.27, 21.0, 21.5), other)
    )
    socket = Figure(_WIDE_MM, "socket: goes over a pipe", lambda pad: _socket(pad, other))
    return (
        Figure(_WIDE_MM, "spigot: goes into a pipe", lambda pad: _spigot(pad, ends)),
        Figure(_WIDE_MM, "port that tapers", lambda pad: _tapered(pad, tapered)),
        Figure(_WIDE_MM, "plain: a bare tube end", lambda pad: _plain(pad, ends)),
        flange if skip == "socket" else socket,
    )


def _socket(pad: Pad, example: Example) -> None:
    part, pipe = example.section, example.bought("end_a pipe")
    view = pad.zoomed(0.42, 22.0, 23.0)
    view.axis((-32.0, 0.0), (50.0, 0.0))
    view.bought(pipe, -26.0, 200.0)
    view.printed(part, -1.0, 48.0)
    r, deep = span(pipe, 1)[1], span(pipe, 0)[1]
    view.measure((-16.0, -r), (-16.0, r), 9.0, "pipe")
    view.lead((-10.0, r), 2.0, 5.0, "strip")
    view.measure((0.0, -r - 6.0), (deep, -r - 6.0), -3.0, "depth")


def _spigot(pad: Pad, example: Example) -> None:
    part, pipe = example.section, example.bought("end_a pipe")
    view = pad.zoomed(0.42, 22.0, 21.0)
    view.axis((-32.0, 0.0), (50.0, 0.0))
    view.bought(pipe, -26.0, 200.0)
    view.printed(part, -1.0, 48.0)
    r = min(abs(p[1]) for line in pipe for p in line)
    view.measure((-16.0, -r), (-16.0, r), 9.0, "bore")


def _tapered(pad: Pad, example: Example) -> None:
    part, port = example.section, example.bought("end_a pipe")
    view = pad.zoomed(0.42, 20.0, 23.0)
    view.axis((-30.0, 0.0), (58.0, 0.0))
    view.bought(port, -24.0, 200.0)
    view.printed(part, -1.0, 50.0)
    deep = span(port, 0)[1]
    back = deep - _APART_MM
    r_end, r_back = reach(port, deep - 1e-6), reach(port, back)
    view.measure((deep, -r_end), (deep, r_end), -(50.0 - deep) * 0.42 - 3.0, "t_end")
    view.measure((back, -r_back), (back, r_back), (24.0 + back) * 0.42 + 4.0, "t_further")
    view.measure((back, -38.0), (deep, -38.0), -2.0, "t_apart")


def _plain(pad: Pad, example: Example) -> None:
    part = example.section
    end = span(part, 0)[1]
    view = pad.zoomed(0.42, 30.0 - end * 0.42, 21.0)
    view.axis((end - 44.0, 0.0), (end + 8.0, 0.0))
    view.printed(part, end - 40.0, end + 1.0)
    r = min(abs(p[1]) for line in part for p in line if abs(p[0] - end) < 0.1)
    view.measure((end, -r), (end, r), -6.0, "tube")


def flange_face(view: Pad, example: Example, reach_mm: float = 8.0) -> None:
    """The face of end_a as cut just behind it: plate, opening, holes, with their letters."""
    lines = example.face(1.0)
    holes = example.part.bodies[0].holes
    for line in lines:
        view.outline(thinned(line, 0.02), 0.35)
    opening = _ring_r(example)
    first = holes[0]
    centre = (first.start[0], first.start[2])
    circle = (centre[0] ** 2 + centre[1] ** 2) ** 0.5
    view.circle((0.0, 0.0), circle, 0.13, dashed=True)
    for hole in holes:
        view.sheet.cross(view.at((hole.start[0], hole.start[2])), 2.2)
    side = span(lines, 0)[1]
    view.measure((-opening, 0.0), (opening, 0.0), 0.01, "opening")
    opposite = (-centre[0], -centre[1])
    view.lead((circle * 0.94, -circle * 0.34), reach_mm, -3.0, "circle")
    view.axis((0.0, 0.0), (0.0, side + 4.0))
    view.axis((0.0, 0.0), (centre[0] * 1.25, centre[1] * 1.25))
    _first_at(view, centre, circle)
    view.lead((opposite[0] - first.d_mm / 2 * 0.7, opposite[1] - first.d_mm / 2 * 0.7), -5.0, -5.0, "bolt")
    view.lead((-centre[0], centre[1]), -5.0, 5.0, "count")
    view.measure((-side, -side), (side, -side), -5.0, "plate")


def _first_at(view: Pad, centre: tuple[float, float], circle: float) -> None:
    """The arc from straight up to the first hole."""
    at = math.degrees(math.atan2(centre[1], centre[0]))
    r = circle * 1.12
    view.sheet.add(Arc(view.at((0.0, 0.0)), r * view.scale, at, 90.0 - at, width_mm=THIN_MM))
    half = math.radians((at + 90.0) / 2)
    view.lead((r * math.cos(half), r * math.sin(half)), 1.5, 6.0, "first")


def _ring_r(example: Example) -> float:
    """Half the opening: the passage at end_a's face."""
    return min(math.hypot(x, y) for line in example.face(1.0) for x, y in line)


def _flat_rows() -> tuple[Row, ...]:
    ridge = ("end_", "hose_tail", "ridge")
    rectangle, oval = ("end_", "socket", "over", "rectangle"), ("end_", "socket", "over", "oval")
    return (
        Row(
            "ribs",
            "how many ribs on",
            "count",
            "mark a rib, count from the next one: 5 or more",
            (*ridge, "pitch", "ribs"),
            "count",
        ),
        Row(
            "over",
            "distance over these ribs",
            "rule",
            "middle of the marked rib to middle of the last, hose neither pulled nor pressed",
            (*ridge, "pitch", "over"),
        ),
        Row("wire", "how thick a rib is", _CALIPER, "over the film, at 3 ribs", (*ridge, "wire")),
        Row(
            "hand",
            "which way the ribs wind",
            "look",
            "hold it upright: rising to the right is right, to the left is left",
            (*ridge, "hand"),
            "word",
        ),
        Row(
            "r_width",
            "rectangle: width outside",
            _CALIPER,
            "at both ends and the middle of the side",
            (*rectangle, "width"),
        ),
        Row(
            "r_height",
            "rectangle: height outside",
            _CALIPER,
            "at both ends and the middle of the side",
            (*rectangle, "height"),
        ),
        Row(
            "r_corner",
            "radius of its corners",
            "radius gauge, or coins",
            "the coin whose edge fits, half its diameter",
            (*rectangle, "corner"),
        ),
        Row(
            "o_width",
            "slot-ended port: width",
            _CALIPER,
            "outside, 3 times; for a spigot inside, under spigot: into:",
            (*oval, "width"),
        ),
        Row("o_height", "slot-ended port: height", _CALIPER, "outside, 3 times", (*oval, "height")),
    )


def _flat_figures() -> tuple[Figure, ...]:
    flat = built(_FLAT)
    return (
        Figure(70.0, "hose with a spiral rib, cut along: count ribs, measure over them", draw_ribs),
        Figure(54.0, "rectangular port, on its end", lambda pad: _rectangle(pad, flat)),
        Figure(54.0, "slot-ended port, on its end", lambda pad: _oval(pad, flat)),
    )


def _rectangle(pad: Pad, example: Example) -> None:
    lines = example.bought_face("end_a duct", -10.0)
    view = pad.zoomed(0.4, 30.0, 20.0)
    view.bought(lines)
    (left, right), (low, high) = span(lines, 0), span(lines, 1)
    view.measure((left, high), (right, high), 5.0, "r_width")
    view.measure((left, low), (left, high), 6.0, "r_height")
    corner = 8.0 * (1.0 - 0.7071)
    view.lead((right - corner, low + corner), 3.0, -5.0, "r_corner")


def _oval(pad: Pad, example: Example) -> None:
    length = span(example.section, 0)[1]
    lines = example.bought_face("end_b duct", length + 10.0)
    view = pad.zoomed(0.4, 30.0, 20.0)
    view.bought(lines)
    inner = min(lines, key=lambda line: span([line], 0)[1])
    (left, right), (low, high) = span([inner], 0), span([inner], 1)
    view.measure((left, high), (right, high), 7.0, "o_width")
    view.measure((left, low), (left, high), 9.0, "o_height")
