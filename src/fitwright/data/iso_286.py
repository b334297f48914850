"""Limits of holes and shafts by ISO 286: `H7`, `g6` at a size -> lower and upper deviation in micrometres."""

from __future__ import annotations

import re
from functools import cache
from typing import NamedTuple

from fitwright.data import tables
from fitwright.data.tables import Row
from fitwright.errors import DataError

LEAST_MM, MOST_MM = 3.0, 500.0
"""Sizes over 3 and up to 500 mm."""
GRADES = tuple(range(5, 15))
SHAFTS = "defghkmnprs"
_CLASS = re.compile(r"([A-Za-z])([0-9]{1,2})")
_UPPER = "defgh"
"""Letters whose fundamental deviation is the upper one, es."""


class Limits(NamedTuple):
    """Lower and upper deviation from the nominal size [um]."""

    low_um: float
    high_um: float

    def at(self, nominal_mm: float) -> tuple[float, float]:
        """The least and greatest size [mm]."""
        return nominal_mm + self.low_um / 1000.0, nominal_mm + self.high_um / 1000.0


def grade_um(grade: int, size_mm: float) -> float:
    """The standard tolerance IT5 to IT14 [um] at a size [mm], over 3 to 500.

    >>> grade_um(7, 40.0)
    25.0
    """
    if grade not in GRADES:
        raise DataError(f"no grade IT{grade}; known: IT{GRADES[0]} to IT{GRADES[-1]}")
    return _row("fits/iso_286_it", size_mm).required(f"it{grade}_um")


def limits(tolerance: str, size_mm: float) -> Limits:
    """The limits of a tolerance class at a size [mm]: a capital is a hole, a small letter a shaft.

    Holes D to H, K, M, N (to grade 8), P, R, S (to grade 7); shafts d to h, k, m, n, p, r, s.
    DataError names what is not held here.

    >>> limits("H7", 40.0), limits("g6", 40.0)
    (Limits(low_um=0.0, high_um=25.0), Limits(low_um=-25.0, high_um=-9.0))
    """
    letter, grade = _split(tolerance)
    width = grade_um(grade, size_mm)
    if letter.islower():
        return _shaft(letter, grade, width, size_mm)
    deviation = _row("fits/iso_286_deviations", size_mm).required(f"{letter.lower()}_um")
    if letter.lower() in _UPPER:
        return Limits(0.0 - deviation, width - deviation)
    upper = _hole_upper_um(letter, grade, deviation, size_mm)
    return Limits(upper - width, upper)


def _split(tolerance: str) -> tuple[str, int]:
    match = _CLASS.fullmatch(tolerance.strip())
    if match is None or match[1].lower() not in SHAFTS:
        raise DataError(f"no tolerance class {tolerance!r}; known letters: {', '.join(SHAFTS)}, and capitals for holes")
    return match[1], int(match[2])


def _shaft(letter: str, grade: int, width: float, size_mm: float) -> Limits:
    deviation = _row("fits/iso_286_deviations", size_mm).required(f"{letter}_um")
    if letter in _UPPER:
        return Limits(deviation - width, deviation)
    if letter == "k" and grade > 7:
        deviation = 0.0
    return Limits(deviation, deviation + width)


def _hole_upper_um(letter: str, grade: int, ei_um: float, size_mm: float) -> float:
    """ES = -ei + delta; delta = ITn - ITn-1 (ISO 286-1, 4.3.2.5), and the standard's one exception, M6 of 250-315."""
    most = 8 if letter in "KMN" else 7
    if not GRADES[0] < grade <= most:
        raise DataError(f"no hole {letter}{grade} here; known: {letter}{GRADES[0] + 1} to {letter}{most}")
    if (letter, grade) == ("M", 6) and 250.0 < size_mm <= 315.0:
        return -9.0
    return -ei_um + grade_um(grade, size_mm) - grade_um(grade - 1, size_mm)


def _row(table: str, size_mm: float) -> Row:
    for over, to, row in _ranges(table):
        if over < size_mm <= to:
            return row
    raise DataError(f"{size_mm:g} mm is outside ISO 286's table here; known: over {LEAST_MM:g} to {MOST_MM:g} mm")


@cache
def _ranges(table: str) -> tuple[tuple[float, float, Row], ...]:
    return tuple((row.required("over_mm"), row.required("to_mm"), row) for row in tables.load(table).rows)
