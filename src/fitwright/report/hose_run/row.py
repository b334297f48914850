"""The answer to a row of fixed hangers: sag, spacing, what hangs lowest, what each hanger feels."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from fitwright.finding import Finding
from fitwright.physics.hose_fixed import CLAMP_N
from fitwright.physics.hose_row import LOOSEST, RULE, Felt, SpanJudged, farthest_apart_mm, parts_that_keep
from fitwright.report.hose_run.say import RunAnswer, Say, Table, finding, station_rows
from fitwright.report.wording import in_units
from fitwright.spec.run import RunSpec
from fitwright.spec.run_solved import RowSolved, solved_row

MODEL = (
    "The hose is limp and does not stretch; a stiff one sags less. Every hanger grips it.",
    "Where nothing else is said all spans are drawn with the same level pull.",
)
TIGHTEST_SHARE = 0.5
"""A bend over a hanger has room in half of the shorter span beside it."""


def answered(run: RunSpec) -> tuple[RunAnswer, RowSolved]:
    """The answer, and the numbers that the picture is drawn from."""
    say, solved = Say(run.units), solved_row(run)
    count = "1 hanger" if len(run.hangers) == 1 else f"{len(run.hangers)} hangers"
    hung = f"{run.name}: a row, {count}, {say.mm(solved.length_mm)} of hose; {in_units(run.hose.words, run.units)}"
    tables = _spans(run, solved, say), station_rows(run, solved.felt, say)
    found = [*_sags(run, solved, say), *_low(run, solved, say), *_bends(run, solved, say), *_ends(run, solved, say)]
    return RunAnswer(run, hung, tables, tuple(found), _numbers(run, solved), MODEL), solved


def names(run: RunSpec) -> list[str]:
    """`hanger 1 to hanger 2` and so on."""
    return [f"{a.label} to {b.label}" for a, b in zip(run.stations, run.stations[1:], strict=False)]


def _spans(run: RunSpec, solved: RowSolved, say: Say) -> Table:
    heads = "span", "apart", "rises", "hose", "sags", "may sag", "lowest axis", "level pull", "tightest bend"
    rows = []
    for name, one in zip(names(run), solved.spans, strict=True):
        span = one.piece.span
        cells = (*(span.level_mm, span.rise_mm, span.length_mm, span.sag_mm, one.permitted_mm, one.piece.lowest_mm),)
        pull = span.level_n(run.hose.full_n_mm)
        rows.append((name, *(say.mm(x) for x in cells), say.n(pull), say.bend(span.radius_mm)))
    return Table("Spans, the pull with the hose half full:", heads, tuple(rows))


def _sags(run: RunSpec, solved: RowSolved, say: Say) -> Iterator[Finding]:
    """Spans that are alike are told of once."""
    for name, one in alike(run, solved).items():
        sag, most = one.piece.span.sag_mm, one.permitted_mm
        words = f"{name}: sags {say.mm(sag)} over {say.mm(one.piece.span.level_mm)}, {say.mm(most)} permitted"
        if one.sags_too_far:
            yield finding("hose.sag", "fail", name, words, _nearer(run, one, say), sag, most)
        else:
            yield finding("hose.sag", "pass", name, words, value=sag, limit=most)
        yield from _apart(name, one, say)


def alike(run: RunSpec, solved: RowSolved) -> dict[str, SpanJudged]:
    """Name -> span; of spans as long and as steep as one before only how many more there are is said."""
    found: dict[tuple[int, int, int], list[str]] = {}
    first: dict[tuple[int, int, int], SpanJudged] = {}
    for name, one in zip(names(run), solved.spans, strict=True):
        span = one.piece.span
        key = round(span.level_mm), round(span.rise_mm), round(10 * span.sag_mm)
        first.setdefault(key, one)
        found.setdefault(key, []).append(name)
    more = {key: f" and {len(several) - 1} more alike" if len(several) > 1 else "" for key, several in found.items()}
    return {f"{several[0]}{more[key]}": first[key] for key, several in found.items()}


def _nearer(run: RunSpec, one: SpanJudged, say: Say) -> str:
    """Hangers nearer together, or the hose drawn tighter."""
    parameter = one.piece.span.parameter_mm
    apart, more = farthest_apart_mm(parameter), parts_that_keep(one) - 1
    hangers = f"{more} more hanger{'s' if more > 1 else ''} in this span"
    pulls = [say.n(a * run.hose.empty_n_mm) for a in (one.parameter_for_rule_mm, parameter)]
    tighter = f"raw the empty hose with {pulls[0]} instead of {pulls[1]}, which the end of the row has to bear."
    if apart < 2 * run.hose.over_mm:
        return f"D{tighter}"
    return f"At this pull level hangers stand at most {say.mm(apart)} apart: {hangers}. Or d{tighter}"


def _apart(name: str, one: SpanJudged, say: Say) -> Iterator[Finding]:
    rule = one.too_far_apart
    if rule is None:
        return
    level, most = one.piece.span.level_mm, 1000.0 * rule.spacing_m
    words = f"{name}: {say.mm(level)} from one support to the next, at most {say.mm(most)} ({rule.words})"
    advice = f"{math.ceil(level / (1000.0 * RULE.spacing_m) - 1e-6) - 1} more between them."
    if rule is not LOOSEST:
        advice += " Where the hose's maker says that it may hang so far, his word counts."
    yield finding("hose.spacing", "fail" if rule is LOOSEST else "warn", name, words, advice, level, most)


def _low(run: RunSpec, solved: RowSolved, say: Say) -> Iterator[Finding]:
    if run.keep_above_mm is None:
        return
    for name, one in zip(names(run), solved.spans, strict=True):
        under = one.piece.lowest_mm - run.hose.over_mm / 2
        words = f"{name}: its underside hangs down to {say.mm(under)}, kept above {say.mm(run.keep_above_mm)}"
        if under < run.keep_above_mm - 1e-6:
            advice = f"Hang it {say.mm(run.keep_above_mm - under)} higher, or nearer together."
            yield finding("hose.low", "fail", name, words, advice, under, run.keep_above_mm)
    name, one = min(zip(names(run), solved.spans, strict=True), key=lambda each: each[1].piece.lowest_mm)
    under = one.piece.lowest_mm - run.hose.over_mm / 2
    if under >= run.keep_above_mm - 1e-6:
        words = f"{name}: its underside hangs down to {say.mm(under)}, kept above {say.mm(run.keep_above_mm)}"
        yield finding("hose.low", "pass", name, words, value=under, limit=run.keep_above_mm)


def _bends(run: RunSpec, solved: RowSolved, say: Say) -> Iterator[Finding]:
    """Over a hanger, and where a span turns."""
    radius = run.hose.radius_mm
    for name, one in zip(names(run), solved.spans, strict=True):
        bend = one.piece.span.radius_mm
        if bend < radius:
            words = f"{name}: hangs with a radius of {say.mm(bend)}, {say.mm(radius)} or more wanted"
            yield finding("hose.bend", "fail", name, words, "Draw it tighter, or set the hangers apart.", bend, radius)
    for k in range(1, len(solved.spans)):
        over, station = solved.felt[k], run.stations[k]
        takes = radius * over.turn
        room = TIGHTEST_SHARE * min(s.piece.span.length_mm for s in solved.spans[k - 1 : k + 1])
        turn = f"{math.degrees(over.turn):.0f} deg"
        words = f"{station.label}: the hose turns {turn} over it; at its least radius that takes {say.mm(takes)}"
        if takes > room:
            advice = "Hang it so that the hose turns less there, or over a curved saddle."
            yield finding("hose.bend", "warn", station.label, words, advice, takes, room)


def _ends(run: RunSpec, solved: RowSolved, say: Say) -> Iterator[Finding]:
    """A hanger that is pulled along the hose for good, and one that is lifted."""
    for one, station in zip(solved.felt, run.stations, strict=True):
        if not station.is_hanger:
            yield from _connection(one, station.label, say)
            continue
        if one.down_n < 0.0:
            words = f"{station.label}: the hose lifts it by {say.n(-one.down_n)} for good"
            advice = "A hook does not hold that: strap the hose down, or lower this hanger."
            yield finding("hose.lift", "warn", station.label, words, advice, one.down_n, 0.0, "N")
        if one.level_n > one.down_n and one.level_n > 1.0:
            words = f"{station.label}: is pulled along the hose by {say.n(one.level_n)} for good, by one side only"
            advice = (
                "Strap the hose there, and fix the hanger so that it cannot tip or slide along; or say from and to."
            )
            yield finding("hose.end", "warn", station.label, words, advice, one.level_n, None, "N")


def _connection(one: Felt, label: str, say: Say) -> Iterator[Finding]:
    """What a clamp on a port has to hold along the hose for good."""
    if one.level_n > CLAMP_N:
        words = (
            f"{label}: the hose pulls on its clamp with {say.n(one.level_n)} for good, {say.n(CLAMP_N)} at most wanted"
        )
        advice = "Draw it less tight, with hangers nearer together; or strap it at the hanger beside it."
        yield finding("hose.end", "warn", label, words, advice, one.level_n, CLAMP_N, "N")


def _numbers(run: RunSpec, solved: RowSolved) -> dict[str, Any]:
    return {
        "length_mm": solved.length_mm,
        "spans": [
            {
                "name": name,
                "level_mm": one.piece.span.level_mm,
                "rise_mm": one.piece.span.rise_mm,
                "length_mm": one.piece.span.length_mm,
                "sag_mm": one.piece.span.sag_mm,
                "permitted_sag_mm": one.permitted_mm,
                "lowest_axis_mm": one.piece.lowest_mm,
                "level_pull_n": one.piece.span.level_n(run.hose.full_n_mm),
                "least_radius_mm": one.piece.span.radius_mm,
            }
            for name, one in zip(names(run), solved.spans, strict=True)
        ],
        "held": held_numbers(run, solved.felt),
    }


def held_numbers(run: RunSpec, felts: tuple[Felt, ...]) -> list[dict[str, Any]]:
    """What each place feels, for programs."""
    return [
        {
            "label": station.label,
            "hanger": station.is_hanger,
            "at_mm": list(station.at),
            "down_n": one.down_n,
            "level_n": one.level_n,
            "one_side_n": one.one_side_n,
            "turn_deg": math.degrees(one.turn),
        }
        for station, one in zip(run.stations, felts, strict=True)
    ]
