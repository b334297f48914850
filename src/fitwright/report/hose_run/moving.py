"""The answer to a hose to a moving head: what to cut, how it stands in each corner, what works where nothing does."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from fitwright.finding import Finding
from fitwright.report.hose_run import still, within
from fitwright.report.hose_run.row import held_numbers
from fitwright.report.hose_run.say import RunAnswer, Say, Table, finding, station_rows
from fitwright.report.hose_run.still import legs
from fitwright.report.wording import in_units
from fitwright.spec.run import JERK, RunSpec
from fitwright.spec.run_place import DOWN_MM, UP_MM, better_place
from fitwright.spec.run_solved import HeadAt, MovingSolved, solved_moving

MODEL = (
    "The hose is limp and does not stretch: measure it as it hangs, pulled out. A stiff one hangs higher and rounder.",
    "It grips at every hanger. It hangs in upright planes; swinging and the machine's jerks are not reckoned, but the"
    f" head's holder is asked for {JERK:g} times the still pull.",
    "Its ends are given bends of the least radius. What goes onto port and head comes on top of the length.",
    "What stands still, from port to last hanger, is also reckoned as a springy hose, soft and stiff; hangers bear the"
    " greatest pull of these. Its weight is that of the half full hose.",
)
NARROW_MM = 30.0
"""A hose is cut and set to about a centimetre; less than this between too short and too long is a matter of luck
(common practice, no source)."""
CAUSES = {"drags": "hangs too low", "folds": "folds", "turns": "finds no room for the bends at its ends"}


def answered(run: RunSpec) -> tuple[RunAnswer, MovingSolved]:
    """The answer, and the numbers that the picture is drawn from."""
    say, solved = Say(run.units), solved_moving(run)
    tables = (
        _corners(run, solved, say),
        *still.tables(run, solved, say),
        station_rows(run, solved.felt, say),
    )
    found = [
        *_lengths(run, solved, say),
        *still.findings(run, solved, say),
        *_reach(run, solved, say),
        *_pull(run, solved, say),
        *_drag(run, solved, say),
        *_fold(run, solved, say),
        *within.findings(run, solved, say),
    ]
    told = RunAnswer(run, _headline(run, solved, say), tables, tuple(found), _numbers(run, solved), MODEL)
    return told, solved


def _headline(run: RunSpec, solved: MovingSolved, say: Say) -> str:
    parts = ", ".join(f"{name} {say.mm(mm)}" for name, mm in legs(run, solved))
    told = "as it is" if run.length_mm is not None else "cut"
    if not solved.window.works and run.length_mm is None:
        told = "shown with"
    return f"{run.name}: {told} {say.mm(solved.length_mm)} of hose ({parts}); {in_units(run.hose.words, run.units)}"


def _corners(run: RunSpec, solved: MovingSolved, say: Say) -> Table:
    assert run.head is not None
    heads = "head at", "lacks", "pull on it", "lowest axis", "tightest bend, limp", "at its stiffest", ""
    rows = [
        (*_row(one, say), ", ".join(one.stand.faults(solved.moving.limits)) or "good") for one in shown_places(solved)
    ]
    return Table(f"How it stands, {run.head.label} in each corner and where it is worst:", heads, tuple(rows))


def shown_places(solved: MovingSolved) -> list[HeadAt]:
    """Corners, and places within where something is worst that matters; each once."""
    wanted = [solved.worst[name] for name in ("pulls", "drags", "folds", "limp")]
    wanted += [one for one in (solved.worst["turns"],) if one.stand.faults(solved.moving.limits) == ("turns",)]
    return list({one.at: one for one in (*solved.corners, *wanted)}.values())


def _row(place: HeadAt, say: Say) -> tuple[str, ...]:
    stand = place.stand
    name = f"within: {say.at(place.at)}" if place.name == "within" else place.name
    return (
        name,
        "no room" if math.isinf(stand.short_mm) else say.mm(stand.short_mm) if stand.short_mm > 0.0 else "-",
        "-" if math.isinf(stand.short_mm) else say.n(stand.pull_n),
        say.mm(stand.lowest_mm),
        "-" if math.isinf(stand.limp_mm) else say.mm(stand.limp_mm),
        "-" if math.isinf(stand.roundest_mm) else say.mm(stand.roundest_mm),
    )


def _lengths(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Finding]:
    """The window of lengths, or why there is none and what to change."""
    found, fixed = solved.window, solved.fixed_mm + still.lacks_mm(run, solved)
    if found.works:
        assert found.shortest is not None
        low, high = found.shortest.length_mm + fixed, found.longest.length_mm + fixed
        upper = f"to {say.mm_below(high)}" if math.isfinite(high) else "or more"
        lower = say.mm_above(low)
        words = f"{lower} {upper} from port to head serve the whole travel"
        given = run.length_mm
        if given is None or low - 1e-6 <= given <= high + 1e-6:
            yield _window(words, solved.length_mm, low, high)
        else:
            advice = f"Cut {lower} {upper}."
            told = f"{say.mm(given)} of hose; {words}"
            yield finding("hose.length", "fail", "length", told, advice, given, low if given < low else high)
        return
    yield finding(
        "hose.length", "fail", "length", f"no length works: {_why(run, solved, say)}", _change(run, solved, say)
    )


def _window(words: str, length_mm: float, low: float, high: float) -> Finding:
    """Good, or good to the centimetre only."""
    if high - low >= NARROW_MM:
        return finding("hose.length", "pass", "length", words, value=length_mm, limit=high)
    cause = "no more than that: cut it with care, or hang it higher"
    return finding("hose.length", "warn", "length", words, f"It is {cause}.", length_mm, high)


def _why(run: RunSpec, solved: MovingSolved, say: Say) -> str:
    assert run.head is not None
    found, fixed = solved.window, solved.fixed_mm
    if found.shortest is None:
        assert found.unreached is not None
        at, most = say.at(found.unreached), say.n(run.head.most_pull_n)
        if math.isinf(solved.moving.least_mm(found.unreached)):
            return (
                f"with the head at {at} there is no room for bends of {say.mm(run.hose.radius_mm)} radius at its ends"
            )
        return f"with the head at {at} the hose pulls with more than {most} at any length, by its weight alone"
    reach, longer = found.shortest, found.longest
    cause = CAUSES[found.why_not_longer]
    longest = f"over {say.mm(longer.length_mm + fixed)} it {cause}" if longer.length_mm > 0 else f"any {cause}"
    return (
        f"{say.mm(reach.length_mm + fixed)} are needed with the head at {say.at(reach.at)}, but {longest}"
        f" with the head at {say.at(longer.at)}"
    )


def _change(run: RunSpec, solved: MovingSolved, say: Say) -> str:
    found = better_place(run, solved.before_trolley_mm)
    if found is None:
        trolley = "give the trolley a longer rail" if run.stations[-1].rail else "let a trolley carry it (rail_to)"
        return (
            f"No place of the last hanger was found that works, from {say.mm(DOWN_MM)} lower to the ceiling, or"
            f" {say.mm(UP_MM)} higher, and up to above the middle of the travel: {trolley}, or hang the hose on the"
            " gantry beside the head and turn the head's port."
        )
    if found.new:
        return f"A swivelling hanger above the travel works, at {say.at(found.at)} or near it."
    return f"With {run.stations[-1].label} at {say.at(found.at)} a length works: {_moved(found.shift, say)}."


def _moved(shift: tuple[float, float, float], say: Say) -> str:
    words = []
    aside = math.hypot(shift[0], shift[1])
    if aside > 0.5:
        words.append(f"{say.mm(aside)} towards the middle of the travel")
    if abs(shift[2]) > 0.5:
        words.append(f"{say.mm(abs(shift[2]))} {'higher' if shift[2] > 0 else 'lower'}")
    return " and ".join(words)


def _reach(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Finding]:
    worst = solved.worst["pulls"]
    assert run.head is not None
    place = f"{run.head.label} {_place(worst, say)}"
    short = worst.stand.short_mm
    if math.isinf(short):
        words = f"{place}: no room for bends of {say.mm(run.hose.radius_mm)} radius between hanger and head"
        yield finding("hose.reach", "fail", place, words, "Another place of the hanger, or turn the head's port.")
    elif short > 0.0:
        words = f"{place}: the hose is too short by {say.mm(short)}, and pulls the head off"
        yield finding("hose.reach", "fail", place, words, "See hose.length for what to cut.", -short, 0.0)
    else:
        yield finding("hose.reach", "pass", place, f"reaches every place; the farthest is {_place(worst, say)}")


def _pull(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Finding]:
    """What the head feels, against what holds it."""
    assert run.head is not None
    worst, head = solved.worst["pulls"], run.head
    if worst.stand.short_mm > 0.0:
        return
    pull, most = worst.stand.pull_n, head.most_pull_n
    place = f"{head.label} {_place(worst, say)}"
    held = f"{say.n(head.holds_n)} hold it, half may hang on it" if head.holds_n else "what holds it is not said"
    words = f"{place}: the hose pulls with {say.n(pull)}, {say.n(most)} permitted ({held})"
    if pull > most * (1 + 1e-9):
        advice = (
            f"Strain relief: hang the hose on the gantry itself beside the head, in a hanger that bears {say.n(pull)}"
            f" for good and {say.n(JERK * pull)} in jerks, with a loose bight to the head. Or more hose: see"
            " hose.length."
        )
        yield finding("hose.pull", "fail", place, words, advice, pull, most, "N")
    else:
        yield finding("hose.pull", "pass", place, words, value=pull, limit=most, unit="N")


def _drag(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Finding]:
    if run.keep_above_mm is None:
        return
    worst = solved.worst["drags"]
    under = worst.stand.lowest_mm - run.hose.over_mm / 2
    words = f"with the head {_place(worst, say)} its underside hangs down to {say.mm(under)}"
    words += f", kept above {say.mm(run.keep_above_mm)}"
    if under < run.keep_above_mm - 1e-6:
        advice = "Less hose, where it still reaches; or the hanger higher, or nearer above the middle of the travel."
        yield finding("hose.drag", "fail", worst.name, words, advice, under, run.keep_above_mm)
    else:
        yield finding("hose.drag", "pass", worst.name, words, value=under, limit=run.keep_above_mm)


def _fold(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Finding]:
    radius, limits = run.hose.radius_mm, solved.moving.limits
    folds, turns, limp = solved.worst["folds"], solved.worst["turns"], solved.worst["limp"]
    if folds.stand.roundest_mm < radius - 1e-6:
        bend = folds.stand.roundest_mm
        words = f"kinks with the head {_place(folds, say)}: the slack folds to {say.mm(bend)} radius at best"
        words += f", {say.mm(radius)} is the least"
        yield finding("hose.fold", "fail", folds.name, words, "Less hose, or the hanger farther above.", bend, radius)
    elif turns.stand.best_leaves_mm < -1e-6:
        words = f"kinks with the head {_place(turns, say)}: the bends at its ends find no room"
        advice = "Less hose, or turn the head's port towards the hanger."
        yield finding("hose.fold", "fail", turns.name, words, advice, turns.stand.best_leaves_mm, 0.0)
    elif limp.stand.may_fold(limits) or turns.stand.may_fold(limits):
        at = limp if limp.stand.may_fold(limits) else turns
        words = f"may kink with the head {_place(at, say)}: "
        if at.stand.limp_mm < radius:
            words += f"a limp hose folds there to {say.mm(at.stand.limp_mm)} radius, a stiff one stands out at"
            words += f" {say.mm(at.stand.roundest_mm)}; {say.mm(radius)} is the least"
        else:
            words += f"a limp hose has no room there for bends of {say.mm(radius)} at its ends, a stiff one has"
        advice = "Try it with a piece of the very hose; as little hose as reaches is best."
        yield finding("hose.fold", "warn", at.name, words, advice, at.stand.limp_mm, radius)
    elif math.isfinite(limp.stand.limp_mm) and solved.worst["pulls"].stand.short_mm <= 0.0:
        words = f"its tightest bend is {say.mm(limp.stand.limp_mm)}, {say.mm(radius)} is the least"
        yield finding("hose.fold", "pass", limp.name, words, value=limp.stand.limp_mm, limit=radius)


def _place(one: HeadAt, say: Say) -> str:
    return f"at {say.at(one.at)}" if one.name == "within" else one.name


def _numbers(run: RunSpec, solved: MovingSolved) -> dict[str, Any]:
    found, fixed = solved.window, solved.fixed_mm
    shortest = None if found.shortest is None else found.shortest.length_mm + fixed
    longest = found.longest.length_mm + fixed
    limits = solved.moving.limits
    return {
        "length_mm": solved.length_mm,
        "pieces": [{"name": name, "length_mm": mm} for name, mm in legs(run, solved)],
        "works": found.works,
        "shortest_mm": shortest,
        "longest_mm": longest if math.isfinite(longest) else None,
        "head": [_place_numbers(one, one.name, limits) for one in solved.corners]
        + [_place_numbers(one, f"worst: {name}", limits) for name, one in solved.worst.items()],
        "still": still.numbers(run, solved),
        "held": held_numbers(run, solved.felt),
    }


def _place_numbers(one: HeadAt, name: str, limits: Any) -> dict[str, Any]:
    stand = one.stand
    values = {
        "short_mm": stand.short_mm,
        "pull_n": stand.pull_n,
        "lowest_axis_mm": stand.lowest_mm,
        "limp_radius_mm": stand.limp_mm,
        "roundest_radius_mm": stand.roundest_mm,
    }
    told = {key: value if math.isfinite(value) else None for key, value in values.items()}
    return {"name": name, "at_mm": list(one.at), **told, "faults": list(stand.faults(limits))}
