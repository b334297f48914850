"""What is said of the pieces of a run with a moving head that stand still, from the port to the last hanger."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from typing import Any

from fitwright.finding import Finding
from fitwright.physics.hose_fixed import CLAMP_N, Fixed, with_room_mm
from fitwright.report.hose_run.say import Say, Table, finding
from fitwright.spec.run import RunSpec
from fitwright.spec.run_solved import MovingSolved


def legs(run: RunSpec, solved: MovingSolved) -> list[tuple[str, float]]:
    """Name and length of every piece from port to head."""
    assert run.head is not None
    lengths = [one.length_mm for one in solved.fixed]
    lengths += [solved.before_trolley_mm] if run.stations[-1].rail else []
    stops = [*(one.label for one in run.stations), run.head.label]
    pairs = itertools.pairwise(stops)
    return [(f"{a} to {b}", mm) for (a, b), mm in zip(pairs, [*lengths, solved.moving_mm], strict=True)]


def named(run: RunSpec, solved: MovingSolved) -> list[tuple[str, Fixed]]:
    """Each with its name."""
    return [(name, one) for (name, _), one in zip(legs(run, solved), solved.fixed, strict=False)]


def tables(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Table]:
    """One, where anything stands still."""
    heads = "piece that stands still", "hose", "lowest axis", "level pull", "tightest bend, soft", "stiff", "at best"
    rows = [(name, *_cells(one, say)) for name, one in named(run, solved)]
    if rows:
        known = "as its droop says" if run.hose.stiff_known else "its stiffness not measured"
        yield Table(f"From port to last hanger, {known}:", heads, tuple(rows))


def _cells(one: Fixed, say: Say) -> tuple[str, ...]:
    bends = [*one.bends_mm, one.roundest_mm] if not one.faults() or "folds" in one.faults() else [math.inf] * 3
    return (
        say.mm(one.length_mm),
        say.mm(one.piece.lowest_mm),
        pulls(one, say),
        *("-" if math.isinf(mm) else say.mm(mm) for mm in bends),
    )


def pulls(one: Fixed, say: Say) -> str:
    """From the least to the greatest level pull."""
    least, most = one.level_n()
    words = say.n(least), say.n(most)
    return words[0] if words[0] == words[1] else f"{words[0]} to {words[1]}"


def findings(run: RunSpec, solved: MovingSolved, say: Say) -> Iterator[Finding]:
    """Too short, folded, pulled, too low."""
    for name, one in named(run, solved):
        faults = one.faults()
        if "turns" in faults:
            words = f"{name}: no room to bend the hose from one into the other at {say.mm(run.hose.radius_mm)} radius"
            yield finding("hose.bend", "fail", name, words, "Move the hanger, or turn what it begins or ends in.")
        elif "short" in faults:
            least = one.length_mm + one.lacks_mm
            words = f"{name}: {say.mm(one.length_mm)} of hose, {say.mm_above(least)} with its bends"
            yield finding("hose.reach", "fail", name, words, _more(run, one, say), one.length_mm, least)
        else:
            yield from _bent(run, name, one, say)
            yield from _pulled(run, name, one, say)
        if drags(run, one):
            assert run.keep_above_mm is not None
            under = one.piece.lowest_mm - run.hose.over_mm / 2
            words = f"{name}: its underside hangs down to {say.mm(under)}, kept above {say.mm(run.keep_above_mm)}"
            yield finding("hose.drag", "fail", name, words, "Less hose there, or higher.", under, run.keep_above_mm)


def drags(run: RunSpec, one: Fixed) -> bool:
    """Its underside hangs lower than it may, and than both of its ends."""
    under, (start, end) = one.piece.lowest_mm - run.hose.over_mm / 2, (one.piece.start, one.piece.end)
    return run.keep_above_mm is not None and under < min(run.keep_above_mm, start[2], end[2])


def _more(run: RunSpec, one: Fixed, say: Say) -> str:
    """How much hose keeps its bends to the least radius; less, where it is more than that."""
    wanted = wants_mm(run, one)
    return f"Give it {say.mm_above(wanted)} or more." if wanted > one.length_mm else "Less hose there."


def wants_mm(run: RunSpec, one: Fixed) -> float:
    """The least hose with which it neither lacks nor kinks, in whole mm."""
    return with_room_mm(one.reach, one.reach.straight_mm, run.hose.stiff_n_mm2)


def lacks_mm(run: RunSpec, solved: MovingSolved) -> float:
    """What all of them together need more than they have."""
    bad = [one for one in solved.fixed if one.faults() in (("short",), ("folds",))]
    return math.fsum(max(0.0, wants_mm(run, one) - one.length_mm) for one in bad)


def _bent(run: RunSpec, name: str, one: Fixed, say: Say) -> Iterator[Finding]:
    """Blocks where no hose of that length could keep to its least radius; warns where this hose does not."""
    radius, best, (soft, stiff) = run.hose.radius_mm, one.roundest_mm, one.bends_mm
    if "folds" in one.faults():
        words = f"{name}: kinks: it bends to {say.mm(best)} radius at best, {say.mm(radius)} is the least"
        yield finding("hose.fold", "fail", name, words, _more(run, one, say), best, radius)
    elif run.hose.stiff_known and stiff < radius:
        words = f"{name}: by its own weight it bends to {say.mm(stiff)} radius, {say.mm(radius)} is the least"
        advice = "Strap it to a curved rest, or let a bend of pipe turn it, where it leaves port or hanger."
        yield finding("hose.fold", "warn", name, words, advice, stiff, radius)
    elif max(one.stand.limp_mm, soft) < radius:
        words = f"{name}: may kink: a soft hose folds to {say.mm(soft)} radius in its slack, a stiff one to"
        words += f" {say.mm(stiff)}; {say.mm(radius)} is the least"
        yield finding("hose.fold", "warn", name, words, "Less hose there.", soft, radius)
    elif math.isfinite(best):
        words = f"{name}: bends to {say.mm(best)} radius at best, {say.mm(radius)} is the least"
        if not run.hose.stiff_known and soft < radius:
            words += f"; by its weight alone a soft hose bends to {say.mm(soft)}, a stiff one to {say.mm(stiff)}"
        yield finding("hose.fold", "pass", name, words, value=best, limit=radius)


def _pulled(run: RunSpec, name: str, one: Fixed, say: Say) -> Iterator[Finding]:
    """What its clamps have to hold for good, its bends counted."""
    most = one.level_n()[1]
    if most > CLAMP_N:
        words = f"{name}: pulls level with {pulls(one, say)} for good, {say.n(CLAMP_N)} at most wanted on a clamp"
        advice = "More hose there, so that it hangs deeper; or a strap beside the clamp that takes the pull."
        yield finding("hose.end", "warn", name, words, advice, most, CLAMP_N, "N")


def numbers(run: RunSpec, solved: MovingSolved) -> list[dict[str, Any]]:
    """For programs."""
    return [
        {
            "name": name,
            "length_mm": one.length_mm,
            "lacks_mm": one.lacks_mm,
            "lowest_axis_mm": one.piece.lowest_mm,
            "level_pull_n": list(one.level_n()),
            "soft_radius_mm": one.bends_mm[0],
            "stiff_radius_mm": one.bends_mm[1],
            "best_radius_mm": one.roundest_mm,
            "stiffness_n_mm2": list(run.hose.stiff_n_mm2),
            "faults": list(one.faults()),
        }
        for name, one in named(run, solved)
    ]
