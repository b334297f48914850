"""Where a mesh is made finer, which ways go on to it, and how much that changed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from fitwright.physics.elastic.meshed import corners_of, shapes
from fitwright.physics.elastic.model import Model, Way
from fitwright.physics.elastic.surface import blunt_mm
from fitwright.physics.elastic.task import Task

Array = NDArray[np.float64]
Bools = NDArray[np.bool_]
MARKED_ERROR, MARKED_MOST = 0.25, 0.004
"""Elements that hold this share of the squared error are refined, at most that share of all."""
HOT_WALLS, HOT_BLUNTS, FINE_ENOUGH, GRADED = 1.0, 2.0, 2.0, 1.2
"""So near to the governing places, within walls and lengths of the stress's mean, elements are refined too, until they
are about twice as small as that, or further off about as small as they are far."""
DIVISIONS = 4
"""So often they are divided before the next answer is looked at."""
MOST_PLACES, NEAR_WORST = 8, 0.7
"""At so many governing places at the most, of cases that ask for this share of what the worst asks for."""
KEPT_WAYS, KEPT_SHARE = 3, 0.85
"""On finer meshes a case keeps its worst directions: so many, those with this share of the worst's use."""
EASY = 0.2
"""Below a fifth of what it bears a case is not refined: the first mesh misses a peak by a factor of two at the most."""
MINOR = 0.5
"""Nor is a case that asks for less than this share of what the worst of the body asks for."""


def hard(ways: Sequence[Way]) -> list[Way]:
    """The ways of the cases that are worth a finer mesh."""
    most = max((way.demand for way in ways), default=0.0)
    cases = {way.case.name: [w for w in ways if w.case.name == way.case.name] for way in ways}
    kept = {
        name
        for name, own in cases.items()
        if not is_easy(own) and (own[0].case.limit_mm or max(w.demand for w in own) >= MINOR * most)
    }
    return [way for way in ways if way.case.name in kept]


def is_easy(case_ways: Sequence[Way]) -> bool:
    """Whether a case is so far from giving way, and its movement matters so little, that no refinement could tell."""
    return all(way.demand < EASY and not way.case.limit_mm for way in case_ways)


def refine(model: Model, ways: Sequence[Way], first: bool, most: int) -> bool:
    """Divide the large elements at the governing places until they are fine, and at first those with most of the error.

    Divided as often as it takes before anything is solved again, to at most `most` elements. False where there is
    nothing left to divide.
    """
    space = model.space
    marked = _hot(space.mesh, model.task, ways)
    if first:
        marked = marked | _largest(_error(model, ways))
    done = 0
    while marked.any() and done < DIVISIONS:
        space.mesh.ngmesh.Elements3D().NumPy()["refine"] = marked
        space.mesh.UnsetDeformation()
        space.mesh.Refine()
        done += 1
        if space.mesh.ne > most:
            break
        marked = _hot(space.mesh, model.task, ways)
    return done > 0


def is_fine(model: Model, ways: Sequence[Way]) -> bool:
    """Whether the elements are as small as the stress's mean asks wherever a case that is worth it governs."""
    left = hard(ways)
    return not left or not _hot(model.space.mesh, model.task, left).any()


def _hot(mesh: Any, task: Task, ways: Sequence[Way]) -> Bools:
    """The elements near the governing places that are still coarse."""
    middles, longest = corners_of(mesh).mean(axis=1), shapes(mesh)[1]
    blunt = blunt_mm(task.wall_mm)
    within = min(HOT_WALLS * task.wall_mm, HOT_BLUNTS * blunt)
    hot = np.zeros(len(longest), dtype=bool)
    for way in governing(ways):
        away = np.maximum(np.linalg.norm(middles - np.asarray(way.peak.at), axis=1) - longest / 2.0, 0.0)
        hot |= (away < within) & (longest > FINE_ENOUGH * np.maximum(blunt, GRADED * away))
    return hot


def _error(model: Model, ways: Sequence[Way]) -> Array:
    """Squared difference of the averaged stress and the raw one, over each element, of all governing ways."""
    space, error = model.space, np.zeros(len(model.space.corners))
    for way in governing(ways):
        raw = model.stress_at_corners(way.seated.pressing)
        off = np.sum((raw - space.averaged(raw)[space.corners]) ** 2, axis=(1, 2, 3)) * space.trust
        off = np.where(way.counted[space.corners].all(axis=1) & (space.trust > 0.0), off, 0.0)
        error += off / max(float(off.sum()), 1e-300)
    return error


def _largest(error: Array) -> Bools:
    """The elements with the largest error (Zienkiewicz and Zhu, 1987: the averaged stress against the raw one)."""
    order = np.argsort(error)[::-1]
    enough = int(np.searchsorted(np.cumsum(error[order]), MARKED_ERROR * error.sum())) + 1
    marked = np.zeros(len(order), dtype=bool)
    marked[order[: max(1, min(enough, int(MARKED_MOST * len(order))))]] = True
    return marked


def narrowed(task: Task, ways: Sequence[Way]) -> Task:
    """The same with the cases of these ways only, of each the worst directions and the one that moves furthest."""
    kept = []
    for case in task.cases:
        own = sorted((w for w in ways if w.case.name == case.name), key=lambda w: -w.demand)
        if not own:
            continue
        worst = [w for w in own[:KEPT_WAYS] if w.demand >= KEPT_SHARE * own[0].demand]
        furthest = max(own, key=lambda w: abs(w.moved_mm))
        directions = dict.fromkeys(w.direction for w in [*worst, furthest] if w.direction is not None)
        kept.append(replace(case, directions=tuple(directions)))
    return replace(task, cases=tuple(kept))


def governing(ways: Sequence[Way]) -> list[Way]:
    """The worst way of each case that is nearly as bad as the worst of the body, and the one that moves furthest."""
    by_use = sorted(worst_of_each(ways), key=lambda way: -way.demand)[:MOST_PLACES]
    kept = [way for way in by_use if way.demand >= NEAR_WORST * by_use[0].demand]
    furthest = max(ways, key=lambda way: abs(way.moved_mm))
    return kept if any(way is furthest for way in kept) else [*kept, furthest]


def worst_of_each(ways: Sequence[Way]) -> list[Way]:
    worst: dict[str, Way] = {}
    for way in ways:
        if way.case.name not in worst or way.demand > worst[way.case.name].demand:
            worst[way.case.name] = way
    return list(worst.values())


def changes(before: Sequence[Way], after: Sequence[Way]) -> tuple[float, float]:
    """Relative change of the greatest movement, and of the greatest use."""
    now = governing(after)
    old = {(way.case.name, way.direction): way for way in before}
    pairs = [(old[way.case.name, way.direction], way) for way in now]
    moved = max(abs(a.moved_mm / b.moved_mm - 1.0) if b.moved_mm else 0.0 for a, b in pairs)
    return moved, abs(max(a.demand for a, _ in pairs) / max(b.demand for _, b in pairs) - 1.0)
