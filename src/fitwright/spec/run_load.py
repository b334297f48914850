"""What a hose run says of one of its hangers: the load of a hanger's YAML may come from there."""

from __future__ import annotations

import math
from pathlib import Path

from fitwright.errors import Problem, SpecError
from fitwright.physics.hose_row import Felt
from fitwright.spec.faults import Fault, FaultError, shown
from fitwright.spec.grammar.hanger_run import HangerRunKeys
from fitwright.spec.hanger import Carried, HungByRun
from fitwright.spec.run import RunSpec
from fitwright.spec.run_file import run_of_file
from fitwright.spec.run_solved import solved_moving, solved_row
from fitwright.units import Units, format_force, format_length

SAME_HOSE = 0.05
"""The run's hose and the hanger's differ outside by less than this; more is another hose (common practice)."""


def load_of(keys: HangerRunKeys, folder: str, carried: Carried, units: Units) -> HungByRun:
    """The load on that hanger; FaultError with paths below `run` where file, hanger or hose are not right."""
    path = Path(folder) / keys.file
    try:
        run = run_of_file(path)
    except SpecError as error:
        raise FaultError([_other_file(keys.file, error.problems[0])]) from None
    number = _hanger(keys, run)
    over, own = run.hose.over_mm, carried.size.greatest_mm
    if abs(over - own) > SAME_HOSE * max(over, own):
        say = [format_length(mm, units, fraction=False) for mm in (over, own)]
        found = f"{keys.file}, whose hose is {say[0]} over its ribs, {say[1]} here"
        raise FaultError([Fault(("run", "file"), found, "a run of the same hose")])
    one = _felt(run, number, keys.file)
    if one.down_n < 0.0:
        found = f"{number}, which the hose lifts by {format_force(-one.down_n, units)} for good"
        raise FaultError([Fault(("run", "hanger"), found, "a hanger that carries", "lower it in the run's file")])
    hanger = run.hangers[number - 1]
    return HungByRun(
        file=keys.file,
        hanger=number,
        label=hanger.label,
        at_mm=one.at,
        down_n=one.down_n,
        level_n=one.level_n,
        one_side_n=one.one_side_n,
        turn_deg=math.degrees(one.turn),
    )


def _hanger(keys: HangerRunKeys, run: RunSpec) -> int:
    """Its number, by number or label."""
    labels = [one.label for one in run.hangers]
    allowed = ", ".join(f"{k} ({label})" for k, label in enumerate(labels, start=1)) or "none: the run has no hangers"
    if keys.hanger in labels:
        return labels.index(keys.hanger) + 1
    if keys.hanger.isdecimal() and 1 <= int(keys.hanger) <= len(labels):
        return int(keys.hanger)
    raise FaultError([Fault(("run", "hanger"), shown(keys.hanger), f"a hanger of {keys.file}: {allowed}")])


def _felt(run: RunSpec, number: int, file: str) -> Felt:
    """What it feels; a moving run has to work before its loads mean anything."""
    if run.kind == "row":
        felts = solved_row(run).felt
    else:
        solved = solved_moving(run)
        wrong = {
            word for one in (*solved.corners, *solved.worst.values()) for word in one.stand.faults(solved.moving.limits)
        }
        still = {word for one in solved.fixed for word in one.faults()}
        if wrong or still:
            where = "in some place of the head" if wrong else "before its last hanger"
            found = f"{file}, in which the hose {_said(wrong or still)} {where}"
            hint = f"`fitwright hose {file}` says where, and what to change"
            raise FaultError([Fault(("run", "file"), found, "a run that works", hint)])
        felts = solved.felt
    hangers = [one for one, station in zip(felts, run.stations, strict=True) if station.is_hanger]
    return hangers[number - 1]


def _said(wrong: set[str]) -> str:
    words = {
        "short": "is too short",
        "pulls": "pulls too much",
        "drags": "hangs too low",
        "folds": "folds",
        "turns": "has no room for its bends",
    }
    return " and ".join(words[one] for one in words if one in wrong)


def _other_file(file: str, problem: Problem) -> Fault:
    """What is wrong with the run's file, at the key that names it."""
    if not problem.line:
        return Fault(
            ("run", "file"), f"{file!r}: {problem.found}", "the YAML file of a hose run, from this one's folder"
        )
    found = f"{file}, whose line {problem.line} is wrong: {problem.key}: found {problem.found}"
    return Fault(("run", "file"), found, "the YAML file of a hose run", f"mend it there: allowed is {problem.allowed}")
