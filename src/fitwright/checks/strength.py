"""Check `strength`: does each printed body bear the loads that it is declared to bear, and how far does it give way?

By finite elements on the finished solid (physics/elasticity.py). What could not be meshed or solved is "not analysed",
never "safe".
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fitwright.checks.strength_advice import cure
from fitwright.checks.strength_run import Running, running
from fitwright.checks.strength_say import place_words, warm_words, way_words
from fitwright.checks.strength_tasks import tasks
from fitwright.finding import Finding, Severity
from fitwright.loads import LoadCase
from fitwright.mesh import BodyMesh
from fitwright.part import Part
from fitwright.physics.elastic.refined import EASY
from fitwright.physics.elastic.task import Answer, CaseAnswer, Task

if TYPE_CHECKING:
    from fitwright.spec.part_base import PartBase

CODE, MOVES, BEARING = "strength", "strength.moves", "strength.bearing"
WANTED = 1.5
"""A safety factor below this warns, one below 1 blocks: prints of one part scatter by a third (common practice)."""


@dataclass(frozen=True)
class Analysis:
    """What runs beside the other checks; `findings` waits for it."""

    part: Part
    spec: PartBase
    running: Running

    def findings(self) -> list[Finding]:
        """All that it found, body by body."""
        found: list[Finding] = []
        answers = self.running.answers() if self.running.tasks else {}
        for task in self.running.tasks:
            found += judged(self.part, self.spec, task, answers[task.body])
        if self.spec.material.soft and self.part.loads:
            found.append(_left_out(self.part.name, f"{self.spec.material.name} gives way before it breaks"))
        return found


@contextmanager
def analysing(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> Iterator[Analysis]:
    """Start the analysis of a part; on leaving it is ended if nobody waited for it."""
    with running(tasks(part, meshes, spec)) as at_work:
        yield Analysis(part, spec, at_work)


def check(part: Part, meshes: Mapping[str, BodyMesh], spec: PartBase) -> list[Finding]:
    """All findings of a part, with nothing going on beside."""
    with analysing(part, meshes, spec) as analysis:
        return analysis.findings()


def left_out(part: Part) -> list[Finding]:
    """What is said where the user wants no analysis."""
    return [_left_out(part.name, "left out as asked (--quick)")] if part.loads else []


def _left_out(name: str, why: str) -> Finding:
    return Finding(CODE, "warn", "", None, None, "", "", f"not analysed: {why}", "Nothing is said of its strength.")


def judged(part: Part, spec: PartBase, task: Task, answer: Answer) -> Iterator[Finding]:
    """The findings of one body: one for its least safety factor, one a case that is too weak or moves too far."""
    if not answer.cases:
        advice = "Nothing is said of its strength: judge it yourself, or change a size a little and build again."
        yield Finding(CODE, "warn", task.body, None, WANTED, "", "", f"not analysed: {answer.why}", advice)
        return
    cases = {case.name: case for case in task.cases}
    ranked = sorted(answer.cases, key=lambda one: factor(one, cases[one.name], task))
    weak = [one for one in ranked if factor(one, cases[one.name], task) < WANTED]
    for one in weak or ranked[:1]:
        yield _strength(one, cases[one.name], task, spec, answer)
    for one in answer.cases:
        yield from _moves(one, cases[one.name], task, warm_words(spec))
        yield from _bearing(one, cases[one.name], task, warm_words(spec))


def factor(one: CaseAnswer, case: LoadCase, task: Task) -> float:
    """Safety factor of a case: strength over stress; of a lasting one, what it bears for good over stress."""
    share = task.elastic.sustained if case.lasting else 1.0
    return share / max(one.peak.use, 1e-9)


def _strength(one: CaseAnswer, case: LoadCase, task: Task, spec: PartBase, answer: Answer) -> Finding:
    safe = factor(one, case, task)
    words = (
        f"{case.name}{way_words(one.direction)}: safety factor {_rounded(safe)}{_bounds(one, safe)}, "
        f"{one.peak.stress_mpa:.2g} MPa {one.peak.how} {place_words(one.peak.at)}"
    )
    if case.lasting:
        words += f" for good, where {one.peak.limit_mpa * task.elastic.sustained:.3g} MPa last"
    words += warm_words(spec) + _settled(answer, safe)
    severity: Severity = "fail" if safe < 1.0 else "warn" if safe < WANTED else "pass"
    advice = "" if severity == "pass" else _advice(case, safe, one, spec)
    return Finding(CODE, severity, task.body, round(safe, 3), WANTED, "", case.key, words, advice)


def _bounds(one: CaseAnswer, safe: float) -> str:
    """The two bounds of the seat, where there is one."""
    glued, loose = (safe * one.peak.use / max(use, 1e-9) for use in (one.glued_use, one.loose_use))
    if abs(glued / loose - 1.0) < 0.01:
        return ""
    return f" (glued to its seat {_rounded(glued)}, with no seat {_rounded(loose)})"


def _settled(answer: Answer, safe: float) -> str:
    """Where the mesh stayed too coarse for its place: how far the last refinement moved it, or that there was none."""
    spent = answer.spent
    if spent is None or spent.fine:
        return ""
    if math.isnan(spent.use_change):
        return " (too large for a finer mesh: take it as a rough figure)" if safe < 1.0 / EASY else ""
    if math.isinf(spent.use_change):
        return " (its mesh could not be made finer there: take it as a rough figure)"
    return f" (not settled: the last refinement still changed the stress by {100 * spent.use_change:.0f} %)"


def _advice(case: LoadCase, safe: float, one: CaseAnswer, spec: PartBase) -> str:
    """Bending governs: stress falls with the square of a thickness."""
    grow = math.sqrt(WANTED / safe)
    now = spec.wall_mm if case.key == "wall" else None
    size = (
        f"{case.key}: {now * grow:.1f} mm in place of {now:g} mm"
        if now
        else f"{100 * (grow - 1):.0f} % more {case.key}"
    )
    turn = " or lay it so that the layers run along the load" if one.peak.how == "between the layers" else ""
    return f"{cure(case.key, size)} stronger filament{turn}."


def _moves(one: CaseAnswer, case: LoadCase, task: Task, warm: str) -> Iterator[Finding]:
    """Where a limit is declared; a lasting load moves it further in time."""
    if not case.limit_mm:
        return
    share = task.elastic.creep if case.lasting else 1.0
    moved, glued, loose = (abs(mm) / share for mm in (one.moved_mm, one.glued_mm, one.loose_mm))
    words = f"{case.name}: gives way by {moved:.2f} mm{warm}"
    if abs(loose - glued) > 0.01 * moved:
        words += f" (glued to its seat {glued:.2f}, with no seat {loose:.2f})"
    found = moved, case.limit_mm, "mm", case.key, words
    advice = f"{case.limit_mm:g} mm is allowed. {cure(case.key, f'more {case.key}')} stiffer filament."
    yield (
        Finding(MOVES, "warn", task.body, *found, advice)
        if moved > case.limit_mm
        else Finding(MOVES, "pass", task.body, *found)
    )


def _bearing(one: CaseAnswer, case: LoadCase, task: Task, warm: str) -> Iterator[Finding]:
    """Beside washers the model says little: there the mean pressure is held against the strength."""
    face, pressure = one.bearing
    limit = task.elastic.strength_mpa * (task.elastic.sustained if case.lasting else 1.0)
    if not face or WANTED * pressure <= limit:
        return
    severity: Severity = "fail" if pressure > limit else "warn"
    words = f"{case.name}: {pressure:.1f} MPa under {face}{warm}"
    yield Finding(BEARING, severity, task.body, pressure, limit, "MPa", case.key, words, "A larger washer spreads it.")


def _rounded(number: float) -> str:
    """Two figures, never up: 1.46 is not 1.5; more than 20 is plenty.

    >>> _rounded(1.46), _rounded(0.997), _rounded(12.9), _rounded(0.049), _rounded(40.0)
    ('1.4', '0.99', '12', '0.04', 'over 20')
    >>> _rounded(1.04)
    '1.0'
    """
    if number > 20.0:
        return "over 20"
    digits = 0 if number >= 10.0 else 1 if number >= 1.0 else 2
    return f"{math.floor(number * 10**digits + 1e-9) / 10**digits:.{digits}f}"
