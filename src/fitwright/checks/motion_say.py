"""Findings of the check `motion`, and its numbers in words."""

from __future__ import annotations

from dataclasses import dataclass

from fitwright.finding import Finding, Severity
from fitwright.units import format_number

WHOLE = ""
"""A fault of the movement holds back every body: none of them is of use without the others."""


@dataclass(frozen=True)
class Measured:
    """What a finding is about: the value, its limit, the YAML key or place that decides, the unit of both numbers."""

    value: float | None
    limit: float | None
    place: str
    unit: str = "mm"


def mm(value: float, decimals: int = 1) -> str:
    """`20.0 mm`: reports turn it into the file's units."""
    return f"{value:.{decimals}f} mm"


def bar(value: float) -> str:
    """`3 bar`."""
    return f"{format_number(value, 1)} bar"


def say(what: str, severity: Severity, message: str, advice: str = "", *, of: Measured) -> Finding:
    """One finding `motion.what`."""
    value = None if of.value is None else float(of.value)
    limit = None if of.limit is None else float(of.limit)
    return Finding(
        f"motion.{what}", severity, WHOLE, value, limit, of.unit if value is not None else "", of.place, message, advice
    )
