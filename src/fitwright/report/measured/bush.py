"""A turned bush between a shaft and a bore: its limits by ISO 286, to 0.001 mm, and what is honed after pressing in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fitwright.data.iso_286 import limits
from fitwright.units import MM_PER_INCH, Units, format_length, format_number

BushFit = Literal["sliding", "location", "press"]

_INSIDE = {"sliding": "G7", "location": "H7", "press": "P7"}
_OUTSIDE = {"sliding": "r6", "location": "n6", "press": "p6"}
"""Sliding: ISO 2795, bore F7 to G7 and outside r6 to s7 as bought, H7 after pressing into an H7 housing (read in its
published text). Location and press: the preferred fits H7/h6 and H7/n6, P7/h6 and H7/p6 of ISO 286-1, Annex."""
_SHAFT, _HOUSING = "h6", "H7"
_MEANS = {
    "sliding": "slides on the shaft, is pressed into the bore",
    "location": "goes on the shaft by hand without play, is tapped into the bore",
    "press": "is pressed on the shaft and into the bore",
}


@dataclass(frozen=True)
class Bush:
    """The sizes [mm] of shaft and bore that a bush is reckoned from, and how it is to sit."""

    inside_mm: float
    outside_mm: float
    fit: BushFit
    length_mm: float | None


def bush_lines(bush: Bush, units: Units) -> list[str]:
    """Inside and outside with their limits, what clearance that gives, how to finish it."""
    inside, outside = _INSIDE[bush.fit], _OUTSIDE[bush.fit]
    length = f", length {format_length(bush.length_mm, units, fraction=False)}" if bush.length_mm else ""
    on_shaft, in_bore = _clearance(bush, True), _clearance(bush, False)
    lines = [
        f"  bronze or steel bush, {_size(bush.inside_mm)} {inside} inside, {_size(bush.outside_mm)} {outside} "
        f"outside{length}: {_MEANS[bush.fit]}",
        f"  inside {limits_words(inside, bush.inside_mm, units)}; on a shaft {_SHAFT} {on_shaft}",
        f"  outside {limits_words(outside, bush.outside_mm, units)}; in a bore {_HOUSING} {in_bore}",
    ]
    if bush.fit == "sliding":
        after = limits_words("H7", bush.inside_mm, units)
        lines.append(f"  pressing it in closes the inside: ream or hone it to H7 then, {after}")
    lines.append("  take shaft and bore to the machinist: where one is off its nominal, the bush is turned to suit it")
    return lines


def hone_line(shaft_mm: float, fit: BushFit, units: Units) -> str:
    """The bore as it must become for this shaft."""
    into = _INSIDE[fit]
    to = f"{_size(shaft_mm)} {into}, {limits_words(into, shaft_mm, units)}"
    return f"Hone or ream the bore to {to}, if it may be cut (a hub may; a blade or a grinding wheel never)."


def limits_words(tolerance: str, size_mm: float, units: Units) -> str:
    """`25.007 to 25.028 mm`, in inch files with inches beside it."""
    low, high = limits(tolerance, size_mm).at(size_mm)
    text = f"{low:.3f} to {high:.3f} mm"
    return text if units == "mm" else f"{text} ({low / MM_PER_INCH:.4f} to {high / MM_PER_INCH:.4f} in)"


def micrometres(d_mm: float, units: Units) -> str:
    """A turned diameter as a machinist says it: to 0.001 mm, in inch files to 0.0001 in, with mm beside it."""
    text = f"{format_number(d_mm, 3)} mm"
    return text if units == "mm" else f"{format_number(d_mm / MM_PER_INCH, 4)} in = {text}"


def _size(mm: float) -> str:
    return format_number(mm, 3)


def _clearance(bush: Bush, on_shaft: bool) -> str:
    """Least and greatest play, or grip, of the bush with a shaft h6 or a bore H7 of its size."""
    if on_shaft:
        hole, shaft = limits(_INSIDE[bush.fit], bush.inside_mm), limits(_SHAFT, bush.inside_mm)
    else:
        hole, shaft = limits(_HOUSING, bush.outside_mm), limits(_OUTSIDE[bush.fit], bush.outside_mm)
    least, greatest = hole.low_um - shaft.high_um, hole.high_um - shaft.low_um
    if least >= 0:
        return f"plays {_um(least)} to {_um(greatest)} mm"
    if greatest <= 0:
        return f"grips by {_um(-greatest)} to {_um(-least)} mm"
    return f"from {_um(-least)} mm grip to {_um(greatest)} mm play"


def _um(um: float) -> str:
    return f"{abs(um) / 1000.0:.3f}"
