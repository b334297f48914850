"""What `fitwright measure KIND` reads: one grammar a kind, all in one visible dict."""

from __future__ import annotations

from fitwright.spec.grammar.measuring.base import MeasureKeys as MeasureKeys
from fitwright.spec.grammar.measuring.circle import CircleKeys
from fitwright.spec.grammar.measuring.sleeve import SleeveKeys
from fitwright.spec.grammar.measuring.thread import ThreadKeys

MEASURES: dict[str, type[MeasureKeys]] = {
    "circle": CircleKeys,
    "thread": ThreadKeys,
    "sleeve": SleeveKeys,
}
"""Kind -> its keys; `fitwright.report.measured.KIND` answers them."""
