"""What a solved bolt pattern says in words: its shape, what is suspect, what to read again."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from fitwright.measure.bolts.readings import Kind, Reading
from fitwright.measure.bolts.rigidity import best_extra
from fitwright.measure.bolts.solve import Solved
from fitwright.measure.bolts.suspects import Suspect, deciding, expected
from fitwright.report.measured.bolt_readings import regular_of
from fitwright.spec.grammar.measuring.bolts import BoltsKeys
from fitwright.units import Units, format_length, format_number

KINDS: dict[Kind, str] = {
    "centre": "",
    "outer": "over outer edges",
    "inner": "between inner edges",
    "far_edge": "to far edge",
    "near_edge": "to near edge",
}
UNSURE_SD = 6.0
"""A hole whose give-or-take is more than so many times a reading's standard deviation is badly held."""


def table(solved: Solved, units: Units) -> list[str]:
    """Reading, given, fitted, off, off / usual: a line each, those left out marked."""
    readings, fit = solved.first.readings, solved.shape.fit
    gone = [(one.name, one.read_mm) for one in solved.verdict.wrong]
    rows: list[tuple[str, ...]] = [("reading", "given", "fitted", "off", "off/usual")]
    row = 0
    for k in range(readings.observed):
        one = readings.distances[k] if k < len(readings.distances) else None
        value = float(readings.values[k])
        name = f"{readings.name(k)} {KINDS[one.kind] if one else 'diameter'}".strip()
        given = _plain(value, units)
        if (readings.name(k), value) in gone:
            near = next(s.near_mm for s in solved.verdict.wrong if (s.name, s.read_mm) == (readings.name(k), value))
            rows.append((name, given, _plain(near, units), _signed(value - near, units), "left out"))
            continue
        if one is None and not fit.readings.by_edges and readings.name(k) == "hole":
            continue  # the only reading by edges was left out
        usual = abs(fit.standardised[row])
        said = "unchecked" if np.isnan(usual) else f"{usual:.1f}"
        rows.append(
            (name, given, _plain(float(fit.fitted[row]), units), _signed(float(fit.residuals[row]), units), said)
        )
        row += 1
    return _columns(rows)


def places(solved: Solved, units: Units) -> list[str]:
    """Each hole's place and how sure it is."""
    pattern = solved.pattern
    rows: list[tuple[str, ...]] = [("hole", "right", "up", "give or take")]
    for k, (place, give) in enumerate(zip(pattern.places, pattern.give_mm, strict=True)):
        rows.append((str(k + 1), _plain(place[0], units), _plain(place[1], units), _plain(give, units)))
    if pattern.opening:
        one = pattern.opening
        rows.append(("opening", *(_plain(mm, units) for mm in (one.right_mm, one.up_mm, one.give_mm))))
    return _columns(rows)


def shape(keys: BoltsKeys, solved: Solved, units: Units) -> Iterator[str]:
    """The pattern in words."""
    pattern = solved.pattern

    def say(mm: float) -> str:
        return format_length(mm, units, fraction=False)

    if pattern.shape == "circle" and pattern.count > 2:
        half, give = solved.shape.fit.parameter(0)
        said = "as you said" if regular_of(keys) == "yes" else "the readings agree with that"
        sure = say(2 * give * solved.shape.fit.scatter)
        yield f"{pattern.count} holes evenly spaced ({said}) on a circle of {say(2 * half)}, give or take {sure}"
        yield f"from one hole to the next: {say(2 * half * float(np.sin(np.pi / pattern.count)))}"
    elif pattern.shape == "rectangle":
        (a, b), (c, d) = pattern.places[0], pattern.places[2]
        wide = float(np.hypot(pattern.places[1][0] - a, pattern.places[1][1] - b))
        high = float(np.hypot(pattern.places[1][0] - c, pattern.places[1][1] - d))
        yield f"a rectangle of {say(wide)} (1 to 2) by {say(high)} (2 to 3); the readings agree with that"
    elif pattern.shape == "row":
        yield f"{pattern.count} holes in a row"
        yield (
            "distances along a row hardly tell whether a hole stands aside of it: up to "
            f"{say(_aside(solved))} would not show; lay a straight edge along the row"
        )
    elif pattern.count == 2:
        yield f"2 holes, {say(pattern.circle_mm or 0.0)} apart"
    else:
        yield from _free_words(keys, solved, units)


def _free_words(keys: BoltsKeys, solved: Solved, units: Units) -> Iterator[str]:
    pattern = solved.pattern
    if pattern.count == 3:
        yield "3 holes, not evenly spaced"
    elif pattern.circle_mm:
        circle, off = (format_length(mm, units, fraction=False) for mm in (pattern.circle_mm, pattern.departs_mm))
        yield f"{pattern.count} holes unevenly spaced round a circle of {circle}, the farthest off it by {off}"
    else:
        yield f"{pattern.count} holes at places of their own, on no common circle"
    if solved.uneven_mm is not None and solved.uneven_mm < 1.0 and keys.regular == "auto":
        off = format_length(solved.uneven_mm, units, fraction=False)
        yield f"not evenly spaced by these readings: the worst hole is {off} off; meant to be? say regular: yes"
    if solved.order == 0:
        yield "the numbers do not go round clockwise about the middle: look whether two were swapped"
    if not solved.mirror_settled:
        yield "the mirror image fits as well, and these numbers do not settle which: number the holes clockwise"
    else:
        yield "distances alone fit the mirror image as well; numbered clockwise, it is this one"


def suspects(solved: Solved, units: Units) -> Iterator[str]:
    """What does not go together, and what to do about it."""
    verdict = solved.verdict
    for k, one in enumerate(verdict.wrong):
        yield f"SUSPECT {_against(one, units)}. It is left out; read it again"
        if k == 0 and verdict.rivals:
            yield from _rivals(solved, units)
    if verdict.scattered:
        times = float(np.sqrt(verdict.kept.chi2 / max(verdict.kept.spare, 1)))
        who = "the other readings scatter" if verdict.wrong else "the readings scatter"
        yield (
            f"{who} {times:.1f} times as much as usual and no few of them explain it: read again, "
            "two or three times each (a list)"
            + (", or are the holes not evenly spaced?" if solved.shape.name == "circle" else "")
        )
    if solved.if_even:
        yield f"were the holes meant to be evenly spaced, only {_against(solved.if_even, units)}: then say regular: yes"
    for other in solved.others[:1]:
        new = deciding(solved.first.readings, solved.shape.fit, other)
        tells = f": read {new.reading.name} too (near {_near(new.if_first_mm, units)} as shown here)" if new else ""
        yield f"these readings also fit another arrangement of the holes{tells}"


def _rivals(solved: Solved, units: Units) -> Iterator[str]:
    verdict = solved.verdict
    first, *others = (one.name for one in (*verdict.wrong[:1], *verdict.rivals[:5]))
    if verdict.settled:
        what = {"circle": "evenly spaced", "rectangle": "a rectangle"}[solved.shape.name]
        yield f"these readings alone cannot tell it from {_or(others)}; but only without {first} are the holes {what}"
        return
    named = [
        f"{one.name} (read {_near(one.read_mm, units)}, then near {_near(one.near_mm, units)})"
        for one in verdict.rivals[:5]
    ]
    yield f"these readings cannot tell it from {_or(named)}"
    new = verdict.decide
    if new:
        here, there = _near(new.if_first_mm, units), _near(new.if_rival_mm, units)
        yield f"to decide, read {new.reading.name} too: near {here} if {first} is wrong, near {there} if {others[0]} is"
    else:
        yield "to decide, read those again, each on its own"


def _or(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} or {names[-1]}"


def advice(solved: Solved, units: Units) -> Iterator[str]:
    """Which further reading is worth the most, where one is."""
    fit, pattern = solved.shape.fit, solved.pattern
    if pattern.shape == "row" or fit.readings.count == 2:
        return
    extra = best_extra(fit.readings, fit.places)
    worst = int(np.argmax(pattern.give_mm))
    even = pattern.shape == "circle"
    if extra is not None and not even and pattern.give_mm[worst] > UNSURE_SD * fit.readings.sd_mm:
        give = format_length(pattern.give_mm[worst], units, fraction=False)
        yield f"hole {worst + 1} is sure to {give} only: read {_asked(solved, extra, units)} too"
    elif solved.first.spare == 0 and extra is not None:
        yield f"no reading is spare, so a slip would not show: read {_asked(solved, extra, units)} too"
    elif solved.first.spare == 0:
        yield "no reading is spare, so a slip would not show: read each again and write both, as a list"


def _asked(solved: Solved, extra: Reading, units: Units) -> str:
    near, _ = expected(solved.shape.fit, extra)
    how = "centre to centre" if extra.first >= 0 else "rim to centre"
    return f"{extra.name} ({how}, near {format_length(near, units, fraction=False)})"


def _against(one: Suspect, units: Units) -> str:
    kind = KINDS[one.reading.kind] if one.reading else "diameter"
    name = f"{one.name} {kind}".strip()
    read, near = (format_length(mm, units, fraction=False) for mm in (one.read_mm, one.near_mm))
    return f"{name} does not go with the others: read {read}, should be near {near}"


def _near(mm: float, units: Units) -> str:
    return format_length(mm, units, fraction=False)


def _aside(solved: Solved) -> float:
    """How far [mm] a hole between the outermost may stand aside without its distances showing it (2 sd)."""
    along = np.sort(solved.shape.fit.holes[:, 0])
    leg = [(x - along[0], along[-1] - x) for x in along[1:-1]]
    slack = 2 * float(np.sqrt(3.0)) * solved.first.readings.sd_mm
    return max(float(np.sqrt(2 * slack * a * b / max(a + b, 1e-9))) for a, b in leg)


def _plain(mm: float, units: Units) -> str:
    return format_number(mm, 2) if units == "mm" else format_number(mm / 25.4, 3)


def _signed(mm: float, units: Units) -> str:
    text = _plain(mm, units)
    return text if text.startswith("-") or text == "0" else f"+{text}"


def _columns(rows: list[tuple[str, ...]]) -> list[str]:
    """The first column to the left, the others to the right."""
    wide = [max(len(row[k]) for row in rows) for k in range(len(rows[0]))]
    return [
        "  " + "  ".join([row[0].ljust(wide[0]), *(c.rjust(w) for c, w in zip(row[1:], wide[1:], strict=True))])
        for row in rows
    ]
