"""Findings of the check `motion`, and its numbers in words."""

from __future__ import annotations

from fitwright.finding import Finding, Severity
from fitwright.units import format_number

WHOLE = ""
"""A fault of the movement holds back every body: none of them is of use without the others."""


def mm(value: float, decimals: int = 1) -> str:
    """`20.0 mm`: reports turn it into the file's units."""
    return f"{value:.{decimals}f} mm"


def bar(value: float) -> str:
    """`3 bar`."""
    return f"{format_number(value, 1)} bar"


def say(
    what: str,
    severity: Severity,
    message: str,
    advice: str = "",
    *,
    value: float | None = None,
    limit: float | None = None,
    unit: str = "mm",
    place: str = "",
) -> Finding:
    """One finding `motion.what`."""
    at = None if value is None else float(value)
    most = None if limit is None else float(limit)
    return Finding(f"motion.{what}", severity, WHOLE, at, most, "" if at is None else unit, place, message, advice)
