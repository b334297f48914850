"""Does a tube run into itself or into a joint at its end? Its cross-sections are discs; two that cut mean it does."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fitwright.frame import Frame, Vec
from fitwright.shapes.space_path import SpacePath

STEP_RAD, STEP_MM = math.radians(4.0), 4.0
"""One cross-section every so often: on an arc, on a straight."""
SLACK_MM = 1e-3
"""Discs that cut by less only touch."""


@dataclass(frozen=True)
class Disc:
    """A cross-section: centre, unit normal, radius [mm]."""

    centre: Vec
    normal: Vec
    radius_mm: float


def tube_discs(path: SpacePath, radius_mm: float, finer: int = 1) -> list[Disc]:
    """Cross-sections of a tube of this outside radius along a centreline, `finer` times as many as usual."""
    found = []
    for run in path.runs:
        share = run.turn_rad / STEP_RAD if run.turn_rad else run.length_mm / STEP_MM
        steps = max(1, math.ceil(finer * share))
        found += [Disc(*run.at(k / steps), radius_mm) for k in range(steps + 1)]
    return found


def turned_discs(line: Iterable[tuple[float, float]], frame: Frame) -> list[Disc]:
    """Cross-sections at the corners (s, r) of a turned outside."""
    return [Disc(frame.point(0.0, s, 0.0), frame.inward, r) for s, r in line]


def folded(discs: list[Disc]) -> bool:
    """Whether any two cross-sections cut each other, or lie side by side in one place."""
    c, n = np.array([d.centre for d in discs]), np.array([d.normal for d in discs])
    r = np.array([d.radius_mm for d in discs]) - SLACK_MM
    i, j = np.triu_indices(len(discs), 1)
    apart, line = c[j] - c[i], np.cross(n[i], n[j])
    near = (np.linalg.norm(apart, axis=1) < r[i] + r[j]).nonzero()[0]
    i, j, apart, line = i[near], j[near], apart[near], line[near]
    size = np.linalg.norm(line, axis=1)
    aslant = size > 1e-6
    return _cut(n, r, (i[aslant], j[aslant]), apart[aslant], line[aslant] / size[aslant, None]) or _side_by_side(
        n, apart[~aslant], i[~aslant]
    )


Floats = NDArray[np.float64]
Picks = NDArray[np.int64]


def _cut(n: Floats, r: Floats, pairs: tuple[Picks, Picks], apart: Floats, line: Floats) -> bool:
    """On the line in which both planes meet each disc covers a stretch; do two of them overlap?"""
    i, j = pairs
    down_i, down_j = np.cross(line, n[i]), np.cross(line, n[j])
    h_i = _dot(apart, n[j]) / _dot(down_i, n[j])  # from centre i within its plane to the line
    h_j = -_dot(apart, n[i]) / _dot(down_j, n[i])
    half_i = np.sqrt(np.maximum(r[i] ** 2 - h_i**2, 0.0))
    half_j = np.sqrt(np.maximum(r[j] ** 2 - h_j**2, 0.0))
    both = (half_i > 0.0) & (half_j > 0.0)
    return bool((both & (np.abs(_dot(apart, line)) < half_i + half_j)).any())


def _side_by_side(n: Floats, apart: Floats, i: Picks) -> bool:
    """Parallel discs whose planes are nearer than the sampling, on different axes."""
    along = np.abs(_dot(apart, n[i]))
    aside = np.sqrt(np.maximum(_dot(apart, apart) - along**2, 0.0))
    return bool(((along < STEP_MM / 2) & (aside > 1.0)).any())


def _dot(a: Floats, b: Floats) -> Floats:
    return np.asarray(np.einsum("ij,ij->i", a, b))
