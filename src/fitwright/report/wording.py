"""Numbers and sentences in the units of the user's file."""

from __future__ import annotations

import re

from fitwright.finding import Finding
from fitwright.units import MM_PER_INCH, Units, format_length, format_number, format_pressure, format_speed

_NUMBER = r"[-+]?\d+(?:\.\d+)?"
_NAMED = r"(?<!screw )(?<!Screws of )(?<!washer for )"
"""The 4.5 mm of a screw is its name in the shop, whatever the file's units."""
_IN_MM = re.compile(
    rf"(?<![\w.]){_NAMED}({_NUMBER}(?:(?:\s*(?:->|-|–|\.\.|±|/|x)\s*|\s+to\s+){_NUMBER})*)\s?mm(?![\w²³^]| filament)"
)
_IN_MM2 = re.compile(rf"(?<![\w.])({_NUMBER})\s?mm2\b")
_DECIMALS = {"deg": 1, "C": 0, "mm2": 0, "mm3": 1, "g": 0, "times": 1, "%": 0}
_ONE = re.compile(r"\d+(?:\.\d+)?")


def in_units(text: str, units: Units) -> str:
    """A sentence whose lengths are in mm (`0.2-0.6 mm`), with those in `units`, areas too; volumes and filament stay.

    >>> in_units("gap 0.2-0.6 mm on 107.1 mm", "in")
    'gap 0.008-0.024 in on 4.217 in'
    >>> in_units("0.50 -> 0.61 mm", "in")
    '0.02 -> 0.024 in'
    >>> in_units("2 x pan-head screw 4.5 mm, 18 mm deep", "in")
    '2 x pan-head screw 4.5 mm, 0.709 in deep'
    """
    if units == "mm":
        return text
    text = _IN_MM2.sub(lambda found: f"{format_number(float(found[1]) / MM_PER_INCH**2, 2)} in2", text)
    return _IN_MM.sub(lambda found: _ONE.sub(_inches, found[1]) + " in", text)


def _inches(number: re.Match[str]) -> str:
    inches = float(number[0]) / MM_PER_INCH
    return format_number(inches, 3 if inches >= 0.004 else 4)


def quantity(value: float | None, unit: str, units: Units) -> str:
    """A finding's number with its unit; "" where there is none."""
    if value is None:
        return ""
    if unit == "mm":
        return format_length(value, units, fraction=False)
    if unit == "m/s":
        return format_speed(value, units)
    if unit == "Pa":
        return format_pressure(value, units)
    if unit == "mm2" and units == "in":
        return f"{format_number(value / MM_PER_INCH**2, 2)} in2"
    return f"{format_number(value, _DECIMALS.get(unit, 3))} {unit}".strip()


def numbers(finding: Finding, units: Units) -> str:
    """`is 1.9 mm, limit 2.4 mm`, or less where the finding has less."""
    value, limit = quantity(finding.value, finding.unit, units), quantity(finding.limit, finding.unit, units)
    if value == limit and finding.severity != "pass" and finding.value != finding.limit and finding.value is not None:
        per_unit = MM_PER_INCH if finding.unit == "mm" and units == "in" else 1.0
        value = f"{finding.value / per_unit:.4g} {units if finding.unit == 'mm' else finding.unit}".strip()
    if value and limit:
        return f"is {value}, limit {limit}"
    return f"is {value}" if value else ""
