"""How sure a fitted number is, and which reading does not go with the others: least squares with few readings.

With three or four readings their own scatter says little, so it is pooled with what one reading by this tool is good
for, counted as PRIOR readings' worth; Student's t then gives the 95 % half-width (any text on regression, e.g. Draper
and Smith, Applied Regression Analysis, ch. 1 and 8).
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

PRIOR = 4
"""The tool's own scatter counts as much as this many readings (common practice, no source)."""
SUSPECT = 0.01
"""A reading is named where one in a hundred good sets would show one as far out (Bonferroni's bound)."""
COUNTED_MM = 0.2
"""No reading is suspected for less than twice a caliper's +-0.1 mm."""


def sigma_mm(residuals_mm: Array, free: int, tool_mm: float) -> tuple[float, int]:
    """Standard deviation of one reading [mm] and its degrees of freedom: residuals pooled with the tool's.

    `free` is readings less fitted numbers, 0 or more; `tool_mm` the standard deviation of one reading by this tool.
    """
    pooled = (PRIOR * tool_mm**2 + float(residuals_mm @ residuals_mm)) / (PRIOR + free)
    return math.sqrt(pooled), PRIOR + free


def student_t(free: int, share: float = 0.95) -> float:
    """Two-sided quantile of Student's t: `student_t(4)` is 2.776 (any table)."""
    from scipy.special import stdtrit

    return float(stdtrit(free, 0.5 + share / 2.0))


def wave_factor(free: int, share: float = 0.95) -> float:
    """How many standard deviations of its two terms a wave's amplitude may be off: sqrt(2 F), F with 2 and `free`.

    A wave has a cosine and a sine term; both wander, so that a round thing shows some amplitude more often than
    Student's t would have it (Scheffe's method; sqrt 5.99 = 2.45 where `free` is large).
    """
    from scipy.special import fdtri

    return math.sqrt(2.0 * float(fdtri(2, free, share)))


def studentised(design: Array, residuals_mm: Array) -> Array:
    """How far each reading is from what the others say, in standard deviations: t_i = e_i / (s_i sqrt(1 - h_i)).

    s_i from the other readings, h_i the leverage (Cook and Weisberg, Residuals and Influence in Regression, 1982,
    ch. 2.2); it follows t with n - p - 1 degrees of freedom. At least two readings more than fitted numbers are needed.
    """
    free = design.shape[0] - design.shape[1] - 1
    left = _left(design)
    rest = np.clip(float(residuals_mm @ residuals_mm) - residuals_mm**2 / left, 1e-18, None) / free
    return np.asarray(residuals_mm / np.sqrt(rest * left))


def suspect_in(design: Array, residuals_mm: Array) -> int | None:
    """The reading that goes least with the others, where it is too far out for chance; else None."""
    count, fitted = design.shape
    free = count - fitted - 1
    if free < 1:
        return None
    far = np.abs(studentised(design, residuals_mm))
    at = int(np.argmax(far))
    from_others_mm = abs(float(residuals_mm[at])) / float(_left(design)[at])
    too_far = far[at] > student_t(free, 1.0 - SUSPECT / count) and from_others_mm > COUNTED_MM
    return at if too_far else None


def _left(design: Array) -> Array:
    """1 - h: the share of each reading's own error that its residual shows."""
    q, _ = np.linalg.qr(design)
    return np.asarray(np.clip(1.0 - np.sum(q * q, axis=1), 1e-12, None))
