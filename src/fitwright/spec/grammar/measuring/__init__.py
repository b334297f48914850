"""What `fitwright measure KIND` reads: one grammar a kind, all in one visible dict."""

from __future__ import annotations

from fitwright.spec.grammar.measuring.base import MeasureKeys as MeasureKeys
from fitwright.spec.grammar.measuring.bolts import BoltsKeys
from fitwright.spec.grammar.measuring.circle import CircleKeys

MEASURES: dict[str, type[MeasureKeys]] = {
    "bolts": BoltsKeys,
    "circle": CircleKeys,
}
"""Kind -> its keys; `fitwright.report.measured.KIND` answers them."""
