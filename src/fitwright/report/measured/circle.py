"""`measure circle`: the diameter, give or take, how oval it is and where, what fit that asks for, the line to paste."""

from __future__ import annotations

from fitwright.report.measured.answer import Answer
from fitwright.report.measured.face_line import Face, face_yaml, fit_lines, made_of
from fitwright.report.measured.round_across import across
from fitwright.report.measured.round_found import Found
from fitwright.report.measured.round_rim import arc, rim
from fitwright.report.measured.wrapped import wrapped
from fitwright.spec.grammar.measured import LEAST_MM, MOST_MM
from fitwright.spec.grammar.measuring.circle import CircleKeys
from fitwright.spec.measure_file import Asked
from fitwright.units import Units, format_length

_WRITE_UNDER = {
    "over": "write it under socket:, the print goes over it",
    "into": "write it under spigot:, the print goes into it",
    "hose_inside": "write it under hose_tail:, the hose goes over the print",
    "": "write it after over: (its outside), into: (its inside) or hose_inside:",
}


def answer(asked: Asked) -> Answer:
    """Diameter, uncertainty, form and fit from whichever way it was measured."""
    keys = asked.keys
    assert isinstance(keys, CircleKeys)
    if keys.points:
        found = rim(keys.points, asked)
    elif keys.chord and keys.height:
        found = arc(keys.chord, keys.height, asked)
    else:
        found = across(keys, asked)
    return _told(found, keys, asked.context.units)


def _told(found: Found, keys: CircleKeys, units: Units) -> Answer:
    heading = [keys.label] if keys.label else []
    if not found.good or not found.value:
        return Answer(wrapped([*heading, *found.lines]), good=found.good)
    if not LEAST_MM <= found.d_mm <= MOST_MM:
        limits = f"{format_length(LEAST_MM, units)} to {format_length(MOST_MM, units)}"
        line = f"no line for a part: its ends are made for {limits}"
        return Answer(wrapped([*heading, *found.lines, line]))
    face = _face(keys)
    asks = fit_lines(made_of(found.value, face, found.fit), units)
    if not face:
        asks = [f"gone over by a {asks[0]}"]
    lines = [*heading, *found.lines, *asks, *found.notes, _WRITE_UNDER[face]]
    return Answer(wrapped(lines), face_yaml(found.value, face, found.fit))


def _face(keys: CircleKeys) -> Face:
    if keys.inside:
        return "hose_inside" if keys.soft else "into"
    return "over" if keys.outside else ""
