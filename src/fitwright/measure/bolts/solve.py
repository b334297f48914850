"""From readings to a solved pattern: places, wrong readings, shape."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np

from fitwright.measure.bolts.adjust import Fit, free_fit
from fitwright.measure.bolts.pattern import Pattern, Upright, pattern_of
from fitwright.measure.bolts.readings import Readings
from fitwright.measure.bolts.rigidity import loose
from fitwright.measure.bolts.search import arrange
from fitwright.measure.bolts.shapes import REJECTED, Shape, agrees, circle, rectangle, row
from fitwright.measure.bolts.suspects import Suspect, Verdict, judge

Regular = Literal["auto", "yes", "no"]

APART_MM = 2.0
"""Holes of a row are farther apart than this; else they stand beside each other and are no row."""


@dataclass(frozen=True)
class Solved:
    """The answer: `verdict` on the readings, `shape` taken from what is kept, `pattern` set upright.

    `first` is the fit to all readings. `others`: arrangements that fit as well. `order`, `mirror_settled`: how the
    numbering told the right one (see Arrangements). `uneven_mm`: how far the worst hole is off the even circle that was
    rejected. `if_even`: the one reading that would be wrong were the holes spaced evenly.
    """

    first: Fit
    verdict: Verdict
    shape: Shape
    pattern: Pattern
    others: tuple[Fit, ...] = ()
    order: int = 2
    mirror_settled: bool = True
    uneven_mm: float | None = None
    if_even: Suspect | None = None


def solve(
    readings: Readings, regular: Regular = "auto", upright: Upright | None = None, hole_mm: float | None = None
) -> Solved:
    """The pattern that fits the readings best.

    ValueError where the readings do not hold the holes (`loose` says what is missing) and `regular` is not yes.
    """
    upright = upright or Upright()
    if regular == "yes" or readings.count == 2:
        return _even(readings, upright, hole_mm)
    if loose(readings):
        raise ValueError("the readings do not hold the holes")
    line = row(readings) if readings.count > 2 and not readings.by_rim else None
    if line and line.fit.likely > REJECTED and np.min(np.diff(np.sort(line.fit.holes[:, 0]))) > APART_MM:
        return Solved(line.fit, Verdict(line.fit), line, pattern_of(line, hole_mm, upright))
    return _free(readings, regular, upright, hole_mm)


def _even(readings: Readings, upright: Upright, hole_mm: float | None) -> Solved:
    """Spaced evenly on a circle, because it was said so."""
    fit = circle(readings).fit
    verdict = judge(fit, lambda fewer: circle(fewer).fit)
    shape = _about_the_opening(Shape("circle", verdict.kept))
    return Solved(fit, verdict, shape, pattern_of(shape, hole_mm, upright))


def _free(readings: Readings, regular: Regular, upright: Upright, hole_mm: float | None) -> Solved:
    """All places free; then the simplest shape that the readings agree with."""
    found = arrange(readings)
    start = found.taken.places
    verdict = judge(found.taken, lambda fewer: free_fit(fewer, start))
    verdict = verdict.by_shape(lambda fit: _recognised(fit, regular).name != "free")
    kept = verdict.kept
    shape = _recognised(kept, regular)
    even = circle(kept.readings).fit
    uneven = None if shape.name == "circle" else _off(even, kept)
    return Solved(
        found.taken,
        verdict,
        shape,
        pattern_of(shape, hole_mm, upright),
        found.others,
        found.order,
        found.mirror_settled,
        uneven,
        None if shape.name == "circle" else _if_even(readings, verdict),
    )


def _recognised(kept: Fit, regular: Regular) -> Shape:
    wanted = ([circle] if regular == "auto" else []) + ([rectangle] if kept.readings.count == 4 else [])
    for make in wanted:
        shape = make(kept.readings)
        if agrees(shape.fit, kept):
            return _about_the_opening(shape)
    return Shape("free", kept)


def _about_the_opening(shape: Shape) -> Shape:
    """The same about the opening's centre where the readings agree with that."""
    if not shape.fit.readings.by_rim:
        return shape
    make = circle if shape.name == "circle" else rectangle
    concentric = make(shape.fit.readings, concentric=True)
    return concentric if agrees(concentric.fit, shape.fit) else shape


def _off(even: Fit, free: Fit) -> float:
    """How far the worst hole of the free fit is off the even circle [mm], laid on each other as well as can be."""
    return float(np.max(np.linalg.norm(laid_on(free.holes, even.holes) - even.holes, axis=1)))


def laid_on(moving: np.ndarray, still: np.ndarray) -> np.ndarray:
    """`moving` shifted, turned and if need be mirrored onto `still` (P. H. Schoenemann 1966, orthogonal Procrustes)."""
    a, b = moving - moving.mean(axis=0), still - still.mean(axis=0)
    u, _, vt = np.linalg.svd(a.T @ b)
    return np.asarray(a @ u @ vt + still.mean(axis=0))


def _if_even(readings: Readings, verdict: Verdict) -> Suspect | None:
    """Where the free fit cannot name one reading: the one that alone stands against an even circle."""
    if verdict.wrong and not verdict.rivals and not verdict.scattered:
        return None
    fit = circle(readings).fit
    said = judge(fit, lambda fewer: circle(fewer).fit)
    clear = len(said.wrong) == 1 and not said.rivals and not said.scattered and said.kept.spare >= 2
    return said.wrong[0] if clear else None
