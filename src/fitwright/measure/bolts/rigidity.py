"""Do the distances hold the holes? Which one can still move, and which reading holds it (rank of the Jacobian)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from fitwright.measure.bolts.adjust import diameters_basis, slopes
from fitwright.measure.bolts.readings import OPENING, Numbers, Reading, Readings


@dataclass(frozen=True)
class Loose:
    """What is missing: holes (from 0; OPENING for the opening) that can still move, and readings that would hold."""

    moving: tuple[int, ...]
    add: tuple[Reading, ...]


def loose(readings: Readings) -> Loose | None:
    """What can still move; None where all is held. Judged at places of no special symmetry (generic rigidity)."""
    unknowns = _generic(readings)
    rows = _rows(readings, unknowns)
    needed = 2 * readings.points - 3 + diameters_basis(readings).shape[1]
    if np.linalg.matrix_rank(rows, tol=1e-8) >= needed:
        return None
    moving = _moving(readings, rows, unknowns)
    return Loose(moving, tuple(_added(readings, unknowns, needed)))


def best_extra(readings: Readings, places: Numbers, least: float = 1e-4) -> Reading | None:
    """The distance not yet read that makes the worst-held places most certain; None where all were read."""
    unknowns = np.concatenate([places.ravel(), readings.diameters()])
    rows = _rows(readings, unknowns)
    normal = rows.T @ rows + least**2 * np.eye(rows.shape[1])
    whole = np.linalg.inv(normal)
    best, gain = None, 0.0
    for new in unread(readings):
        row = _rows(replace(readings, distances=(new, *readings.distances)), unknowns)[0]
        spread = whole @ row
        shrinks = float(spread @ spread / (1.0 + row @ spread))
        if shrinks > gain * (1 + 1e-6):
            best, gain = new, shrinks
    return best


def unread(readings: Readings) -> list[Reading]:
    """The distances that were not read, neighbours first."""
    n = readings.count
    have = {frozenset((r.first, r.second)) for r in readings.distances}
    pairs = sorted(combinations(range(n), 2), key=lambda p: min(p[1] - p[0], n - p[1] + p[0]))
    rim = [(OPENING, k) for k in range(n)] if readings.by_rim else []
    return [Reading(a, b, 1.0) for a, b in (*pairs, *rim) if frozenset((a, b)) not in have]


def _generic(readings: Readings) -> Numbers:
    """Places near a regular circle, each a little off it, and the opening's centre aside."""
    random = np.random.default_rng(7)
    turns = 2 * np.pi * np.arange(readings.count) / readings.count
    ring = np.column_stack([np.sin(turns), np.cos(turns)])
    places = np.vstack([ring, np.zeros((readings.points - readings.count, 2))])
    return np.concatenate([(places + random.uniform(-0.15, 0.15, places.shape)).ravel(), np.ones(2)])


def _rows(readings: Readings, unknowns: Numbers) -> Numbers:
    """The Jacobian without the columns of diameters that do not enter; distance rows and those of diameters."""
    every = slopes(readings, unknowns)
    return np.hstack([every[:, :-2], every @ diameters_basis(readings)])


def _moving(readings: Readings, rows: Numbers, unknowns: Numbers) -> tuple[int, ...]:
    """Points outside the largest group that is held in itself."""
    points, rank = readings.points, int(np.linalg.matrix_rank(rows, tol=1e-8))
    held = np.eye(points, dtype=bool)
    for a, b in combinations(range(points), 2):
        row = np.zeros((1, rows.shape[1]))
        row[:, : 2 * points] = slopes(Readings(points, (Reading(a, b, 1.0),)), unknowns)[:, :-2]
        held[a, b] = held[b, a] = int(np.linalg.matrix_rank(np.vstack([rows, row]), tol=1e-8)) == rank
    groups = [held[a] & held[b] for a, b in combinations(range(points), 2) if held[a, b]]
    largest = max(groups, key=lambda group: (int(group.sum()), *group.tolist()), default=np.eye(points)[0] > 0)
    return tuple(OPENING if k == readings.count else k for k in range(points) if not largest[k])


def _added(readings: Readings, unknowns: Numbers, needed: int) -> list[Reading]:
    """Readings one after another, each the one that helps most, until all is held."""
    places, added = unknowns[:-2].reshape(-1, 2), []
    have = readings
    while np.linalg.matrix_rank(_rows(have, unknowns), tol=1e-8) < needed:
        new = best_extra(have, places)
        if new is None:
            break
        added.append(new)
        have = replace(have, distances=(*have.distances, new))
    return added
