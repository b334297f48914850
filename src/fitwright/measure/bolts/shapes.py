"""Shapes that readings may agree with: an evenly spaced circle, a rectangle, a row; judged by the sum of squares.

A shape is taken where it fits no worse than good readings scatter: the sum of squares that it adds to the free fit is
held against chi-square with as many degrees of freedom as the shape takes away (and where nothing is spare against the
readings' own scatter, which is the same sum).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from scipy.sparse.csgraph import shortest_path
from scipy.stats import chi2

from fitwright.measure.bolts.adjust import Fit, adjust, diameters_basis
from fitwright.measure.bolts.readings import Numbers, Readings
from fitwright.measure.bolts.search import polygon, table_of

REJECTED = 0.01
"""A shape is rejected where good readings of it would look so bad in one case of a hundred."""
Name = Literal["circle", "rectangle", "row", "free"]


@dataclass(frozen=True)
class Shape:
    """A named fit; `concentric` where the opening's centre was taken as the middle of the pattern."""

    name: Name
    fit: Fit
    concentric: bool = False


def circle(readings: Readings, concentric: bool = False) -> Shape:
    """The evenly spaced circle that fits best, numbered clockwise."""
    return _fitted("circle", readings, polygon(readings.count).reshape(-1, 1), concentric)


def rectangle(readings: Readings, concentric: bool = False) -> Shape:
    """The rectangle that fits best: hole 1 upper left, then clockwise."""
    corners = np.array([[-1, 0, 1, 0, 1, 0, -1, 0], [0, 1, 0, 1, 0, -1, 0, -1]], dtype=float).T / 2
    return _fitted("rectangle", readings, corners, concentric)


def row(readings: Readings) -> Shape:
    """All holes on one line, from hole 1 to the right."""
    basis = np.zeros((2 * readings.count, readings.count - 1))
    basis[2::2] = np.eye(readings.count - 1)
    start = _row_places(readings)
    return _fitted("row", readings, basis, False, start[1:] - start[0])


def agrees(shape: Fit, free: Fit) -> bool:
    """Whether the shape fits as well as readings of their accuracy can tell.

    Where the readings scatter more than their instrument, they can tell less.
    """
    taken = shape.spare - free.spare
    more = max(shape.chi2 - free.chi2, 0.0) / free.scatter**2
    return taken <= 0 or float(chi2.sf(more, taken)) > REJECTED


def circle_through(holes: Numbers) -> tuple[Numbers, float, float]:
    """Centre, diameter and worst departure [mm] of the circle that fits best (I. Kasa 1976: linear least squares)."""
    middle = holes.mean(axis=0)
    about = holes - middle
    rows = np.column_stack([2 * about, np.ones(len(about))])
    found, *_ = np.linalg.lstsq(rows, np.sum(about**2, axis=1), rcond=None)
    radius = float(np.sqrt(max(found[2] + found[0] ** 2 + found[1] ** 2, 0.0)))
    off = np.linalg.norm(about - found[:2], axis=1) - radius
    return middle + found[:2], 2 * radius, float(np.max(np.abs(off)))


def _fitted(name: Name, readings: Readings, holes: Numbers, concentric: bool, start: Numbers | None = None) -> Shape:
    """Parameters: those of the holes, the opening's centre where it is free, diameters."""
    rim = 2 * (readings.points - readings.count)
    own = 0 if concentric else rim
    basis = np.zeros((readings.width, holes.shape[1] + own))
    basis[: len(holes), : holes.shape[1]] = holes
    basis[len(holes) : len(holes) + own, holes.shape[1] :] = np.eye(own)
    basis = np.hstack([basis, diameters_basis(readings)])
    size = float(np.mean(readings.centres()))
    first = np.full(holes.shape[1], size) if start is None else start
    diameters = [one for one, here in zip(readings.diameters(), _entering(readings), strict=True) if here]
    aside = np.full(own, 0.01 * size)
    return Shape(name, adjust(readings, basis, np.concatenate([first, aside, diameters])), concentric)


def _entering(readings: Readings) -> tuple[bool, bool]:
    return readings.by_edges, readings.by_rim


def _row_places(readings: Readings) -> Numbers:
    """Along the row, from the distances that were read (classical scaling to one dimension)."""
    apart = shortest_path(table_of(readings)[: readings.count, : readings.count], directed=False)
    n = len(apart)
    centring = np.eye(n) - 1.0 / n
    values, vectors = np.linalg.eigh(-0.5 * centring @ apart**2 @ centring)
    along = vectors[:, -1] * np.sqrt(max(float(values[-1]), 1e-6))
    return np.asarray(along * (1.0 if along[-1] >= along[0] else -1.0))
