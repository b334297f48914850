"""The keys of `measure: bolts` as readings, and the solved pattern of them; what cannot be solved is refused by key."""

from __future__ import annotations

import math
from itertools import combinations

from fitwright.measure.bolts.pattern import Pattern, Upright
from fitwright.measure.bolts.readings import CALIPER_SD_MM, OPENING, TAPE_SD_MM, Reading, Readings
from fitwright.measure.bolts.rigidity import Loose, loose
from fitwright.measure.bolts.solve import Regular, Solved, solve
from fitwright.measure.bolts.suspects import Suspect
from fitwright.measure.bolts.triangles import Impossible, Side, impossible
from fitwright.spec.faults import Fault
from fitwright.spec.grammar.measuring.bolts import BoltsKeys, Said
from fitwright.spec.measure_file import Asked
from fitwright.units import format_length

AGREE_SD = 4.0
"""Circles from different readings may differ by so many standard deviations."""
FEW = 6
"""So many holes or readings are named; of more, how many there are."""
SD_MM = {"caliper": CALIPER_SD_MM, "tape": TAPE_SD_MM}


def pattern_of(asked: Asked) -> Pattern:
    """The solved pattern of a `measure: bolts` file, as seen by who looks at the face that was measured.

    Centres in mm, hole diameters and the opening, for a drawing or a template. SpecError where it cannot be solved.
    """
    return solved_of(asked).pattern


def solved_of(asked: Asked) -> Solved:
    """The pattern with all that was found out about its readings; SpecError where the readings cannot be."""
    keys = keys_of(asked)
    readings = readings_of(keys)
    _circles_agree(asked, keys)
    regular = regular_of(keys)
    if regular != "yes" and (missing := loose(readings)):
        raise asked.wrong([_under_determined(readings, missing)])
    hole = sum(keys.hole) / len(keys.hole) if keys.hole else None
    worst = impossible(readings)
    if worst:
        raise asked.wrong([_no_triangle(asked, worst, solve(readings, regular, upright_of(keys), hole))])
    return solve(readings, regular, upright_of(keys), hole)


def keys_of(asked: Asked) -> BoltsKeys:
    """The keys, which are those of this kind."""
    assert isinstance(asked.keys, BoltsKeys)
    return asked.keys


def regular_of(keys: BoltsKeys) -> Regular:
    """What was said of even spacing; a reading of an evenly spaced circle says yes."""
    return "yes" if keys.adjacent or keys.across or keys.circle else keys.regular


def upright_of(keys: BoltsKeys) -> Upright:
    """Which hole stands up, or which two stand level, counted from 0."""
    level = (keys.level[0] - 1, keys.level[1] - 1) if keys.level else None
    return Upright(keys.up - 1 if keys.up else None, level)


def readings_of(keys: BoltsKeys) -> Readings:
    """All readings, in the order of the file."""
    n, made = keys.holes, []
    for (first, second), group in (keys.between or {}).items():
        made += [Reading(first - 1, second - 1, said.value_mm, said.kind) for said in group]
    made += [Reading(0, 1, said.value_mm, said.kind, "adjacent") for said in keys.adjacent or ()]
    made += [Reading(0, n // 2, said.value_mm, said.kind, "across") for said in keys.across or ()]
    if not made:
        made += [Reading(0, 1, value * _chord(n, 1), said="circle") for value in keys.circle or ()]
    for hole, group in keys.opening.from_.items() if keys.opening else ():
        made += [Reading(OPENING, hole - 1, said.value_mm, said.kind) for said in group]
    opening = keys.opening.diameter if keys.opening else ()
    return Readings(n, tuple(made), keys.hole or (), opening, SD_MM[keys.with_])


def _chord(count: int, steps: int) -> float:
    """The distance of two holes `steps` apart on an evenly spaced circle of diameter 1."""
    return math.sin(math.pi * steps / count)


def _circles_agree(asked: Asked, keys: BoltsKeys) -> None:
    """Refused where adjacent, across and circle ask for different circles."""
    sd, say = SD_MM[keys.with_], asked.context.units
    asks = []
    for key, said, steps in (("adjacent", keys.adjacent, 1), ("across", keys.across, keys.holes // 2)):
        if said:
            chord = sum(_centres(one, keys) for one in said) / len(said)
            asks.append((key, chord / _chord(keys.holes, steps), sd / _chord(keys.holes, steps)))
    if keys.circle:
        asks.append(("circle", sum(keys.circle) / len(keys.circle), sd))
    for (one, d_one, sd_one), (other, d_other, sd_other) in combinations(asks, 2):
        slack = AGREE_SD * math.hypot(sd_one, sd_other)
        if abs(d_one - d_other) > slack:
            found = (
                f"{other} for a circle of {format_length(d_other, say)}, {one} for one of {format_length(d_one, say)}"
            )
            allowed = f"readings of one circle, within {format_length(slack, say)}"
            hint = f"read both again; is it {keys.holes} holes, and evenly spaced?"
            raise asked.wrong([Fault((other,), found, allowed, hint)])


def _centres(said: Said, keys: BoltsKeys) -> float:
    """A reading from centre to centre."""
    hole = sum(keys.hole) / len(keys.hole) if keys.hole else 0.0
    return float(Readings(2, (Reading(0, 1, said.value_mm, said.kind),), (hole,)).centres()[0])


def point_name(point: int, count: int) -> str:
    """`hole 3`, or `the opening`."""
    return "the opening" if point in (OPENING, count) else f"hole {point + 1}"


def _under_determined(readings: Readings, missing: Loose) -> Fault:
    names = [point_name(one, readings.count) for one in missing.moving]
    can = f"{_listed(names)} can still move" if 0 < len(names) <= FEW else f"{len(names)} of them can still move"
    count = len(readings.distances)
    found = f"{count} reading{'s' if count != 1 else ''} for {readings.count} holes: {can}"
    add = _listed([one.name for one in missing.add[:FEW]])
    add += f" and {len(missing.add) - FEW} more" if len(missing.add) > FEW else ""
    hint = f"read {add} as well" + ("" if readings.by_rim else "; or say regular: yes if they are evenly spaced")
    return Fault(("between",), found, "distances that hold every hole (2 x holes - 3 at least)", hint, at="key")


def _no_triangle(asked: Asked, worst: Impossible, solved: Solved) -> Fault:
    """The distances that cannot be, and where the other readings tell, which of them is wrong."""
    units, n = asked.context.units, keys_of(asked).holes
    side = worst.side
    parts = " + ".join(f"{_side(one, n)} {format_length(one.apart_mm, units)}" for one in worst.way)
    found = f"{format_length(side.apart_mm, units)} from centre to centre"
    allowed = f"at most {format_length(worst.round_mm, units)}, the way round: {parts}"
    verdict = solved.verdict
    clear = len(verdict.wrong) == 1 and not verdict.rivals and not verdict.scattered
    sides = {_side(one, n) for one in (side, *worst.way)}
    if clear and verdict.wrong[0].name in sides | {"-".join(reversed(one.split("-"))) for one in sides}:
        hint = _near(verdict.wrong[0], asked)
    else:
        hint = "a triangle of these three cannot be: read them again" if len(worst.way) == 2 else "read them again"
    return Fault(_path(asked, _side(side, n)), found, allowed, hint)


def _near(wrong: Suspect, asked: Asked) -> str:
    near, read = format_length(wrong.near_mm, asked.context.units), format_length(wrong.read_mm, asked.context.units)
    return f"by all the other readings {wrong.name} is wrong: {read} should be near {near}"


def _side(side: Side, count: int) -> str:
    if count in (side.first, side.second):
        return f"opening-{min(side.first, side.second) + 1}"
    return f"{side.first + 1}-{side.second + 1}"


def _path(asked: Asked, name: str) -> tuple[str | int, ...]:
    """Where a distance stands in the file, whichever way round it was written."""
    first, second = name.split("-")
    if first == "opening":
        return "opening", "from", second
    written = asked.tree.key_marks
    other = ("between", f"{second}-{first}")
    return other if other in written else ("between", name)


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""
