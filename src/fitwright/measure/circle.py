"""The circle through points on a rim, or from the chord and height of an arc: diameter, centre, how sure it is.

Sizes in mm. A short arc leaves the radius open; its curvature 1/R is what is measured, so that the range of the
diameter is given by the curvature's 95 % range and may be open at the top.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from fitwright.measure.scatter import Array, sigma_mm, student_t, suspect_in, wave_factor

POINT_SIGMA_MM = 0.25
"""A point on a rim, traced on paper and read with a rule, is good to +-0.5 mm (common practice, no source)."""
ARC_SIGMA_MM = 0.05
"""Chord and height by a caliper are good to +-0.1 mm each (common practice, no source)."""
STRAIGHT_REL = 1e-9
_HARMONICS = (2, 3)
LEAST_FOR_FORM = 9
"""Points needed before a rim's form is judged: seven fitted numbers and two over."""
GAP_DEG = 75.0
"""Points further apart than this leave a side of the rim unseen: its form is not judged."""


class StraightError(ValueError):
    """The points lie on a straight line, or fewer than three are different: no circle goes through them."""


@dataclass(frozen=True)
class RoundSize:
    """A diameter with its 95 % range [mm]; `greatest_mm` is infinite where the arc may as well be straight."""

    d_mm: float
    least_mm: float
    greatest_mm: float

    @property
    def error_mm(self) -> float:
        """Half of the range."""
        return (self.greatest_mm - self.least_mm) / 2.0


@dataclass(frozen=True)
class Form:
    """How a rim differs from its circle: greatest less least diameter, where it is widest; height of three lobes.

    The errors are 95 % half-widths, `mean_error_mm` that of the mean diameter once the form is taken off.
    """

    oval_mm: float
    oval_error_mm: float
    wide_at_deg: float
    lobes_mm: float
    lobes_error_mm: float
    mean_error_mm: float


@dataclass(frozen=True)
class RimCircle:
    """The circle nearest to points on a rim, by the distances square to it; residuals positive outside."""

    right_mm: float
    up_mm: float
    size: RoundSize
    centre_error_mm: float
    points_mm: tuple[tuple[float, float], ...]
    residuals_mm: tuple[float, ...]
    suspect: int | None

    @cached_property
    def angles_deg(self) -> tuple[float, ...]:
        """Where each point lies, seen from the centre, from right towards up."""
        return tuple(math.degrees(math.atan2(y - self.up_mm, x - self.right_mm)) % 360.0 for x, y in self.points_mm)

    @property
    def arc_deg(self) -> float:
        """How much of the rim the points go round: a full turn less the widest gap between neighbours."""
        return 360.0 - self._widest_gap_deg

    @property
    def _widest_gap_deg(self) -> float:
        turned = sorted(self.angles_deg)
        return float(np.diff([*turned, turned[0] + 360.0]).max())

    def form(self) -> Form | None:
        """Ovality and three lobes, from points enough all round; None where they don't say."""
        if len(self.points_mm) < LEAST_FOR_FORM or self._widest_gap_deg > GAP_DEG:
            return None
        return _form(np.radians(self.angles_deg), np.asarray(self.residuals_mm))


def algebraic_circle(points_mm: Sequence[tuple[float, float]]) -> tuple[float, float, float]:
    """Centre and radius of a (x^2 + y^2) + b x + c y + d = 0, (a, b, c, d) of length 1, with the least sum of squares.

    Gander, Golub, Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994) 558-578, section 2.
    StraightError where that is no circle.
    """
    x, y = np.asarray(points_mm, dtype=float).T
    a, b, c, d = np.linalg.svd(np.column_stack([x * x + y * y, x, y, np.ones_like(x)]))[2][-1]
    if abs(a) < STRAIGHT_REL:
        raise StraightError("the points lie on a straight line")
    squared = (b * b + c * c) / (4.0 * a * a) - d / a
    return float(-b / (2.0 * a)), float(-c / (2.0 * a)), math.sqrt(max(float(squared), 0.0))


def rim_circle(points_mm: Sequence[tuple[float, float]], tool_mm: float = POINT_SIGMA_MM) -> RimCircle:
    """The circle with the least sum of squared distances from the points (Levenberg-Marquardt, algebraic start).

    `tool_mm` is the standard deviation of one point. StraightError where the points lie on a line.
    """
    points = np.asarray(points_mm, dtype=float)
    middle, size = points.mean(axis=0), _spread(points)
    started = _start(points, middle, size)
    centre_x, centre_y, radius = _least_distances((points - middle) / size, started) * size
    away = points - middle - (centre_x, centre_y)
    far = np.hypot(*away.T)
    design = np.column_stack([away / far[:, None], np.ones(len(points))])
    residuals = far - radius
    sigma, free = sigma_mm(residuals, len(points) - 3, tool_mm)
    spread = student_t(free) * sigma * np.sqrt(np.diag(_inverse(design)))
    return RimCircle(
        right_mm=float(middle[0] + centre_x),
        up_mm=float(middle[1] + centre_y),
        size=_ranged(2.0 * float(radius), 2.0 * float(spread[2])),
        centre_error_mm=float(max(spread[0], spread[1])),
        points_mm=tuple((float(x), float(y)) for x, y in points),
        residuals_mm=tuple(float(one) for one in residuals),
        suspect=suspect_in(design, residuals),
    )


def arc_circle(chords_mm: Sequence[float], heights_mm: Sequence[float]) -> tuple[RoundSize, tuple[float, ...]]:
    """The diameter from chords and their heights, d = c^2 / 4h + h, weighted by how sure each is; and each pair's own.

    Valid for arcs up to half a circle: height at most half the chord.

    >>> arc_circle([80.0], [20.0])[0].d_mm
    100.0
    """
    chords, heights = np.asarray(chords_mm, dtype=float), np.asarray(heights_mm, dtype=float)
    each = chords**2 / (4.0 * heights) + heights
    errors = ARC_SIGMA_MM * np.hypot(chords / (2.0 * heights), 1.0 - chords**2 / (4.0 * heights**2))
    weights = errors**-2.0
    d = float(each @ weights / weights.sum())
    free = len(chords) - 1
    uneven = float(((each - d) / errors) @ ((each - d) / errors))
    sigma, free = sigma_mm(np.asarray([math.sqrt(uneven)]), free, 1.0)
    return _ranged(d, student_t(free) * sigma / math.sqrt(float(weights.sum()))), tuple(each.tolist())


def _ranged(d_mm: float, error_mm: float) -> RoundSize:
    """The range of 1/d that its uncertainty leaves, turned back into diameters."""
    share = error_mm / d_mm
    return RoundSize(d_mm, d_mm / (1.0 + share), d_mm / (1.0 - share) if share < 1.0 else math.inf)


def _spread(points: Array) -> float:
    """Root mean square distance from the middle [mm]; StraightError where the points are in one line or place."""
    apart = np.linalg.svd(points - points.mean(axis=0), compute_uv=False)
    if len(np.unique(points.round(9), axis=0)) < 3 or apart[1] <= STRAIGHT_REL * apart[0]:
        raise StraightError("the points lie on a straight line")
    return float(np.sqrt((apart**2).sum() / len(points)))


def _start(points: Array, middle: Array, size: float) -> Array:
    """The algebraic circle of the points moved to their middle and scaled to 1."""
    scaled = [(float(x), float(y)) for x, y in (points - middle) / size]
    return np.asarray(algebraic_circle(scaled))


def _least_distances(points: Array, start: Array) -> Array:
    from scipy.optimize import least_squares

    def distances(circle: Array) -> Array:
        return np.asarray(np.hypot(points[:, 0] - circle[0], points[:, 1] - circle[1]) - circle[2])

    def slopes(circle: Array) -> Array:
        away = points - circle[:2]
        return np.column_stack([-away / np.hypot(*away.T)[:, None], -np.ones(len(points))])

    found = least_squares(distances, start, slopes, method="lm", xtol=1e-12, ftol=1e-14, gtol=1e-14, max_nfev=2000)
    return np.asarray(found.x, dtype=float)


def _inverse(design: Array) -> Array:
    try:
        return np.asarray(np.linalg.inv(design.T @ design))
    except np.linalg.LinAlgError:
        raise StraightError("the points lie on a straight line") from None


def _form(angles: Array, residuals_mm: Array) -> Form:
    """Radius residuals fitted with two and three waves round the rim, beside what shifts and sizes the circle."""
    waves = [wave(k * angles) for k in (1, *_HARMONICS) for wave in (np.cos, np.sin)]
    design = np.column_stack([np.ones_like(angles), *waves])
    fitted = np.linalg.lstsq(design, residuals_mm, rcond=None)[0]
    left = residuals_mm - design @ fitted
    free = len(angles) - design.shape[1]
    sigma, free = sigma_mm(left, free, POINT_SIGMA_MM)
    spread = sigma * np.sqrt(np.diag(np.linalg.pinv(design.T @ design)))
    mean, error = 2.0 * student_t(free) * float(spread[0]), wave_factor(free) * float(spread[3:].max())
    _, _, _, a2, b2, a3, b3 = (float(one) for one in fitted)
    wide_at = math.degrees(math.atan2(b2, a2)) / 2.0 % 180.0
    return Form(4.0 * math.hypot(a2, b2), 4.0 * error, wide_at, 2.0 * math.hypot(a3, b3), 2.0 * error, mean)
