"""`measure circle`: the diameter, its spread, how oval it is, and what that asks of the fit."""

from __future__ import annotations

from fitwright.report.measured.answer import Answer
from fitwright.spec.grammar.measuring.circle import CircleKeys
from fitwright.spec.measure_file import Asked
from fitwright.spec.size import from_readings
from fitwright.units import format_length


def answer(asked: Asked) -> Answer:
    """The mean of the readings and what they leave open."""
    keys = asked.keys
    assert isinstance(keys, CircleKeys)
    size = from_readings(tuple(keys.readings))
    units = asked.context.units
    words = format_length(size.nominal_mm, units, fraction=False)
    spread = format_length(size.greatest_mm - size.nominal_mm, units, fraction=False)
    return Answer(f"diameter {words}, give or take {spread}", f"[{', '.join(f'{d:g}' for d in keys.readings)}]")
