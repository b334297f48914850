"""The ranked threads as a short table."""

from __future__ import annotations

from collections.abc import Sequence

from fitwright.data.threads import ThreadRow
from fitwright.measure.thread import Judged, ThreadReadings
from fitwright.units import MM_PER_INCH, Units, format_number


def table(
    judged: Sequence[Judged], rows: Sequence[ThreadRow], readings: ThreadReadings, units: Units, *, shares: bool = True
) -> str:
    """Name, range over (or between) the crests, pitch, how far off, share; one line a thread."""
    face = "over the crests" if readings.face == "outside" else "between the crests"
    lines = [["thread", face, "pitch", "off", *(["share"] if shares else [])]]
    for one, row in zip(judged, rows, strict=True):
        line = [row.name, range_words(one, units), pitch_words(row), off_words(one, readings, units)]
        lines.append([*line, *([share_words(one.share)] if shares else [])])
    widths = [max(len(line[i]) for line in lines) for i in range(len(lines[0]))]
    return "\n".join("  ".join(cell.ljust(w) for cell, w in zip(line, widths, strict=True)).rstrip() for line in lines)


def say(mm: float, units: Units, *, unit: bool = True) -> str:
    """A length as thread tables write it: `7.97 mm`, `0.3113 in`."""
    if units == "mm":
        return format_number(mm, 2) + (" mm" if unit else "")
    return format_number(mm / MM_PER_INCH, 4) + (" in" if unit else "")


def range_words(one: Judged, units: Units) -> str:
    """`7.76 to 7.97 mm`."""
    return f"{say(one.candidate.least_mm, units, unit=False)} to {say(one.candidate.greatest_mm, units)}"


def pitch_words(row: ThreadRow) -> str:
    """`1.25 mm (20.3 per in)`, `18 per in (1.411 mm)`: as its standard says it first."""
    mm = f"{format_number(row.pitch_mm, 3)} mm"
    if row.threads_per_in is None:
        return f"{mm} ({format_number(row.per_inch, 1)} per in)"
    return f"{format_number(row.threads_per_in, 1)} per in ({mm})"


def off_words(one: Judged, readings: ThreadReadings, units: Units) -> str:
    """How far off in standard deviations, and by what."""
    said = []
    if abs(one.beyond_mm) >= 0.005:
        far = say(abs(one.beyond_mm), units)
        small = one.beyond_mm < 0
        why = ""
        if one.diameter_off_sd == 0:
            why = ": worn?" if small == (readings.face == "outside") else ": plated?"
        said.append(f"{far} {'under' if small else 'over'}{why}")
    if one.pitch_off_sd >= 1:
        said.append("pitch")
    if not one.taper_agrees:
        said.append("straight" if one.candidate.taper == 0 else "tapers")
    return f"{one.off_sd:.1f} sd" + (f" ({', '.join(said)})" if said else "")


def share_words(share: float) -> str:
    """`87 %`."""
    if share < 0.005:
        return "< 1 %"
    return f"{100 * share:.0f} %" if share < 0.995 else "> 99 %"
