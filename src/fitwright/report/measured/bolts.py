"""`measure bolts`: where the holes are, which reading is wrong, and the `holes` of a flange that fits."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import wrap

import numpy as np

from fitwright.measure.bolts.solve import Solved
from fitwright.report.measured.answer import Answer
from fitwright.report.measured.bolt_holes import HoleLines, hole_lines, same_from_behind
from fitwright.report.measured.bolt_readings import keys_of, solved_of
from fitwright.report.measured.bolt_sketch import sketch
from fitwright.report.measured.bolt_words import advice, places, shape, suspects, table
from fitwright.spec.grammar.measuring.bolts import BoltsKeys
from fitwright.spec.measure_file import Asked
from fitwright.units import Units, format_length

WIDE = 110
"""Columns of a line at most."""
BAD_MM = 0.5
"""Readings that scatter without a culprit pass as long as the worst is off by no more than this."""
HOPELESS_MM = 1.5
"""Beyond this no slot helps, and no lines are given."""


def answer(asked: Asked) -> Answer:
    """The table of readings, the pattern, what is suspect, and the lines for a flange."""
    keys, solved = keys_of(asked), solved_of(asked)
    units = asked.context.units
    open_ = doubtful(solved)
    made = hole_lines(keys, solved, asked.context)
    said = [*suspects(solved, units), *advice(solved, units), *(() if open_ else made.said)]
    parts = [
        [_head(keys, solved, units)],
        ["", *table(solved, units)],
        ["", *_wrapped(shape(keys, solved, units))],
        ["", *(sketch(solved.pattern).splitlines()), ""],
        _wrapped([_seen(keys, solved)]),
        places(solved, units),
        ["", *_wrapped(said)] if said else [],
    ]
    text = "\n".join(line for part in parts for line in part)
    return Answer(text, _yaml(made, solved, open_), _good(solved))


def _wrapped(sentences: Iterable[str]) -> list[str]:
    return [line for one in sentences for line in wrap(one, WIDE, subsequent_indent="  ", break_on_hyphens=False)]


def _seen(keys: BoltsKeys, solved: Solved) -> str:
    where = "the machine" if keys.face == "machine" else "the flange's mating face"
    return f"as you look at {where}, from {solved.pattern.origin}, {solved.pattern.turn}:"


def _head(keys: BoltsKeys, solved: Solved, units: Units) -> str:
    readings, spare = solved.first.readings, solved.first.spare
    name = f"{keys.label}: " if keys.label else ""
    count = len(readings.distances)
    words = f"{count} distance{'s' if count != 1 else ''}"
    usual = format_length(readings.sd_mm, units, fraction=False)
    more = f"{spare} more than needed" if spare else "none more than needed"
    return f"{name}{readings.count} holes, {words} by {keys.with_} ({usual} usual error), {more}"


def _yaml(made: HoleLines, solved: Solved, open_: bool) -> str:
    """Nothing where it is not known what to trust."""
    if open_ or not made.yaml:
        return ""
    gone = ", ".join(one.name for one in solved.verdict.wrong)
    return (f"# without {gone}, which did not go with the other readings\n" if gone else "") + made.yaml


def doubtful(solved: Solved) -> bool:
    """Whether it is open which reading, arrangement or mirror image is right."""
    if solved.verdict.scattered and _worst_off(solved) > HOPELESS_MM:
        return True
    turned = not solved.mirror_settled and not same_from_behind(solved.pattern)
    return turned or bool((solved.verdict.rivals and not solved.verdict.settled) or solved.others)


def _good(solved: Solved) -> bool:
    bad = solved.verdict.scattered and _worst_off(solved) > BAD_MM
    return not (solved.verdict.wrong or doubtful(solved) or bad)


def _worst_off(solved: Solved) -> float:
    return float(np.max(np.abs(solved.shape.fit.residuals), initial=0.0))
