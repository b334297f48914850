"""A round thing read across, or with a tape round it: what the readings say, and what they cannot."""

from __future__ import annotations

import math

from fitwright.measure.oval import Oval, directions, once_round_mm, oval_of, suspect_reading
from fitwright.report.measured.face_line import length, lengths
from fitwright.report.measured.round_found import OVAL_REL, Found, counted, oval_advice, percent, say
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.measuring.circle import CircleKeys
from fitwright.spec.measure_file import Asked
from fitwright.spec.size import TAPE_ROUND_MM, Size, from_circumference, from_readings
from fitwright.units import Units, format_angle

UNEVEN_MM = 0.05
"""Where the directions were uneven, the mean of the readings may be this far off before the fitted one is given."""
_LOBES = (
    "not seen: a three-lobed form reads the same all round, by caliper and by tape (constant width). Where it should "
    "fit and does not, trace the rim on paper and give points:"
)


def across(keys: CircleKeys, asked: Asked) -> Found:
    """From readings, a circumference or both; a soft thing by what it becomes when it is pressed round."""
    units = asked.context.units
    alone = keys.soft and keys.circumference and keys.readings and len(keys.readings) == 1
    if not keys.readings or alone:
        found = _by_tape(keys.circumference or (), units)
    elif keys.soft:
        found = _soft(keys.readings, units)
    elif keys.angles and len(keys.readings) > 2:
        found = _by_angles(keys.readings, keys.angles, asked)
    else:
        found = _by_readings(keys.readings, units)
    if keys.readings and keys.circumference and found.good and not alone:
        found = _both(found, keys, units)
    if found.good and keys.angles and keys.readings and len(keys.readings) < 3 and not keys.soft:
        found.notes.append("fewer than three directions do not say where it is widest: read a third, 60 deg on")
    if found.good:
        found.notes.append(_LOBES)
    return found


def _by_readings(readings: tuple[float, ...], units: Units) -> Found:
    size = from_readings(readings)
    found = Found(
        size.nominal_mm, lengths(readings, units), lines=[_diameter(size, counted(len(readings), "reading"), units)]
    )
    if len(readings) == 1:
        found.lines.append("one reading says nothing of its form: read it three times, 60 deg apart")
        return found
    at = suspect_reading(readings)
    if at is not None:
        return _suspected(found, at, readings, units)
    found.lines.append(_range_words(size, units))
    if size.ovality_mm > OVAL_REL * size.nominal_mm:
        found.fit = "slide"
        found.lines += oval_advice(size.ovality_mm, units)
    return found


def _range_words(size: Size, units: Units) -> str:
    share = size.ovality_mm / size.nominal_mm
    form = "oval" if share > OVAL_REL else "round, as far as these readings show"
    return f"{form}: they differ by {say(size.ovality_mm, units)} ({percent(share)})"


def _by_angles(readings: tuple[float, ...], angles: tuple[float, ...], asked: Asked) -> Found:
    units = asked.context.units
    if directions(angles) < 3:
        told = counted(directions(angles), "different direction")
        allowed = "at least 3 directions, 15 deg or more apart; 180 deg round is the same diameter"
        raise asked.wrong([Fault(("angles",), told, allowed, "such as angles: [0, 60, 120]")])
    oval = oval_of(readings, angles)
    values = _values(oval, readings)
    size = from_readings(values)
    error = max(size.greatest_mm - size.nominal_mm, oval.error_mm)
    heading = f"diameter {say(oval.mean_mm, units)}, give or take {say(max(oval.error_mm, 0.1), units)}"
    found = Found(
        oval.mean_mm,
        lengths(values, units),
        lines=[f"{heading} ({counted(len(readings), 'reading')} with their angles)"],
    )
    if oval.suspect is not None:
        return _suspected(found, oval.suspect, readings, units, angles)
    found.lines += _form_words(oval, units)
    if oval.is_oval and oval.oval_mm > OVAL_REL * oval.mean_mm:
        found.fit = "slide"
    if values != readings:
        found.notes.append("the line below holds the form worked out from them: widest, between, narrowest, between")
    if oval.is_oval and error > oval.error_mm:
        found.lines.append(f"the part reckons with {say(error, units)} either way: it must go on at the widest place")
    return found


def _form_words(oval: Oval, units: Units) -> list[str]:
    give = f"{say(oval.oval_mm, units)}, give or take {say(oval.oval_error_mm, units)}"
    if not oval.is_oval:
        return [f"round, as far as these readings show (ovality {give})"]
    at = oval.wide_at_deg
    share = oval.oval_mm / oval.mean_mm
    wide, narrow = (f"{say(oval.at(deg), units)} at {format_angle(deg % 180.0)}" for deg in (at, at + 90.0))
    word = "oval" if share > OVAL_REL else "slightly oval"
    lines = [f"{word}: by {give} ({percent(share)}); widest {wide}, narrowest {narrow}"]
    return [*lines, *oval_advice(oval.oval_mm, units)] if share > OVAL_REL else lines


def _values(oval: Oval, readings: tuple[float, ...]) -> tuple[float, ...]:
    """The readings where they show the fitted mean and ovality; else the fitted form read at four even directions."""
    mean, apart = sum(readings) / len(readings), max(readings) - min(readings)
    shown = abs(apart - oval.oval_mm) <= 2.0 * UNEVEN_MM or not oval.is_oval
    if abs(mean - oval.mean_mm) <= UNEVEN_MM and shown:
        return readings
    return tuple(round(oval.at(oval.wide_at_deg + turned), 2) for turned in (0.0, 45.0, 90.0, 135.0))


def _soft(readings: tuple[float, ...], units: Units) -> Found:
    """Its length round stays when it is pressed round: of an ellipse for the longest and shortest, else the mean."""
    if len(readings) == 1:
        line = (
            "one reading of something soft says little: read its longest and shortest diameter, or lay a tape round it"
        )
        return Found(readings[0], lines=[line], good=False)
    longest, shortest = max(readings), min(readings)
    mean = sum(readings) / len(readings)
    d = once_round_mm(longest, shortest) if len(readings) == 2 else mean
    size = from_circumference(d * math.pi)
    found = Found(d, f"{{circumference: {length(round(d * math.pi, 2), units)}}}")
    found.lines.append(_diameter(size, "once pressed round", units))
    share = (longest - shortest) / mean
    why = (
        f"an ellipse of that length round; the plain mean is {say(mean, units)}" if len(readings) == 2 else "their mean"
    )
    found.lines.append(
        f"it lay oval: {say(longest, units)} by {say(shortest, units)} ({percent(share)}); taken as {why}"
    )
    if share > OVAL_REL:
        found.lines.append(
            "better: lay a tape round it and give circumference:, or print stepped plugs (part: fit_gauge) and take "
            "the one that just goes in"
        )
    return found


def _by_tape(rounds: tuple[float, ...], units: Units) -> Found:
    mean = sum(rounds) / len(rounds)
    size = from_circumference(mean)
    found = Found(size.nominal_mm, f"{{circumference: {length(mean, units)}}}")
    found.lines.append(_diameter(size, f"tape round it, {say(mean, units)}", units))
    apart = (max(rounds) - min(rounds)) / math.pi
    if apart > 2.0 * TAPE_ROUND_MM:
        found.lines.append(
            f"the tape readings differ by {say(apart, units)} on the diameter: lay it square and read again"
        )
        found.good = False
    else:
        found.lines.append("how oval it is a tape does not say; it tells the size of what can be pressed round")
    return found


def _both(found: Found, keys: CircleKeys, units: Units) -> Found:
    """The mean diameter of any convex form is its length round by pi (Cauchy): the two must agree."""
    assert keys.readings and keys.circumference
    tape = _by_tape(keys.circumference, units)
    read = from_readings(keys.readings)
    apart = abs(tape.d_mm - found.d_mm)
    allowed = TAPE_ROUND_MM + max(read.greatest_mm - read.nominal_mm, 0.1)
    both = f"caliper {say(found.d_mm, units)}, tape {say(tape.d_mm, units)}"
    if apart > allowed or not tape.good:
        found.lines += [
            f"the two contradict each other: {both}, {say(apart, units)} apart, at most {say(allowed, units)} expected",
            "read both again: a tape must lie square, and reads its own thickness with it; a dent fools the tape, a "
            "rib the caliper",
        ]
        found.good = False
    elif keys.soft:
        tape.lines.append(f"the caliper agrees: {both}")
        return tape
    else:
        found.lines.append(f"the tape agrees: {both}")
    return found


def _suspected(
    found: Found, at: int, readings: tuple[float, ...], units: Units, angles: tuple[float, ...] | None = None
) -> Found:
    """Name the reading that does not go with the others; what the others say."""
    rest = [one for i, one in enumerate(readings) if i != at]
    without = sum(rest) / len(rest)
    where = f" at {format_angle(angles[at])}" if angles else ""
    if angles:
        kept = [one for i, one in enumerate(angles) if i != at]
        without = oval_of(rest, kept).mean_mm if directions(kept) >= 3 else without
    found.lines += [
        f"suspect: reading {at + 1}, {say(readings[at], units)}{where}, does not go with the others",
        f"without it the diameter is {say(without, units)}: read that place again, then ask once more",
    ]
    found.good = False
    return found


def _diameter(size: Size, how: str, units: Units) -> str:
    give = size.greatest_mm - size.nominal_mm
    return f"diameter {say(size.nominal_mm, units)}, give or take {say(give, units)} ({how})"
