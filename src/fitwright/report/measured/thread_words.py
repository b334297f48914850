"""What the answer says in sentences: what was read, the verdict, how to tell threads apart, what to drill."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations

from fitwright.data.threads import ThreadRow, screw_of
from fitwright.measure.thread import FITS_SD, Candidate, Judged, PitchReading, ThreadReadings
from fitwright.measure.thread_next import MORE_DIAMETERS, OVER_THREADS, NextReading, part_after
from fitwright.report.measured.thread_hole import ClearHole
from fitwright.report.measured.thread_table import range_words, say
from fitwright.units import MM_PER_INCH, Units, format_number

TOO_LONG = 15
"""Two threads that part later than this are not told apart by holding them together."""
SECOND_WORTH = 0.3
"""A second reading that removes less of the doubt is not said."""
CHECK = {"pitch": "check the pitch", "taper": "see whether it tapers", "diameter": "measure its diameter again"}


def what_was_read(readings: ThreadReadings, units: Units) -> str:
    """Diameter with its uncertainty, pitch, taper."""
    count = len(readings.diameters_mm)
    face = "over the crests" if readings.face == "outside" else "between the crests"
    give = say(2 * readings.sd_mm, units)
    mean = say(readings.diameter_mm, units)
    said = [f"{face} {mean}, give or take {give} ({'one reading' if count == 1 else f'{count} readings'})"]
    said += [_pitch_read(read) for read in readings.pitches] or ["pitch not read"]
    if readings.tapers is not None:
        said.append("tapers" if readings.tapers else "straight")
    return "; ".join([*said, *(["worn"] if readings.worn else [])])


def _pitch_read(read: PitchReading) -> str:
    if read.high_mm > read.low_mm:
        return f"pitch {format_number(read.low_mm, 3)} to {format_number(read.high_mm, 3)} mm by a gauge"
    return f"pitch {format_number(read.middle_mm, 3)} mm, give or take {format_number(2 * read.sd_mm, 3)} mm"


def verdict(rows: Sequence[ThreadRow], sure: bool, readings: ThreadReadings, following: Sequence[NextReading]) -> str:
    """One sentence."""
    if sure:
        return f"This is {rows[0].name}."
    if len(rows) == 1 and readings.pitches:
        return f"Most likely {rows[0].name}."
    check = CHECK[following[0].reading] if following else CHECK["pitch"]
    if readings.pitches and check == CHECK["pitch"]:
        check = "read the pitch over several threads"
    if len(rows) > 1 and not following:
        check = "readings with a caliper do not tell them apart"
    names = [row.name for row in rows] if readings.pitches else list(dict.fromkeys(row.nominal for row in rows))
    if len(names) == 1 and len(rows) > 1:
        pitches = _either([_pitch(row) for row in rows])
        return f"{names[0]}, with a pitch of {pitches}: {check}."
    return f"{_either(names)}: {check}."


def notes(leading: Sequence[Judged], rows: Sequence[ThreadRow], readings: ThreadReadings, units: Units) -> list[str]:
    """What one should know about these threads: pipe names, straight against taper, crests over their range."""
    said = []
    pipes = [row for row in rows if row.is_pipe]
    if pipes:
        row = pipes[0]
        size = say(row.major_mm, units)
        where = " where it is gauged" if row.taper else ""
        said.append(f"A pipe thread's name is not its diameter: {row.name} measures {size} over its crests{where}.")
        said.append("G is straight and seals on a washer or ring; R and NPT taper 1:16 and seal in the thread.")
        said.append("They start into each other and then leak or let go under pressure: be sure before air goes on.")
    if readings.face == "outside" and all(one.beyond_mm > 0.005 for one in leading):
        said.append("Its crests are over the tolerance of a bare thread: plated, or a plain rod without a thread.")
    return said


def tests(
    leading: Sequence[Judged],
    rows: Sequence[ThreadRow],
    following: Sequence[NextReading],
    readings: ThreadReadings,
    units: Units,
) -> str:
    """How to tell the leading threads apart, the most telling reading first, with what each would give."""
    if len(rows) == 1:
        return "\n- or ".join(["to be sure:", *_pitch_tests(rows, readings, units)]).replace("\n- or ", "\n- ", 1)
    lines: list[str] = []
    for step in [*following[:1], *(step for step in following[1:2] if step.worth >= SECOND_WORTH)]:
        if step.reading == "pitch":
            lines += [*_pitch_tests(rows, readings, units), *_held_together(leading, readings)]
        elif step.reading == "taper":
            lines.append(_taper_test(rows, units))
        else:
            lines += _diameter_tests(leading, rows, units)
    if not following:
        nut = _nut_test([one.candidate for one in leading], rows)
        lines = [nut] if nut else []
    lines += _form_test(rows)
    if not lines:
        return ""
    return "\n- or ".join(["to tell them apart:", *lines]).replace("\n- or ", "\n- ", 1)


def _pitch_tests(rows: Sequence[ThreadRow], readings: ThreadReadings, units: Units) -> list[str]:
    over = OVER_THREADS[readings.face]
    ways: dict[float, list[ThreadRow]] = {}
    for row in sorted(rows, key=lambda row: row.pitch_mm):
        ways.setdefault(round(row.pitch_mm, 3), []).append(row)
    groups = [(group[0], " and ".join(row.name for row in group)) for group in ways.values()]
    decimals = 1 if units == "mm" else 3
    per = 1.0 if units == "mm" else MM_PER_INCH
    lengths = ", ".join(f"{format_number(over * row.pitch_mm / per, decimals)} {units} for {n}" for row, n in groups)
    if readings.face == "inside":
        return [
            f"press paper or clay into the thread and measure over {over} threads of the print: {lengths}",
            "try a bolt whose thread is known: it has to turn in by hand, all the way",
        ]
    inch = "25.4 mm" if units == "mm" else "1 in"
    counts = ", ".join(f"{_with_fraction(row.per_inch)} for {names}" for row, names in groups)
    return [f"measure over {over} threads: {lengths}", f"count the threads over {inch}: {counts}"]


def _held_together(leading: Sequence[Judged], readings: ThreadReadings) -> list[str]:
    a = leading[0].candidate
    others = [one.candidate for one in leading[1:] if part_after(a, one.candidate) <= TOO_LONG]
    if not others or readings.face == "inside":
        return []
    said = [f"after {max(2, math.ceil(part_after(a, b)))} threads if it is {b.name}" for b in others]
    return [f"hold it against a known {a.name}: the crests part by half a pitch {', '.join(said)}"]


def _taper_test(rows: Sequence[ThreadRow], units: Units) -> str:
    taper = [row for row in rows if row.taper]
    apart = 10.0 if all((row.useful_mm or 0.0) > 12 for row in taper) else 5.0
    more = say(apart * taper[0].taper, units)
    straight = [row.name for row in rows if not row.taper]
    where = say(apart, units)
    return (
        f"measure over the crests at two places {where} apart: {more} more for {_either([r.name for r in taper])}"
        f" (1:16), the same for {_either(straight)}"
    )


def _diameter_tests(leading: Sequence[Judged], rows: Sequence[ThreadRow], units: Units) -> list[str]:
    ranges = ", ".join(f"{range_words(one, units)} for {one.candidate.name}" for one in leading)
    nut = _nut_test([one.candidate for one in leading], rows)
    return [f"take {MORE_DIAMETERS} readings where the crests are not worn: {ranges}", *([nut] if nut else [])]


def _nut_test(candidates: Sequence[Candidate], rows: Sequence[ThreadRow]) -> str:
    """A nut of a smaller one does not start on a larger, where the larger's crests are over the smaller's major."""
    pairs = [
        sorted(pair, key=lambda one: one[1].major_mm) for pair in combinations(zip(candidates, rows, strict=True), 2)
    ]
    found = [
        (abs(small[1].pitch_mm - large[1].pitch_mm), small[1].name, large[1].name)
        for small, large in pairs
        if small[1].nominal != large[1].nominal and large[0].least_mm >= small[1].major_mm
    ]
    if not found:
        return ""
    _, small_name, large_name = min(found)
    return f"try a known {small_name} nut: it does not start on {large_name}"


def _form_test(rows: Sequence[ThreadRow]) -> list[str]:
    """R and NPT of one pitch differ by form: 55 deg and round crests (ISO 7-1), 60 deg and flat (ASME B1.20.1)."""
    whitworth = [row for row in rows if row.name.startswith("R ")]
    alike = [(r, n) for r in whitworth for n in rows if n.name.endswith("NPT") and abs(n.pitch_mm - r.pitch_mm) < 0.01]
    if not alike:
        return []
    r, n = alike[0]
    return [f"look at the crests through a glass: round for {r.name} (55 deg), flat for {n.name} (60 deg)"]


def nothing_fits(
    close: Sequence[Judged], rows: Sequence[ThreadRow], judged: Sequence[Judged], readings: ThreadReadings, units: Units
) -> str:
    """That no thread fits, the nearest, and what may be behind it."""
    near = close[0]
    said = [
        f"No thread of the tables fits; nearest is {near.candidate.name}, {_how_far(near, rows[0], readings, units)}."
    ]
    by_diameter = [one for one in judged if one.diameter_off_sd <= FITS_SD and one.taper_agrees]
    if readings.pitches and by_diameter:
        names = _either([one.candidate.name for one in by_diameter[:3]])
        said.append(f"By the diameter alone {names} would do: read the pitch again, over several threads.")
    elif readings.tapers and not by_diameter:
        said.append("Nothing that tapers has this diameter: measure at both ends of the thread whether it does.")
    else:
        said.append("Measure again over the crests, square to the axis. A rod without a thread is not looked up here.")
    said.append(
        "Not in the tables: sizes of the third choice, extra-fine, trapezoidal, old national and special threads."
    )
    return "\n".join(said)


def _how_far(one: Judged, row: ThreadRow, readings: ThreadReadings, units: Units) -> str:
    said = []
    if abs(one.beyond_mm) >= 0.005:
        far = say(abs(one.beyond_mm), units)
        said.append(f"{far} {'over' if one.beyond_mm > 0 else 'under'} its range")
    if one.pitch_off_sd > 1:
        read = format_number(readings.pitches[0].middle_mm, 3)
        said.append(f"its pitch {format_number(row.pitch_mm, 3)} mm against {read} mm read")
    if not one.taper_agrees:
        said.append("which is straight" if one.candidate.taper == 0 else "which tapers")
    return " and ".join(said) + f" ({one.off_sd:.0f} standard deviations)"


def clearance(hole: ClearHole | None, rows: Sequence[ThreadRow], units: Units) -> str:
    """The clearance hole in words."""
    if hole is None:
        without = list(dict.fromkeys(row.nominal for row in rows if screw_of(row) is None))
        if not without:
            return "clearance hole: no one hole suits them all: tell them apart first."
        names = _either(without)
        return f"clearance hole: none in our tables for {names}; a part's YAML takes M3 to M12 and No. 6 to 1/2 in."
    size = say(hole.d_mm, units)
    standard = "ISO 273" if hole.size.startswith("M") else "ASME B18.2.8"
    which = f"{standard}, {hole.clearance} for {hole.size}"
    both = f", which clears {' and '.join(hole.sizes)} alike" if len(hole.sizes) > 1 else ""
    return f"clearance hole: {size} ({which}){both}"


def not_before(rows: Sequence[ThreadRow], readings: ThreadReadings) -> str:
    """Why a tapped hole has to wait."""
    if len(rows) > 1 and readings.pitches:
        return "not before they are told apart."
    return f"not before the pitch is read{' over several threads' if readings.pitches else ''}."


def _pitch(row: ThreadRow) -> str:
    return f"{row.threads_per_in:g} per in" if row.threads_per_in else f"{row.pitch_mm:g} mm"


def _either(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def _with_fraction(number: float) -> str:
    """`20 1/3`: to the nearest third or quarter."""
    parts = {0.0: "", 0.25: " 1/4", 1 / 3: " 1/3", 0.5: " 1/2", 2 / 3: " 2/3", 0.75: " 3/4", 1.0: ""}
    whole = int(number)
    part = min(parts, key=lambda one: abs(number - whole - one))
    return f"{whole + (1 if part == 1.0 else 0)}{parts[part]}"
